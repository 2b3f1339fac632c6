//! The entries themselves, with what was corrected.

use super::chunks::{ById, Chunks};
use crate::{At, Body, Corrected, Entry, Stored};
use std::sync::Arc;
use uuid::Uuid;

/// An entry as it stands in the record, with the correction that holds for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Logged {
    /// The entry as it was written.
    pub stored: Arc<Stored>,
    /// Its latest correction.
    pub correction: Option<Arc<Correction>>,
}

/// What corrects an entry.
#[derive(Clone, Debug, PartialEq)]
pub struct Correction {
    /// The id of the correcting entry.
    pub id: Uuid,
    /// Its number.
    pub number: u64,
    /// When it was corrected.
    pub at: At,
    /// Who corrected it.
    pub writer: Arc<str>,
    /// Why.
    pub because: String,
    /// The entry as it should have been; nothing if it was taken back.
    pub instead: Option<Entry>,
}

impl Logged {
    /// Whether the line is struck: taken back or replaced.
    #[must_use]
    pub const fn is_struck(&self) -> bool {
        self.correction.is_some()
    }

    /// What counts: the entry, its replacement, or nothing if it was taken back.
    #[must_use]
    pub fn effective(&self) -> Option<&Entry> {
        match &self.correction {
            None => Some(&self.stored.entry),
            Some(correction) => correction.instead.as_ref(),
        }
    }
}

/// Every entry in order of number.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Log {
    rows: Chunks<Logged>,
    numbers: ById<u64>,
}

impl Log {
    pub(crate) fn last(&self) -> u64 {
        self.rows.len() as u64
    }

    pub(crate) fn row(&self, number: u64) -> Option<&Logged> {
        self.rows.get(usize::try_from(number.checked_sub(1)?).ok()?)
    }

    pub(crate) fn of(&self, id: Uuid) -> Option<&Logged> {
        self.row(self.numbers.get(id)?)
    }

    pub(crate) fn iter(&self) -> impl DoubleEndedIterator<Item = &Logged> + Clone {
        self.rows.iter()
    }

    /// Puts an entry at the end and, if it corrects another, strikes that one.
    pub(crate) fn push(&mut self, stored: Arc<Stored>) {
        self.numbers.insert(stored.entry.id, self.last() + 1);
        if let Body::Corrected(corrected) = &stored.entry.body {
            self.strike(&stored, corrected);
        }
        self.rows.push(Logged { stored, correction: None });
    }

    fn strike(&mut self, stored: &Stored, corrected: &Corrected) {
        let Some(number) = self.numbers.get(corrected.entry) else { return };
        let Some(row) = self.rows.get_mut(number as usize - 1) else { return };
        let old = &row.stored.entry;
        let instead = corrected.body.as_ref().and_then(|body| {
            // A body that cannot be read was refused when it was offered.
            let body = Body::read(old.kind(), body.value(), "body.body").ok()?;
            Some(Entry { id: old.id, at: old.at, body })
        });
        row.correction = Some(Arc::new(Correction {
            id: stored.entry.id,
            number: stored.number,
            at: stored.entry.at,
            writer: Arc::clone(&stored.writer),
            because: corrected.because.clone(),
            instead,
        }));
    }
}
