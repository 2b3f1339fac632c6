//! The record in memory, until it is opened from disk.

use record::{Entry, Refusal, State, Stored};
use std::sync::{Arc, Mutex, PoisonError};

/// A record that lives as long as the program.
#[derive(Clone, Default)]
pub struct Kitchen(Arc<Mutex<Arc<State>>>);

impl Kitchen {
    /// The state as of the last entry.
    #[must_use]
    pub fn state(&self) -> Arc<State> {
        Arc::clone(&self.0.lock().unwrap_or_else(PoisonError::into_inner))
    }

    /// Takes entries, all or none.
    ///
    /// # Errors
    /// [`Refusal`] of the first entry that may not follow.
    pub fn offer(&self, entries: &[Entry]) -> Result<(), Refusal> {
        let mut held = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let mut next = (**held).clone();
        for entry in entries {
            if next.entry_of(entry.id).is_some_and(|row| row.stored.entry == *entry) {
                continue;
            }
            let number = next.number() + 1;
            let written = entry.at.timestamp();
            next.take(Stored {
                entry: entry.clone(),
                number,
                written,
                writer: "here".into(),
                hash: [0; 32],
            })?;
        }
        *held = Arc::new(next);
        Ok(())
    }
}
