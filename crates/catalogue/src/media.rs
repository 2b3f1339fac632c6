//! What surrounds a piece of meat, and what a steak is where nobody says: priors.

use crate::basis::Basis;
use crate::load::parse;
use serde::Deserialize;
use std::sync::LazyLock;

/// A distribution, in the unit of what it is a prior for.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(tag = "law", rename_all = "kebab-case")]
pub enum Law {
    /// No doubt.
    Exact {
        /// The number.
        value: f64,
    },
    /// Anything between two numbers.
    Uniform {
        /// Lower end.
        low: f64,
        /// Upper end.
        high: f64,
    },
    /// Normal.
    Normal {
        /// Mean.
        mean: f64,
        /// Standard deviation.
        sd: f64,
    },
    /// Its logarithm is normal.
    LogNormal {
        /// Median.
        median: f64,
        /// Standard deviation of the natural logarithm.
        sd_ln: f64,
    },
    /// Its logarithm is uniform.
    LogUniform {
        /// Lower end.
        low: f64,
        /// Upper end.
        high: f64,
    },
}

/// A distribution and what it rests on.
#[derive(Clone, Debug, Deserialize)]
pub struct Prior {
    /// The distribution.
    #[serde(flatten)]
    pub law: Law,
    /// What it rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

/// Where a medium is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MediumKind {
    /// Air on every side.
    Air,
    /// Water on every side.
    Liquid,
    /// A plate or a fire under the piece, room air around the rest.
    Below,
}

/// Whether water leaves a bare face.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Drying {
    /// None leaves.
    None,
    /// Always wet.
    Wet,
    /// Wet, then drying.
    Drying,
    /// Pressed against a plate.
    BoilingOnly,
}

/// Foil that may lie over a piece.
#[derive(Clone, Debug, Deserialize)]
pub struct Tent {
    /// How likely it lies there, 0 to 1.
    pub chance: f64,
    /// What that rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

/// What a plate holds, and what brings it back.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlateReserve {
    /// Heat held under a square metre of meat, J/(m²·K).
    pub capacity_j_m2_k: Prior,
    /// What burner and bare rim bring back, W/(m²·K).
    pub recovery_w_m2_k: Prior,
}

/// A medium and its priors.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Medium {
    /// Its name in forms.
    pub name: String,
    /// What people call it.
    pub words: String,
    /// Where it is.
    pub kind: MediumKind,
    /// Whether water leaves a bare face.
    pub evaporation: Drying,
    /// Foil that may lie over it.
    pub tent: Option<Tent>,
    /// Its temperature where nobody says, °C.
    pub medium_c: Prior,
    /// What the true temperature lies off the one read or set, K.
    pub medium_error_k: Prior,
    /// Convective film or contact conductance, W/(m²·K).
    pub film: Prior,
    /// Emissivity of face and surroundings together.
    pub emissivity: Prior,
    /// What the face sees, less the medium, K.
    pub radiant_above_k: Option<Prior>,
    /// Vapour pressure, Pa.
    pub vapour_pa: Option<Prior>,
    /// Relative humidity at the medium's temperature, 0 to 1.
    pub humidity: Option<Prior>,
    /// Of a plate that cools when the meat goes on.
    pub reserve: Option<PlateReserve>,
    /// Film and radiation below the piece as a share of those above it.
    pub bottom_share: Option<Prior>,
}

/// Around a piece that lies on a pan or over a flame.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Over {
    /// °C.
    pub medium_c: Prior,
    /// W/(m²·K).
    pub film: Prior,
    /// Emissivity.
    pub emissivity: Prior,
}

/// A door that is opened.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Door {
    /// In how many seconds the air's excess over the room falls to 1/e while it stands open.
    pub falls_in_s: Prior,
    /// In how many seconds what it lacks falls to 1/e once it is shut.
    pub returns_in_s: Prior,
    /// Of the room, °C.
    pub room_c: Prior,
}

