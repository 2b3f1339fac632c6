//! Heat in one piece: properties, shapes, media, stages and the solver.

pub mod colour;
pub mod cook;
mod error;
mod evaporation;
mod history;
mod meat;
mod property;
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
pub use surroundings::{Course, Evaporation, Face, Faces, Moist, Supply, Surroundings};
