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

use crate::{Composition, Evaporation, Moist};
use catalogue::figures;
use std::sync::LazyLock;

/// Atmospheric pressure, Pa.
pub(crate) const PRESSURE: f64 = 101_325.0;
/// W/(m²·K) with which a surface above 100 °C boils; the order of nucleate boiling, so that it stays within 100–105 °C.
const BOILING: f64 = 8000.0;
const BOILING_FROM_C: f64 = 100.0;
/// Water activity × saturation pressure is held below this share of the pressure; what is above boils.
const LARGEST_SHARE: f64 = 0.97;
/// Newton doubles the digits: a step of a hundredth leaves an error of a ten-thousandth.
const CLOSE: f64 = 1e-2;
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
    /// The part of both that boils.
    pub(crate) boiled: f64,
    pub(crate) boiled_slope: f64,
}

/// The water in the meat.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Wetness {
    /// kg/m³.
    water: f64,
    /// One over the dry lean, m³/kg.
    per_dry: f64,
    /// Latent heat of evaporation, J/kg.
    pub(crate) latent: f64,
    /// Thermal resistance of the crust that a kilogram boiled off a square metre leaves, m²·K/W per kg/m².
    pub(crate) crust: f64,
    /// Share of the water that still may leave: one until a piece has lost most of it.
    wet: f64,
}

/// Below this share of its water a piece gives off the rest ever more slowly: there is no more than all.
const LAST: f64 = 0.2;

impl Wetness {
    /// Without a composition: lean beef, 72 % water.
    pub(crate) fn new(composition: Option<Composition>, density: f64) -> Self {
        let (water, dry) =
            composition.map_or((0.72, 0.26), |c| (c.water, c.protein + c.carbohydrate + c.ash));
        let water = water * density;
        Self {
            water,
            per_dry: 1.0 / (dry.max(0.01) * density),
            latent: figures().latent_evaporation.value,
            // The water of its thickness is gone from it.
            crust: 1.0 / (water.max(1.0) * figures().crust_conductivity.value),
            wet: 1.0,
        }
    }

    /// After `lost` kg of all that `volume` m³ hold have gone.
    pub(crate) fn after(self, lost: f64, volume: f64) -> Self {
        let left = 1.0 - lost / (self.water * volume);
        Self { wet: (left / LAST).clamp(0.0, 1.0), ..self }
    }
}

/// The air side of an evaporating face.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Film {
    /// φ β P, kg/(m²·s).
    strength: f64,
    /// P − p_v, Pa.
    drive: f64,
}

/// The same at a surface temperature.
#[derive(Clone, Copy, Debug)]
struct Near {
    strength: f64,
    drive: f64,
    /// Saturation pressure at the surface, Pa.
    saturated: f64,
}

/// How a face gives off water, seen from its meat: what of it stays the same over a stage.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Water {
    None,
    Boils,
    Wet(Film),
    /// With what times the water drawn is the square of the deficit over the root of the flow: 1.5/(D · lean share), m²·s/kg·(kg/m³)².
    Dries(Film, f64),
}

impl Water {
    /// Of a face of which `share` is bare; under a cover nothing diffuses away, but what boils finds its way out.
    pub(crate) fn new(how: &Evaporation, convective: f64, share: f64) -> Self {
        let film = |moist: &Moist| Film {
            strength: share * moist.lean_share * 0.622 * convective / (1013.0 * 0.9),
            drive: PRESSURE - moist.vapour_pa,
        };
        match how {
            Evaporation::None => Self::None,
            _ if share <= 0.0 => Self::Boils,
            Evaporation::BoilingOnly => Self::Boils,
            Evaporation::Wet(moist) => Self::Wet(film(moist)),
            Evaporation::Drying(moist, supply) => {
                // Deficit √(1.5 m j/D), with both m and j of the lean part alone.
                let lean = (share * moist.lean_share).max(1e-6);
                Self::Dries(film(moist), 1.5 / (supply.diffusivity_m2_s * lean))
            }
        }
    }

    /// What leaves it at `surface_c`, with `drawn` kg/m² gone from below it before; `near` is a flow to start from.
    #[inline]
    pub(crate) fn leaving(&self, surface_c: f64, (drawn, near): (f64, f64), wetness: &Wetness) -> Leaving {
        let mut leaving = match self {
            Self::None => return Leaving::default(),
            Self::Boils => Leaving::default(),
            Self::Wet(film) => film.at(surface_c).leaving(1.0, surface_c),
            Self::Dries(film, pull) => {
                film.at(surface_c).drying((drawn * pull).sqrt(), surface_c, near, wetness)
            }
        };
        let above = surface_c - BOILING_FROM_C;
        if above > 0.0 {
            leaving.boiled_slope = BOILING / wetness.latent;
            leaving.boiled = leaving.boiled_slope * above;
            leaving.vapour += leaving.boiled;
            leaving.slope += leaving.boiled_slope;
        }
        if leaving.vapour > 0.0 && wetness.wet < 1.0 {
            for part in
                [&mut leaving.vapour, &mut leaving.slope, &mut leaving.boiled, &mut leaving.boiled_slope]
            {
                *part *= wetness.wet;
            }
        }
        leaving
    }
}

