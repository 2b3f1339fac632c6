//! Colour: how far the myoglobin is denatured.
//!
//! First order, k = k₀ exp(−E/RT), with the constants of beef chuck; the loin is about twice as fast. A share beyond 93 %
//! is *grey* here: the limit at which the source calls the meat well done. Because it is a rate, the same temperature held
//! for long turns more of it: in a two-hour bath at 57 °C all of it is beyond half, none beyond 93 %.
//!
//! # Source
//! Geileskey et al. (1998), as quoted in a thesis (secondary). Single steaks stray by a step of the doneness scale.

use crate::Layer;
use catalogue::figures;
use quantity::Span;
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

/// Share of a section that is grey once all of it has been held at `celsius` for `held`, as [`crate::History::section`] gives it.
///
/// The logarithm of the dose is straight between layers. A section of fewer than two layers has no share: 0.
#[must_use]
pub fn grey_after(section: &[Layer], celsius: f64, held: Span) -> f64 {
    let more = ln_rate(celsius).exp() * held.s();
    let limit = (-(1.0 - GREY).ln()).ln();
    let over = |layer: &Layer| ((-(-layer.colour_share).ln_1p()).max(0.0) + more).max(1e-300).ln() - limit;
    let (mut grey, mut whole) = (0.0, 0.0);
    for pair in section.windows(2) {
        let (a, b) = (over(&pair[0]), over(&pair[1]));
        let share = match (a > 0.0, b > 0.0) {
            (true, true) => 1.0,
            (false, false) => 0.0,
            // A wholly denatured layer has no finite logarithm: its neighbour decides.
            _ if !(a - b).is_finite() => 0.5,
            _ => a.max(b) / (a - b).abs(),
        };
        let depth = pair[1].depth_m - pair[0].depth_m;
        grey += share * depth;
        whole += depth;
    }
    if whole > 0.0 { (grey / whole).min(1.0) } else { 0.0 }
}

/// How long a piece may be held at `celsius` until more than `share` of its section is grey; a week at most, nothing where more is
/// grey already. What hygiene allows is another limit, and the shorter of the two counts.
#[must_use]
pub fn hold_limit(section: &[Layer], celsius: f64, share: f64) -> Span {
    let is_over = |s: f64| grey_after(section, celsius, Span::from_s(s)) > share;
    let (mut low, mut high) = (0.0, crate::Stage::LONGEST.s());
    if is_over(low) || !is_over(high) {
        return Span::from_s(if is_over(low) { low } else { high });
    }
    while high - low > 1.0 {
        let middle = 0.5 * (low + high);
        if is_over(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    Span::from_s(low)
}

/// ln of the decimal death rate (powers of ten per second) of an organism at a temperature in °C.
#[must_use]
pub fn ln_death_rate(organism: &crate::Organism, celsius: f64) -> f64 {
    (celsius - organism.at_c) / organism.z_k * LN_10 - organism.d_s.ln()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn section(shares: [f64; 3]) -> Vec<Layer> {
        let layer =
            |(i, colour_share): (usize, f64)| Layer { depth_m: 0.01 * i as f64, c: 57.0, colour_share };
        shares.into_iter().enumerate().map(layer).collect()
    }

    /// The loin's rate at 57 °C is 0.02084 a minute (twice the formula's 0.01042, computed): red turns grey after
    /// −ln(0.07)/0.02084 = 127.6 min, half turned after 94.3.
    #[test]
    fn a_hold_ends_where_the_kinetics_say() {
        for (share, minutes) in [(0.0, 127.6), (0.5, 94.3)] {
            let limit = hold_limit(&section([share; 3]), 57.0, 0.5);
            assert!((limit.min() - minutes).abs() < 0.3, "{} for {minutes}", limit.min());
        }
        assert!(hold_limit(&section([0.0; 3]), 50.0, 0.5).h() > 20.0, "at 50 °C it keeps its colour");
    }

    /// A seared rim is grey from the start; the middle follows, and never less is grey than before.
    #[test]
    fn a_rim_stays_grey() {
        let seared = section([1.0, 0.4, 0.1]);
        let shares: Vec<f64> =
            (0..40).map(|i| grey_after(&seared, 57.0, Span::from_min(5.0 * f64::from(i)))).collect();
        assert!(shares.windows(2).all(|pair| pair[1] >= pair[0] - 1e-12) && shares[39] > 0.999, "{shares:?}");
        assert!(hold_limit(&seared, 57.0, 0.1).s() < 1.0);
    }
}
