//! One face for the four kinds of material.

use super::composed::Composed;
use super::constituents::fits;
use super::enthalpy;
use crate::{Composition, Constants, Frozen, HeatError, Measured, Overrides};

/// Properties at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Properties {
    /// °C.
    pub c: f64,
    /// kg ice per kg meat; with frozen constants 1 below the freezing point.
    pub ice_share: f64,
    /// kg/m³ with the ice of that temperature.
    pub density_kg_m3: f64,
    /// Apparent, the freezing of the next ice included, J/(kg·K).
    pub specific_heat_j_kg_k: f64,
    /// Upper bound, heat along the layers, W/(m·K).
    pub conductivity_parallel_w_m_k: f64,
    /// Lower bound, heat across the layers, W/(m·K).
    pub conductivity_perpendicular_w_m_k: f64,
    /// The one used, W/(m·K).
    pub conductivity_w_m_k: f64,
    /// Zero at −40 °C (with a measured table at its own zero), J/kg.
    pub enthalpy_j_kg: f64,
}

/// A material.
#[derive(Clone, Debug)]
pub(crate) enum Law {
    Composed(Composed),
    Constant(Constants),
    Sharp { thawed: Constants, frozen: Frozen },
    Measured(Measured),
}

/// Enthalpies are reported from here, °C.
const ZERO_C: f64 = -40.0;

impl Law {
    pub(crate) fn composed(shares: Composition, overrides: &Overrides) -> Result<Self, HeatError> {
        Ok(Self::Composed(Composed::new(shares, overrides)?))
    }

    pub(crate) fn constant(constants: Constants) -> Self {
        Self::Constant(constants)
    }

    pub(crate) fn sharp(thawed: Constants, frozen: Frozen) -> Self {
        Self::Sharp { thawed, frozen }
    }

    pub(crate) fn measured(table: Measured) -> Result<Self, HeatError> {
        check_measured(&table)?;
        Ok(Self::Measured(table))
    }

    pub(crate) fn at(&self, t: f64) -> Properties {
        let plain = |of: &Constants, ice_share: f64| Properties {
            c: t,
            ice_share,
            density_kg_m3: of.density_kg_m3,
            specific_heat_j_kg_k: of.specific_heat_j_kg_k,
            conductivity_parallel_w_m_k: of.conductivity_w_m_k,
            conductivity_perpendicular_w_m_k: of.conductivity_w_m_k,
            conductivity_w_m_k: of.conductivity_w_m_k,
            enthalpy_j_kg: self.enthalpy(t) - self.zero(),
        };
        match self {
            Self::Composed(meat) => {
                let k = meat.conductivities(t);
                Properties {
                    c: t,
                    ice_share: meat.ice(t),
                    density_kg_m3: meat.density(t),
                    specific_heat_j_kg_k: enthalpy::specific_heat(meat, t),
                    conductivity_parallel_w_m_k: k.parallel,
                    conductivity_perpendicular_w_m_k: k.perpendicular,
                    conductivity_w_m_k: k.used,
                    enthalpy_j_kg: self.enthalpy(t) - self.zero(),
                }
            }
            Self::Constant(constants) => plain(constants, 0.0),
            Self::Sharp { thawed, frozen } if t >= frozen.freezing_point_c => plain(thawed, 0.0),
            Self::Sharp { frozen, .. } => plain(&frozen.constants, 1.0),
            Self::Measured(table) => {
                let constants = Constants {
                    conductivity_w_m_k: self.conductivity(t),
                    specific_heat_j_kg_k: slope(&table.c, &table.enthalpy_j_kg, t),
                    density_kg_m3: table.density_kg_m3,
                };
                plain(&constants, 0.0)
            }
        }
    }

    /// J/kg from a zero of the law's own. A sharp front is taken at its thawed side.
    pub(crate) fn enthalpy(&self, t: f64) -> f64 {
        match self {
            Self::Composed(meat) => enthalpy::enthalpy(meat, t),
            Self::Constant(constants) => constants.specific_heat_j_kg_k * t,
            Self::Sharp { thawed, frozen } => {
                let above = t - frozen.freezing_point_c;
                if above >= 0.0 {
                    thawed.specific_heat_j_kg_k * above
                } else {
                    frozen.constants.specific_heat_j_kg_k * above - frozen.latent_j_kg
                }
            }
            Self::Measured(table) => between(&table.c, &table.enthalpy_j_kg, t),
        }
    }

