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
        match ask.schema {
            true => out::json(&record::schema::entry())?,
            false => out::text(&record::example::form())?,
        }
        return Ok(ExitCode::SUCCESS);
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
