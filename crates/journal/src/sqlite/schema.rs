//! The one table, and how an older file becomes a newer one.

use super::{cannot_open, failed};
use crate::JournalError;
use rusqlite::Connection;
use std::path::Path;

/// Each step takes a file from the version of its place to the next.
const STEPS: &[&str] = &["
    CREATE TABLE entry (
        number INTEGER PRIMARY KEY,
        id BLOB NOT NULL UNIQUE,
        line TEXT NOT NULL,
        hash BLOB NOT NULL
    ) STRICT;
    CREATE TRIGGER entry_is_never_changed BEFORE UPDATE ON entry
        BEGIN SELECT RAISE(ABORT, 'an entry is never changed; write a correction'); END;
    CREATE TRIGGER entry_is_never_deleted BEFORE DELETE ON entry
        BEGIN SELECT RAISE(ABORT, 'an entry is never deleted; write a correction'); END;
"];

/// Sets what makes an acknowledgement a promise, then brings the file to this program's version.
pub(super) fn prepare(connection: &Connection, path: &Path) -> Result<(), JournalError> {
    let set = |name: &str, value: &str| {
        connection.pragma_update(None, name, value).map_err(|problem| cannot_open(path, problem))
    };
    is_ours(connection).map_err(|problem| cannot_open(path, problem))?;
    let mark = APPLICATION.to_string();
    set("application_id", &mark)?;
    set("journal_mode", "WAL")?;
    set("synchronous", "FULL")?;
    set("foreign_keys", "ON")?;
    let found: i64 = connection.pragma_query_value(None, "user_version", |row| row.get(0)).map_err(failed)?;
    let known = STEPS.len().cast_signed() as i64;
    let Ok(done) = usize::try_from(found) else {
        return Err(JournalError::TooNew { path: path.to_owned(), found, known });
    };
    if done > STEPS.len() {
        return Err(JournalError::TooNew { path: path.to_owned(), found, known });
    }
    for (version, step) in STEPS.iter().enumerate().skip(done) {
        let whole = format!("BEGIN IMMEDIATE; {step} PRAGMA user_version = {}; COMMIT;", version + 1);
        connection.execute_batch(&whole).map_err(failed)?;
    }
    Ok(())
}

/// Marks the file as a record of this program: the letters `gmbr`.
const APPLICATION: i32 = 0x676d_6272;

/// Refuses a database that is something else's; an empty file is nobody's yet.
pub(super) fn is_ours(connection: &Connection) -> rusqlite::Result<()> {
    let mark: i32 = connection.pragma_query_value(None, "application_id", |row| row.get(0))?;
    let tables: i64 = connection.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
    if mark == APPLICATION || (mark == 0 && tables == 0) {
        return Ok(());
    }
    let said = "it is a database of another program".to_owned();
    Err(rusqlite::Error::SqliteFailure(rusqlite::ffi::Error::new(rusqlite::ffi::SQLITE_NOTADB), Some(said)))
}