/// How a bare face dries.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DryingFace {
    /// Moisture diffusivity in the meat, m²/s.
    pub diffusivity_m2_s: Prior,
    /// Share of the face that is lean.
    pub lean_share: Prior,
    /// Share of the juice pressed out that wets the face on its way.
    pub juice_share: Prior,
    /// Water already drawn from below the face at the start, kg/m².
    pub drawn_kg_m2: Prior,
}

/// What a steak is where nobody says.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SteakPrior {
    /// Area of its face, cm².
    pub area_cm2: Prior,
    /// Length over width.
    pub aspect: Prior,
    /// Temperature at the start, °C.
    pub start_c: Prior,
    /// Share by which a true oval's time differs from the disc's.
    pub model_share: Prior,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    medium: Vec<Medium>,
    over: Over,
    door: Door,
    drying: DryingFace,
    steak: SteakPrior,
}

static FILE: LazyLock<File> =
    LazyLock::new(|| parse("media.toml", include_str!("../../../catalogue/media.toml")));

/// The medium of this name.
#[must_use]
pub fn medium(name: &str) -> Option<&'static Medium> {
    FILE.medium.iter().find(|medium| medium.name == name)
}

/// Every medium, in the order of the file.
#[must_use]
pub fn media() -> &'static [Medium] {
    &FILE.medium
}

/// Around a piece that lies on a pan or over a flame.
#[must_use]
pub fn over() -> &'static Over {
    &FILE.over
}

/// A door that is opened.
#[must_use]
pub fn door() -> &'static Door {
    &FILE.door
}

/// How a bare face dries.
#[must_use]
pub fn drying_face() -> &'static DryingFace {
    &FILE.drying
}

/// What a steak is where nobody says.
#[must_use]
pub fn steak_prior() -> &'static SteakPrior {
    &FILE.steak
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::basis::assert_rests_on_something;

    #[test]
    fn every_name_of_the_forms_is_here_and_rests_on_something() {
        let names = "oven fan-oven smoker covered-grill grill pan water-bath water-stirred water-still fridge \
                     flat-top still-air counter counter-board counter-metal counter-plate \
                     still-air-freezer moving-air-freezer freezer-shelf blast-freezer pan-oiled pan-dry neighbour-pack ice-water rest foil-tent hot-hold";
        for name in names.split_whitespace() {
            let medium = medium(name).unwrap_or_else(|| panic!("{name} is missing"));
            let priors = [Some(&medium.medium_c), Some(&medium.medium_error_k), Some(&medium.film)]
                .into_iter()
                .chain([medium.radiant_above_k.as_ref(), medium.vapour_pa.as_ref()])
                .chain(
                    medium.reserve.iter().flat_map(|r| [Some(&r.capacity_j_m2_k), Some(&r.recovery_w_m2_k)]),
                )
                .chain([medium.humidity.as_ref(), medium.bottom_share.as_ref(), Some(&medium.emissivity)]);
            for prior in priors.flatten() {
                assert_rests_on_something(name, &prior.basis);
            }
            let moist = medium.vapour_pa.is_some() || medium.humidity.is_some();
            let dries = matches!(medium.evaporation, Drying::Drying | Drying::Wet);
            assert_eq!(moist, dries, "{name}: water leaves into air of a known moisture");
        }
        assert_eq!(media().len(), names.split_whitespace().count());
        let (steak, face) = (steak_prior(), drying_face());
        for prior in [&steak.area_cm2, &steak.aspect, &steak.start_c, &steak.model_share] {
            assert_rests_on_something("steak", &prior.basis);
        }
        for prior in [&face.diffusivity_m2_s, &face.lean_share, &face.juice_share, &face.drawn_kg_m2] {
            assert_rests_on_something("drying", &prior.basis);
        }
        for prior in [&door().falls_in_s, &door().returns_in_s, &door().room_c] {
            assert_rests_on_something("door", &prior.basis);
        }
        for prior in [&over().medium_c, &over().film, &over().emissivity] {
            assert_rests_on_something("over", &prior.basis);
        }
    }
}
