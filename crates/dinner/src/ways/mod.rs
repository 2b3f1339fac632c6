//! One piece, several ways to the same plate.
//!
//! [`ways`] takes a piece, a wished peak and the places of a kitchen, and gives back for each road when it starts, how
//! sure that is, how grey it gets under the crust, what it loses, and what five minutes too long cost.

mod pull;
mod road;
mod run;

pub use road::{HOT_OVEN, RAW_FACE, Road};

use crate::{DinnerError, Habits, Hot, Low};
use band::{Band, Narrow, Value};
use quantity::{Span, Temperature};

/// What is asked. Every hour of the answer is in minutes before the plate.
#[derive(Clone, Debug, PartialEq)]
pub struct WaysAsked {
    /// The cut's name in the catalogue.
    pub cut: String,
    /// Whether it was kept whole as a roast: its sides then follow from its mass, and an oven is its hot place.
    pub whole: bool,
    /// Raw mass, kg.
    pub mass_kg: Value,
    /// Full thickness, m; a roast's is not asked.
    pub thickness_m: Value,
    /// As it goes in once thawed, °C; left out: the fridge's usual range.
    pub start_c: Value,
    /// As it lies in the freezer, °C, for the road from frozen; left out: a freezer's usual range.
    pub frozen_c: Value,
    /// The hottest its middle shall ever get.
    pub wish: Temperature,
    /// The low place in air.
    pub low: Low,
    /// The hot place.
    pub hot: Hot,
    /// Habits of this cook.
    pub habits: Habits,
    /// The wished chance that it is ready by the hour, 0 to 1.
    pub chance: f64,
    /// The roads to put side by side.
    pub roads: Vec<Road>,
}

/// What came of the roads, in the order asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Ways {
    /// A way each, or why there is none.
    pub ways: Vec<(Road, Result<Way, DinnerError>)>,
    /// What an hour on the counter before the oven would change.
    pub chill: Option<Chill>,
}

/// One way.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// Minutes before the hour at which it starts: a whole number, with the wished chance to be ready.
    pub in_before: f64,
    /// Minutes before the hour at which it is ready, rest included; `median` is the middle, `low` the later end.
    pub ready_before: Band,
    /// From its start to ready, min.
    pub takes: Band,
    /// The middle at which the governed stage ends, °C; sear or rest do what is left.
    pub pull: Temperature,
    /// What a bath is set to.
    pub bath: Option<Temperature>,
    /// The warmest its middle gets, °C, over the ensemble, pulled at the pull number.
    pub peak: Band,
    /// Share of the thickness that is grey.
    pub grey: Band,
    /// Share of the raw mass that is lost.
    pub lost: Band,
    /// K by which the peak rises if the governed stage is ended five minutes late.
    pub slip: Band,
    /// Minutes on the hot place: how long it smokes.
    pub on_hot: Band,
    /// Share of the ensemble in which the pull number is never reached.
    pub never: f64,
    /// What makes the width of its length, the largest first.
    pub narrow: Vec<Narrow>,
    /// The middle member through its stages, minutes from the start.
    pub curve: Vec<Point>,
    /// The middle member's full thickness, m.
    pub thick_m: f64,
    /// Across its thickness when it is ready, from the upper face to the lower.
    pub section: Vec<Slice>,
}

/// One moment of the middle member.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Minutes from the start.
    pub at_min: f64,
    /// The middle, °C.
    pub core_c: f64,
    /// The middle of the upper face, °C.
    pub face_c: f64,
}

/// One layer of the slice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slice {
    /// Share of the thickness, 0 at the upper face.
    pub depth: f64,
    /// °C as it comes to the plate.
    pub c: f64,
    /// Share of the myoglobin denatured, 0 to 1.
    pub denatured: f64,
}

/// What an hour on the counter first would change for low heat, paired draw by draw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chill {
    /// Minutes in the low place saved.
    pub saved_min: Band,
    /// Grey share less.
    pub less_grey: Band,
}

/// How late a slip is.
pub(crate) const SLIP: Span = Span::from_min(5.0);

/// Puts the roads side by side; `draws` members a road, the same seed gives the same answer to the bit.
///
/// # Errors
/// [`DinnerError::Wish`] outside 40 to 85 °C, [`DinnerError::Chance`], and [`DinnerError::Heat`] for a cut or a medium the
/// catalogue does not know. What stands against a single road stands in its place.
///
/// # Example
/// ```
/// use band::Value;
/// use dinner::{Habits, Holds, Hot, Low, Road, WaysAsked, ways};
/// use quantity::Temperature;
///
/// let asked = WaysAsked {
///     cut: "beef-strip-loin".into(),
///     whole: false,
///     mass_kg: Value::Known(0.38),
///     thickness_m: Value::Known(0.029),
///     start_c: Value::Unknown,
///     frozen_c: Value::Unknown,
///     wish: Temperature::from_c(55.0),
///     low: Low { medium: "oven".into(), medium_c: Value::Known(110.0), probed: false, holds: Holds::All },
///     hot: Hot { medium: "pan".into(), medium_c: Value::Unknown, holds: Holds::All },
///     habits: Habits::default(),
///     chance: 0.9,
///     roads: vec![Road::LowThenSear, Road::Bath],
/// };
/// let answer = ways(&asked, 32, 1)?;
/// let grey = |n: usize| answer.ways[n].1.as_ref().map(|way| way.grey.median).unwrap_or(1.0);
/// assert!(grey(1) <= grey(0));
/// # Ok::<(), dinner::DinnerError>(())
/// ```
pub fn ways(asked: &WaysAsked, draws: usize, seed: u64) -> Result<Ways, DinnerError> {
    check(asked)?;
    let meat = heat::cook::meat_of_cut(&asked.cut, heat::Overrides::default())?;
    let ways = asked.roads.iter().map(|road| (*road, run::way(asked, *road, &meat, draws, seed)));
    let ways = ways.collect();
    // A road that fails says so where it stands; this is a note beside them. An hour is nothing to a roast.
    let chill = if asked.whole { None } else { run::chill(asked, &meat, draws.min(64), seed).ok() };
    Ok(Ways { ways, chill })
}

fn check(asked: &WaysAsked) -> Result<(), DinnerError> {
    if !(0.5..=0.999).contains(&asked.chance) {
        return Err(DinnerError::Chance { found: asked.chance });
    }
    if !(40.0..=85.0).contains(&asked.wish.c()) {
        return Err(DinnerError::Wish { seat: "this piece".to_owned(), found_c: asked.wish.c() });
    }
    Ok(())
}
