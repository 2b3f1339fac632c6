//! Death by heat: how fast the organisms that count are killed.

use crate::basis::Basis;
use crate::load::parse;
use serde::Deserialize;
use std::sync::LazyLock;

/// A log-linear death law.
#[derive(Clone, Debug, Deserialize)]
pub struct Organism {
    /// Its key in forms and answers.
    pub id: String,
    /// What people call it.
    pub words: String,
    /// Minutes that leave one in ten, at `at_c`.
    pub d_min: f64,
    /// Where that holds, °C.
    pub at_c: f64,
    /// Kelvins to a tenfold rate.
    pub z_k: f64,
    /// What it rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

#[derive(Deserialize)]
struct File {
    organism: Vec<Organism>,
}

static FILE: LazyLock<File> =
    LazyLock::new(|| parse("organisms.toml", include_str!("../../../catalogue/organisms.toml")));

/// The organisms whose kill every answer counts.
#[must_use]
pub fn organisms() -> &'static [Organism] {
    &FILE.organism
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::basis::assert_rests_on_something;

    /// Recomputed from the guide's own statement: an hour at 55 °C is 3.1, 4.6 and 4.7 powers of ten.
    #[test]
    fn the_three_are_there_and_rest_on_something() {
        let tenths: Vec<(&str, f64)> =
            organisms().iter().map(|one| (one.id.as_str(), (600.0 / one.d_min).round() / 10.0)).collect();
        assert_eq!(tenths, [("salmonella", 4.6), ("stec", 3.1), ("listeria", 4.7)]);
        for one in organisms() {
            assert_rests_on_something(&one.id, &one.basis);
        }
    }
}
