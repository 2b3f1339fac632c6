//! Where things are, and cargo as it was called.

use std::path::{Path, PathBuf};
use std::process::Command;

/// The folder of the workspace.
pub(crate) fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().unwrap_or(here).to_path_buf()
}

/// A cargo command in the workspace.
pub(crate) fn cargo(words: &[&str]) -> Command {
    let mut command = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.args(words).current_dir(root());
    command
}

/// Where cargo builds; a developer may have moved it.
pub(crate) fn target() -> Result<PathBuf, String> {
    let output = cargo(&["metadata", "--no-deps", "--format-version", "1"])
        .output()
        .map_err(|error| format!("cargo metadata does not run: {error}"))?;
    let told: serde_json::Value = serde_json::from_slice(&output.stdout)
        .map_err(|_| format!("cargo metadata: {}", String::from_utf8_lossy(&output.stderr)))?;
    told["target_directory"]
        .as_str()
        .map(PathBuf::from)
        .ok_or_else(|| "cargo metadata names no target".to_owned())
}
