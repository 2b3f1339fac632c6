//! Faces from the numbers of one member.

use super::door::Door;
use crate::evaporation::{vapour_from_humidity, vapour_from_wet_bulb};
use crate::{Course, Evaporation, Face, Faces, Moist, Reserve, Supply, Surroundings};
use catalogue::{Drying, MediumKind};
use quantity::Temperature;

/// Everything that makes the faces of one stage, one number each.
#[derive(Clone, Copy, Debug)]
pub(super) struct Numbers {
    pub(super) kind: MediumKind,
    pub(super) evaporation: Drying,
    pub(super) medium_c: f64,
    pub(super) film: f64,
    pub(super) emissivity: f64,
    pub(super) radiant_above_k: f64,
    pub(super) moisture: Moisture,
    pub(super) reserve: Option<Reserve>,
    pub(super) door: Option<Door>,
    pub(super) bottom_share: f64,
    pub(super) tented: bool,
    pub(super) cover_m2_k_w: f64,
    pub(super) lean_share: f64,
    pub(super) supply: Supply,
    pub(super) over: Over,
}

/// The air over a piece that lies on a pan or a fire.
#[derive(Clone, Copy, Debug)]
pub(super) struct Over {
    pub(super) medium_c: f64,
    pub(super) film: f64,
    pub(super) emissivity: f64,
}

/// How the moisture of the air is told.
#[derive(Clone, Copy, Debug)]
pub(super) enum Moisture {
    Pressure(f64),
    Relative(f64),
}

/// Foil over a resting piece: half the film, half the radiation, and the water stays in.
const TENT: f64 = 0.5;
/// Kitchen air above a hob: half saturated at 20 °C, and what the piece gives off is carried up. Pa.
const KITCHEN_VAPOUR: f64 = 1200.0;

pub(super) fn faces(n: &Numbers) -> Faces {
    let around = Surroundings {
        medium: match n.door {
            Some(door) => door.course(n.medium_c),
            None => Course::Steady(Temperature::from_c(n.medium_c)),
        },
        film_w_m2_k: n.film,
        emissivity: n.emissivity,
        radiant_above_k: n.radiant_above_k,
        cover_m2_k_w: n.cover_m2_k_w,
        cover_share: 1.0,
        evaporation: evaporation(n, n.evaporation, vapour(n)),
        reserve: n.reserve,
    };
    match n.kind {
        MediumKind::Liquid => Faces::all(Face::Open(around)),
        MediumKind::Air => {
            let mut around = around;
            if n.tented {
                around.film_w_m2_k *= TENT;
                around.emissivity *= TENT;
                around.evaporation = Evaporation::BoilingOnly;
            }
            let below = Surroundings {
                film_w_m2_k: around.film_w_m2_k * n.bottom_share,
                emissivity: (around.emissivity * n.bottom_share).min(1.0),
                ..around.clone()
            };
            Faces { bottom: Face::Open(below), ..Faces::all(Face::Open(around)) }
        }
        MediumKind::Below => {
            let over = Surroundings {
                medium: Course::Steady(Temperature::from_c(n.over.medium_c)),
                film_w_m2_k: n.over.film,
                emissivity: n.over.emissivity,
                radiant_above_k: 0.0,
                cover_m2_k_w: n.cover_m2_k_w,
                cover_share: 1.0,
                evaporation: evaporation(n, Drying::Drying, KITCHEN_VAPOUR),
                reserve: None,
            };
            Faces { bottom: Face::Open(around), ..Faces::all(Face::Open(over)) }
        }
    }
}

fn vapour(n: &Numbers) -> f64 {
    match n.moisture {
        Moisture::Pressure(pa) => pa.clamp(0.0, 95_000.0),
        Moisture::Relative(share) => vapour_from_humidity(share.clamp(0.0, 1.0), n.medium_c),
    }
}

fn evaporation(n: &Numbers, how: Drying, vapour_pa: f64) -> Evaporation {
    if n.cover_m2_k_w > 0.0 && how != Drying::None {
        return Evaporation::BoilingOnly;
    }
    let moist = Moist { vapour_pa, lean_share: n.lean_share };
    match how {
        Drying::None => Evaporation::None,
        Drying::Wet => Evaporation::Wet(moist),
        Drying::Drying => Evaporation::Drying(moist, n.supply),
        Drying::BoilingOnly => Evaporation::BoilingOnly,
    }
}

/// Vapour pressure of air whose wet thermometer shows `wet_c`, as a relative humidity for a [`super::StageQuestion`].
#[must_use]
pub fn humidity_from_wet_bulb(wet_c: f64, air_c: f64) -> f64 {
    (vapour_from_wet_bulb(wet_c, air_c) / crate::saturation_pa(air_c)).clamp(0.0, 1.0)
}
