//! How mass lies along a cut, the cap's share of the face, roughness and knife. Figures: `catalogue/profiles.toml`.

use crate::basis::Basis;
use crate::load::parse;
use serde::Deserialize;
use std::sync::LazyLock;

/// Knots of a profile, evenly spaced from one end to the other.
pub const KNOTS: usize = 24;

/// How mass lies along the cut of this catalogue name.
#[must_use]
pub fn profile(cut: &str) -> Option<&'static Profile> {
    FILE.profile.iter().find(|row| row.cut == cut)
}

/// A muscle's share of the whole face along a cut, such as the `cap` of `beef-ribeye-roll`.
#[must_use]
pub fn muscle_share(cut: &str, muscle: &str) -> Option<&'static MuscleShare> {
    FILE.muscle.iter().find(|row| row.cut == cut && row.muscle == muscle)
}

/// Roughness of a portion's mass below the length scale of the profile.
#[must_use]
pub fn roughness() -> &'static Roughness {
    &FILE.roughness
}

/// How far beside its mark a knife goes.
#[must_use]
pub fn knife() -> &'static KnifePrior {
    &FILE.knife
}

/// How many of the household's own pieces or readings a catalogue figure is worth.
#[must_use]
pub fn worth_of(figure: LearnedFigure) -> Option<&'static Worth> {
    FILE.worth.iter().find(|row| row.figure == figure)
}

/// Mass per length along a cut: m(s) = M / L · p(s / L), p linear between 24 evenly spaced knots, its integral 1.
#[derive(Clone, Debug, Deserialize)]
pub struct Profile {
    /// Catalogue name of the cut.
    pub cut: String,
    /// What the end at 0 is.
    pub first_end: String,
    /// What the end at 1 is.
    pub last_end: String,
    /// Mean of p at the knots.
    pub p: [f64; KNOTS],
    /// Sd between pieces, as a share of p.
    pub rel_sd: [f64; KNOTS],
    /// How far along two places still go together, as a share of the length (squared exponential).
    pub length_scale: f64,
    /// What it rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

/// Share of the whole face at the knots of a profile.
#[derive(Clone, Debug, Deserialize)]
pub struct MuscleShare {
    /// Catalogue name of the cut.
    pub cut: String,
    /// `cap` (spinalis) or `complexus`.
    pub muscle: String,
    /// Share at the knots.
    pub share: [f64; KNOTS],
    /// Sd between pieces, as a share of itself.
    pub rel_sd: f64,
    /// What it rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

/// Relative sd of a portion's mass, `rel_sd · √(at_mm / thickness)`.
#[derive(Clone, Debug, Deserialize)]
pub struct Roughness {
    /// Relative sd of a portion `at_mm` thick.
    pub rel_sd: f64,
    /// That thickness, mm.
    pub at_mm: f64,
    /// What it rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

/// The knife goes within `within_mm` of its mark, anywhere as likely.
#[derive(Clone, Debug, Deserialize)]
pub struct KnifePrior {
    /// Either side of the mark, mm.
    pub within_mm: f64,
    /// What it rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

/// A figure the household's own pieces take over.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LearnedFigure {
    /// The profile p.
    Profile,
    /// How wide the bands are.
    Width,
    /// Share of its box that a section fills.
    ShapeFactor,
    /// Mass and length as bought.
    MassAndLength,
    /// Portions' share at one trim level.
    Yield,
    /// Slant of the ends.
    Slant,
    /// The cap's share.
    Cap,
    /// How much of the wholesale season reaches the shelf.
    Season,
}

/// What a catalogue figure is worth against own ones.
#[derive(Clone, Debug, Deserialize)]
pub struct Worth {
    /// Which figure.
    pub figure: LearnedFigure,
    /// In whole pieces.
    pub pieces: Option<f64>,
    /// In single readings.
    pub readings: Option<f64>,
    /// What it rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    roughness: Roughness,
    knife: KnifePrior,
    profile: Vec<Profile>,
    muscle: Vec<MuscleShare>,
    worth: Vec<Worth>,
}

static FILE: LazyLock<File> =
    LazyLock::new(|| parse("profiles.toml", include_str!("../../../catalogue/profiles.toml")));

#[cfg(test)]
mod tests {
    use super::*;
    use crate::basis::assert_rests_on_something;
    use crate::cuts::{cut, cuts};

    fn integral(at_knots: &[f64; KNOTS]) -> f64 {
        let ends = (at_knots[0] + at_knots[KNOTS - 1]) / 2.0;
        (at_knots.iter().sum::<f64>() - 2.0 * ends + ends) / (KNOTS - 1) as f64
    }

    #[test]
    fn every_row_names_a_source_that_exists() {
        assert_rests_on_something("roughness", &roughness().basis);
        assert_rests_on_something("knife", &knife().basis);
        for row in &FILE.profile {
            assert_rests_on_something(&row.cut, &row.basis);
        }
        for row in &FILE.muscle {
            assert_rests_on_something(&row.muscle, &row.basis);
        }
        for row in &FILE.worth {
            assert_rests_on_something(&format!("{:?}", row.figure), &row.basis);
        }
    }

    #[test]
    fn a_profile_is_of_a_known_cut_positive_and_integrates_to_one() {
        for row in &FILE.profile {
            assert!(cut(&row.cut).is_some(), "{}", row.cut);
            assert!(row.p.iter().chain(&row.rel_sd).all(|value| *value > 0.0), "{}", row.cut);
            assert!((integral(&row.p) - 1.0).abs() < 2e-3, "{}: {}", row.cut, integral(&row.p));
        }
    }

    /// The cap is about 12 % of the whole roll's mass (from memory), 0.124 by this row and the roll's profile (computed).
    #[test]
    fn the_cap_is_an_eighth_of_the_roll() {
        let cap = muscle_share("beef-ribeye-roll", "cap").expect("a row");
        let roll = profile("beef-ribeye-roll").expect("a row");
        let mass = std::array::from_fn(|knot| cap.share[knot] * roll.p[knot]);
        assert!((integral(&mass) - 0.124).abs() < 1e-3, "{}", integral(&mass));
        assert!(cap.share.windows(2).all(|pair| pair[1] <= pair[0]), "thins towards the loin end");
    }

    #[test]
    fn only_cuts_without_a_shape_have_no_profile() {
        let without: Vec<&str> =
            cuts().iter().filter(|cut| cut.profile().is_none()).map(|cut| cut.id.as_str()).collect();
        assert_eq!(without, ["beef-tenderloin-untrimmed", "beef-round", "beef-rib-steak-bone-in"]);
    }
}