impl Film {
    fn at(self, surface_c: f64) -> Near {
        let Self { strength, drive } = self;
        Near { strength, drive, saturated: saturation_pa(surface_c) }
    }
}

impl Near {
    /// Flow off a surface of a water activity, and its slope over temperature.
    #[inline]
    fn leaving(&self, activity: f64, surface_c: f64) -> Leaving {
        let at_surface = (activity * self.saturated).min(LARGEST_SHARE * PRESSURE);
        let rest = PRESSURE - at_surface;
        let slope =
            if at_surface < LARGEST_SHARE * PRESSURE { self.rise(at_surface, surface_c) / rest } else { 0.0 };
        Leaving { vapour: self.strength * (self.drive / rest).ln(), slope, ..Leaving::default() }
    }

    /// What a vapour pressure gains for a kelvin, times the film's strength.
    #[inline]
    fn rise(&self, pressure: f64, surface_c: f64) -> f64 {
        let from_pole = 240.97 + surface_c;
        self.strength * pressure * (17.502 * 240.97) / (from_pole * from_pole)
    }

    /// The flow that film and supply agree on. The film's flow falls as the supply's deficit grows, so there is one root in
    /// s = √j; Newton, kept between zero and the flow of a wet surface.
    #[inline]
    fn drying(&self, pull: f64, surface_c: f64, near: f64, wetness: &Wetness) -> Leaving {
        if self.saturated <= PRESSURE - self.drive || pull <= 0.0 {
            return self.leaving(1.0, surface_c);
        }
        let mut high = wetness.water / pull;
        let mut s = near.max(0.0).sqrt();
        if !(s > 0.0 && s < high) {
            high = high.min(self.leaving(1.0, surface_c).vapour.max(0.0).sqrt());
            s = high;
        }
        let mut low = 0.0;
        let (moist, dries) = (wetness.water * wetness.per_dry, pull * wetness.per_dry);
        for _ in 0..60 {
            let x = (moist - dries * s).max(0.0);
            // One quotient each for the activity and for what it leaves of the pressure.
            let per_squares = 1.0 / (x * x + HALF_ACTIVITY * HALF_ACTIVITY);
            let activity = x * x * per_squares;
            let free = activity * self.saturated;
            let per_rest = 1.0 / (PRESSURE - free.min(LARGEST_SHARE * PRESSURE));
            let miss = s * s - self.strength * (self.drive * per_rest).ln();
            if miss > 0.0 {
                high = s;
            } else {
                low = s;
            }
            // The film's flow through activity, moisture and s: it falls as s grows.
            let half = HALF_ACTIVITY * per_squares;
            let activity_slope = 2.0 * x * half * half * dries;
            let slope = 2.0 * s + self.strength * self.saturated * activity_slope * per_rest;
            let newton = s - miss / slope;
            if (newton - s).abs() <= CLOSE * s {
                // Its slope over temperature at the same drawn water: implicit differentiation.
                let film =
                    if free < LARGEST_SHARE * PRESSURE { self.rise(free, surface_c) * per_rest } else { 0.0 };
                return Leaving {
                    vapour: newton * newton,
                    slope: film * 2.0 * s / slope,
                    ..Leaving::default()
                };
            }
            s = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
        }
        Leaving { vapour: s * s, ..Leaving::default() }
    }
}

/// Share of the raw mass pressed out as juice once the meat has been at a temperature, for a lean share of one; tabulated, for it
/// is asked of every cell after every step. Between rows a straight line is within 2e-6.
#[derive(Debug)]
pub(crate) struct Juice {
    rows: Vec<f64>,
}

impl Juice {
    /// Below this, °C, less than a thousandth of the mass is pressed out: none.
    const FROM_C: f64 = 25.0;
    const TO_C: f64 = 250.0;
    const ROWS_PER_K: f64 = 8.0;

    /// The law of the catalogue.
    pub(crate) fn law() -> &'static Self {
        static LAW: LazyLock<Juice> = LazyLock::new(|| {
            let figures = figures();
            let (most, middle) = (figures.juice_share_at_most.value, figures.juice_middle.value);
            let share = |c: f64| most / (1.0 + ((middle - c) / figures.juice_width.value).exp());
            let rows = ((Juice::TO_C - Juice::FROM_C) * Juice::ROWS_PER_K) as u32;
            let at = |row: u32| share(Juice::FROM_C + f64::from(row) / Juice::ROWS_PER_K);
            Juice { rows: (0..=rows).map(at).collect() }
        });
        &LAW
    }

    #[inline]
    pub(crate) fn share(&self, hottest_c: f64) -> f64 {
        let row = (hottest_c - Self::FROM_C) * Self::ROWS_PER_K;
        if row <= 0.0 {
            return 0.0;
        }
        let first = (row as usize).min(self.rows.len() - 2);
        let (low, high) = (self.rows[first], self.rows[first + 1]);
        low + (row - first as f64).min(1.0) * (high - low)
    }
}
