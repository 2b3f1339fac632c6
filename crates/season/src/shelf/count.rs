//! Counting a place: what the last count said.

use record::{At, Body, State};

/// A count of a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LastCount {
    /// When.
    pub at: At,
    /// Packs that were there.
    pub here: usize,
    /// Packs that should have been there and were not.
    pub missing: usize,
}

/// The last count of a place, as it stands after corrections.
#[must_use]
pub fn last_count(state: &State, place: &str) -> Option<LastCount> {
    state
        .log()
        .rev()
        .filter_map(|row| row.effective())
        .filter_map(|entry| match &entry.body {
            Body::Counted(body) if body.place == place => {
                Some(LastCount { at: entry.at, here: body.here.len(), missing: body.missing.len() })
            }
            _ => None,
        })
        .max_by_key(|count| count.at.timestamp())
}
