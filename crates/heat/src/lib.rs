//! Heat in one piece: how long, how hot, how sure, how much is lost.
//!
//! Two ways in:
//! - [`simulate`] takes every number as true and gives one [`History`] of a piece through its [`Stage`]s;
//! - [`cook`] takes readings, ranges and gaps, and gives bands.
//!
//! | to read | about |
//! |---|---|
//! | [`handbook::equations`] | what is solved, with units and sources |
//! | [`handbook::scheme`] | cells, steps and solves, and why these |
//! | [`handbook::accuracy`] | what was reached against which figures |
//! | [`handbook::misses`] | what is known to be off, by how much and why |
//! | [`Meat`] | composition, constants, sharp front, measured tables |
//! | [`Surroundings`] | film, radiation, contact, cover, evaporation |
//!
//! # Absent on purpose
//! - A clock. A stage carries its own minutes; whoever plans an hour does so elsewhere.
//! - A latent heat in the conduction equation, a rule for carry-over, a rule of thumb of any kind: freezing is in the
//!   enthalpy, carry-over is a stage called *rest*.
//! - A guess outside the range of a figure. Beyond −40 to 150 °C a composition is refused
//!   ([`HeatError::OutsideFit`]).
//! - A search for the last digit: our own error is a fiftieth of what data and film leave open.
//!
//! # Units
//! Public types carry [`quantity`] where a person gives them; coefficients stand in their names (`film_w_m2_k`). Inside,
//! everything is `f64` in SI units, temperatures in °C.

pub mod colour;
pub mod cook;
mod error;
mod evaporation;
pub mod handbook;
mod history;
mod meat;
mod property;
mod roast;
mod settings;
mod shape;
mod solve;
mod stage;
mod surroundings;

pub use error::HeatError;
pub use evaporation::{saturation_pa, vapour_from_humidity, vapour_from_wet_bulb};
pub use history::{History, Layer, Moment, StageEnd, Work};
pub use meat::{Composition, Constants, Frozen, Measured, Meat, Overrides, Properties, freezing_point_c};
pub use property::{levy, parallel, perpendicular};
pub use settings::{Organism, Settings};
pub use shape::{Footprint, Shape, ellipse_perimeter};
pub use solve::simulate;
pub use stage::{Stage, Start, Until};
pub use surroundings::{Course, Evaporation, Face, Faces, Moist, Reserve, Supply, Surroundings};
