//! Enthalpy of a composition.
//!
//! h(t) = Σ xᵢ ∫cᵢ dt with all water liquid, less the ice times the latent heat at t. The latent heat falls below 0 °C with
//! the difference of the two specific heats, so the way (freeze first, then cool, or the other way round) does not matter.

use super::composed::Composed;
use super::constituents::{ICE, WATER, fits};
use catalogue::figures;

/// J/kg from 0 °C thawed.
pub(crate) fn enthalpy(meat: &Composed, t: f64) -> f64 {
    sensible(meat, t) - meat.ice(t) * latent(meat, t)
}

/// Apparent specific heat, the freezing of the next ice included: the slope of [`enthalpy`], J/(kg·K).
pub(crate) fn specific_heat(meat: &Composed, t: f64) -> f64 {
    let ice = meat.ice(t);
    let frozen = if ice > 0.0 {
        let ice_slope = (meat.shares.water - meat.bound_water) * meat.freezing_point_c / (t * t);
        -ice_slope * latent(meat, t)
    } else {
        0.0
    };
    frozen
        + match meat.specific_heat_j_kg_k {
            Some(constant) => constant,
            None => meat.masses(ice).iter().zip(&fits().specific_heat).map(|(x, c)| x * c.at(t)).sum(),
        }
}

fn sensible(meat: &Composed, t: f64) -> f64 {
    match meat.specific_heat_j_kg_k {
        Some(constant) => constant * t,
        None => meat.masses(0.0).iter().zip(&fits().specific_heat).map(|(x, c)| x * c.integral(t)).sum(),
    }
}

/// Latent heat of fusion at a temperature, J/kg.
fn latent(meat: &Composed, t: f64) -> f64 {
    let at_zero = figures().latent_fusion.value;
    match meat.specific_heat_j_kg_k {
        // One specific heat for both phases: the latent heat does not change either.
        Some(_) => at_zero,
        None => at_zero + fits().specific_heat[WATER].integral(t) - fits().specific_heat[ICE].integral(t),
    }
}
