//! The solver: grid, line, step, stop, and the run through the stages.

mod begin;
mod block;
mod face;
mod field;
mod grid;
mod land;
mod lines;
mod march;
mod pace;
mod run;
mod settle;
mod spread;
mod state;
mod stop;
mod watch;

pub use run::simulate;
