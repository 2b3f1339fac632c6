//! The one door to a record: its state, and what may be added to it.

use crate::damage::{Chain, follow};
use crate::desk::{Desk, Offer};
use crate::{Damage, Hash, Journal, JournalError, Memory, Refused, Row, Sqlite};
use jiff::{SignedDuration, Timestamp};
use record::{Entry, State, Written};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicI64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, OnceLock, PoisonError, RwLock};
use uuid::Uuid;

/// A record that is open. Cheap to copy; all copies are one record.
#[derive(Clone)]
pub struct Kitchen(Arc<Inner>);

struct Inner {
    shared: Shared,
    /// Offers that wait for whoever sits at the desk to take them along.
    waiting: Mutex<Vec<Offer>>,
    desk: Mutex<Desk>,
    damage: Vec<Damage>,
    folder: Option<PathBuf>,
}

/// What readers see and the desk replaces.
pub(crate) struct Shared {
    state: RwLock<Arc<State>>,
    listeners: Mutex<Vec<Listener>>,
    ahead_s: AtomicI64,
}

/// Called with the number of the last entry after each change.
type Listener = Box<dyn Fn(u64) + Send>;

/// The answer to an offer that was taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offered {
    /// One receipt an entry, in the order offered.
    pub receipts: Vec<Receipt>,
    /// Whether any of them is new; false if all had been sent before.
    pub new: bool,
}

/// An entry is on disk: its id, number and hash.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Receipt {
    /// The entry's id.
    pub id: Uuid,
    /// Its number.
    pub number: u64,
    /// Its hash.
    pub hash: Hash,
}

impl Kitchen {
    /// Opens the record in this folder, and makes it if there is none. A damaged record opens read-only up to the damage:
    /// see [`Kitchen::damage`].
    ///
    /// # Errors
    /// [`JournalError`] if the folder cannot be written or another program has the record open.
    pub fn open(folder: &Path) -> Result<Self, JournalError> {
        Self::over(Sqlite::open(folder)?, Some(folder.to_owned()))
    }

    /// A record that lives as long as the program.
    #[must_use]
    pub fn in_memory() -> Self {
        let chain = Chain { stored: Vec::new(), last_hash: [0; 32], damage: Vec::new() };
        Self::start(Memory::default(), chain, None)
    }

    /// A record over any journal.
    ///
    /// # Errors
    /// [`JournalError`] if the journal cannot be read.
    pub fn over(journal: impl Journal + 'static, folder: Option<PathBuf>) -> Result<Self, JournalError> {
        let chain = follow(&journal)?;
        Ok(Self::start(journal, chain, folder))
    }

    fn start(journal: impl Journal + 'static, chain: Chain, folder: Option<PathBuf>) -> Self {
        let last_written = chain.stored.iter().map(|stored| stored.written).max();
        let closed =
            chain.damage.first().map(|damage| format!("{damage}; `gambrel check` names every such row"));
        let desk = Desk { journal: Box::new(journal), last_hash: chain.last_hash, last_written, closed };
        let shared = Shared {
            state: RwLock::new(Arc::new(State::fold(chain.stored))),
            listeners: Mutex::new(Vec::new()),
            ahead_s: AtomicI64::new(0),
        };
        let (waiting, desk) = (Mutex::new(Vec::new()), Mutex::new(desk));
        Self(Arc::new(Inner { shared, waiting, desk, damage: chain.damage, folder }))
    }

    /// The state as of the last entry.
    #[must_use]
    pub fn state(&self) -> Arc<State> {
        self.0.shared.state()
    }

    /// Rows that are not what was written; then nothing more is taken.
    #[must_use]
    pub fn damage(&self) -> &[Damage] {
        &self.0.damage
    }

    /// The folder of the record, if it is on disk.
    #[must_use]
    pub fn folder(&self) -> Option<&Path> {
        self.0.folder.as_deref()
    }

    /// Takes entries, all or none, and returns once they are on the disk. An entry that is there already gets its first
    /// answer again.
    ///
    /// # Errors
    /// [`Refused`]: nothing was written, and why.
    pub fn offer(&self, entries: &[Entry], writer: &str) -> Result<Offered, Refused> {
        self.offer_written(entries.iter().cloned().map(Written::from).collect(), writer)
    }

    /// As [`Kitchen::offer`], for entries that come with their writer's own text, which is kept. Into an empty record an
    /// entry that was written down elsewhere keeps its hour and its writer, so that an exported record comes back to the
    /// byte.
    ///
    /// # Errors
    /// [`Refused`]: nothing was written, and why.
    pub fn offer_written(&self, entries: Vec<Written>, writer: &str) -> Result<Offered, Refused> {
        let answer = Arc::new(OnceLock::new());
        let offer = Offer { entries, writer: writer.into(), answer: Arc::clone(&answer) };
        lock(&self.0.waiting).push(offer);
        let mut desk = lock(&self.0.desk);
        // Whoever sat there before may have taken this one along: then it is answered already.
        while answer.get().is_none() {
            let waiting = std::mem::take(&mut *lock(&self.0.waiting));
            if waiting.is_empty() {
                let why = "the program met a fault of its own while writing; look whether the entry is there";
                return Err(JournalError::Failed { why: why.to_owned() }.into());
            }
            desk.serve(&self.0.shared, waiting);
        }
        drop(desk);
        answer.get().cloned().unwrap_or_else(|| Ok(Offered { receipts: Vec::new(), new: false }))
    }

    /// Rows after this number, oldest first, at most so many; their lines are what `export` writes.
    ///
    /// # Errors
    /// [`JournalError`] if the journal cannot be read.
    pub fn rows_after(&self, number: u64, most: usize) -> Result<Vec<Row>, JournalError> {
        lock(&self.0.desk).read(&self.0.shared, number, most)
    }

    /// Sets how far the house's clock stands ahead of the machine's: a demonstration may live at another hour.
    pub fn set_ahead(&self, ahead: SignedDuration) {
        let seconds = ahead.as_secs();
        self.0.shared.ahead_s.store(seconds, Ordering::Relaxed);
    }

    /// Calls `listener` with the number of the last entry after each change, while the desk is held: let it be short, and
    /// let it not write.
    pub fn listen(&self, listener: impl Fn(u64) + Send + 'static) {
        lock(&self.0.shared.listeners).push(Box::new(listener));
    }
}

impl Shared {
    /// The state as of the last entry.
    pub(crate) fn state(&self) -> Arc<State> {
        Arc::clone(&self.state.read().unwrap_or_else(PoisonError::into_inner))
    }

    /// Shows readers a new state and tells who listens.
    pub(crate) fn show(&self, state: State) {
        let number = state.number();
        *self.state.write().unwrap_or_else(PoisonError::into_inner) = Arc::new(state);
        for listener in lock(&self.listeners).iter() {
            listener(number);
        }
    }

    /// The moment the house's clock shows.
    pub(crate) fn now(&self) -> Timestamp {
        let ahead = SignedDuration::from_secs(self.ahead_s.load(Ordering::Relaxed));
        Timestamp::now().checked_add(ahead).unwrap_or(Timestamp::MAX)
    }
}

/// A lock somebody panicked under still guards what it guarded: every change is made beside and put in whole.
fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
