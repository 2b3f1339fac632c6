//! The benches, each beside its rival.

use crate::workspace::cargo;

pub(crate) fn run(names: &[String]) -> Result<(), String> {
    let mut command = cargo(&["run", "--release", "--package", "bench", "--"]);
    let status =
        command.args(names).status().map_err(|error| format!("{command:?} does not run: {error}"))?;
    if status.success() { Ok(()) } else { Err(format!("{command:?} ended with {status}")) }
}
