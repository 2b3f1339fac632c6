//! The chain back from the dinner hour.
//!
//! [`plan`] takes seats with their wishes, portions, a low and a hot place, and gives back who eats which portion, when
//! each goes in, at which core it is pulled, and the chance that all are on the plate together. It knows no clock and no
//! record: every hour is a number of minutes before the plate. [`ways`] puts several roads of one piece side by side. Salt and the live probe come later and have no part in it.

mod answer;
mod error;
mod evenings;
mod layout;
mod passes;
mod plan;
mod roads;
mod seats;
mod stages;
mod starts;
mod table;
mod ways;

pub use answer::{Plan, Plate, Row};
pub use error::DinnerError;
pub use plan::plan;
pub use seats::{Assignment, assign};
pub use table::{Habits, Holds, Hot, Low, Portion, Seat, Table};
pub use ways::{Chill, HOT_OVEN, Point, RAW_FACE, Road, Slice, Way, Ways, WaysAsked, ways};
