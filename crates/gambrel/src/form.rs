//! `form`: examples and schemas.

use crate::arguments::Form;
use crate::out;
use forms::Verb;
use std::process::ExitCode;

/// Prints the form, or its schema.
pub(crate) fn run(ask: &Form) -> Result<ExitCode, out::Fault> {
    let verb: Verb = match ask.verb.parse() {
        Ok(verb) => verb,
        Err(error) => {
            out::complaint(&error.to_string())?;
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
