//! What a face sees: the medium and its temperature, film, radiation, contact, evaporation.

use crate::HeatError;
use quantity::{Span, Temperature};

/// A temperature over time within one stage.
#[derive(Clone, Debug, PartialEq)]
pub enum Course {
    /// One temperature throughout.
    Steady(Temperature),
    /// Logged or planned rows, linear between, held before the first and after the last. Time counts from the start of
    /// the stage; two rows at one moment are a step.
    Series(Vec<(Span, Temperature)>),
}

/// What surrounds a piece. A shape without sides ignores `sides`.
#[derive(Clone, Debug, PartialEq)]
pub struct Faces {
    /// Over the top face.
    pub top: Face,
    /// Under the bottom face.
    pub bottom: Face,
    /// Around the rim; the two long sides of a brick or a roast.
    pub sides: Face,
    /// The two ends of a brick or a roast, where they see something else than its sides.
    pub ends: Option<Face>,
}

impl Faces {
    /// The same surroundings on every face.
    #[must_use]
    pub fn all(face: Face) -> Self {
        Self { top: face.clone(), bottom: face.clone(), sides: face, ends: None }
    }

    /// Every face there is.
    pub(crate) fn each(&self) -> impl Iterator<Item = &Face> {
        [&self.top, &self.bottom, &self.sides].into_iter().chain(&self.ends)
    }
}

/// How a face meets its surroundings.
#[derive(Clone, Debug, PartialEq)]
pub enum Face {
    /// Nothing passes.
    Insulated,
    /// The surface is held at this temperature.
    Fixed(Course),
    /// Heat passes through a film or a contact; water may leave.
    Open(Surroundings),
}

impl Face {
    /// A plain film around a medium of one temperature: no radiation, no evaporation. W/(m²·K).
    #[must_use]
    pub fn film(medium: Temperature, film_w_m2_k: f64) -> Self {
        Self::Open(Surroundings::plain(Course::Steady(medium), film_w_m2_k))
    }
}

/// Medium, film and the rest of one open face.
#[derive(Clone, Debug, PartialEq)]
pub struct Surroundings {
    /// Temperature of the air, the water or the plate.
    pub medium: Course,
    /// Convective film, or conductance of the contact with a plate; W/(m²·K).
    pub film_w_m2_k: f64,
    /// Emissivity between the face and what it sees; 0 switches radiation off.
    pub emissivity: f64,
    /// What the face sees is this much warmer than the medium, K.
    pub radiant_above_k: f64,
    /// Layers between surface and medium (bag, paper, fat cap): thickness over conductivity, m²·K/W. Water
    /// leaves below one by boiling alone.
    pub cover_m2_k_w: f64,
    /// Share of the face that lies under the cover; the rest is bare.
    pub cover_share: f64,
    /// Whether, and how, water leaves.
    pub evaporation: Evaporation,
    /// A plate whose own warmth gives way under the meat; without one the medium stays what it is.
    pub reserve: Option<Reserve>,
}

/// What a plate holds and what brings it back: `C dT/dt = r (T_set − T) − q`, with `T_set` the medium's temperature and `q`
/// the heat it gives the meat. It starts each stage at `T_set`, follows its face when the piece is turned, and is warmed by
/// what the meat gives back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reserve {
    /// Heat held under a square metre of meat, J/(m²·K): density × specific heat × thickness, with what of the rim takes part.
    pub capacity_j_m2_k: f64,
    /// What the burner and the plate around bring back, W/(m²·K).
    pub recovery_w_m2_k: f64,
}

impl Surroundings {
    /// A film and nothing else; W/(m²·K).
    #[must_use]
    pub fn plain(medium: Course, film_w_m2_k: f64) -> Self {
        Self {
            medium,
            film_w_m2_k,
            emissivity: 0.0,
            radiant_above_k: 0.0,
            cover_m2_k_w: 0.0,
            cover_share: 1.0,
            evaporation: Evaporation::None,
            reserve: None,
        }
    }
}

/// Whether water leaves a face, and what holds it back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Evaporation {
    /// No water leaves; a surface may pass 100 °C.
    None,
    /// Always as wet as the meat itself: settles near the wet bulb, in a hot still oven for ever.
    Wet(Moist),
    /// Wet until the supply from inside falls short, then a drying surface.
    Drying(Moist, Supply),
    /// Pressed against a plate: water leaves only by boiling, so that the surface stays near 100 °C.
    BoilingOnly,
}

/// The water vapour around an open face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moist {
    /// Vapour pressure in the medium, Pa.
    pub vapour_pa: f64,
    /// Share of the face that is lean and can lose water (the rest is fat or bone), 0 to 1.
    pub lean_share: f64,
}

/// How water reaches the surface from inside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Supply {
    /// Diffusivity of moisture in the meat, m²/s.
    pub diffusivity_m2_s: f64,
    /// Water already drawn from the surface at the start of the first stage, kg/m².
    pub drawn_kg_m2: f64,
    /// Share of the juice pressed out that wets the surface on its way, 0 to 1.
    pub juice_share: f64,
}

impl Supply {
    /// Middle of the priors of the catalogue.
    pub const USUAL: Self = Self { diffusivity_m2_s: 4e-10, drawn_kg_m2: 0.02, juice_share: 0.5 };
}

