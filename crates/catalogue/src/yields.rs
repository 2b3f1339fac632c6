//! What becomes of a piece at each trim level. Figures: `catalogue/yields.toml`.

use crate::basis::Basis;
use crate::load::parse;
use serde::Deserialize;
use std::fmt;
use std::sync::LazyLock;

/// What becomes of this cut at this trim level, if the catalogue knows it.
#[must_use]
pub fn yield_prior(cut: &str, trim: Trim) -> Option<&'static YieldPrior> {
    FILE.rows.iter().find(|row| row.cut == cut && row.trim == trim)
}

/// All rows.
#[must_use]
pub fn yields() -> &'static [YieldPrior] {
    &FILE.rows
}

/// How far a piece is trimmed: it moves the mean yield more than the animal does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
pub enum Trim {
    /// Surface fat, lip, chain and silver skin off.
    #[serde(rename = "bare")]
    Bare,
    /// Fat left 6 mm thick.
    #[serde(rename = "to-6-mm")]
    To6Mm,
    /// Only purge and the squared ends go.
    #[serde(rename = "as-packed")]
    AsPacked,
    /// Even portions from the middle of a tenderloin.
    #[serde(rename = "barrel-only")]
    BarrelOnly,
}

impl Trim {
    /// Every level.
    pub const ALL: [Self; 4] = [Self::Bare, Self::To6Mm, Self::AsPacked, Self::BarrelOnly];

    /// Its name in forms.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Bare => "bare",
            Self::To6Mm => "to-6-mm",
            Self::AsPacked => "as-packed",
            Self::BarrelOnly => "barrel-only",
        }
    }

    /// The level of this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|trim| trim.name() == name)
    }
}

impl fmt::Display for Trim {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// Shares of the mass as bought, bag off, purge counted in; the five add to 1.
#[derive(Clone, Debug, Deserialize)]
pub struct YieldPrior {
    /// Catalogue name of the cut.
    pub cut: String,
    /// How it is trimmed.
    pub trim: Trim,
    /// The same in words.
    pub words: String,
    /// What is cut to eat as the cut's own pieces.
    pub portions: f64,
    /// Between pieces, for one cutter and this trim level.
    pub portions_sd: f64,
    /// The lean heap.
    pub lean_trim: f64,
    /// The clean fat.
    pub fat: f64,
    /// Bone taken out.
    pub bone: f64,
    /// Left in the bag.
    pub purge: f64,
    /// What it rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    #[serde(rename = "yield")]
    rows: Vec<YieldPrior>,
}

static FILE: LazyLock<File> =
    LazyLock::new(|| parse("yields.toml", include_str!("../../../catalogue/yields.toml")));

#[cfg(test)]
mod tests {
    use super::*;
    use crate::basis::assert_rests_on_something;
    use crate::cuts::cut;

    #[test]
    fn every_row_is_of_a_cut_closes_and_names_a_source() {
        for row in yields() {
            let name = format!("{} {}", row.cut, row.trim);
            assert!(cut(&row.cut).is_some(), "{name}");
            let sum = row.portions + row.lean_trim + row.fat + row.bone + row.purge;
            assert!((sum - 1.0).abs() < 1e-9, "{name}: shares add to {sum}");
            assert!(row.portions_sd > 0.0 && row.portions_sd < 0.1, "{name}");
            assert_rests_on_something(&name, &row.basis);
        }
    }

    #[test]
    fn a_level_is_known_once_for_a_cut() {
        for row in yields() {
            let same = yields().iter().filter(|other| other.cut == row.cut && other.trim == row.trim);
            assert_eq!(same.count(), 1, "{} {}", row.cut, row.trim);
            assert_eq!(Trim::named(row.trim.name()), Some(row.trim));
        }
    }

    /// Less trim never gives fewer portions.
    #[test]
    fn more_trim_leaves_less() {
        for row in yields().iter().filter(|row| row.trim == Trim::Bare) {
            if let Some(left_on) = yield_prior(&row.cut, Trim::To6Mm) {
                assert!(left_on.portions > row.portions, "{}", row.cut);
            }
        }
    }
}
