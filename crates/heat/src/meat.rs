//! The piece's material: composition, constants or measured tables.

use crate::HeatError;
use crate::property::{Law, Table};
use catalogue::figures;
use std::sync::Arc;

pub use crate::property::Properties;

/// Mass shares of one; whatever is left over is not renormalised.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Composition {
    /// Water.
    pub water: f64,
    /// Protein.
    pub protein: f64,
    /// Fat.
    pub fat: f64,
    /// Carbohydrate.
    pub carbohydrate: f64,
    /// Ash.
    pub ash: f64,
}

/// Properties a person knows better than the composition does.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Overrides {
    /// Salt added, % of the meat's mass.
    pub salt_percent: f64,
    /// Where the first ice forms, °C; then salt no longer moves it.
    pub freezing_point_c: Option<f64>,
    /// Water that never freezes, kg per kg of meat.
    pub bound_water: Option<f64>,
    /// kg/m³ at every temperature.
    pub density_kg_m3: Option<f64>,
    /// W/(m·K) at every temperature.
    pub conductivity_w_m_k: Option<f64>,
    /// J/(kg·K) without the latent heat, at every temperature.
    pub specific_heat_j_kg_k: Option<f64>,
}

/// Three constants.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Constants {
    /// W/(m·K).
    pub conductivity_w_m_k: f64,
    /// J/(kg·K).
    pub specific_heat_j_kg_k: f64,
    /// kg/m³.
    pub density_kg_m3: f64,
}

/// Constants of the frozen meat behind a sharp front.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frozen {
    /// Where it freezes, °C.
    pub freezing_point_c: f64,
    /// J per kg of frozen meat.
    pub latent_j_kg: f64,
    /// The constants below that point.
    pub constants: Constants,
}

/// Properties as measured, linear between rows.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// Rising, °C.
    pub c: Vec<f64>,
    /// Rising, J/kg, from any zero.
    pub enthalpy_j_kg: Vec<f64>,
    /// W/(m·K).
    pub conductivity_w_m_k: Vec<f64>,
    /// kg/m³ at every temperature.
    pub density_kg_m3: f64,
}

/// A material with the tables the solver works from.
///
/// Cheap to clone: the tables are shared.
#[derive(Clone, Debug)]
pub struct Meat {
    law: Law,
    table: Arc<Table>,
    composition: Option<Composition>,
    density_kg_m3: f64,
    conductivity_factor: f64,
    juice_factor: f64,
}

impl Meat {
    /// Meat by composition: Choi & Okos constituents, ice with bound water, conductivity by Levy's model.
    ///
    /// The piece keeps its volume, so its density is that of the thawed meat at 4 °C throughout.
    ///
    /// # Errors
    /// [`HeatError::Shares`] where the shares do not sum to 0.95–1.05, [`HeatError::OutOfRange`] for a number that no
    /// meat has.
    pub fn composed(composition: Composition, overrides: Overrides) -> Result<Self, HeatError> {
        composition.check()?;
        let salted = composition.salted(overrides.salt_percent)?;
        let law = Law::composed(salted, &overrides)?;
        let density = law.at(Self::MEASURED_AT_C).density_kg_m3;
        Ok(Self::from_law(law, Some(salted), density))
    }

    /// Meat of three constants.
    ///
    /// # Errors
    /// [`HeatError::OutOfRange`] names the constant.
    pub fn constant(constants: Constants) -> Result<Self, HeatError> {
        constants.check("")?;
        Ok(Self::from_law(Law::constant(constants), None, constants.density_kg_m3))
    }

    /// Meat of constants on either side of a sharp freezing front.
    ///
    /// Its volume stays, so the frozen side holds its own density times its own specific heat and latent heat.
    ///
    /// # Errors
    /// [`HeatError::OutOfRange`] names the constant.
    pub fn frozen_constants(thawed: Constants, frozen: Frozen) -> Result<Self, HeatError> {
        thawed.check("")?;
        frozen.constants.check("frozen ")?;
        let check = |what: &str, found, range, unit, hint| HeatError::check(what, found, range, unit, hint);
        check("freezing point", frozen.freezing_point_c, (-100.0, 100.0), "°C", "meat: about -1.1")?;
        check("latent heat", frozen.latent_j_kg, (100.0, 1e7), "J/kg", "lean meat: about 240 kJ/kg")?;
        Ok(Self::from_law(Law::sharp(thawed, frozen), None, thawed.density_kg_m3))
    }

    /// Meat whose enthalpy and conductivity were measured.
    ///
    /// # Errors
    /// [`HeatError::Rows`], [`HeatError::NotRising`] or [`HeatError::OutOfRange`] names what is wrong with the table.
    pub fn measured(table: Measured) -> Result<Self, HeatError> {
        let density = table.density_kg_m3;
        Ok(Self::from_law(Law::measured(table)?, None, density))
    }

