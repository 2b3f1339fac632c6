//! Where entries are checked, written and then acknowledged; one at a time sits at it.

use crate::kitchen::Shared;
use crate::{Hash, Journal, JournalError, Offered, Receipt, Refused, Row};
use jiff::{SignedDuration, Timestamp};
use record::{CLOCK_SLACK_MIN, State, Stored, Written};
use std::sync::{Arc, OnceLock};

/// Entries to be taken, all or none, and where the answer is put.
pub(crate) struct Offer {
    pub(crate) entries: Vec<Written>,
    pub(crate) writer: Arc<str>,
    pub(crate) answer: Arc<OnceLock<Result<Offered, Refused>>>,
}

const SLACK: SignedDuration = SignedDuration::from_mins(CLOCK_SLACK_MIN);

pub(crate) struct Desk {
    pub(crate) journal: Box<dyn Journal>,
    pub(crate) last_hash: Hash,
    pub(crate) last_written: Option<Timestamp>,
    /// Why nothing may be written, once something went wrong.
    pub(crate) closed: Option<String>,
}

/// What a batch has come to so far: nothing of it is on disk yet.
struct Batch {
    state: State,
    last_hash: Hash,
    rows: Vec<Row>,
    taken: Vec<(Offer, Offered)>,
}

impl Desk {
    /// Answers all that wait with one sync between them.
    pub(crate) fn serve(&mut self, shared: &Shared, waiting: Vec<Offer>) {
        let state = (*shared.state()).clone();
        let mut batch = Batch { state, last_hash: self.last_hash, rows: Vec::new(), taken: Vec::new() };
        let now = shared.now();
        for offer in waiting {
            match self.take(&mut batch, &offer.entries, &offer.writer, now) {
                Ok(offered) => batch.taken.push((offer, offered)),
                Err(refused) => drop(offer.answer.set(Err(refused))),
            }
        }
        self.write(shared, batch);
    }

    /// Rows the state is folded from: of a damaged record those before the damage.
    pub(crate) fn read(&self, shared: &Shared, after: u64, most: usize) -> Result<Vec<Row>, JournalError> {
        let left = usize::try_from(shared.state().number().saturating_sub(after)).unwrap_or(usize::MAX);
        let read = self.journal.rows(after, most.min(left))?;
        match read.broken.first() {
            None => Ok(read.rows),
            Some((number, why)) => {
                Err(JournalError::Failed { why: format!("row {number} cannot be read: {why}") })
            }
        }
    }

    /// Checks one offer against everything before it and adds its rows to the batch, whole or not at all.
    fn take(
        &self,
        batch: &mut Batch,
        entries: &[Written],
        writer: &str,
        now: Timestamp,
    ) -> Result<Offered, Refused> {
        if let Some(why) = &self.closed {
            return Err(JournalError::ReadOnly { why: why.clone() }.into());
        }
        self.clock_is_right(now)?;
        let mut state = batch.state.clone();
        let (mut last_hash, mut rows, mut receipts) = (batch.last_hash, Vec::new(), Vec::new());
        let brought = state.number() == 0;
        for (index, offered) in entries.iter().enumerate() {
            let entry = &offered.entry;
            if let Some(there) = state.entry_of(entry.id) {
                let stored = &there.stored;
                if stored.entry != *entry {
                    return Err(Refused::Conflict { id: entry.id, number: stored.number });
                }
                receipts.push(Receipt { id: entry.id, number: stored.number, hash: stored.hash });
                continue;
            }
            if entry.at.timestamp().duration_since(now) > SLACK {
                return Err(Refused::NotYet { index, at: entry.at, now });
            }
            let origin = offered.origin.as_ref().filter(|origin| brought && origin.written <= now);
            let (written, writer) = origin.map_or((now, writer), |origin| (origin.written, &*origin.writer));
            let row = Row::after(&last_hash, state.number() + 1, written, writer, offered);
            let stored = Stored {
                entry: entry.clone(),
                number: row.number,
                written,
                writer: writer.into(),
                hash: row.hash,
            };
            state
                .take(stored)
                .map_err(|refusal| Refused::MayNotFollow { index, refusal: Box::new(refusal) })?;
            last_hash = row.hash;
            receipts.push(Receipt { id: row.id, number: row.number, hash: row.hash });
            rows.push(row);
        }
        let new = !rows.is_empty();
        batch.rows.append(&mut rows);
        batch.state = state;
        batch.last_hash = last_hash;
        Ok(Offered { receipts, new })
    }

    /// A clock that stands well before the last entry would put everything after it in the wrong order.
    fn clock_is_right(&self, now: Timestamp) -> Result<(), Refused> {
        match self.last_written {
            Some(last) if last.duration_since(now) > SLACK => Err(Refused::ClockWentBack { now, last }),
            _ => Ok(()),
        }
    }

    /// Puts the batch on disk, and only then shows and acknowledges it.
    fn write(&mut self, shared: &Shared, batch: Batch) {
        if !batch.rows.is_empty() {
            if let Err(problem) = self.journal.append(&batch.rows) {
                self.see_what_was_kept(shared);
                for (offer, _) in batch.taken {
                    drop(offer.answer.set(Err(problem.clone().into())));
                }
                return;
            }
            self.last_hash = batch.last_hash;
            self.last_written = self.last_written.max(Some(shared.now()));
            shared.show(batch.state);
        }
        for (offer, offered) in batch.taken {
            drop(offer.answer.set(Ok(offered)));
        }
    }

    /// A disk that answers with an error may have kept the rows all the same; then this program's state is behind, and
    /// nothing more is taken until it is opened again.
    fn see_what_was_kept(&mut self, shared: &Shared) {
        let last = shared.state().number();
        let kept = self.journal.rows(last, 1).is_ok_and(|read| !read.rows.is_empty());
        if kept {
            let why = "the disk kept an entry it had answered with an error; start the program again";
            self.closed = Some(why.to_owned());
        }
    }
}
