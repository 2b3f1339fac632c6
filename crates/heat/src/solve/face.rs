//! The flow of heat and water through a face at one moment.

use crate::evaporation::{Water, Wetness};
use crate::{Face, Surroundings};

/// m²·K/W: a crust of less is none.
const THIN: f64 = 1e-6;
const STEFAN_BOLTZMANN: f64 = 5.670_374e-8;

/// A face with its medium's temperature of the moment.
#[derive(Clone, Copy, Debug)]
pub(crate) enum FaceNow<'a> {
    Insulated,
    Fixed(f64),
    Open { around: &'a Surroundings, medium_c: f64, water: Water, wetness: Wetness, give: Option<Give> },
}

/// What passes a square metre.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Flow {
    /// Into the meat, W/m².
    pub(crate) heat: f64,
    /// Its slope over the surface temperature; never positive.
    pub(crate) slope: f64,
    /// Out of it, kg/(m²·s).
    pub(crate) vapour: f64,
    /// Its slope over the surface temperature.
    pub(crate) vapour_slope: f64,
    /// The part of both that boils.
    pub(crate) boiled: f64,
    pub(crate) boiled_slope: f64,
}

/// A plate that gives way, seen through one stage of length τ: `C (P − P₀)/τ = r (S − P) − q` makes of it a medium at
/// `(hold P₀ + back S)/(hold + back)` behind a resistance of `1/(hold + back)`, so the step stays as implicit as it was.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Give {
    /// C/τ, W/(m²·K).
    hold: f64,
    /// r, W/(m²·K).
    back: f64,
}

impl Give {
    fn rest_c(self, plate_c: f64, set_c: f64) -> f64 {
        (self.hold * plate_c + self.back * set_c) / (self.hold + self.back)
    }
}

/// What a face cell has been through.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Skin {
    /// Water drawn from below its lean part, kg/m².
    pub(crate) drawn: f64,
    /// Water boiled off it, kg/m²: the crust it left lies outside the face, which stays moist meat at 100 °C.
    pub(crate) boiled: f64,
    /// How fast both grew in the last step, kg/(m² s).
    pub(crate) drying: f64,
    pub(crate) boiling: f64,
    /// The plate against it, °C (none: NaN), and how fast that changed in the stage before, K/s; of a medium that gives way alone.
    pub(crate) plate_c: f64,
    pub(crate) plate_rate: f64,
}

impl Skin {
    /// After `dt` seconds more, going on as it did.
    #[inline]
    pub(crate) fn ahead(self, dt: f64) -> Self {
        Self {
            drawn: (self.drawn + dt * self.drying).max(0.0),
            boiled: (self.boiled + dt * self.boiling).max(0.0),
            ..self
        }
    }
}

impl<'a> FaceNow<'a> {
    /// A face at a moment, seen through a stage of `tau` seconds.
    pub(crate) fn new(face: &'a Face, (time_s, after): (f64, bool), tau: f64, wetness: Wetness) -> Self {
        match face {
            Face::Insulated => Self::Insulated,
            Face::Fixed(course) => Self::Fixed(course.at(time_s, after)),
            Face::Open(around) => Self::Open {
                around,
                medium_c: around.medium.at(time_s, after),
                water: Water::new(&around.evaporation, around.film_w_m2_k, 1.0 - covered_share(around)),
                wetness,
                give: around.reserve.map(|reserve| Give {
                    hold: reserve.capacity_j_m2_k / tau,
                    back: reserve.recovery_w_m2_k,
                }),
            },
        }
    }

    /// After a stage: how fast the plate against a cell changes, K/s, by the heat it gave, and what it holds, J/(m² K); none without a
    /// plate.
    pub(crate) fn plate_rate(&self, skin: Skin, flow: Flow) -> Option<(f64, f64)> {
        let Self::Open { around, medium_c, wetness, give: Some(give), .. } = *self else { return None };
        let given = flow.heat + wetness.latent * flow.vapour;
        let plate_c = give.rest_c(skin.plate_c, medium_c) - given / (give.hold + give.back);
        let reserve = around.reserve?;
        let capacity = reserve.capacity_j_m2_k;
        Some(((plate_c - skin.plate_c) * give.hold / capacity, capacity))
    }

    /// What passes at a surface temperature; `near` is a flow of vapour to start from.
    #[inline]
    pub(crate) fn flow(&self, surface_c: f64, skin: Skin, near: f64) -> Flow {
        match self {
            Self::Insulated | Self::Fixed(_) => Flow::default(),
            Self::Open { around, medium_c, water, wetness, give } => {
                open(around, (*medium_c, *give), (water, wetness), surface_c, (skin, near))
            }
        }
    }
}

fn covered_share(around: &Surroundings) -> f64 {
    if around.cover_m2_k_w > 0.0 { around.cover_share } else { 0.0 }
}

#[inline]
fn open(
    around: &Surroundings,
    (medium_c, give): (f64, Option<Give>),
    (water, wetness): (&Water, &Wetness),
    surface_c: f64,
    (skin, near): (Skin, f64),
) -> Flow {
    let (medium_c, film) = match give {
        Some(give) => {
            let whole = give.hold + give.back;
            (give.rest_c(skin.plate_c, medium_c), around.film_w_m2_k * whole / (around.film_w_m2_k + whole))
        }
        None => (medium_c, around.film_w_m2_k),
    };
    let bare = |t: f64| {
        let mut heat = film * (medium_c - t);
        let mut slope = -film;
        if around.emissivity > 0.0 {
            let (seen, own) = (medium_c + around.radiant_above_k + 273.15, (t + 273.15).max(0.0));
            let strength = around.emissivity * STEFAN_BOLTZMANN;
            let (seen, squared) = (seen * seen, own * own);
            heat += strength * (seen * seen - squared * squared);
            slope -= 4.0 * strength * squared * own;
        }
        (heat, slope)
    };
    let share = covered_share(around);
    let crust = skin.boiled * wetness.crust;
    let (mut heat, mut slope) = if crust > THIN { covered(bare, crust, surface_c) } else { bare(surface_c) };
    if share > 0.0 {
        let under = covered(bare, around.cover_m2_k_w + crust, surface_c);
        (heat, slope) = (heat + share * (under.0 - heat), slope + share * (under.1 - slope));
    }
    if let Water::None = water {
        return Flow { heat, slope, ..Flow::default() };
    }
    // A trial step may be far off; the vapour curve has a pole at −241 °C.
    let water = water.leaving(surface_c.clamp(-100.0, 500.0), (skin.drawn, near), wetness);
    let latent = wetness.latent;
    Flow {
        heat: heat - latent * water.vapour,
        slope: slope - latent * water.slope,
        vapour: water.vapour,
        vapour_slope: water.slope,
        boiled: water.boiled,
        boiled_slope: water.boiled_slope,
    }
}

/// Film and radiation act on the outside of the cover; Newton for its temperature.
fn covered(bare: impl Fn(f64) -> (f64, f64), resistance: f64, surface_c: f64) -> (f64, f64) {
    let mut outside = surface_c;
    let mut outer = bare(outside);
    for _ in 0..8 {
        let miss = outer.0 - (outside - surface_c) / resistance;
        let step = miss / (1.0 / resistance - outer.1);
        outside += step;
        outer = bare(outside);
        // Radiation bends so little that Newton leaves a millionth of this.
        if step.abs() < 1e-3 {
            break;
        }
    }
    ((outside - surface_c) / resistance, -1.0 / (resistance - 1.0 / outer.1.min(-1e-12)))
}
