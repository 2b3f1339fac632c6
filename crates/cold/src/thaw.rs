//! Thawing one pack.

use crate::hours::Hours;
use crate::members::Stay;
use crate::{Pack, Way};
use band::{Band, Value};
use heat::{HeatError, History};
use std::ops::Deref;

/// Soft: no place of it is below this, °C. Ice begins a degree lower, so nothing is hard to the knife; times *on* the
/// plateau itself are ill-posed and are not given.
pub const SOFT_C: f64 = 0.0;
/// A surface above this counts as warm, °C: the limit of the Food Code for food held cold (41 °F; published).
pub const WARM_C: f64 = 5.0;

/// Hours to soft, with what the surface went through.
#[derive(Clone, Debug, PartialEq)]
pub struct Thawed {
    /// Hours from taking it out to soft.
    pub hours: Hours,
    /// Minutes its surface was above [`WARM_C`] until it was soft, member by member.
    pub warm_min: Vec<f64>,
}

impl Thawed {
    /// Minutes the surface is above [`WARM_C`] until soft, four times in five. For the official limit it is the longest that
    /// counts, and preparing comes on top.
    #[must_use]
    pub fn warm(&self) -> Band {
        Band::of(&self.warm_min)
    }
}

impl Deref for Thawed {
    type Target = Hours;
    fn deref(&self) -> &Hours {
        &self.hours
    }
}

/// Thaws a pack from the freezer to soft ([`SOFT_C`] in its middle).
///
/// | input     | unit  | meaning                                                                        |
/// |-----------|-------|--------------------------------------------------------------------------------|
/// | `pack`    | kg, m | mass and thickness of a portion, how many beside each other, wrap, temperature |
/// | `way`     | –     | fridge, cold or warm water, counter                                            |
/// | `place_c` | °C    | what the fridge or the water was read at; left out, what such places are       |
///
/// # Errors
/// [`HeatError`] for a cut the catalogue does not know, or a size no pack has. A place too cold to thaw it in two weeks is
/// no error: those members are infinite.
/// # Checked by
/// `tests/published/`: measured and told thawing hours; `tests/laws.rs`; `tests/truth.rs`: 1,000 simulated packs.
pub fn thaw(pack: &Pack, way: Way, place_c: Value, draws: usize, seed: u64) -> Result<Thawed, HeatError> {
    let stay = Stay {
        pack,
        name: "thaw",
        medium: way.medium(),
        place_c,
        until_c: SOFT_C,
        from_medium: "still-air-freezer",
    };
    let (hours, warm_min) = stay.run(draws, seed, |history| warm_minutes(history, WARM_C))?;
    Ok(Thawed { hours, warm_min })
}

/// Minutes the surface was above a limit, straight between the points of the curve.
fn warm_minutes(history: &History, limit: f64) -> f64 {
    let piece = |pair: &[heat::Moment]| {
        let (a, b) = (pair[0].surface_c - limit, pair[1].surface_c - limit);
        let share = match (a > 0.0, b > 0.0) {
            (true, true) => 1.0,
            (false, false) => 0.0,
            _ => a.max(b) / (a - b).abs(),
        };
        share * (pair[1].t_s - pair[0].t_s) / 60.0
    };
    history.curve.windows(2).map(piece).sum()
}
