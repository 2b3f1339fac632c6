//! Running a script with the workspace's own Python, which `cargo xtask check` furnishes with numpy and scipy. Where it is
//! not there the check fails: it is never skipped.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// What the script printed for this on its standard input.
pub(crate) fn run(script: &str, input: &str) -> String {
    let crate_folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    let python: PathBuf = crate_folder.join("../../.venv/bin/python");
    assert!(python.exists(), "no {}: run `cargo xtask check` once, which makes it", python.display());
    let mut child = Command::new(&python)
        .arg(crate_folder.join("tests/published").join(script))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("python starts");
    child.stdin.take().expect("a pipe").write_all(input.as_bytes()).expect("the script reads");
    let output = child.wait_with_output().expect("the script ends");
    assert!(output.status.success(), "{script} failed: see above");
    String::from_utf8(output.stdout).expect("text")
}

/// Numbers of one line.
pub(crate) fn numbers(line: &str) -> Vec<f64> {
    line.split_whitespace().map(|word| word.parse().expect("a number")).collect()
}
