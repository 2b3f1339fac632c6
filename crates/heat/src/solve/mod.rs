//! The solver: grid, line, step, stop, and the run through the stages.

mod face;
mod field;
mod grid;
mod march;
mod run;
mod spread;
mod stop;
mod watch;

pub use run::simulate;
