//! Where the record is: the folder that was named, else the user's own.

use clap::Args;
use std::path::PathBuf;

/// Which record a command is about.
#[derive(Clone, Debug, Args)]
pub(crate) struct Record {
    /// The folder of the record; left out, `gambrel` in the user's own data folder
    #[arg(long = "record", value_name = "DIR")]
    folder: Option<PathBuf>,
}

impl Record {
    /// The folder, whether anything lies in it or not.
    pub(crate) fn folder(&self) -> Result<PathBuf, String> {
        match &self.folder {
            Some(folder) => Ok(folder.clone()),
            None => own_data().map(|data| data.join("gambrel")).ok_or_else(|| {
                "this system names no folder for a user's data; say where the record is: --record DIR"
                    .to_owned()
            }),
        }
    }
}

/// The user's data folder, as each system has it: `XDG_DATA_HOME` or `~/.local/share`, `~/Library/Application Support`,
/// `%APPDATA%`.
fn own_data() -> Option<PathBuf> {
    let path = |name: &str| std::env::var_os(name).map(PathBuf::from).filter(|path| path.is_absolute());
    let home = || path("HOME");
    if cfg!(windows) {
        path("APPDATA")
    } else if cfg!(target_os = "macos") {
        Some(home()?.join("Library").join("Application Support"))
    } else {
        path("XDG_DATA_HOME").or_else(|| Some(home()?.join(".local").join("share")))
    }
}
