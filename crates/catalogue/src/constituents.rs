//! What meat is made of: properties of each constituent over temperature, and the few figures that go with them.

use crate::load::parse;
use crate::source::Mark;
use serde::Deserialize;
use std::sync::LazyLock;

/// One of the things meat is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Constituent {
    /// Liquid water.
    Water,
    /// Ice.
    Ice,
    /// Protein.
    Protein,
    /// Fat.
    Fat,
    /// Carbohydrate.
    Carbohydrate,
    /// Ash, salt among it.
    Ash,
}

/// What a polynomial gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ThermalProperty {
    /// W/(m·K).
    Conductivity,
    /// kg/m³.
    Density,
    /// J/(kg·K).
    SpecificHeat,
}

/// A property of a constituent: `poly_c[0] + poly_c[1] t + poly_c[2] t²` with t in °C.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ConstituentRow {
    /// Which constituent.
    pub of: Constituent,
    /// Which property.
    pub property: ThermalProperty,
    /// Its unit.
    pub unit: String,
    /// Coefficients in ascending powers of °C.
    pub poly_c: [f64; 3],
    /// Range of the fit, °C.
    pub fitted_c: [f64; 2],
    /// Key in `sources.toml`.
    pub source: String,
    /// What to know about it.
    pub note: Option<String>,
}

/// A figure of a kind of its own.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Figure {
    /// In `unit`.
    pub value: f64,
    /// Its unit.
    pub unit: String,
    /// Key in `sources.toml`.
    pub source: String,
    /// What it rests on.
    pub mark: Mark,
    /// What to know about it.
    pub note: Option<String>,
}

/// The figures that turn a composition into a freezing curve, a loss and a colour.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Figures {
    /// Water that never freezes, kg per kg of protein.
    pub bound_water_per_protein: Figure,
    /// Latent heat of fusion at 0 °C, J/kg.
    pub latent_fusion: Figure,
    /// Initial freezing point of beef, °C.
    pub freezing_point: Figure,
    /// Its shift for each per cent of salt, K.
    pub freezing_point_per_salt: Figure,
    /// Latent heat of evaporation, J/kg.
    pub latent_evaporation: Figure,
    /// Conductivity of the dry crust that boiling leaves, W/(m·K).
    pub crust_conductivity: Figure,
    /// Relative uncertainty of the conductivity model.
    pub conductivity_uncertainty: Figure,
    /// Juice pressed out when fully cooked, kg per kg of lean.
    pub juice_share_at_most: Figure,
    /// Temperature of half that loss, °C.
    pub juice_middle: Figure,
    /// Width of its rise, K.
    pub juice_width: Figure,
    /// Spread of what is pressed out from piece to piece, as the standard deviation of its logarithm.
    pub juice_uncertainty: Figure,
    /// Myoglobin denaturation: ln of the rate factor in 1/s.
    pub myoglobin_ln_k0: Figure,
    /// Its activation energy, J/mol.
    pub myoglobin_energy: Figure,
    /// How much faster the loin denatures than the chuck.
    pub myoglobin_loin_to_chuck: Figure,
}

impl Figures {
    /// All of them, with their names.
    #[must_use]
    pub fn all(&self) -> [(&'static str, &Figure); 14] {
        [
            ("bound_water_per_protein", &self.bound_water_per_protein),
            ("latent_fusion", &self.latent_fusion),
            ("freezing_point", &self.freezing_point),
            ("freezing_point_per_salt", &self.freezing_point_per_salt),
            ("latent_evaporation", &self.latent_evaporation),
            ("crust_conductivity", &self.crust_conductivity),
            ("conductivity_uncertainty", &self.conductivity_uncertainty),
            ("juice_share_at_most", &self.juice_share_at_most),
            ("juice_middle", &self.juice_middle),
            ("juice_width", &self.juice_width),
            ("juice_uncertainty", &self.juice_uncertainty),
            ("myoglobin_ln_k0", &self.myoglobin_ln_k0),
            ("myoglobin_energy", &self.myoglobin_energy),
            ("myoglobin_loin_to_chuck", &self.myoglobin_loin_to_chuck),
        ]
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    constituent: Vec<ConstituentRow>,
    figure: Figures,
}

static FILE: LazyLock<File> =
    LazyLock::new(|| parse("constituents.toml", include_str!("../../../catalogue/constituents.toml")));

/// Every property of every constituent.
#[must_use]
pub fn constituents() -> &'static [ConstituentRow] {
    &FILE.constituent
}

/// The figures that go with them.
#[must_use]
pub fn figures() -> &'static Figures {
    &FILE.figure
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source;

    #[test]
    fn every_constituent_has_every_property_once_and_a_source() {
        use Constituent::*;
        use ThermalProperty::*;
        for of in [Water, Ice, Protein, Fat, Carbohydrate, Ash] {
            for property in [Conductivity, Density, SpecificHeat] {
                let rows = constituents().iter().filter(|row| row.of == of && row.property == property);
                assert_eq!(rows.count(), 1, "{of:?} {property:?}");
            }
        }
        for row in constituents() {
            assert!(source(&row.source).is_some(), "{:?}: source {}", row.of, row.source);
        }
        for (name, figure) in figures().all() {
            assert!(source(&figure.source).is_some(), "{name}: source {}", figure.source);
        }
    }
}
