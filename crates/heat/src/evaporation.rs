//! Water leaving a face, and the juice that comes to meet it.
//!
//! # Equations
//! j = φ β P ln[(P − p_v)/(P − a_w p_s(T))] in kg/(m²·s), with β = 0.622 h/(1013 P 0.9) (Lewis; h is the convective part
//! alone) and p_s = 611.21 exp(17.502 T/(240.97 + T)). The logarithm is the Stefan flow: 13 % at 60 °C, 73 % at 90 °C.
//! Below the dew point j is negative: condensation, which heats. Above 100 °C the surface boils.
//!
//! A *drying* face has a parabolic moisture profile below it: after m kg/m² have been drawn, a flow j leaves the surface at
//! C_s = C_0 − √(1.5 m j/D), whose water activity is X²/(X² + 0.12²) with X = C_s/ρ_dry. Against exact diffusion that is
//! 2 % off for a dry surface, 9 % for a constant flow.

use crate::{Composition, Evaporation, Moist, Supply};
use catalogue::figures;

/// Atmospheric pressure, Pa.
pub(crate) const PRESSURE: f64 = 101_325.0;
/// W/(m²·K) with which a surface above 100 °C boils; the order of nucleate boiling, so that it stays within 100–105 °C.
const BOILING: f64 = 8000.0;
const BOILING_FROM_C: f64 = 100.0;
/// Water activity × saturation pressure is held below this share of the pressure; what is above boils.
const LARGEST_SHARE: f64 = 0.97;
/// kg water per kg of dry lean at which the water activity is one half.
const HALF_ACTIVITY: f64 = 0.12;

/// Saturation pressure of water, Pa at °C (Buck 1981, from memory: within 0.2 % of tables to 100 °C).
#[must_use]
pub fn saturation_pa(celsius: f64) -> f64 {
    611.21 * (17.502 * celsius / (240.97 + celsius)).exp()
}

/// Vapour pressure of air of a relative humidity (0 to 1), Pa; never above the atmosphere's own.
#[must_use]
pub fn vapour_from_humidity(relative: f64, air_c: f64) -> f64 {
    (relative * saturation_pa(air_c)).min(LARGEST_SHARE * PRESSURE)
}

/// Vapour pressure of air whose wet thermometer shows `wet_c`, Pa (psychrometer constant 66 Pa/K, ventilated).
#[must_use]
pub fn vapour_from_wet_bulb(wet_c: f64, air_c: f64) -> f64 {
    (saturation_pa(wet_c) - 66.0 * (air_c - wet_c)).max(0.0)
}

/// A flow of water and of the heat it takes, per m² of face.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Leaving {
    /// kg/(m²·s).
    pub(crate) vapour: f64,
    /// Its slope over the surface temperature.
    pub(crate) slope: f64,
}

/// Water in the meat, kg/m³, and dry lean, kg/m³.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Wetness {
    pub(crate) water: f64,
    pub(crate) dry: f64,
}

impl Wetness {
    /// Without a composition: lean beef, 72 % water.
    pub(crate) fn new(composition: Option<Composition>, density: f64) -> Self {
        let (water, dry) =
            composition.map_or((0.72, 0.26), |c| (c.water, c.protein + c.carbohydrate + c.ash));
        Self { water: water * density, dry: dry.max(0.01) * density }
    }
}

/// What leaves a face at `surface_c`, with `drawn` kg/m² gone from below it before.
#[inline]
pub(crate) fn leaving(
    how: &Evaporation,
    convective: f64,
    surface_c: f64,
    drawn: f64,
    wetness: Wetness,
) -> Leaving {
    let mut leaving = match how {
        Evaporation::None => return Leaving::default(),
        Evaporation::BoilingOnly => Leaving::default(),
        Evaporation::Wet(moist) => wet(moist, convective, surface_c, 1.0),
        Evaporation::Drying(moist, supply) => drying(moist, supply, convective, surface_c, drawn, wetness),
    };
    let above = surface_c - BOILING_FROM_C;
    if above > 0.0 {
        let latent = figures().latent_evaporation.value;
        leaving.vapour += BOILING * above / latent;
        leaving.slope += BOILING / latent;
    }
    leaving
}

/// The whole face as wet as `activity` says.
#[inline]
fn wet(moist: &Moist, convective: f64, surface_c: f64, activity: f64) -> Leaving {
    let film = moist.lean_share * 0.622 * convective / (1013.0 * 0.9);
    let saturated = saturation_pa(surface_c);
    let at_surface = (activity * saturated).min(LARGEST_SHARE * PRESSURE);
    let vapour = film * ((PRESSURE - moist.vapour_pa) / (PRESSURE - at_surface)).ln();
    let slope = if at_surface < LARGEST_SHARE * PRESSURE {
        let curve = saturated * 17.502 * 240.97 / (240.97 + surface_c).powi(2);
        film * activity * curve / (PRESSURE - at_surface)
    } else {
        0.0
    };
    Leaving { vapour, slope }
}

/// The flow that film and supply agree on. The film's flow falls as the supply's deficit grows, so there is one root;
/// Newton from the wet flow, kept between zero and it.
#[inline]
fn drying(
    moist: &Moist,
    supply: &Supply,
    convective: f64,
    surface_c: f64,
    drawn: f64,
    wetness: Wetness,
) -> Leaving {
    let free = wet(moist, convective, surface_c, 1.0);
    let share = moist.lean_share;
    if free.vapour <= 0.0 || drawn <= 0.0 || share <= 0.0 {
        return free;
    }
    // Deficit √(1.5 m j/D), with both m and j of the lean part alone: s = √j is the unknown.
    let pull = (1.5 * drawn / supply.diffusivity_m2_s / share).sqrt();
    let most = (wetness.water / pull).min(free.vapour.sqrt());
    let (mut low, mut high) = (0.0, most);
    let mut s = most;
    let mut found = free;
    for _ in 0..40 {
        let x = ((wetness.water - pull * s) / wetness.dry).max(0.0);
        let activity = x * x / (x * x + HALF_ACTIVITY * HALF_ACTIVITY);
        found = wet(moist, convective, surface_c, activity);
        let miss = s * s - found.vapour;
        if miss > 0.0 {
            high = s;
        } else {
            low = s;
        }
        // d activity/ds through x, and the film's answer to it.
        let squares = x * x + HALF_ACTIVITY * HALF_ACTIVITY;
        let activity_slope =
            -2.0 * x * HALF_ACTIVITY * HALF_ACTIVITY / (squares * squares) * pull / wetness.dry;
        let saturated = saturation_pa(surface_c);
        let film = share * 0.622 * convective / (1013.0 * 0.9);
        let vapour_slope = film * saturated * activity_slope
            / (PRESSURE - (activity * saturated).min(LARGEST_SHARE * PRESSURE));
        let slope = 2.0 * s - vapour_slope;
        let newton = s - miss / slope;
        if (newton - s).abs() < 1e-9 * most {
            // The slope over temperature at fixed supply law: implicit differentiation.
            let vapour = (s * s).min(found.vapour.max(0.0));
            return Leaving { vapour, slope: found.slope * 2.0 * s / slope };
        }
        s = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
    }
    Leaving { vapour: s * s, slope: 0.5 * found.slope }
}

/// Share of the raw mass pressed out as juice once the meat has been at `hottest_c`, for a lean share of one.
#[inline]
pub(crate) fn juice_share(hottest_c: f64) -> f64 {
    let figures = figures();
    let (most, middle, width) =
        (figures.juice_share_at_most.value, figures.juice_middle.value, figures.juice_width.value);
    most / (1.0 + (-(hottest_c - middle) / width).exp())
}
