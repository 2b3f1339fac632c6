//! Answers: one JSON object, and the same as a person reads it.

mod figure;
pub(crate) mod say;
mod twins;

pub(crate) use figure::{banded, exact_number, money_text, narrow_json, number, spread};
pub(crate) use twins::with_us_twins;

use serde_json::Value;

/// What a verb answers.
#[derive(Clone, Debug)]
pub struct Answer {
    /// One JSON object.
    pub json: Value,
    /// The same for a person: the answer first, then a small table.
    pub text: String,
}
