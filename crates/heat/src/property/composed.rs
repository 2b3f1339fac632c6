//! A composition turned into density, ice and conductivity.

use super::conductivity::{levy_in_turn, parallel, perpendicular};
use super::constituents::{COUNT, ICE, WATER, fits};
use crate::{Composition, HeatError, Overrides};
use catalogue::figures;

/// What the property laws need of a composition.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Composed {
    pub(crate) shares: Composition,
    pub(crate) freezing_point_c: f64,
    pub(crate) bound_water: f64,
    pub(crate) density_kg_m3: Option<f64>,
    pub(crate) conductivity_w_m_k: Option<f64>,
    pub(crate) specific_heat_j_kg_k: Option<f64>,
}

/// The three conductivities, W/(m·K).
#[derive(Clone, Copy, Debug)]
pub(crate) struct Conductivities {
    pub(crate) parallel: f64,
    pub(crate) perpendicular: f64,
    pub(crate) used: f64,
}

impl Composed {
    pub(crate) fn new(shares: Composition, overrides: &Overrides) -> Result<Self, HeatError> {
        let check = |what: &str, found: Option<f64>, range, unit, hint| match found {
            Some(found) => HeatError::check(what, found, range, unit, hint),
            None => Ok(()),
        };
        check("freezing point", overrides.freezing_point_c, (-30.0, -0.01), "°C", "beef: about -1.1")?;
        check(
            "bound water",
            overrides.bound_water,
            (0.0, shares.water),
            "kg/kg",
            "a mass share of the meat",
        )?;
        check("density", overrides.density_kg_m3, (300.0, 3000.0), "kg/m³", "meat: about 1050")?;
        check("conductivity", overrides.conductivity_w_m_k, (0.01, 20.0), "W/(m K)", "meat: 0.48 thawed")?;
        check(
            "specific heat",
            overrides.specific_heat_j_kg_k,
            (500.0, 10_000.0),
            "J/(kg K)",
            "meat: 3500 thawed",
        )?;
        let usual = figures().bound_water_per_protein.value * shares.protein;
        Ok(Self {
            shares,
            freezing_point_c: overrides
                .freezing_point_c
                .unwrap_or_else(|| crate::meat::freezing_point_c(overrides.salt_percent)),
            bound_water: overrides.bound_water.unwrap_or(usual).min(shares.water),
            density_kg_m3: overrides.density_kg_m3,
            conductivity_w_m_k: overrides.conductivity_w_m_k,
            specific_heat_j_kg_k: overrides.specific_heat_j_kg_k,
        })
    }

    /// kg ice per kg meat: Raoult's law with bound water (Schwartzberg, Chen).
    pub(crate) fn ice(&self, t: f64) -> f64 {
        if t >= self.freezing_point_c {
            return 0.0;
        }
        (self.shares.water - self.bound_water) * (1.0 - self.freezing_point_c / t)
    }

    /// kg/m³ with the ice of that temperature.
    pub(crate) fn density(&self, t: f64) -> f64 {
        self.density_kg_m3.unwrap_or_else(|| 1.0 / self.volumes(t).iter().sum::<f64>())
    }

    pub(crate) fn conductivities(&self, t: f64) -> Conductivities {
        let volumes = self.volumes(t);
        let whole: f64 = volumes.iter().sum();
        let part = |i: usize| (volumes[i] / whole, fits().conductivity[i].at(t));
        // Water, protein, carbohydrate and ash make the lean; fat and ice lie in it.
        let parts = [part(WATER), part(2), part(4), part(5), part(3), part(ICE)];
        Conductivities {
            parallel: parallel(&parts),
            perpendicular: perpendicular(&parts),
            used: self.conductivity_w_m_k.unwrap_or_else(|| levy_in_turn(&parts)),
        }
    }

    /// m³ of each constituent in a kilogram.
    fn volumes(&self, t: f64) -> [f64; COUNT] {
        let masses = self.masses(self.ice(t));
        std::array::from_fn(|i| masses[i] / fits().density[i].at(t))
    }

    /// kg of each constituent in a kilogram.
    pub(crate) fn masses(&self, ice: f64) -> [f64; COUNT] {
        let s = &self.shares;
        [s.water - ice, ice, s.protein, s.fat, s.carbohydrate, s.ash]
    }
}
