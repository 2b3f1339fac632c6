//! The computing verbs: a form in, an answer out, no record.

use crate::arguments::Ask;
use crate::out;
use forms::{Problems, Verb};
use std::io::Read;
use std::process::ExitCode;

/// The largest form read: forms are pages, not books.
const MOST_BYTES: u64 = 16 * 1024 * 1024;

/// Reads the form, answers it, prints the answer or everything that stands against the form.
pub(crate) fn run(verb: Verb, ask: &Ask) -> Result<ExitCode, out::Fault> {
    let answer = read(&ask.file).and_then(|bytes| forms::answer(verb, &ask.file, &bytes, &ask.flags()));
    match answer {
        Ok(answer) if ask.json => out::json(&answer.json).map(|()| ExitCode::SUCCESS),
        Ok(answer) => out::text(&answer.text).map(|()| ExitCode::SUCCESS),
        Err(problems) => refuse(&problems, ask.json),
    }
}

fn refuse(problems: &Problems, json: bool) -> Result<ExitCode, out::Fault> {
    if json {
        out::json(&problems.document())?;
    } else {
        out::complaint(&problems.text(true))?;
    }
    Ok(out::refused())
}

/// Reads a form's file, or standard input.
pub(crate) fn read(file: &str) -> Result<Vec<u8>, Problems> {
    let mut bytes = Vec::new();
    let read = if file == "-" {
        std::io::stdin().take(MOST_BYTES + 1).read_to_end(&mut bytes)
    } else {
        std::fs::File::open(file).and_then(|open| open.take(MOST_BYTES + 1).read_to_end(&mut bytes))
    };
    match read {
        Ok(_) if bytes.len() as u64 > MOST_BYTES => {
            Err(Problems::unreadable(file, "it is larger than 16 MB"))
        }
        Ok(_) => Ok(bytes),
        Err(error) => Err(Problems::unreadable(file, &reason(&error))),
    }
}

/// The system's reason without its number.
fn reason(error: &std::io::Error) -> String {
    let text = error.to_string();
    text.split(" (os error").next().unwrap_or(&text).to_lowercase()
}
