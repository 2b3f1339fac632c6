//! The chapter on heat: what is solved, how, how well, and where it is known to be off.

pub mod accuracy;
pub mod equations;
pub mod misses;
pub mod scheme;