    /// Properties at a temperature, °C.
    ///
    /// # Errors
    /// [`HeatError::OutsideFit`] beyond the range of the figures (−40 to 150 °C for a composition).
    pub fn properties_at(&self, celsius: f64) -> Result<Properties, HeatError> {
        let (low_c, high_c) = self.fitted_c();
        if !(celsius >= low_c && celsius <= high_c) {
            let (stage, property) = ("properties".to_owned(), "enthalpy");
            return Err(HeatError::OutsideFit { stage, property, found_c: celsius, low_c, high_c });
        }
        let mut found = self.law.at(celsius);
        found.conductivity_w_m_k *= self.conductivity_factor;
        Ok(found)
    }

    /// The same meat with its conductivity multiplied: how the uncertainty of the model is carried.
    #[must_use]
    pub fn with_conductivity_times(&self, factor: f64) -> Self {
        Self { conductivity_factor: self.conductivity_factor * factor, ..self.clone() }
    }

    /// The same meat with what is pressed out of it multiplied: how pieces differ.
    #[must_use]
    pub fn with_juice_times(&self, factor: f64) -> Self {
        Self { juice_factor: self.juice_factor * factor, ..self.clone() }
    }

    /// Where the first ice forms, °C; none for plain constants or measured tables.
    #[must_use]
    pub fn freezing_point_c(&self) -> Option<f64> {
        self.law.freezing_point_c()
    }

    /// Range of the figures, °C.
    #[must_use]
    pub fn fitted_c(&self) -> (f64, f64) {
        self.law.fitted_c()
    }

    /// Mass of a cubic metre of the piece as it was measured, kg/m³.
    #[must_use]
    pub fn density_kg_m3(&self) -> f64 {
        self.density_kg_m3
    }

    /// Its composition with the salt in it, where there is one.
    #[must_use]
    pub fn composition(&self) -> Option<Composition> {
        self.composition
    }

    /// Temperature at which a piece is taken to have been measured, °C.
    const MEASURED_AT_C: f64 = 4.0;

    fn from_law(law: Law, composition: Option<Composition>, density_kg_m3: f64) -> Self {
        let table = Arc::new(Table::new(&law, density_kg_m3));
        Self { law, table, composition, density_kg_m3, conductivity_factor: 1.0, juice_factor: 1.0 }
    }

    pub(crate) fn table(&self) -> &Table {
        &self.table
    }

    pub(crate) fn conductivity_factor(&self) -> f64 {
        self.conductivity_factor
    }

    pub(crate) fn juice_factor(&self) -> f64 {
        self.juice_factor
    }

    pub(crate) fn is_sharp(&self) -> bool {
        matches!(self.law, Law::Sharp { .. })
    }

    /// Ice at a temperature in °C and, on a sharp front, an enthalpy in J/m³ from the thawed side.
    pub(crate) fn ice_share_of(&self, celsius: f64, enthalpy_j_m3: f64) -> f64 {
        self.law.ice_share(celsius, enthalpy_j_m3)
    }
}

impl Composition {
    fn check(&self) -> Result<(), HeatError> {
        let parts = [
            ("water", self.water),
            ("protein", self.protein),
            ("fat", self.fat),
            ("carbohydrate", self.carbohydrate),
            ("ash", self.ash),
        ];
        for (what, share) in parts {
            HeatError::check(what, share, (0.0, 1.0), "", "give a mass share of one, not a percentage")?;
        }
        let sum: f64 = parts.iter().map(|(_, share)| share).sum();
        if (0.95..=1.05).contains(&sum) { Ok(()) } else { Err(HeatError::Shares { sum }) }
    }

    /// The same with salt counted as ash; salt in % of the meat's mass.
    fn salted(&self, salt_percent: f64) -> Result<Self, HeatError> {
        HeatError::check("salt", salt_percent, (0.0, 10.0), "% of the meat's mass", "a dose is 0.8 to 1.5")?;
        let salt = salt_percent / 100.0;
        let whole = 1.0 + salt;
        Ok(Self {
            water: self.water / whole,
            protein: self.protein / whole,
            fat: self.fat / whole,
            carbohydrate: self.carbohydrate / whole,
            ash: (self.ash + salt) / whole,
        })
    }

    /// The share that presses out its juice when cooked: all but the fat.
    #[must_use]
    pub fn lean(&self) -> f64 {
        1.0 - self.fat
    }
}

impl Constants {
    fn check(&self, of: &str) -> Result<(), HeatError> {
        let check = |what: &str, found, range, unit, hint| {
            HeatError::check(format_args!("{of}{what}"), found, range, unit, hint)
        };
        check(
            "conductivity",
            self.conductivity_w_m_k,
            (1e-3, 1e3),
            "W/(m K)",
            "meat: 0.48 thawed, 1.5 frozen",
        )?;
        check(
            "specific heat",
            self.specific_heat_j_kg_k,
            (10.0, 1e5),
            "J/(kg K)",
            "meat: 3500 thawed, 2000 frozen",
        )?;
        check("density", self.density_kg_m3, (1.0, 3e4), "kg/m³", "meat: about 1050")
    }
}

/// Initial freezing point of beef with salt, °C; salt in % of the meat's mass.
#[must_use]
pub fn freezing_point_c(salt_percent: f64) -> f64 {
    figures().freezing_point.value + figures().freezing_point_per_salt.value * salt_percent
}
