//! `cut`: the knife plan.

mod fields;
mod json;
mod read;
mod words;

pub(super) use fields::FIELDS;

use crate::problem::Problems;
use crate::read::form;
use crate::{Answer, Flags};

pub(super) fn answer(file: &str, bytes: &[u8], flags: &Flags) -> Result<Answer, Problems> {
    let (asked, plan) = form(file, bytes, FIELDS, flags, |root| {
        let asked = read::asked(root)?;
        let plan = read::plan(root, &asked, flags)?;
        Some((asked, plan))
    })?;
    let names: Vec<&str> = asked.wants.iter().map(|want| want.name.as_str()).collect();
    Ok(Answer { json: json::of(&plan, &names, flags), text: words::of(&plan, &names, flags) })
}
