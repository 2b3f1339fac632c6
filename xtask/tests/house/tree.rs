//! The workspace as files and as cargo sees it.

use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::Value;

/// The folder of the workspace.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("xtask lies in the workspace").to_path_buf()
}

/// What cargo says of the workspace; with dependencies where `words` do not say otherwise.
pub(crate) fn metadata(words: &[&str]) -> Value {
    let cargo = std::env::var_os("CARGO").expect("cargo runs its tests");
    let output = Command::new(cargo)
        .args(["metadata", "--format-version", "1"])
        .args(words)
        .current_dir(root())
        .output()
        .expect("cargo runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).expect("cargo writes JSON")
}

/// The crates of the product, by the names of their folders.
pub(crate) fn crates() -> Vec<String> {
    let folders = std::fs::read_dir(root().join("crates")).unwrap().map(|folder| folder.unwrap());
    let mut names: Vec<String> = folders
        .filter(|folder| folder.path().join("Cargo.toml").exists())
        .map(|folder| folder.file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

/// All files under a folder that end so, in order; what is built or fetched is passed over.
pub(crate) fn files(under: &Path, endings: &[&str]) -> Vec<PathBuf> {
    const PASSED_OVER: [&str; 4] = ["target", ".venv", ".git", "node_modules"];
    let mut found = Vec::new();
    let Ok(entries) = std::fs::read_dir(under) else { return found };
    for entry in entries.map(|entry| entry.unwrap().path()) {
        let name = entry.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if entry.is_dir() && !PASSED_OVER.contains(&name.as_str()) {
            found.extend(files(&entry, endings));
        } else if endings.iter().any(|ending| name.ends_with(ending)) {
            found.push(entry);
        }
    }
    found.sort();
    found
}

/// A path as it is told: from the workspace's folder.
pub(crate) fn told(path: &Path) -> String {
    path.strip_prefix(root()).unwrap_or(path).display().to_string()
}

/// The lines of a source file before its tests.
pub(crate) fn product_lines(path: &Path) -> Vec<String> {
    let text = std::fs::read_to_string(path).unwrap();
    text.lines().take_while(|line| line.trim() != "#[cfg(test)]").map(str::to_owned).collect()
}
