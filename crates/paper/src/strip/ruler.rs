//! The graduation of the strip's edge.

use quantity::{Length, LengthUnit, Units};

use crate::drawing::Rect;

/// Stroke of a tick, mm.
const STROKE: f64 = 0.2;

/// A rule in the unit the cook measures in.
pub(super) struct Ruler {
    /// Distance of two ticks, mm.
    step: f64,
    /// Ticks to a longer one, to a long one, and to one with its figure.
    every: [i64; 3],
    unit: LengthUnit,
}

impl Ruler {
    pub(super) const fn of(units: Units) -> Self {
        match units.length {
            LengthUnit::Millimetre => Self { step: 1.0, every: [5, 10, 50], unit: units.length },
            LengthUnit::Inch => Self { step: 25.4 / 16.0, every: [4, 8, 16], unit: units.length },
        }
    }

    /// Distance of two long ticks, mm.
    pub(super) const fn long(&self) -> f64 {
        self.step * self.every[1] as f64
    }

    /// All ticks from `begin` to `end`, standing on `foot`; places are moved right by `shift`.
    pub(super) fn ticks(&self, begin: f64, end: f64, shift: f64, foot: f64) -> Vec<Rect> {
        self.numbers(begin, end)
            .map(|number| {
                Rect::upright(number as f64 * self.step + shift, foot - self.height(number), foot, STROKE)
            })
            .collect()
    }

    /// Places that carry a figure, and the figure.
    pub(super) fn figures(&self, begin: f64, end: f64) -> Vec<(f64, String)> {
        let figured = self.numbers(begin, end).filter(|number| number % self.every[2] == 0);
        figured.map(|number| (number as f64 * self.step, self.figure(number))).collect()
    }

    /// A place between ticks in words, without its unit: `204`, `8 1/16`.
    pub(super) fn place(&self, mm: f64, units: Units) -> String {
        let shown = units.length(Length::from_mm(mm));
        let bare = match self.unit {
            LengthUnit::Millimetre => shown.trim_end_matches("mm"),
            LengthUnit::Inch => shown.trim_end_matches("in"),
        };
        bare.trim_end().to_owned()
    }

    fn numbers(&self, begin: f64, end: f64) -> impl Iterator<Item = i64> + use<> {
        (begin / self.step).ceil() as i64..=(end / self.step).floor() as i64
    }

    fn height(&self, number: i64) -> f64 {
        match self.every.map(|every| number % every == 0) {
            [_, _, true] => 8.0,
            [_, true, _] => 6.0,
            [true, ..] => 4.0,
            _ => 2.5,
        }
    }

    fn figure(&self, number: i64) -> String {
        let whole = match self.unit {
            LengthUnit::Millimetre => number,
            LengthUnit::Inch => number / self.every[2],
        };
        if whole < 0 { format!("−{}", whole.unsigned_abs()) } else { whole.to_string() }
    }
}
