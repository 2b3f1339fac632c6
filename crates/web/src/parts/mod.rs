//! The parts pages are made of: head and places, the thread, rows, forms, the blocks for a rule, a verdict, what narrows.
//!
//! Markup only: no arithmetic, no dates formatted, no branch the view could have taken.

pub mod blocks;
pub mod entry;
pub mod field;
pub mod layout;
pub mod thread;

pub use blocks::{Row, acts, answer, law, narrow, overdue, rows, said, section, steps, verdict};
pub use entry::{entry_form, hidden_id};
pub use field::{Choice, Field, Typed};
pub use layout::{Page, Place, document};
pub use thread::{Mark, Thread, thread};
