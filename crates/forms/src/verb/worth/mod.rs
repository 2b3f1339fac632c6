//! `worth`: the whole piece against the counter.

mod fields;
mod json;
mod read;
mod words;

pub(super) use fields::FIELDS;

use crate::problem::Problems;
use crate::read::form;
use crate::{Answer, Flags};

pub(super) fn answer(file: &str, bytes: &[u8], flags: &Flags) -> Result<Answer, Problems> {
    let (answered, counter) = form(file, bytes, FIELDS, flags, |table| {
        let question = read::question(table)?;
        let answered = read::reckon(&question, table, flags)?;
        Some((answered, question.worth.counter))
    })?;
    Ok(Answer { json: json::of(&answered), text: words::of(&answered, counter, flags) })
}
