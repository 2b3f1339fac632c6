//! How long raw beef keeps, by the official chart.

use crate::load::parse;
use serde::Deserialize;
use std::sync::LazyLock;

/// What the chart tells apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kept {
    /// Portions.
    Steaks,
    /// Pieces kept whole.
    Roasts,
    /// Minced meat and trim for it.
    Mince,
}

/// A row of the chart.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Keeps {
    /// What.
    pub what: Kept,
    /// Who says so.
    pub authority: String,
    /// In which of its rules.
    pub which: String,
    /// Days in the fridge at 4.4 °C (40 °F) or below, from and to: a safety limit.
    pub fridge_days: (u32, u32),
    /// Months in the freezer at −17.8 °C (0 °F), from and to: about eating quality only.
    pub freezer_months: (u32, u32),
    /// Its source.
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    keeps: Vec<Keeps>,
}

static FILE: LazyLock<File> =
    LazyLock::new(|| parse("storage.toml", include_str!("../../../catalogue/storage.toml")));

/// What the official chart says of it.
///
/// # Panics
/// Never: a test finds a row for each.
#[must_use]
pub fn keeps(what: Kept) -> &'static Keeps {
    let row = FILE.keeps.iter().find(|row| row.what == what);
    row.unwrap_or_else(|| panic!("catalogue/storage.toml has no row for {what:?}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Status, source};

    /// US cold food storage chart, current edition (secondary; safety, `us_chart`).
    #[test]
    fn the_chart_has_a_row_for_each() {
        for (what, days, months) in
            [(Kept::Steaks, (3, 5), (4, 12)), (Kept::Roasts, (3, 5), (4, 12)), (Kept::Mince, (1, 2), (3, 4))]
        {
            assert_eq!((keeps(what).fridge_days, keeps(what).freezer_months), (days, months));
            assert_eq!(source(&keeps(what).source).unwrap().status, Status::Secondary);
        }
    }
}
