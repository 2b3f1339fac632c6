//! Uncertain inputs, fixed-seed ensembles, 80 % bands, and which measurement would narrow an answer.
//!
//! ```
//! use band::{Band, Input, Instrument, Origin, Value, draw, narrow};
//!
//! // A ruler's reading, a range somebody gave, and what two of the three say about a volume.
//! let inputs = [
//!     Value::Known(0.040).input("thickness", Instrument::Ruler),
//!     Value::Range { low: 0.10, high: 0.16 }.input("width", Instrument::Ruler),
//! ];
//! # let inputs = inputs.map(|input| input.expect("both are given"));
//! let draws = draw(&inputs, 256, 1);
//! let section: Vec<f64> = draws.members().map(|member| member[0] * member[1]).collect();
//! let band = Band::of(&section);
//! assert!(band.low < band.median && band.median < band.high);
//! assert_eq!(narrow(&inputs, &draws, &section)[0].input, "width");
//! ```
//!
//! Numbers are plain `f64` in SI units, or °C for temperatures; the caller keeps the units. The same inputs, number of
//! draws and seed give the same draws, to the bit, on one machine. How to read what comes out: [`handbook`].

mod draws;
pub mod handbook;
mod input;
mod shares;
mod spread;
mod summary;

pub use draws::{Draws, draw};
pub use input::{Input, Instrument, Origin, Value};
pub use shares::{Narrow, naming_floor, narrow, shares};
pub use spread::{Spread, SpreadError};
pub use summary::{Band, chance, quantile};

/// Members of an ensemble unless the asker says otherwise.
pub const DRAWS: usize = 256;

/// The seed unless the asker says otherwise: any fixed number does.
pub const SEED: u64 = 1;
