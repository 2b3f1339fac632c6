//! The one place that prints.

use serde_json::{Value, json};
use std::io::{ErrorKind, Write};
use std::process::ExitCode;
use thiserror::Error;

/// Exit 2: what was asked cannot be taken as it stands.
pub(crate) fn refused() -> ExitCode {
    ExitCode::from(2)
}

/// The program's own fault: exit 1.
#[derive(Debug, Error)]
pub(crate) enum Fault {
    /// Nobody could be told.
    #[error("the answer could not be written: {0}")]
    Write(#[from] std::io::Error),
    /// An answer that is no JSON.
    #[error("the answer could not be put as JSON: {0}")]
    Json(#[from] serde_json::Error),
}

/// Text on standard output.
pub(crate) fn text(text: &str) -> Result<(), Fault> {
    let mut out = anstream::stdout().lock();
    finish(out.write_all(text.as_bytes()).and_then(|()| out.flush()))
}

/// Bytes on standard output, as they are.
pub(crate) fn bytes(bytes: &[u8]) -> Result<(), Fault> {
    let mut out = std::io::stdout().lock();
    finish(out.write_all(bytes).and_then(|()| out.flush()))
}

/// One JSON object on standard output.
pub(crate) fn json(value: &Value) -> Result<(), Fault> {
    let mut text = serde_json::to_string_pretty(value)?;
    text.push('\n');
    let mut out = std::io::stdout().lock();
    finish(out.write_all(text.as_bytes()).and_then(|()| out.flush()))
}

/// A message on standard error.
pub(crate) fn complaint(message: &str) -> Result<(), Fault> {
    let mut out = anstream::stderr().lock();
    finish(writeln!(out, "{message}"))
}

/// A reader that went away (`| head`) has what it wanted.
fn finish(written: std::io::Result<()>) -> Result<(), Fault> {
    match written {
        Err(error) if error.kind() == ErrorKind::BrokenPipe => Ok(()),
        other => Ok(other?),
    }
}

/// A problem without a form, as RFC 9457 has it.
pub(crate) fn plain_problem(title: &str, detail: &str) -> Value {
    json!({ "type": "about:blank", "title": title, "status": 422, "detail": detail, "problems": [] })
}

/// A problem document on standard output, exit 2.
pub(crate) fn document(document: &Value) -> ExitCode {
    match json(document) {
        Ok(()) => refused(),
        Err(fault) => self::fault(&fault),
    }
}

/// Says what went wrong and exits 1.
pub(crate) fn fault(fault: &Fault) -> ExitCode {
    // If standard error is gone too, the exit code is all that is left to say.
    let _ = complaint(&fault.to_string());
    ExitCode::FAILURE
}
