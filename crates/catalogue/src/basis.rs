//! What a figure rests on.

use crate::source::{Mark, Source, source};
use serde::Deserialize;

/// What a row's figures rest on: their source, and for a prior how it was worked out or why it has that size.
#[derive(Clone, Debug, Deserialize)]
pub struct Basis {
    /// Key in `sources.toml`.
    pub source: String,
    /// Published, derived or assumed.
    pub mark: Mark,
    /// From what it was worked out.
    pub how: Option<String>,
    /// Why it has that size, where nothing better was at hand.
    pub why: Option<String>,
}

impl Basis {
    /// The source itself.
    #[must_use]
    pub fn cited(&self) -> Option<&'static Source> {
        source(&self.source)
    }
}

impl Mark {
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::Derived => "derived",
            Self::Assumed => "assumed",
        }
    }
}

#[cfg(test)]
pub(crate) fn assert_rests_on_something(row: &str, basis: &Basis) {
    assert!(basis.cited().is_some(), "{row}: source {} is not in sources.toml", basis.source);
    match basis.mark {
        Mark::Published => {}
        Mark::Derived => assert!(basis.how.is_some(), "{row}: derived, but not said how"),
        Mark::Assumed => assert!(basis.why.is_some(), "{row}: assumed, but not said why"),
    }
}
