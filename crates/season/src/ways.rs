//! One portion, several ways to the plate: what the record knows of it, put to the planner.

use crate::packing::thickness_of;
use crate::supper::{Kitchen, core, kitchen, last_read, scale, start_c, thickness_m, wish_word};
use crate::{Plans, SupperPlan, WishWord, supper_plan};
use band::Value;
use dinner::{DinnerError, Habits, Road, Ways, WaysAsked};
use jiff::ZonedDateTime;
use quantity::{Span, Temperature};
use record::{Portion, State, Supper, Wish};
use std::sync::Arc;
use thiserror::Error;

/// What may be asked otherwise than the record has it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WaysWish {
    /// Another wish than the seat's.
    pub wish: Option<Wish>,
    /// Another degree of the oven's dial.
    pub dial: Option<Temperature>,
    /// Other roads than the usual.
    pub roads: Vec<Road>,
}

/// The ways of one portion, with what was asked in the kitchen's words.
#[derive(Clone, Debug)]
pub struct PortionWays<'s> {
    /// The portion.
    pub portion: &'s Portion,
    /// The supper it is set aside for, and its hour.
    pub supper: Option<(&'s Supper, ZonedDateTime)>,
    /// What was asked.
    pub asked: WaysAsked,
    /// The word for the wish, and whether nobody asked.
    pub wish: WishWord,
    /// Where the low and the hot place are from.
    pub kitchen: Kitchen,
    /// The road the supper is planned on.
    pub planned: Option<Road>,
    /// The answer.
    pub answer: Arc<Ways>,
}

/// Why there are none.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum NoWays {
    /// Eaten or thrown away.
    #[error("it is eaten or gone")]
    Gone,
    /// Cannot be asked.
    #[error(transparent)]
    Cannot(#[from] DinnerError),
}

/// Thicker than this it was kept whole as a roast, mm.
const THICKEST_MM: f64 = 75.0;

/// How long a roast rests before it is carved (common practice without a source).
const ROAST_RESTS: Span = Span::from_min(20.0);

/// Puts the ways of a portion side by side, back from its supper's hour if it has one.
///
/// # Errors
/// [`NoWays`] says why not.
pub fn portion_ways<'s>(
    state: &'s State,
    plans: &Plans,
    portion: &'s Portion,
    supper: Option<&'s Supper>,
    wish: &WaysWish,
    now: &ZonedDateTime,
) -> Result<PortionWays<'s>, NoWays> {
    if portion.gone().is_some() || !portion.served.is_empty() {
        return Err(NoWays::Gone);
    }
    let piece = state.piece(portion.piece);
    let thick = piece.and_then(|piece| thickness_of(state, piece, portion));
    let whole = thick.is_some_and(|thick| thick.length().mm() > THICKEST_MM);
    let plan = supper.and_then(|supper| supper_plan(state, plans, supper, now).ok());
    let kitchen = kitchen(state, supper, now);
    let said = wish.wish.clone().unwrap_or_else(|| seat_wish(plan.as_ref(), supper, portion));
    let scale = &scale(state);
    let mut low = kitchen.low.clone();
    if let Some(dial) = wish.dial {
        (low.medium_c, low.probed) = (Value::Known(dial.c()), false);
    }
    let asked = WaysAsked {
        cut: piece.map(|piece| piece.received.cut.clone()).unwrap_or_default(),
        whole,
        mass_kg: Value::Known(portion.weighed.mass.kg()),
        thickness_m: thickness_m(state, portion),
        start_c: start_c(state, portion, now),
        frozen_c: frozen_c(state, portion, now),
        wish: core(&said, scale),
        low,
        hot: kitchen.hot.clone(),
        habits: if whole { Habits { rest: ROAST_RESTS, ..Habits::default() } } else { Habits::default() },
        chance: supper
            .and_then(|supper| supper.planned.chance)
            .or_else(|| state.settings().chance())
            .unwrap_or(0.9),
        roads: if wish.roads.is_empty() {
            usual(is_frozen(state, portion), whole)
        } else {
            wish.roads.clone()
        },
    };
    let answer = plans.ways(&asked)?;
    Ok(PortionWays {
        portion,
        supper: supper.map(|supper| (supper, supper.planned.serve.at.in_zone(now.time_zone()))),
        wish: wish_word(&said, scale),
        planned: plan.map(|_| if kitchen.in_bath { Road::Bath } else { Road::LowThenSear }),
        asked,
        kitchen,
        answer,
    })
}

