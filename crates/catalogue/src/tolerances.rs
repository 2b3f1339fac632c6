//! What the trade allows a portion to miss by, and densities of muscle and fat. Figures: `catalogue/tolerances.toml`.

use crate::load::parse;
use quantity::{Length, Mass};
use serde::Deserialize;
use std::sync::LazyLock;

/// How far a portion of a specified mass may miss it, either way.
#[must_use]
pub fn portion_mass_tolerance(specified: Mass) -> Mass {
    let ounces = specified.oz();
    let row = FILE.portion_mass.iter().find(|row| row.below_oz.is_none_or(|below| ounces < below));
    Mass::from_oz(row.map_or(0.0, |row| row.within_oz))
}

/// How far a portion of a specified thickness may miss it, either way.
#[must_use]
pub fn portion_thickness_tolerance(specified: Length) -> Length {
    // A thickness written as 25.4 mm is one inch, though its binary form may be a hair above.
    let inches = specified.inch() - 1e-9;
    let row = FILE.portion_thickness.iter().find(|row| row.up_to_in.is_none_or(|up_to| inches <= up_to));
    Length::from_inch(row.map_or(0.0, |row| row.within_in))
}

/// Density of meat with this share of separable fat, kg/m³: muscle and fat lie side by side.
#[must_use]
pub fn density_at_fat_share(share: f64) -> f64 {
    let of =
        |tissue: &str| FILE.density.iter().find(|row| row.tissue == tissue).map_or(1000.0, |row| row.kg_m3);
    1.0 / ((1.0 - share) / of("muscle") + share / of("fat"))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    portion_mass: Vec<MassRow>,
    portion_thickness: Vec<ThicknessRow>,
    density: Vec<DensityRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct MassRow {
    #[cfg_attr(not(test), expect(dead_code, reason = "the rows' own check"))]
    from_oz: f64,
    below_oz: Option<f64>,
    within_oz: f64,
    #[cfg_attr(not(test), expect(dead_code, reason = "the rows' own check"))]
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ThicknessRow {
    up_to_in: Option<f64>,
    within_in: f64,
    #[cfg_attr(not(test), expect(dead_code, reason = "the rows' own check"))]
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct DensityRow {
    tissue: String,
    kg_m3: f64,
    #[cfg_attr(not(test), expect(dead_code, reason = "the rows' own check"))]
    source: String,
}

static FILE: LazyLock<File> =
    LazyLock::new(|| parse("tolerances.toml", include_str!("../../../catalogue/tolerances.toml")));

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source;

    #[test]
    fn every_row_names_a_source_that_exists() {
        let masses = FILE.portion_mass.iter().map(|row| &row.source);
        let thicknesses = FILE.portion_thickness.iter().map(|row| &row.source);
        let densities = FILE.density.iter().map(|row| &row.source);
        for id in masses.chain(thicknesses).chain(densities) {
            assert!(source(id).is_some(), "{id}");
        }
    }

    #[test]
    fn the_steps_meet_and_reach_every_mass() {
        for pair in FILE.portion_mass.windows(2) {
            assert_eq!(pair[0].below_oz, Some(pair[1].from_oz));
        }
        assert!(FILE.portion_mass.last().is_some_and(|row| row.below_oz.is_none()));
        assert!(FILE.portion_thickness.last().is_some_and(|row| row.up_to_in.is_none()));
    }

    /// A school's form, printed: 6 oz accepted from 5.5 to 6.5 (published). It agrees with the trade's row (from memory).
    #[test]
    fn six_ounces_may_miss_by_half_an_ounce() {
        assert!((portion_mass_tolerance(Mass::from_oz(6.0)).oz() - 0.5).abs() < 1e-12);
        assert!((portion_mass_tolerance(Mass::from_g(350.0)).oz() - 0.75).abs() < 1e-12);
        assert!((portion_thickness_tolerance(Length::from_mm(25.4)).inch() - 0.1875).abs() < 1e-12);
        assert!((portion_thickness_tolerance(Length::from_mm(38.0)).mm() - 6.35).abs() < 1e-9);
    }

    /// 1 / ((1 − f)/1060 + f/917): 1052, 1044, 1036, 1028, 1020, 1013 at 5 to 30 % fat (computed).
    #[test]
    fn density_falls_with_fat() {
        for (share, expected) in [(0.05, 1052.0), (0.1, 1044.0), (0.2, 1028.0), (0.3, 1013.0)] {
            assert!((density_at_fat_share(share) - expected).abs() < 1.0, "{share}");
        }
    }
}
