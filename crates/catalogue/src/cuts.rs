//! Whole cuts of beef: names by region, mass, length, ends, section, bag loss. Figures: `catalogue/cuts.toml`.

use crate::basis::Basis;
use crate::load::parse;
use crate::profiles::{Profile, profile};
use crate::yields::{Trim, YieldPrior, yield_prior, yields};
use quantity::{Length, Mass};
use serde::Deserialize;
use std::sync::LazyLock;

/// The cut with this catalogue name, such as `beef-strip-loin`.
#[must_use]
pub fn cut(id: &str) -> Option<&'static Cut> {
    FILE.cut.iter().find(|cut| cut.id == id)
}

/// All cuts, in the catalogue's order.
#[must_use]
pub fn cuts() -> &'static [Cut] {
    &FILE.cut
}

/// A whole cut as a shop or wholesaler sells it.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cut {
    /// Catalogue name, such as `beef-ribeye-roll`.
    pub id: String,
    /// What it is called where.
    pub names: Names,
    /// Key in `sources.toml` of the names.
    pub names_source: String,
    /// One run of muscle that is sliced across; otherwise plan by muscle, bands are wide.
    pub roll: bool,
    /// Mass of a piece.
    pub mass: MassPrior,
    /// Length at a given mass, where the catalogue has one; otherwise ask.
    pub length: Option<LengthPrior>,
    /// How slanted the ends are, where they are squared off.
    pub ends: Option<EndsPrior>,
    /// From width and height of a section to its grams, where a station may be measured.
    pub section: Option<SectionPrior>,
    /// Share lost in the bag.
    pub purge: SharePrior,
    /// Fat share of the lean heap of trim, not of the clean fat.
    pub lean_trim_fat: Option<SharePrior>,
    /// What lies where along it.
    #[serde(default)]
    pub feature: Vec<Feature>,
}

impl Cut {
    /// How mass lies along it, where it may be planned along its length.
    #[must_use]
    pub fn profile(&self) -> Option<&'static Profile> {
        profile(&self.id)
    }

    /// What becomes of it at a trim level, if the catalogue knows that level for this cut.
    #[must_use]
    pub fn yield_at(&self, trim: Trim) -> Option<&'static YieldPrior> {
        yield_prior(&self.id, trim)
    }

    /// The trim levels the catalogue knows for this cut.
    pub fn trims(&self) -> impl Iterator<Item = Trim> + '_ {
        yields().iter().filter(|row| row.cut == self.id).map(|row| row.trim)
    }
}

/// Names by region.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Names {
    /// United States, with the item number in brackets.
    pub us: String,
    /// United Kingdom.
    pub uk: String,
    /// Australia, with the item number in brackets.
    pub au: String,
    /// Germany (AT: Austria).
    pub de: String,
    /// France.
    pub fr: String,
}

/// Mass of a piece met in a shop today, g; `sd` between pieces.
#[derive(Clone, Debug, Deserialize)]
pub struct MassPrior {
    /// The middle.
    pub typical_g: f64,
    /// Between pieces.
    pub sd_g: f64,
    /// About 1 piece in 20 is lighter.
    pub low_g: f64,
    /// About 1 piece in 20 is heavier.
    pub high_g: f64,
    /// What it rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

impl MassPrior {
    /// The middle.
    #[must_use]
    pub fn typical(&self) -> Mass {
        Mass::from_g(self.typical_g)
    }
}

/// Length of a piece of a given mass: `typical_mm · (mass / at_mass_g)^⅓`. The exponent is isometry, assumed.
#[derive(Clone, Debug, Deserialize)]
pub struct LengthPrior {
    /// Length of a piece of `at_mass_g`.
    pub typical_mm: f64,
    /// The mass that length goes with.
    pub at_mass_g: f64,
    /// Between pieces of one mass, as a share of the length.
    pub rel_sd: f64,
    /// What it rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

impl LengthPrior {
    /// The middle for a piece of this mass.
    #[must_use]
    pub fn typical(&self, mass: Mass) -> Length {
        Length::from_mm(self.typical_mm * (mass.g() / self.at_mass_g).cbrt())
    }
}

/// Slant of the ends: a face slanted by s mm loses s/2 of full section when squared to its lowest point.
#[derive(Clone, Debug, Deserialize)]
pub struct EndsPrior {
    /// Middle at the first end, mm.
    pub slant_first_mm: f64,
    /// Middle at the last end, mm.
    pub slant_last_mm: f64,
    /// Sd of the natural logarithm of either.
    pub log_sd: f64,
    /// What it rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

/// Section area = `factor` · width · height; grams by the density.
#[derive(Clone, Debug, Deserialize)]
pub struct SectionPrior {
    /// Share of its box that a section fills; an ellipse is 0.785.
    pub factor: f64,
    /// Relative sd common to one piece: how it lies and who measures.
    pub sd_common: f64,
    /// Relative sd of each station.
    pub sd_station: f64,
    /// Density of the whole face, fat (and bone) included.
    pub density_kg_m3: f64,
    /// What it rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

/// A share between 0 and 1 with its sd between pieces.
#[derive(Clone, Debug, Deserialize)]
pub struct SharePrior {
    /// Mean.
    pub mean: f64,
    /// Between pieces.
    pub sd: f64,
    /// What it rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

/// Something that lies between two places along the cut, 0 at the first end and 1 at the last.
#[derive(Clone, Debug, Deserialize)]
pub struct Feature {
    /// What.
    pub what: String,
    /// From this place.
    pub from: f64,
    /// To this place.
    pub to: f64,
    /// What it rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    cut: Vec<Cut>,
}

static FILE: LazyLock<File> =
    LazyLock::new(|| parse("cuts.toml", include_str!("../../../catalogue/cuts.toml")));

#[cfg(test)]
mod tests {
    use super::*;
    use crate::basis::assert_rests_on_something;
    use crate::source;