    /// The one used, W/(m·K).
    pub(crate) fn conductivity(&self, t: f64) -> f64 {
        match self {
            Self::Composed(meat) => meat.conductivities(t).used,
            Self::Constant(constants) => constants.conductivity_w_m_k,
            Self::Sharp { thawed, frozen } => {
                if t >= frozen.freezing_point_c {
                    thawed.conductivity_w_m_k
                } else {
                    frozen.constants.conductivity_w_m_k
                }
            }
            Self::Measured(table) => between(&table.c, &table.conductivity_w_m_k, t),
        }
    }

    pub(crate) fn ice_share(&self, t: f64, h: f64) -> f64 {
        match self {
            Self::Composed(meat) => meat.ice(t),
            Self::Constant(_) | Self::Measured(_) => 0.0,
            Self::Sharp { frozen, .. } => {
                (-h / (frozen.constants.density_kg_m3 * frozen.latent_j_kg)).clamp(0.0, 1.0)
            }
        }
    }

    pub(crate) fn freezing_point_c(&self) -> Option<f64> {
        match self {
            Self::Composed(meat) => Some(meat.freezing_point_c),
            Self::Sharp { frozen, .. } => Some(frozen.freezing_point_c),
            Self::Constant(_) | Self::Measured(_) => None,
        }
    }

    pub(crate) fn fitted_c(&self) -> (f64, f64) {
        match self {
            Self::Composed(_) => fits().fitted_c,
            Self::Constant(_) | Self::Sharp { .. } => (-273.15, 2000.0),
            Self::Measured(table) => (table.c[0], table.c[table.c.len() - 1]),
        }
    }

    fn zero(&self) -> f64 {
        match self {
            Self::Measured(_) => 0.0,
            _ => self.enthalpy(ZERO_C),
        }
    }
}

fn check_measured(table: &Measured) -> Result<(), HeatError> {
    let rows = table.c.len();
    for (what, column) in [("enthalpy", &table.enthalpy_j_kg), ("conductivity", &table.conductivity_w_m_k)] {
        if rows < 2 || column.len() != rows {
            let what = format!("measured {what}");
            return Err(HeatError::Rows {
                what,
                found: column.len(),
                needed: "as many as temperatures, two at least",
            });
        }
    }
    for (what, column) in [("temperature", &table.c), ("enthalpy", &table.enthalpy_j_kg)] {
        if let Some(row) = (1..rows).find(|&i| !(column[i] > column[i - 1] && column[i].is_finite())) {
            return Err(HeatError::NotRising { what: format!("measured {what}"), row: row + 1 });
        }
    }
    for &k in &table.conductivity_w_m_k {
        HeatError::check(
            "measured conductivity",
            k,
            (1e-3, 1e3),
            "W/(m K)",
            "meat: 0.48 thawed, 1.5 frozen",
        )?;
    }
    HeatError::check("measured temperature", table.c[0], (-273.15, 2000.0), "°C", "rising rows")?;
    HeatError::check("density", table.density_kg_m3, (1.0, 3e4), "kg/m³", "meat: about 1050")
}

/// The row whose stretch to the next one holds `x`; ends are carried on.
fn stretch(xs: &[f64], x: f64) -> usize {
    xs.partition_point(|&at| at <= x).clamp(1, xs.len() - 1) - 1
}

fn slope(xs: &[f64], ys: &[f64], x: f64) -> f64 {
    let i = stretch(xs, x);
    (ys[i + 1] - ys[i]) / (xs[i + 1] - xs[i])
}

fn between(xs: &[f64], ys: &[f64], x: f64) -> f64 {
    let i = stretch(xs, x);
    ys[i] + slope(xs, ys, x) * (x - xs[i])
}
