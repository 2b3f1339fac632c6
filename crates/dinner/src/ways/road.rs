//! The roads, and the stages each is made of.

use super::WaysAsked;
use crate::stages::{low_stage, rest_stage, sear_stage};
use crate::{Holds, Low};
use band::Value;
use heat::cook::{Form, Question, StageQuestion};
use heat::{Meat, Until};
use quantity::Span;

/// A way to cook one piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Road {
    /// Seared first, then low to the pull number.
    SearThenLow,
    /// Low to the pull number, then seared.
    LowThenSear,
    /// In its bag in a bath until the middle has all but the bath's degree, then seared.
    Bath,
    /// Low from frozen, then seared.
    Frozen,
    /// On the hot place alone, turned all the while.
    HotAlone,
}

impl Road {
    /// Every road.
    pub const ALL: [Self; 5] =
        [Self::SearThenLow, Self::LowThenSear, Self::Bath, Self::Frozen, Self::HotAlone];

    /// Its name in addresses and forms.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::SearThenLow => "sear-first",
            Self::LowThenSear => "sear-last",
            Self::Bath => "bath",
            Self::Frozen => "from-frozen",
            Self::HotAlone => "hot-alone",
        }
    }

    /// The road of a name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|road| road.name() == name)
    }

    /// The stage that ends at the pull number.
    pub(super) fn governed(self, question: &Question) -> usize {
        let name = if self == Self::HotAlone { "sear" } else { "low" };
        question.stages.iter().position(|stage| stage.name == name).unwrap_or(0)
    }

    /// The question of this road; its governed stage ends at the wish until the pull number is known.
    pub(super) fn question(self, asked: &WaysAsked, meat: &Meat) -> Question {
        let form = if asked.whole { Form::Roast } else { Form::Steak };
        let mut question = Question::new(meat.clone(), form);
        question.mass_kg = asked.mass_kg;
        if asked.whole {
            question.cut = Some(asked.cut.clone());
        } else {
            question.thickness_m = asked.thickness_m;
        }
        question.start_c = match (self, asked.frozen_c) {
            (Self::Frozen, Value::Unknown) => FREEZER_C,
            (Self::Frozen, known) => known,
            _ => asked.start_c,
        };
        question.stages = self.stages(asked);
        let governed = self.governed(&question);
        question.stages[governed].at_most = LONGEST;
        question
    }

    fn stages(self, asked: &WaysAsked) -> Vec<StageQuestion> {
        let until = Until::Centre(asked.wish);
        let low = || low_stage(&asked.low, until);
        let sear = || if asked.whole { hot_oven() } else { sear_stage(&asked.hot, &asked.habits) };
        let rest = || rest_stage(asked.habits.rest);
        match self {
            Self::SearThenLow => {
                let mut raw = sear();
                if let Until::Time(span) = raw.until {
                    raw.until = Until::Time(span * RAW_FACE);
                }
                raw.flip_every = raw.flip_every.map(|span| span * RAW_FACE);
                vec![raw, low(), rest()]
            }
            Self::LowThenSear | Self::Frozen => vec![low(), sear(), rest()],
            Self::Bath => vec![low_stage(&bath(asked), until), sear(), rest()],
            Self::HotAlone => {
                let mut hot = sear();
                (hot.until, hot.flip_every) = (until, Some(TURNED));
                vec![hot, rest()]
            }
        }
    }

    /// Which stages lie on the hot place.
    pub(super) fn on_hot(self) -> std::ops::Range<usize> {
        match self {
            Self::SearThenLow | Self::HotAlone => 0..1,
            _ => 1..2,
        }
    }
}

/// A freezer as people keep them, °C.
const FREEZER_C: Value = Value::Range { low: -20.0, high: -15.0 };
/// The longest a piece may take to its pull number.
const LONGEST: Span = Span::from_h(10.0);
/// An oven that browns a roast: its dial, °C, and how long (common practice without a source).
pub const HOT_OVEN: (f64, Span) = (230.0, Span::from_min(10.0));

fn hot_oven() -> StageQuestion {
    let mut stage = StageQuestion::new("sear", "oven", Until::Time(HOT_OVEN.1));
    stage.medium_c = Value::Known(HOT_OVEN.0);
    stage
}

/// A raw, cold, wet face takes about twice as long to brown as one that low heat dried (common practice without a source).
pub const RAW_FACE: f64 = 2.0;
/// Turned this often, a pan alone cooks both faces alike (common practice without a source).
const TURNED: Span = Span::from_min(1.0);
/// The stage that takes the chill off.
pub(super) const ON_THE_COUNTER: &str = "counter";

/// A bath with a circulator, its degree not settled yet.
fn bath(asked: &WaysAsked) -> Low {
    let medium_c = Value::Known(asked.wish.c());
    Low { medium: "water-bath".to_owned(), medium_c, probed: false, holds: Holds::All }
}
