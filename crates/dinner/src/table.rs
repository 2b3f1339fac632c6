//! What is asked: seats, portions, the low place, the hot place, the cook's habits.

use band::Value;
use quantity::{Span, Temperature};

/// One supper's question. It knows no clock: every hour is a span before the hour at which all eat.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// The cut's name in the catalogue; its composition is the meat's.
    pub cut: String,
    /// Who eats, and how done.
    pub seats: Vec<Seat>,
    /// What there is to eat: at least one a seat.
    pub portions: Vec<Portion>,
    /// Where they first go until the pull: oven, smoker, bath.
    pub low: Low,
    /// Where those that are out early wait for the sear, by its medium's name in the catalogue: `foil-tent`, `hot-hold`.
    pub wait: String,
    /// Where they are seared.
    pub hot: Hot,
    /// Habits of this cook.
    pub habits: Habits,
    /// The wished chance that all are ready by the hour, 0 to 1.
    pub chance: f64,
}

/// One who eats.
#[derive(Clone, Debug, PartialEq)]
pub struct Seat {
    /// A name at the table, such as `bow`.
    pub name: Option<String>,
    /// The hottest its middle shall ever get, in °C: the wish is the peak, not the pull.
    pub wish: Temperature,
    /// The portion it chose, by its place in [`Table::portions`].
    pub portion: Option<usize>,
}

/// One portion, its middle thawed.
#[derive(Clone, Debug, PartialEq)]
pub struct Portion {
    /// As it is called: `TARN 4`.
    pub name: String,
    /// Raw mass in kg.
    pub mass_kg: Value,
    /// Full thickness in m.
    pub thickness_m: Value,
    /// Its temperature when it goes in, °C; left out: the fridge's usual range.
    pub start_c: Value,
    /// How long before the hour it went in, where it is in already.
    pub went_in: Option<Span>,
    /// How long before the hour it was pulled, where it is out again.
    pub pulled: Option<Span>,
}

/// The low place.
#[derive(Clone, Debug, PartialEq)]
pub struct Low {
    /// Its medium's name in the catalogue: `oven`, `fan-oven`, `smoker`, `water-bath`.
    pub medium: String,
    /// What its dial says, or what a probe in it read, °C.
    pub medium_c: Value,
    /// Whether the degree was read by a probe in the air instead of off the dial.
    pub probed: bool,
    /// How much it holds at once.
    pub holds: Holds,
}

/// The hot place.
#[derive(Clone, Debug, PartialEq)]
pub struct Hot {
    /// Its medium's name in the catalogue: `pan`, `grill`.
    pub medium: String,
    /// Its degree, °C, where known.
    pub medium_c: Value,
    /// How much it holds at once.
    pub holds: Holds,
}

/// How much a place holds at once.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Holds {
    /// As much as there is.
    #[default]
    All,
    /// So many portions.
    Places(usize),
    /// So much area, m²; portions lie beside each other and fill [`Holds::FILLED`] of it.
    Area(f64),
}

impl Holds {
    /// The share of an area that steaks laid side by side cover. Assumed: ellipses in rows fill π/4 = 0.785 of their
    /// rectangle, less a finger's breadth for the tongs.
    pub const FILLED: f64 = 0.7;
}

/// What this cook does, where it is the same for every portion.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Habits {
    /// Minutes a side on the hot place.
    pub sear_a_side: Span,
    /// From one pass on the hot place to the next.
    pub between_passes: Span,
    /// From the hot place to the plate, for the last pass.
    pub rest: Span,
}

impl Default for Habits {
    /// A minute a side, a minute between passes, six minutes of rest: common practice for steaks.
    fn default() -> Self {
        Self {
            sear_a_side: Span::from_min(1.0),
            between_passes: Span::from_min(1.0),
            rest: Span::from_min(6.0),
        }
    }
}

impl Portion {
    /// The mass to sort by, kg: as given, the middle of a range, nothing where unknown.
    #[must_use]
    pub(crate) fn mass_kg(&self) -> f64 {
        middle(self.mass_kg).unwrap_or(0.0)
    }

    /// The thickness to sort by, m.
    #[must_use]
    pub(crate) fn thickness_m(&self) -> f64 {
        middle(self.thickness_m).unwrap_or(0.0)
    }
}

/// The middle of what was given; nothing where it was left out.
pub(crate) fn middle(value: Value) -> Option<f64> {
    match value {
        Value::Known(number) => Some(number),
        Value::Range { low, high } => Some(f64::midpoint(low, high)),
        Value::Unknown => None,
    }
}