    const EVERY_CHECKOUT: [&str; 12] = [
        "beef-ribeye-roll",
        "beef-strip-loin",
        "beef-tenderloin",
        "beef-top-sirloin-butt",
        "beef-tri-tip",
        "beef-chuck-roll",
        "beef-brisket",
        "beef-eye-of-round",
        "beef-round",
        "beef-rib-roast-bone-in",
        "beef-rib-steak-bone-in",
        "beef-t-bone",
    ];

    #[test]
    fn every_promised_cut_is_there_once_and_can_be_bought() {
        for id in EVERY_CHECKOUT {
            assert_eq!(cuts().iter().filter(|cut| cut.id == id).count(), 1, "{id}");
            assert!(cut(id).is_some_and(|cut| cut.trims().next().is_some()), "{id} has no yield at any trim");
        }
    }

    #[test]
    fn every_row_names_a_source_that_exists() {
        for cut in cuts() {
            assert!(source(&cut.names_source).is_some(), "{}: {}", cut.id, cut.names_source);
            let rows = [
                Some(("mass", &cut.mass.basis)),
                cut.length.as_ref().map(|row| ("length", &row.basis)),
                cut.ends.as_ref().map(|row| ("ends", &row.basis)),
                cut.section.as_ref().map(|row| ("section", &row.basis)),
                Some(("purge", &cut.purge.basis)),
                cut.lean_trim_fat.as_ref().map(|row| ("lean trim", &row.basis)),
            ];
            let features = cut.feature.iter().map(|row| ("feature", &row.basis));
            for (what, basis) in rows.into_iter().flatten().chain(features) {
                assert_rests_on_something(&format!("{} {what}", cut.id), basis);
            }
        }
    }

    #[test]
    fn figures_are_of_the_size_of_a_cut() {
        for cut in cuts() {
            let mass = &cut.mass;
            assert!(mass.low_g < mass.typical_g && mass.typical_g < mass.high_g, "{}", cut.id);
            assert!((0.05..0.25).contains(&(mass.sd_g / mass.typical_g)), "{}", cut.id);
            assert!((0.0..0.05).contains(&cut.purge.mean), "{}", cut.id);
            if cut.roll {
                assert!(
                    cut.profile().is_some() && cut.length.is_some(),
                    "{} is a roll without a shape",
                    cut.id
                );
                assert!(cut.ends.is_some() && cut.section.is_some(), "{} is a roll without ends", cut.id);
            }
        }
    }

    /// A piece's mass, length and density must give a section that fills its box: 75 to 130 mm high at twice the width.
    #[test]
    fn mass_length_and_density_agree_on_a_section() {
        for cut in cuts() {
            let (Some(length), Some(section)) = (&cut.length, &cut.section) else { continue };
            let grams_a_mm = cut.mass.typical_g / length.typical(cut.mass.typical()).mm();
            let area_cm2 = grams_a_mm * 10.0 / (section.density_kg_m3 / 1000.0);
            assert!((40.0..250.0).contains(&area_cm2), "{}: {area_cm2:.0} cm²", cut.id);
        }
    }
}
