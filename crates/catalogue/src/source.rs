//! Where a figure comes from, and how far to trust it.

use crate::load::parse;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// How far a source can be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Status {
    /// Read in the publication or a stored copy of it.
    Published,
    /// Read where another page quotes it.
    Secondary,
    /// The trade does so; nobody wrote it down.
    CommonPractice,
    /// Known, not found again: used, said so, and never shown as an official rule.
    FromMemory,
    /// Our own arithmetic.
    Computed,
}

/// What a prior rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Mark {
    /// Read.
    Published,
    /// Worked out from figures that were read; the row's `how` says from which.
    Derived,
    /// Assumed; the row's `why` says why that size. Never shown as a fact.
    Assumed,
}

/// A source: citation and status.
#[derive(Clone, Debug, Deserialize)]
pub struct Source {
    /// Author, year, title, or what the page is.
    pub citation: String,
    /// How far to trust it.
    pub status: Status,
}

#[derive(Deserialize)]
struct File {
    source: BTreeMap<String, Source>,
}

static FILE: LazyLock<File> =
    LazyLock::new(|| parse("sources.toml", include_str!("../../../catalogue/sources.toml")));

/// The source with this id, if `catalogue/sources.toml` has it.
#[must_use]
pub fn source(id: &str) -> Option<&'static Source> {
    FILE.source.get(id)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_source_is_cited_in_words() {
        for (id, source) in &FILE.source {
            assert!(source.citation.len() > 12, "{id}: a citation says who or what");
        }
    }
}
