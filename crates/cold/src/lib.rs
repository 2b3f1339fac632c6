//! The cold store: hours to soft, hours to hard, with their bands.
//!
//! [`thaw`] and [`freeze`] take one pack in one place and give the hours of every member of an ensemble: from them follow the
//! band, the chance of being ready by an hour, and the latest hour to begin. They know no clock and no record, and no
//! official rule: what an authority says stands beside the answer on every page and is never moved by it.
//!
//! ```
//! use band::Value;
//! use cold::{Pack, Way, thaw};
//!
//! let pack = Pack {
//!     cut: "beef-strip-loin".into(),
//!     portion_kg: Value::Known(0.380),
//!     thickness_m: Value::Known(0.030),
//!     side_by_side: 2,
//!     wrap: "vacuum".into(),
//!     start_c: Value::Unknown,
//! };
//! let soft = thaw(&pack, Way::Fridge, Value::Known(4.0), 64, 1)?;
//! assert!(soft.band().low > 6.0 && soft.band().high < 60.0);
//! // Taken out that many hours before, it is soft in time nine times in ten.
//! assert!(soft.chance_within(soft.needed(0.9)) >= 0.9);
//! # Ok::<(), heat::HeatError>(())
//! ```

mod freeze;
mod hours;
mod members;
mod pack;
mod thaw;

pub use freeze::{HARD_C, freeze};
pub use hours::Hours;
pub use pack::{Pack, Way};
pub use thaw::{SOFT_C, Thawed, WARM_C, thaw};
