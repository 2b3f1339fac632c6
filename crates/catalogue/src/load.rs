//! Parsing the embedded files, once.

use serde::de::DeserializeOwned;

/// Parses one embedded file.
///
/// # Panics
/// If the file in the repository is damaged. It is compiled in, so no user and no file of theirs can reach this; the
/// crate's tests parse every file.
pub(crate) fn parse<T: DeserializeOwned>(name: &str, text: &str) -> T {
    match toml::from_str(text) {
        Ok(parsed) => parsed,
        Err(problem) => panic!("catalogue/{name}: {problem}"),
    }
}
