//! Entries on disk: SQLite, a hash chain, nothing acknowledged before it is written.
//!
//! A [`Journal`] keeps [`Row`]s: an entry's line, byte for byte, and the hash that ties it to the line before. A
//! [`Kitchen`] is the one door to it: it folds the rows into the state, checks what is offered against that state, and
//! acknowledges only what the disk has. Whoever writes at the same moment shares one sync.
//!
//! # Holds
//! - An acknowledged entry survives a kill of the process and a loss of power (write-ahead log, full sync).
//! - An array of entries is taken whole or not at all.
//! - What a writer wrote is kept to the byte, white space between tokens apart, and exported so.
//! - The same entry sent twice counts once and gets the first answer; what says the same in other words (`0.38` kg for
//!   `380` g) is the same entry. An id that comes again and says something else is a conflict.
//! - Nothing is taken that is said to happen later than the house's own clock shows, or from a clock that went back.
//! - A damaged row is named when the record is opened; everything before it opens, read-only.
//! - Two programs cannot write one record: the second is refused at start.

mod damage;
mod desk;
mod error;
mod kitchen;
mod memory;
mod row;
mod sqlite;

pub use damage::{Damage, Examined, examine};
pub use error::{JournalError, Refused};
pub use kitchen::{Kitchen, Offered, Receipt};
pub use memory::Memory;
pub use row::{Hash, Row, hex};
pub use sqlite::{FILE_NAME, Sqlite};

/// Where rows are kept, in order of number and never changed.
pub trait Journal: Send {
    /// Rows after this number, oldest first, at most so many.
    ///
    /// # Errors
    /// [`JournalError`] if the store cannot be read at all; rows that cannot be read are named beside those that can.
    fn rows(&self, after: u64, most: usize) -> Result<Rows, JournalError>;

    /// Keeps rows, all or none; returns once they are on the disk.
    ///
    /// # Errors
    /// [`JournalError`] if the disk does not take them; then none is kept.
    fn append(&mut self, rows: &[Row]) -> Result<(), JournalError>;
}

/// What a journal could read.
#[derive(Debug, Default)]
pub struct Rows {
    /// Rows that were read.
    pub rows: Vec<Row>,
    /// Numbers of rows that could not be read, each with the reason.
    pub broken: Vec<(u64, String)>,
}
