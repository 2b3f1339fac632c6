//! The journal in one SQLite file: write-ahead log, full sync, rows that cannot be changed.

mod schema;

use crate::{Hash, Journal, JournalError, Row, Rows};
use rusqlite::{Connection, ErrorCode, OpenFlags, params};
use std::fs::{File, TryLockError};
use std::path::{Path, PathBuf};
use uuid::Uuid;

/// The file inside a record's folder.
pub const FILE_NAME: &str = "record.sqlite";
const LOCK_NAME: &str = "record.lock";

/// A journal in a folder of its own.
#[derive(Debug)]
pub struct Sqlite {
    connection: Connection,
    /// Held as long as this program writes; the system lets go of it however the program ends.
    _lock: Option<File>,
}

impl Sqlite {
    /// Opens the record in this folder for writing, and makes it if there is none.
    ///
    /// # Errors
    /// [`JournalError::CannotOpen`] if the folder cannot be written, [`JournalError::InUse`] if another program has it,
    /// [`JournalError::TooNew`] if a later program wrote it.
    pub fn open(folder: &Path) -> Result<Self, JournalError> {
        std::fs::create_dir_all(folder).map_err(|problem| cannot_open(folder, problem))?;
        let lock = lock(folder)?;
        let path = folder.join(FILE_NAME);
        let connection = Connection::open(&path).map_err(|problem| cannot_open(&path, problem))?;
        schema::prepare(&connection, &path)?;
        Ok(Self { connection, _lock: Some(lock) })
    }

    /// Opens the record in this folder for reading only; another program may be writing it meanwhile.
    ///
    /// # Errors
    /// [`JournalError::NoRecord`] if there is none in the folder, [`JournalError::CannotOpen`] if it cannot be read.
    pub fn open_to_read(folder: &Path) -> Result<Self, JournalError> {
        let path = folder.join(FILE_NAME);
        if !path.exists() {
            return Err(JournalError::NoRecord { path: folder.to_owned() });
        }
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let open = |name: &str, flags| {
            let connection = Connection::open_with_flags(name, flags)?;
            schema::is_ours(&connection)?;
            Ok::<_, rusqlite::Error>(connection)
        };
        let connection = open(&path.to_string_lossy(), flags).or_else(|problem| {
            // A log beside the file needs a folder that can be written. Without one the file is all there is, and may be
            // taken as it stands: on a disc, in a backup, in a folder of somebody else's.
            let whole = !folder.join(format!("{FILE_NAME}-wal")).exists();
            if !whole {
                return Err(cannot_open(&path, problem));
            }
            let name = format!("file:{}?immutable=1", escaped(&path));
            open(&name, flags | OpenFlags::SQLITE_OPEN_URI).map_err(|problem| cannot_open(&path, problem))
        })?;
        Ok(Self { connection, _lock: None })
    }

    /// What SQLite's own integrity check says is wrong with the file; nothing for a sound one.
    #[must_use]
    pub fn integrity(&self) -> Vec<String> {
        let mut found = Vec::new();
        let read = self.connection.pragma_query(None, "integrity_check", |row| {
            found.push(row.get::<_, String>(0)?);
            Ok(())
        });
        if let Err(problem) = read {
            found.push(problem.to_string());
        }
        found.retain(|line| line != "ok");
        found
    }

    /// Limits the file to so many pages: how tests fill a disk.
    ///
    /// # Errors
    /// [`JournalError::Failed`] if SQLite does not take the limit.
    pub fn limit_pages(&self, pages: u32) -> Result<(), JournalError> {
        self.connection.pragma_update(None, "max_page_count", pages).map_err(failed)
    }
}

