//! Why the journal could not do something, and why the kitchen would not.

use jiff::Timestamp;
use record::{At, CLOCK_SLACK_MIN, Refusal};
use std::path::PathBuf;
use thiserror::Error;
use uuid::Uuid;

/// Why the disk did not do it.
#[derive(Clone, Debug, Error, PartialEq, Eq)]
pub enum JournalError {
    /// The folder or file cannot be opened for writing.
    #[error(
        "{path} cannot be opened: {why}. Nothing was written. Give a folder that can be written with --record DIR"
    )]
    CannotOpen {
        /// The folder or file.
        path: PathBuf,
        /// The system's words.
        why: String,
    },
    /// There is nothing to read.
    #[error(
        "there is no record in {path}; `gambrel serve` or `gambrel import` begins one, --record DIR names another"
    )]
    NoRecord {
        /// The folder.
        path: PathBuf,
    },
    /// Another program has the record open.
    #[error("{path} is open in another program that writes; stop that one first, or use its address")]
    InUse {
        /// The folder.
        path: PathBuf,
    },
    /// The file is of a later version than this program knows.
    #[error("{path} is of version {found}, this program knows up to {known}; use the newer program")]
    TooNew {
        /// The file.
        path: PathBuf,
        /// Its version.
        found: i64,
        /// The newest known here.
        known: i64,
    },
    /// The disk is full.
    #[error(
        "the disk is full, so nothing was written; everything written before stands. Free some space and send again"
    )]
    DiskFull,
    /// The disk answered with an error.
    #[error(
        "the disk did not take it ({why}); everything acknowledged before stands. It may be over a limit of size or failing: see to it, then send again"
    )]
    DiskErred {
        /// The store's words.
        why: String,
    },
    /// The file may only be read.
    #[error("the record may only be read ({why}), so nothing was written")]
    ReadOnly {
        /// Why.
        why: String,
    },
    /// Anything else, in the store's own words.
    #[error("the record could not be written or read: {why}. Nothing was acknowledged")]
    Failed {
        /// The store's words.
        why: String,
    },
}

/// Why an offer was not taken. Nothing of it was written.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum Refused {
    /// An entry of that id is in the record and says something else.
    #[error(
        "entry {id} is in the record as number {number} and says something else; a new entry needs a new id"
    )]
    Conflict {
        /// The id sent again.
        id: Uuid,
        /// Its number in the record.
        number: u64,
    },
    /// An entry may not follow what stands in the record.
    #[error("{refusal}")]
    MayNotFollow {
        /// Which of the entries offered, from 0.
        index: usize,
        /// Why.
        refusal: Box<Refusal>,
    },
    /// It is said to happen later than now.
    #[error(
        "at = {at}, but this machine's clock says {now}; allowed: up to {CLOCK_SLACK_MIN} minutes from now. Set the clock of the device that wrote it, or this one's"
    )]
    NotYet {
        /// Which of the entries offered, from 0.
        index: usize,
        /// When it is said to happen.
        at: At,
        /// What the clock says.
        now: Timestamp,
    },
    /// The house's clock stands before the last entry it wrote.
    #[error(
        "this machine's clock says {now}, but the last entry was written at {last}; set the clock, then send again"
    )]
    ClockWentBack {
        /// What the clock says.
        now: Timestamp,
        /// When the last entry was written.
        last: Timestamp,
    },
    /// The disk did not take it.
    #[error(transparent)]
    Journal(#[from] JournalError),
}
