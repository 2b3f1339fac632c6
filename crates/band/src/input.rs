//! What a form gives for a number, and the input that follows from it.

use crate::Spread;
use quantity::{Length, Mass, TemperatureStep};

/// What somebody gave for a number.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Value {
    /// Read off an instrument, or simply known.
    Known(f64),
    /// Somewhere between two numbers.
    Range {
        /// Lower end.
        low: f64,
        /// Upper end.
        high: f64,
    },
    /// Left out.
    #[default]
    Unknown,
}

impl Value {
    /// The input that stands for this value: a reading gets its instrument's error, a range is uniform. `None` where it
    /// was left out; then the caller's prior has to stand in ([`Value::input_or`]).
    #[must_use]
    pub fn input(self, name: impl Into<String>, instrument: Instrument) -> Option<Input> {
        let (spread, from) = match self {
            Self::Known(reading) => (instrument.spread(reading), Origin::read_by(instrument)),
            Self::Range { low, high } => (Spread::Uniform { low, high }, Origin::Range),
            Self::Unknown => return None,
        };
        Some(Input { name: name.into(), spread, from })
    }

    /// As [`Value::input`]; where the value was left out, the prior with its mark and source.
    #[must_use]
    pub fn input_or(
        self,
        name: impl Into<String>,
        instrument: Instrument,
        prior: impl FnOnce() -> (Spread, Origin),
    ) -> Input {
        let name = name.into();
        match self {
            Self::Unknown => {
                let (spread, from) = prior();
                Input { name, spread, from }
            }
            given => Input {
                spread: given.spread(instrument).unwrap_or(Spread::Exact(f64::NAN)),
                from: if given.is_known() { Origin::read_by(instrument) } else { Origin::Range },
                name,
            },
        }
    }

    /// The distribution a given value stands for; `None` where it was left out.
    #[must_use]
    pub fn spread(self, instrument: Instrument) -> Option<Spread> {
        match self {
            Self::Known(reading) => Some(instrument.spread(reading)),
            Self::Range { low, high } => Some(Spread::Uniform { low, high }),
            Self::Unknown => None,
        }
    }

    /// The number itself, where one number was given.
    #[must_use]
    pub fn known(self) -> Option<f64> {
        match self {
            Self::Known(value) => Some(value),
            Self::Range { .. } | Self::Unknown => None,
        }
    }

    /// Whether one number was given.
    #[must_use]
    pub fn is_known(self) -> bool {
        matches!(self, Self::Known(_))
    }
}

/// The instrument behind a reading, with its error. Spreads: the house's own convention, in each instrument's usual
/// class; a learned error takes their place where the record has one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Instrument {
    /// Nothing to read off: a count, or a number taken as true.
    None,
    /// A scale: one division either way, uniform.
    Scale {
        /// The smallest step it shows.
        division: Mass,
    },
    /// A ruler or tape: 1 mm either way, uniform.
    Ruler,
    /// A probe thermometer: 0.5 °C either way, uniform.
    Probe,
    /// The dial of an oven: normal, sd 10 °C.
    Dial,
}

impl Instrument {
    /// The distribution of the true value behind a reading in SI units (kg, m) or °C.
    #[must_use]
    pub fn spread(self, reading: f64) -> Spread {
        let within = |error: f64| Spread::Uniform { low: reading - error, high: reading + error };
        match self {
            Self::None => Spread::Exact(reading),
            Self::Scale { division } => within(division.kg()),
            Self::Ruler => within(Length::from_mm(1.0).m()),
            Self::Probe => within(TemperatureStep::from_k(0.5).k()),
            Self::Dial => Spread::Normal { mean: reading, sd: 10.0 },
        }
    }
}

/// Where an input's spread comes from.
#[derive(Clone, Debug, PartialEq)]
pub enum Origin {
    /// Given, and taken as true.
    Given,
    /// Read off an instrument: its error.
    Instrument,
    /// Given as a range.
    Range,
    /// Left out: a prior stands in, and the answer says so.
    Prior {
        /// What it rests on: `published`, `derived`, `assumed`, or `your own pieces` and the like.
        mark: String,
        /// The source's id in the catalogue, or what of the record it was learned from.
        source: String,
    },
}

impl Origin {
    fn read_by(instrument: Instrument) -> Self {
        if instrument == Instrument::None { Self::Given } else { Self::Instrument }
    }

    /// Whether nobody gave the number.
    #[must_use]
    pub fn is_prior(&self) -> bool {
        matches!(self, Self::Prior { .. })
    }
}

/// One uncertain input of a question.
#[derive(Clone, Debug, PartialEq)]
pub struct Input {
    /// Its name, as the asker knows it.
    pub name: String,
    /// What is known of it.
    pub spread: Spread,
    /// Why that.
    pub from: Origin,
}

impl Input {
    /// An input with its distribution and origin.
    #[must_use]
    pub fn new(name: impl Into<String>, spread: Spread, from: Origin) -> Self {
        Self { name: name.into(), spread, from }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_instrument_has_its_own_error() {
        let scale = Instrument::Scale { division: Mass::from_g(5.0) };
        assert_eq!(scale.spread(6.8), Spread::Uniform { low: 6.795, high: 6.805 });
        assert_eq!(Instrument::Ruler.spread(0.4), Spread::Uniform { low: 0.399, high: 0.401 });
        assert_eq!(Instrument::Probe.spread(3.0), Spread::Uniform { low: 2.5, high: 3.5 });
        assert_eq!(Instrument::Dial.spread(110.0), Spread::Normal { mean: 110.0, sd: 10.0 });
    }

    #[test]
    fn what_is_left_out_takes_the_prior_and_says_so() {
        let prior = || {
            let from = Origin::Prior { mark: "assumed".into(), source: "prior".into() };
            (Spread::Normal { mean: 415.0, sd: 20.0 }, from)
        };
        let input = Value::Unknown.input_or("length", Instrument::Ruler, prior);
        assert!(input.from.is_prior());
        let given = Value::Known(0.4).input_or("length", Instrument::Ruler, prior);
        assert_eq!(given.from, Origin::Instrument);
        assert_eq!(Value::Unknown.input("length", Instrument::Ruler), None);
    }
}
