//! Colour: how far the myoglobin is denatured.
//!
//! First order, k = k₀ exp(−E/RT), with the constants of beef chuck; the loin is about twice as fast. A share beyond 93 %
//! is *grey* here: the limit at which the source calls the meat well done. Because it is a rate, the same temperature held
//! for long turns more of it: in a two-hour bath at 57 °C all of it is beyond half, none beyond 93 %.
//!
//! # Source
//! Geileskey et al. (1998), as quoted in a thesis (secondary). Single steaks stray by a step of the doneness scale.

use catalogue::figures;
use std::f64::consts::LN_10;

/// Denatured share from which a layer counts as grey.
pub const GREY: f64 = 0.93;

/// J/(mol·K).
const GAS: f64 = 8.314;

/// ln of the denaturation rate of loin in 1/s at a temperature in °C.
///
/// k₀ alone overflows a 32-bit number, so the rate is handled by its logarithm.
#[must_use]
pub fn ln_rate(celsius: f64) -> f64 {
    let figures = figures();
    figures.myoglobin_ln_k0.value + figures.myoglobin_loin_to_chuck.value.ln()
        - figures.myoglobin_energy.value / (GAS * (celsius + 273.15))
}

/// Denatured share after a dose ∫k dt.
#[must_use]
pub fn denatured(dose: f64) -> f64 {
    -(-dose).exp_m1()
}

/// ln of the decimal death rate (powers of ten per second) of an organism at a temperature in °C.
#[must_use]
pub fn ln_death_rate(organism: &crate::Organism, celsius: f64) -> f64 {
    (celsius - organism.at_c) / organism.z_k * LN_10 - organism.d_s.ln()
}
