//! Entries and the state folded from them; what may follow what.
//!
//! The record is append-only. An [`Entry`] says that something happened; the state is what follows from all of them in
//! order. The record knows no physics, no file and no clock: whoever writes makes the id and reads the clock.

mod at;
mod body;
mod entry;
pub mod example;
mod read;
mod refusal;
pub mod schema;
mod state;
mod word;
mod words;
mod written;

pub use at::At;
pub use body::*;
pub use entry::{Entry, Stored};
pub use read::{Marks, Note, Price, Problem, parse};
pub use refusal::{CLOCK_SLACK_MIN, Refusal};
pub use state::*;
pub use word::Word;
pub use written::{Origin, Written};
