//! The pages in a real browser; `tests/browser` drives it.

use std::process::Command;

use crate::setup;
use crate::workspace::{cargo, target};

/// The command that checks every page.
pub(crate) fn check() -> Result<Command, String> {
    driver(&["check"])
}

/// Pictures of all pages, or of those named.
pub(crate) fn shots(pages: &[String]) -> Result<(), String> {
    setup::browser()?;
    let mut command = driver(&["shots"])?;
    command.args(pages).env("SHOTS", target()?.join("shots"));
    let status = command.status().map_err(|error| format!("{command:?} does not run: {error}"))?;
    if status.success() { Ok(()) } else { Err(format!("{command:?} ended with {status}")) }
}

/// Builds the product and the driver, and names the driver's command.
fn driver(words: &[&str]) -> Result<Command, String> {
    let built = cargo(&["build", "--package", "gambrel"]).status();
    if !built.is_ok_and(|status| status.success()) {
        return Err("the product does not build: `cargo build --package gambrel`".to_owned());
    }
    let target = target()?;
    let mut command = cargo(&["test", "--quiet", "--package", "xtask", "--test", "browser", "--"]);
    command.args(words).env("GAMBREL", target.join("debug/gambrel")).env("AXE", setup::axe(&target));
    Ok(command)
}
