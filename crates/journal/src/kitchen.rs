//! The one door to a record: its state, and what may be added to it.

use crate::damage::{Chain, follow};
use crate::writer::{Order, Writer};
use crate::{Damage, Hash, Journal, JournalError, Memory, Refused, Row, Sqlite};
use jiff::SignedDuration;
use record::{Entry, State, Written};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicI64, Ordering};
use std::sync::mpsc::{Sender, channel};
use std::sync::{Arc, Mutex, PoisonError, RwLock};
use uuid::Uuid;

/// A record that is open. Cheap to copy; all copies are one record.
#[derive(Clone)]
pub struct Kitchen(Arc<Inner>);

struct Inner {
    shared: Arc<Shared>,
    orders: Mutex<Sender<Order>>,
    damage: Vec<Damage>,
    folder: Option<PathBuf>,
}

/// What readers see and the writer's thread replaces.
pub(crate) struct Shared {
    pub(crate) state: RwLock<Arc<State>>,
    pub(crate) listeners: Mutex<Vec<Listener>>,
    pub(crate) ahead_s: AtomicI64,
}

/// Called with the number of the last entry after each change.
pub(crate) type Listener = Box<dyn Fn(u64) + Send>;

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
        let state = Arc::new(State::fold(chain.stored));
        let shared = Arc::new(Shared {
            state: RwLock::new(state),
            listeners: Mutex::new(Vec::new()),
            ahead_s: AtomicI64::new(0),
        });
        let (orders, received) = channel();
        let closed =
            chain.damage.first().map(|damage| format!("{damage}; `gambrel check` names every such row"));
        let writer =
            Writer::new(Box::new(journal), Arc::clone(&shared), chain.last_hash, last_written, closed);
        std::thread::spawn(move || writer.serve(&received));
        Self(Arc::new(Inner { shared, orders: Mutex::new(orders), damage: chain.damage, folder }))
    }

    /// The state as of the last entry.
    #[must_use]
    pub fn state(&self) -> Arc<State> {
        Arc::clone(&self.0.shared.state.read().unwrap_or_else(PoisonError::into_inner))
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
        let (answer, answered) = channel();
        self.order(Order::Take { entries, writer: writer.into(), answer })?;
        answered.recv().map_err(|_| stopped())?
    }

    /// Rows after this number, oldest first, at most so many; their lines are what `export` writes.
    ///
    /// # Errors
    /// [`JournalError`] if the journal cannot be read.
    pub fn rows_after(&self, number: u64, most: usize) -> Result<Vec<Row>, JournalError> {
        let (answer, answered) = channel();
        self.order(Order::Read { after: number, most, answer })?;
        answered.recv().map_err(|_| stopped())?
    }

    /// Sets how far the house's clock stands ahead of the machine's: a demonstration may live at another hour.
    pub fn set_ahead(&self, ahead: SignedDuration) {
        let seconds = ahead.as_secs();
        self.0.shared.ahead_s.store(seconds, Ordering::Relaxed);
    }

    /// Calls `listener` with the number of the last entry after each change, from the writer's thread: let it be short.
    pub fn listen(&self, listener: impl Fn(u64) + Send + 'static) {
        self.0.shared.listeners.lock().unwrap_or_else(PoisonError::into_inner).push(Box::new(listener));
    }

    fn order(&self, order: Order) -> Result<(), JournalError> {
        let orders = self.0.orders.lock().unwrap_or_else(PoisonError::into_inner);
        orders.send(order).map_err(|_| stopped())
    }
}

fn stopped() -> JournalError {
    JournalError::Failed { why: "the thread that writes has stopped; start the program again".to_owned() }
}
