//! Properties over temperature, and the table the solver works from.

mod composed;
mod conductivity;
mod constituents;
mod enthalpy;
mod law;
mod table;

pub use conductivity::{levy, parallel, perpendicular};
pub(crate) use law::Law;
pub use law::Properties;
pub(crate) use table::Table;
