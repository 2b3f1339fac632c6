//! Conductivity of a mixture from the conductivities of its parts.
//!
//! The parallel and the perpendicular bound hold whatever the structure. Between them stands Levy's model, the best of
//! several on lamb, offal and fat from −40 to 30 °C (errors within 10 %; Pham & Willix 1989, abstract). It mixes two
//! phases and does not care which is called first, so the parts are mixed in one after the other: protein, carbohydrate
//! and ash into the water, then the fat, then the ice.

/// Heat along the layers: Σ vᵢ kᵢ; volume shares, W/(m·K).
#[must_use]
pub fn parallel(parts: &[(f64, f64)]) -> f64 {
    parts.iter().map(|(v, k)| v * k).sum()
}

/// Heat across the layers: 1 / Σ vᵢ/kᵢ; volume shares, W/(m·K).
#[must_use]
pub fn perpendicular(parts: &[(f64, f64)]) -> f64 {
    1.0 / parts.iter().map(|(v, k)| v / k).sum::<f64>()
}

/// Levy's model of two phases: `share` is the volume share of the phase that conducts `k1`; W/(m·K).
///
/// Source: ASHRAE Handbook – Refrigeration, thermal properties of foods (from memory); checked by
/// `tests/published/two_phase_conductivity.rs`.
#[must_use]
pub fn levy(share: f64, k1: f64, k2: f64) -> f64 {
    let a = k1 / k2;
    if (a - 1.0).abs() < 1e-9 {
        return k2;
    }
    let sigma = (a - 1.0).powi(2) / ((a + 1.0).powi(2) + a / 2.0);
    let b = 2.0 / sigma - 1.0 + 2.0 * share;
    let f = 0.5 * (b - (b * b - 8.0 * share / sigma).sqrt());
    k2 * ((2.0 + a) + 2.0 * (a - 1.0) * f) / ((2.0 + a) - (a - 1.0) * f)
}

/// Levy's model of many phases, mixed in one after the other in the order given.
pub(crate) fn levy_in_turn(parts: &[(f64, f64)]) -> f64 {
    let mut volume = 0.0;
    let mut k = f64::NAN;
    for &(v, k_part) in parts.iter().filter(|(v, _)| *v > 0.0) {
        volume += v;
        k = if k.is_nan() { k_part } else { levy(v / volume, k_part, k) };
    }
    k
}