impl Faces {
    /// Checks temperatures, films, shares and rows.
    ///
    /// # Errors
    /// [`HeatError::OutOfRange`], [`HeatError::Rows`] or [`HeatError::NotRising`], naming stage and face.
    pub fn check(&self, stage: &str) -> Result<(), HeatError> {
        for (place, face) in [("top", &self.top), ("bottom", &self.bottom), ("sides", &self.sides)] {
            face.check(format_args!("{stage}, {place}"))?;
        }
        self.ends.as_ref().map_or(Ok(()), |face| face.check(format_args!("{stage}, ends")))
    }
}

impl Face {
    fn check(&self, place: std::fmt::Arguments<'_>) -> Result<(), HeatError> {
        let around = match self {
            Self::Insulated => return Ok(()),
            Self::Fixed(course) => return course.check(place),
            Self::Open(around) => around,
        };
        around.medium.check(place)?;
        let check = |what: &str, found, range, unit, hint| {
            HeatError::check(format_args!("{place}: {what}"), found, range, unit, hint)
        };
        check(
            "film",
            around.film_w_m2_k,
            (0.0, 20_000.0),
            "W/(m² K)",
            "still air 5, fan 20, water 100, plate 300",
        )?;
        check("emissivity", around.emissivity, (0.0, 1.0), "", "meat 0.9, bright metal 0.1, none 0")?;
        check("radiant surplus", around.radiant_above_k, (-300.0, 1500.0), "K", "walls less air")?;
        check("cover share", around.cover_share, (0.0, 1.0), "", "a share of one")?;
        if let Some(reserve) = around.reserve {
            let per_area = "J/(m² K)";
            check(
                "held by the plate",
                reserve.capacity_j_m2_k,
                (10.0, 1e7),
                per_area,
                "5 mm of iron 18 000",
            )?;
            check("recovery", reserve.recovery_w_m2_k, (0.0, 1e5), "W/(m² K)", "a strong burner 100")?;
        }
        check("cover", around.cover_m2_k_w, (0.0, 100.0), "m² K/W", "thickness over conductivity")?;
        let moist = match around.evaporation {
            Evaporation::None | Evaporation::BoilingOnly => return Ok(()),
            Evaporation::Wet(moist) => moist,
            Evaporation::Drying(moist, supply) => {
                check("moisture diffusivity", supply.diffusivity_m2_s, (1e-13, 1e-6), "m²/s", "about 4e-10")?;
                check("water drawn before", supply.drawn_kg_m2, (0.0, 50.0), "kg/m²", "about 0.02")?;
                check("juice share", supply.juice_share, (0.0, 1.0), "", "a share of one")?;
                moist
            }
        };
        check("vapour pressure", moist.vapour_pa, (0.0, 101_325.0), "Pa", "kitchen air 1000, oven 3000")?;
        check("lean share", moist.lean_share, (0.0, 1.0), "", "a share of one")
    }
}

impl Course {
    fn check(&self, place: std::fmt::Arguments<'_>) -> Result<(), HeatError> {
        let temperature = |t: Temperature| {
            HeatError::check(
                format_args!("{place}: medium"),
                t.c(),
                (-200.0, 1200.0),
                "°C",
                "give the temperature in degrees Celsius",
            )
        };
        match self {
            Self::Steady(t) => temperature(*t),
            Self::Series(rows) => {
                if rows.is_empty() {
                    let what = format!("{place}: series");
                    return Err(HeatError::Rows { what, found: 0, needed: "at least one" });
                }
                for (index, (at, t)) in rows.iter().enumerate() {
                    temperature(*t)?;
                    let rises = index == 0 || rows[index - 1].0 <= *at;
                    if !(at.is_finite() && at.s() >= 0.0 && rises) {
                        return Err(HeatError::NotRising {
                            what: format!("{place}: series"),
                            row: index + 1,
                        });
                    }
                }
                Ok(())
            }
        }
    }

    /// The temperature at a moment of the stage, s → °C; `after` picks the later row where two rows make a step.
    pub(crate) fn at(&self, time_s: f64, after: bool) -> f64 {
        let rows = match self {
            Self::Steady(t) => return t.c(),
            Self::Series(rows) => rows,
        };
        let passed = |at: &Span| if after { at.s() <= time_s } else { at.s() < time_s };
        let next = rows.partition_point(|(at, _)| passed(at));
        match (next.checked_sub(1).and_then(|i| rows.get(i)), rows.get(next)) {
            (Some((from, a)), Some((to, b))) => {
                a.c() + (b.c() - a.c()) * (time_s - from.s()) / (to.s() - from.s())
            }
            (Some((_, t)), None) | (None, Some((_, t))) => t.c(),
            (None, None) => f64::NAN,
        }
    }

    /// The first row after a moment, s.
    pub(crate) fn next_row(&self, time_s: f64) -> Option<f64> {
        match self {
            Self::Steady(_) => None,
            Self::Series(rows) => {
                rows.get(rows.partition_point(|(at, _)| at.s() <= time_s)).map(|(at, _)| at.s())
            }
        }
    }

    /// Coldest and warmest it gets, °C.
    pub(crate) fn extremes(&self) -> (f64, f64) {
        match self {
            Self::Steady(t) => (t.c(), t.c()),
            Self::Series(rows) => {
                rows.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), (_, t)| {
                    (low.min(t.c()), high.max(t.c()))
                })
            }
        }
    }
}
