//! Salt: crystals in the cupboard and the dose people use.

use crate::load::parse;
use serde::Deserialize;
use std::sync::LazyLock;

/// What people use, in per cent of the meat.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SaltDose {
    /// The lower end, %.
    pub low_percent: f64,
    /// The upper end, %.
    pub high_percent: f64,
    /// Its source.
    pub source: String,
    /// Why these ends.
    pub why: String,
}

/// A crystal: the same salt by weight, another weight by the spoon.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Crystal {
    /// Its key in entries.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// The setting that holds the grams of a level teaspoon of it, weighed in this kitchen.
    pub setting: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    dose: SaltDose,
    crystal: Vec<Crystal>,
}

static FILE: LazyLock<File> =
    LazyLock::new(|| parse("salts.toml", include_str!("../../../catalogue/salts.toml")));

/// The dose people use.
#[must_use]
pub fn salt_dose() -> &'static SaltDose {
    &FILE.dose
}

/// The crystals people have.
#[must_use]
pub fn crystals() -> &'static [Crystal] {
    &FILE.crystal
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source;

    #[test]
    fn a_dose_is_a_range_with_its_source() {
        assert!(salt_dose().low_percent < salt_dose().high_percent && source(&salt_dose().source).is_some());
        assert!(
            !salt_dose().why.is_empty() && crystals().iter().all(|crystal| crystal.setting.ends_with("_g"))
        );
    }
}
