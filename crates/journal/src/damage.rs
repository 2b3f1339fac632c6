//! Reading a journal through its chain: what follows, what is damaged, what would be refused today.

use crate::{Hash, Journal, JournalError, Sqlite};
use record::{State, Stored};
use std::fmt;
use std::path::Path;

/// A row that is not what was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Damage {
    /// Its number.
    pub number: u64,
    /// What is wrong with it.
    pub why: String,
}

impl fmt::Display for Damage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "row {}: {}", self.number, self.why)
    }
}

/// The rows before the first damage, and every damaged row.
pub(crate) struct Chain {
    pub(crate) stored: Vec<Stored>,
    pub(crate) last_hash: Hash,
    pub(crate) damage: Vec<Damage>,
}

/// Follows the chain from the first row.
pub(crate) fn follow(journal: &dyn Journal) -> Result<Chain, JournalError> {
    let read = journal.rows(0, usize::MAX)?;
    let mut chain =
        Chain { stored: Vec::with_capacity(read.rows.len()), last_hash: [0; 32], damage: Vec::new() };
    let mut broken = read.broken.into_iter().peekable();
    let (mut before, mut expected): (Option<Hash>, u64) = (Some([0; 32]), 1);
    for row in &read.rows {
        while let Some((number, why)) = broken.next_if(|(number, _)| *number < row.number) {
            // Whether the next row follows from one that cannot be read, nobody can tell.
            (before, expected) = (None, number + 1);
            chain.damage.push(Damage { number, why: format!("cannot be read: {why}") });
        }
        let mut why = Vec::new();
        if row.number != expected {
            why.push(format!("row {expected} should stand here; rows between are missing"));
        }
        if before.is_some_and(|before| !row.follows(&before)) {
            why.push("its hash does not follow from the row before and its own line".to_owned());
        }
        // What was changed is named once, not on every row after it: the chain goes on from the hash that stands there.
        (before, expected) = (Some(row.hash), row.number + 1);
        match row.read() {
            Ok(stored) if why.is_empty() => {
                if chain.damage.is_empty() {
                    chain.last_hash = row.hash;
                    chain.stored.push(stored);
                }
            }
            Ok(_) => chain.damage.push(Damage { number: row.number, why: why.join("; ") }),
            Err(problem) => {
                why.push(problem);
                chain.damage.push(Damage { number: row.number, why: why.join("; ") });
            }
        }
    }
    let rest = broken.map(|(number, why)| Damage { number, why: format!("cannot be read: {why}") });
    chain.damage.extend(rest);
    Ok(chain)
}

/// What an examination of a record found.
#[derive(Debug)]
pub struct Examined {
    /// The state of the rows before the first damage.
    pub state: State,
    /// Damaged rows; none in a sound record.
    pub damage: Vec<Damage>,
    /// What SQLite's own integrity check finds wrong with the file around the rows.
    pub file: Vec<String>,
    /// Entries that contradict what stands before them, with the reason; none in a record this program wrote.
    pub contradictions: Vec<(u64, record::Refusal)>,
}

/// Reads a record through, changing nothing.
///
/// # Errors
/// [`JournalError`] if there is no record in the folder or it cannot be opened.
pub fn examine(folder: &Path) -> Result<Examined, JournalError> {
    let journal = Sqlite::open_to_read(folder)?;
    let chain = follow(&journal)?;
    let file = journal.integrity();
    let state = State::fold(chain.stored);
    let contradictions = state.contradictions();
    Ok(Examined { state, damage: chain.damage, file, contradictions })
}