impl Journal for Sqlite {
    fn rows(&self, after: u64, most: usize) -> Result<Rows, JournalError> {
        let mut statement = self
            .connection
            .prepare_cached(
                "SELECT number, id, line, hash FROM entry WHERE number > ?1 ORDER BY number LIMIT ?2",
            )
            .map_err(failed)?;
        let most = i64::try_from(most).unwrap_or(i64::MAX);
        let mut cursor = statement.query(params![after.cast_signed(), most]).map_err(failed)?;
        let mut read = Rows::default();
        loop {
            match cursor.next() {
                Ok(None) => return Ok(read),
                Ok(Some(found)) => match row(found) {
                    Ok(row) => read.rows.push(row),
                    Err(problem) => read.broken.push((number(found), problem.to_string())),
                },
                Err(_) => {
                    // A broken page ends the walk; what lies beyond is looked for row by row.
                    let last = read.rows.last().map_or(after, |row| row.number);
                    let last = read.broken.last().map_or(last, |(number, _)| last.max(*number));
                    self.one_by_one(last, most.cast_unsigned(), &mut read);
                    return Ok(read);
                }
            }
        }
    }

    fn append(&mut self, rows: &[Row]) -> Result<(), JournalError> {
        // Each statement returns once the log is synced: synchronous = FULL. A row alone is its own transaction.
        if let [row] = rows {
            return insert(&self.connection, row).map_err(failed);
        }
        let transaction = self.connection.transaction().map_err(failed)?;
        rows.iter().try_for_each(|row| insert(&transaction, row)).map_err(failed)?;
        transaction.commit().map_err(failed)
    }
}

fn insert(connection: &Connection, row: &Row) -> rusqlite::Result<()> {
    let mut insert =
        connection.prepare_cached("INSERT INTO entry (number, id, line, hash) VALUES (?1, ?2, ?3, ?4)")?;
    let id: &[u8] = row.id.as_bytes();
    insert.execute(params![row.number.cast_signed(), id, row.line, row.hash]).map(drop)
}

impl Sqlite {
    fn one_by_one(&self, after: u64, most: u64, read: &mut Rows) {
        let last = self
            .connection
            .query_row("SELECT max(number) FROM entry", [], |found| found.get::<_, Option<i64>>(0))
            .ok()
            .flatten()
            .map_or(after + 1, i64::cast_unsigned);
        for number in (after + 1..=last.max(after + 1)).take(usize::try_from(most).unwrap_or(usize::MAX)) {
            let found = self.connection.query_row(
                "SELECT number, id, line, hash FROM entry WHERE number = ?1",
                params![number.cast_signed()],
                row,
            );
            match found {
                Ok(row) => read.rows.push(row),
                Err(problem) => read.broken.push((number, problem.to_string())),
            }
        }
    }
}

fn number(found: &rusqlite::Row<'_>) -> u64 {
    found.get::<_, i64>(0).map_or(0, i64::cast_unsigned)
}

fn row(found: &rusqlite::Row<'_>) -> rusqlite::Result<Row> {
    let number: i64 = found.get(0)?;
    let id: [u8; 16] = found.get(1)?;
    let hash: Hash = found.get(3)?;
    Ok(Row { number: number.cast_unsigned(), id: Uuid::from_bytes(id), line: found.get(2)?, hash })
}

/// A path inside a `file:` address: what would end or escape it is written by its code.
fn escaped(path: &Path) -> String {
    path.to_string_lossy().replace('%', "%25").replace('?', "%3f").replace('#', "%23")
}

fn lock(folder: &Path) -> Result<File, JournalError> {
    let path = folder.join(LOCK_NAME);
    let file = File::create(&path).map_err(|problem| cannot_open(&path, problem))?;
    match file.try_lock() {
        Ok(()) => Ok(file),
        Err(TryLockError::WouldBlock) => Err(JournalError::InUse { path: folder.to_owned() }),
        Err(TryLockError::Error(problem)) => Err(cannot_open(&path, problem)),
    }
}

fn cannot_open(path: &Path, why: impl std::fmt::Display) -> JournalError {
    JournalError::CannotOpen { path: PathBuf::from(path), why: why.to_string() }
}

/// SQLite's own words, sorted into what a person can do about them.
fn failed(problem: rusqlite::Error) -> JournalError {
    match problem.sqlite_error_code() {
        Some(ErrorCode::DiskFull) => JournalError::DiskFull,
        Some(ErrorCode::SystemIoFailure) => JournalError::DiskErred { why: problem.to_string() },
        Some(ErrorCode::ReadOnly) => JournalError::ReadOnly { why: problem.to_string() },
        _ => JournalError::Failed { why: problem.to_string() },
    }
}
