//! At the sealer: which portions share a bag, what is sealed, what waits.

mod pairs;

pub use pairs::{Together, Waiting, pairs};
