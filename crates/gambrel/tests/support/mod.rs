//! Running the program as a person would.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// What a command said.
pub(crate) struct Said {
    /// Standard output.
    pub(crate) out: String,
    /// Standard error.
    pub(crate) err: String,
    /// Exit code; -1 if a signal ended it.
    pub(crate) code: i32,
}

/// Runs the program in a folder of the tests.
pub(crate) fn gambrel(arguments: &[&str], folder: &Path, input: Option<&Path>) -> Said {
    let stdin = match input {
        Some(file) => Stdio::from(std::fs::File::open(folder.join(file)).expect("the input is there")),
        None => Stdio::null(),
    };
    let output = Command::new(env!("CARGO_BIN_EXE_gambrel"))
        .args(arguments)
        .current_dir(folder)
        .stdin(stdin)
        .env_remove("CLICOLOR_FORCE")
        .output()
        .expect("the program starts");
    Said {
        out: String::from_utf8(output.stdout).expect("text"),
        err: String::from_utf8(output.stderr).expect("text"),
        code: output.status.code().unwrap_or(-1),
    }
}

/// A folder beside the tests.
pub(crate) fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests").join(name)
}

/// Files of a folder with one of these endings, by name.
pub(crate) fn files(folder: &Path, endings: &[&str]) -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("the folder is there")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|ending| endings.iter().any(|known| ending == *known)))
        .collect();
    files.sort();
    files
}

/// Holds a generated file against what it should be; writes it anew where `GAMBREL_WRITE=1` stands in the environment.
pub(crate) fn kept(path: &Path, wanted: &str) {
    if std::env::var("GAMBREL_WRITE").is_ok_and(|write| write == "1") {
        std::fs::write(path, wanted).expect("the file can be written");
        return;
    }
    let found = std::fs::read_to_string(path).unwrap_or_default();
    let differing = found.lines().zip(wanted.lines()).position(|(a, b)| a != b);
    let at = differing.unwrap_or_else(|| found.lines().count().min(wanted.lines().count()));
    assert!(
        found == wanted,
        "{} differs from what the program says, first in line {}:\n  kept: {:?}\n  said: {:?}\nIf the change is meant, run again \
         with GAMBREL_WRITE=1 and read the difference.",
        path.display(),
        at + 1,
        found.lines().nth(at),
        wanted.lines().nth(at),
    );
}
