//! The solver: grid, line, step, stop, and the run through the stages.

mod face;
mod grid;
mod line;
mod march;
mod run;
mod stop;
mod watch;

pub use run::simulate;
