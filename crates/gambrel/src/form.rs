//! `form`: examples and schemas.

use crate::arguments::Form;
use crate::out;
use forms::Verb;
use std::process::ExitCode;

/// The form of the record's entries, which no verb answers.
const ENTRY: &str = "entry";

/// Prints the form, or its schema.
pub(crate) fn run(ask: &Form) -> Result<ExitCode, out::Fault> {
    if ask.verb == ENTRY {
        return entry(ask.schema);
    }
    let verb: Verb = match ask.verb.parse() {
        Ok(verb) => verb,
        Err(error) => {
            out::complaint(&format!("{error}, {ENTRY}"))?;
            return Ok(out::refused());
        }
    };
    if ask.schema {
        out::json(&forms::schema(verb))?;
    } else {
        out::text(&forms::example(verb))?;
    }
    Ok(ExitCode::SUCCESS)
}

/// One example of every kind of entry.
fn entry(schema: bool) -> Result<ExitCode, out::Fault> {
    if schema {
        out::complaint(
            "entries have no schema yet; allowed: form entry, which shows every kind and what it takes",
        )?;
        return Ok(out::refused());
    }
    out::text(&record::example::form())?;
    Ok(ExitCode::SUCCESS)
}
