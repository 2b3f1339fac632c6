//! Composition of a cut as it is cooked.

use crate::basis::Basis;
use crate::load::parse;
use serde::Deserialize;
use std::sync::LazyLock;

/// Mass shares of a cut, lean and the fat left on it.
#[derive(Clone, Debug, Deserialize)]
pub struct CutComposition {
    /// The cut's name.
    pub cut: String,
    /// Water.
    pub water: f64,
    /// Protein.
    pub protein: f64,
    /// Fat.
    pub fat: f64,
    /// Ash.
    pub ash: f64,
    /// What that rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    composition: Vec<CutComposition>,
}

static FILE: LazyLock<File> =
    LazyLock::new(|| parse("compositions.toml", include_str!("../../../catalogue/compositions.toml")));

/// The composition of this cut.
#[must_use]
pub fn composition(cut: &str) -> Option<&'static CutComposition> {
    FILE.composition.iter().find(|row| row.cut == cut)
}

/// Every composition, in the order of the file.
#[must_use]
pub fn compositions() -> &'static [CutComposition] {
    &FILE.composition
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::basis::assert_rests_on_something;

    #[test]
    fn every_cut_of_the_forms_has_one_that_sums_to_nearly_one() {
        let names = "beef-ribeye-roll beef-strip-loin beef-tenderloin beef-top-sirloin-butt beef-tri-tip \
                     beef-chuck-roll beef-brisket beef-eye-of-round beef-round beef-rib-roast-bone-in \
                     beef-rib-steak-bone-in beef-t-bone";
        for name in names.split_whitespace() {
            let row = composition(name).unwrap_or_else(|| panic!("{name} is missing"));
            assert_rests_on_something(name, &row.basis);
            let sum = row.water + row.protein + row.fat + row.ash;
            assert!((0.95..=1.01).contains(&sum), "{name}: {sum}");
        }
    }
}
