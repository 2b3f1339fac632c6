//! The table `[meat]`, which several verbs share.

mod fields;
mod read;

pub(super) use fields::{CUT, MEAT};
pub(super) use read::{MeatDraft, refuse};
