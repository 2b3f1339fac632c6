//! The table `[meat]`, which several verbs share.

mod fields;
mod read;

pub(super) use fields::MEAT;
pub(super) use read::{MeatDraft, refuse};
