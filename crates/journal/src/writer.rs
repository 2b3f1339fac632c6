//! The one thread that owns the journal: checks, writes, then acknowledges.

use crate::kitchen::Shared;
use crate::{Hash, Journal, JournalError, Offered, Receipt, Refused, Row};
use jiff::{SignedDuration, Timestamp};
use record::{CLOCK_SLACK_MIN, State, Stored, Written};
use std::sync::atomic::Ordering;
use std::sync::mpsc::{Receiver, Sender};
use std::sync::{Arc, PoisonError};

/// What the writer's thread is asked to do.
pub(crate) enum Order {
    /// Take entries, all or none.
    Take { entries: Vec<Written>, writer: Arc<str>, answer: Sender<Result<Offered, Refused>> },
    /// Read rows back.
    Read { after: u64, most: usize, answer: Sender<Result<Vec<Row>, JournalError>> },
}

/// Offers that wait at the same moment share one sync, up to so many.
const SHARED_SYNC: usize = 256;

const SLACK: SignedDuration = SignedDuration::from_mins(CLOCK_SLACK_MIN);

pub(crate) struct Writer {
    journal: Box<dyn Journal>,
    shared: Arc<Shared>,
    last_hash: Hash,
    last_written: Option<Timestamp>,
    /// Why nothing may be written, once something went wrong.
    closed: Option<String>,
}

/// What a batch has come to so far: nothing of it is on disk yet.
struct Batch {
    state: State,
    last_hash: Hash,
    rows: Vec<Row>,
    answers: Vec<(Sender<Result<Offered, Refused>>, Offered)>,
}

impl Writer {
    pub(crate) fn new(
        journal: Box<dyn Journal>,
        shared: Arc<Shared>,
        last_hash: Hash,
        last_written: Option<Timestamp>,
        closed: Option<String>,
    ) -> Self {
        Self { journal, shared, last_hash, last_written, closed }
    }

    /// Serves until nobody can order any more.
    pub(crate) fn serve(mut self, orders: &Receiver<Order>) {
        while let Ok(first) = orders.recv() {
            let mut waiting = vec![first];
            while waiting.len() < SHARED_SYNC
                && let Ok(next) = orders.try_recv()
            {
                waiting.push(next);
            }
            self.batch(waiting);
        }
    }

    fn batch(&mut self, waiting: Vec<Order>) {
        let state = Arc::clone(&self.shared.state.read().unwrap_or_else(PoisonError::into_inner));
        let mut batch = Batch {
            state: (*state).clone(),
            last_hash: self.last_hash,
            rows: Vec::new(),
            answers: Vec::new(),
        };
        drop(state);
        let mut reads = Vec::new();
        let now = self.now();
        for order in waiting {
            match order {
                Order::Take { entries, writer, answer } => {
                    match self.take(&mut batch, &entries, &writer, now) {
                        Ok(offered) => batch.answers.push((answer, offered)),
                        Err(refused) => drop(answer.send(Err(refused))),
                    }
                }
                Order::Read { after, most, answer } => reads.push((after, most, answer)),
            }
        }
        self.write(batch, now);
        for (after, most, answer) in reads {
            drop(answer.send(self.read(after, most)));
        }
    }

    /// Rows the state is folded from: of a damaged record those before the damage.
    fn read(&self, after: u64, most: usize) -> Result<Vec<Row>, JournalError> {
        let last = self.shared.state.read().unwrap_or_else(PoisonError::into_inner).number();
        let left = usize::try_from(last.saturating_sub(after)).unwrap_or(usize::MAX);
        let read = self.journal.rows(after, most.min(left))?;
        match read.broken.first() {
            None => Ok(read.rows),
            Some((number, why)) => {
                Err(JournalError::Failed { why: format!("row {number} cannot be read: {why}") })
            }
        }
    }

    /// The moment the house's clock shows.
    fn now(&self) -> Timestamp {
        let ahead = SignedDuration::from_secs(self.shared.ahead_s.load(Ordering::Relaxed));
        Timestamp::now().checked_add(ahead).unwrap_or(Timestamp::MAX)
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
    fn write(&mut self, batch: Batch, now: Timestamp) {
        if batch.rows.is_empty() {
            for (answer, offered) in batch.answers {
                drop(answer.send(Ok(offered)));
            }
            return;
        }
        if let Err(problem) = self.journal.append(&batch.rows) {
            self.see_what_was_kept();
            for (answer, _) in batch.answers {
                drop(answer.send(Err(problem.clone().into())));
            }
            return;
        }
        self.last_hash = batch.last_hash;
        self.last_written = self.last_written.max(Some(now));
        let number = batch.state.number();
        *self.shared.state.write().unwrap_or_else(PoisonError::into_inner) = Arc::new(batch.state);
        for (answer, offered) in batch.answers {
            // Nobody waits any more if the connection broke; the entry stands all the same.
            drop(answer.send(Ok(offered)));
        }
        for listener in self.shared.listeners.lock().unwrap_or_else(PoisonError::into_inner).iter() {
            listener(number);
        }
    }

    /// A disk that answers with an error may have kept the rows all the same; then this program's state is behind, and
    /// nothing more is taken until it is opened again.
    fn see_what_was_kept(&mut self) {
        let last = self.shared.state.read().unwrap_or_else(PoisonError::into_inner).number();
        let kept = self.journal.rows(last, 1).is_ok_and(|read| !read.rows.is_empty());
        if kept {
            let why = "the disk kept an entry it had answered with an error; start the program again";
            self.closed = Some(why.to_owned());
        }
    }
}
