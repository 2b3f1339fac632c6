//! The reference lean meat: 71.7 % water, Chen's enthalpy from −1.7 °C, conductivity 0.48 + 1.02 (1 − tf/t) W/(m·K) below it.
//! Closed forms both ways, for the rivals, and a table of the same for ours.

use heat::{HeatError, Measured, Meat};

pub(crate) const TF: f64 = -1.7;
pub(crate) const DENSITY: f64 = 1050.0;
const SOLIDS: f64 = 0.283;
const SLOPE: f64 = 1.55 + 1.26 * SOLIDS;
const MELT: f64 = -(0.717 - 0.08496) * 333.6 * TF / 40.0;
const AT_TF: f64 = (TF + 40.0) * (SLOPE - MELT / TF);
/// J/(m³ K) of the thawed meat.
pub(crate) const ABOVE: f64 = 1e3 * DENSITY * (4.19 - 2.30 * SOLIDS - 0.628 * SOLIDS * SOLIDS * SOLIDS);

/// J/m³ from the freezing point.
pub(crate) fn enthalpy(t: f64) -> f64 {
    if t < TF { 1e3 * DENSITY * ((t + 40.0) * (SLOPE - MELT / t) - AT_TF) } else { ABOVE * (t - TF) }
}

/// °C; below the freezing point the root of a quadratic.
pub(crate) fn temperature(h: f64) -> f64 {
    if h >= 0.0 {
        return TF + h / ABOVE;
    }
    let b = 40.0 * SLOPE - MELT - (h / (1e3 * DENSITY) + AT_TF);
    (-b - (b * b + 160.0 * SLOPE * MELT).sqrt()) / (2.0 * SLOPE)
}

/// ∫k dT from the freezing point, W/m.
pub(crate) fn theta(t: f64) -> f64 {
    if t < TF { 1.5 * (t - TF) - 1.02 * TF * (t / TF).ln() } else { 0.48 * (t - TF) }
}

pub(crate) fn conductivity(t: f64) -> f64 {
    if t < TF { 1.5 - 1.02 * TF / t } else { 0.48 }
}

/// J/(m³ K).
pub(crate) fn heat_capacity(t: f64) -> f64 {
    if t < TF { 1e3 * DENSITY * (SLOPE + 40.0 * MELT / (t * t)) } else { ABOVE }
}

/// The same meat for our solver: rows dense just below the freezing point, where the curve bends.
pub(crate) fn meat() -> Result<Meat, HeatError> {
    let mut c: Vec<f64> = (0..=4000).map(|i| TF - 38.3 * (f64::from(4000 - i) / 4000.0).powi(3)).collect();
    c[0] = -40.0;
    c.extend([0.0, 20.0, 60.0, 120.0]);
    Meat::measured(Measured {
        enthalpy_j_kg: c.iter().map(|t| enthalpy(*t) / DENSITY).collect(),
        conductivity_w_m_k: c.iter().map(|t| conductivity(*t)).collect(),
        c,
        density_kg_m3: DENSITY,
    })
}