/// The roads that can still be taken: from frozen only while it is.
fn usual(frozen: bool, whole: bool) -> Vec<Road> {
    // A roast is solved in three dimensions: what few ask for is not reckoned unasked.
    let bath = (!whole).then_some(Road::Bath);
    let last = match (frozen, whole) {
        (true, false) => Some(Road::Frozen),
        (false, false) => Some(Road::HotAlone),
        (_, true) => None,
    };
    [Road::LowThenSear, Road::SearThenLow].into_iter().chain(bath).chain(last).collect()
}

fn seat_wish(plan: Option<&SupperPlan<'_>>, supper: Option<&Supper>, portion: &Portion) -> Wish {
    let of_plate = plan.and_then(|plan| {
        let plate = plan.plan.plates.iter().find(|plate| plan.portion(plate.portion).id == portion.id)?;
        supper?.planned.seat.get(plate.seat).map(|seat| seat.wish.clone())
    });
    of_plate.unwrap_or(Wish::Unknown)
}

/// Whether it lies frozen now.
#[must_use]
pub fn is_frozen(state: &State, portion: &Portion) -> bool {
    let pack = portion.pack.and_then(|id| state.pack(id));
    pack.is_some_and(|pack| pack.out.is_none() && pack.frozen.is_some())
}

/// What the freezer it lies in read of late, a degree either way.
fn frozen_c(state: &State, portion: &Portion, now: &ZonedDateTime) -> Value {
    let pack = portion.pack.and_then(|id| state.pack(id)).filter(|pack| pack.out.is_none());
    pack.and_then(|pack| pack.lying.as_ref())
        .and_then(|lying| last_read(state, &lying.place, now, WEEK_H))
        .filter(|degree| (-40.0..=-5.0).contains(&degree.c()))
        .map_or(Value::Unknown, |degree| Value::Range { low: degree.c() - 1.0, high: degree.c() + 1.0 })
}

/// Hours a reading of a freezer stands for it.
const WEEK_H: f64 = 168.0;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{saturday, tarn};

    fn ways<'s>(state: &'s State, portion: &'s Portion, wish: &WaysWish) -> Result<PortionWays<'s>, NoWays> {
        let now = saturday().in_zone(&jiff::tz::TimeZone::UTC);
        portion_ways(state, &Plans::default(), portion, None, wish, &now)
    }

    #[test]
    fn a_frozen_portion_may_go_on_from_frozen_and_a_thawed_one_not() -> Result<(), NoWays> {
        let (record, _, portions) = tarn();
        let state = &record.state;
        for (n, frozen) in [(0, false), (12, true)] {
            let portion = state.portion(portions[n]).ok_or(NoWays::Gone)?;
            assert_eq!(is_frozen(state, portion), frozen);
            let wish = WaysWish { roads: vec![Road::Bath], ..WaysWish::default() };
            let found = ways(state, portion, &wish)?;
            assert_eq!(found.asked.roads, [Road::Bath]);
            assert_eq!(usual(frozen, false).contains(&Road::Frozen), frozen);
            assert!(found.kitchen.is_assumed && found.planned.is_none() && found.wish.is_assumed);
        }
        Ok(())
    }

    #[test]
    fn a_wish_for_another_core_is_the_peak_and_is_kept_in_memory() -> Result<(), NoWays> {
        let (record, _, portions) = tarn();
        let portion = record.state.portion(portions[1]).ok_or(NoWays::Gone)?;
        let wish = WaysWish {
            wish: Some(Wish::Core(Temperature::from_c(60.0))),
            dial: Some(Temperature::from_c(120.0)),
            roads: vec![Road::LowThenSear],
        };
        let found = ways(&record.state, portion, &wish)?;
        assert_eq!(found.asked.low.medium_c, Value::Known(120.0));
        let way = found.answer.ways[0].1.as_ref().map_err(|why| NoWays::Cannot(why.clone()))?;
        assert!((way.peak.median - 60.0).abs() < 0.6, "{:?}", way.peak);
        Ok(())
    }
}
