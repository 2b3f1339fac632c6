//! The number a road is steered by, so that the peak of the middle of the ensemble is the wish.

use super::{Road, WaysAsked};
use crate::DinnerError;
use band::{Band, Value};
use heat::Until;
use heat::cook::{Question, answer};
use quantity::Temperature;

/// Puts the number into the question: the core at which the governed stage ends. A bath is steered by its own degree, and
/// its piece comes out when the middle has all but reached that.
pub(super) fn steer(question: &mut Question, road: Road, celsius: f64) {
    let governed = road.governed(question);
    let stage = &mut question.stages[governed];
    if road == Road::Bath {
        stage.medium_c = Value::Known(celsius);
    }
    stage.until = Until::Centre(Temperature::from_c(core_of(road, celsius)));
}

/// The core at which the governed stage ends, °C.
pub(super) fn core_of(road: Road, celsius: f64) -> f64 {
    if road == Road::Bath { celsius - NEARLY_K } else { celsius }
}

/// The middle of a piece in a bath is taken as through this near to it, K: the half kelvin of the water-bath tables, and
/// as much again for what the circulator itself may be off.
const NEARLY_K: f64 = 1.0;

/// The number that makes the middle peak the wish, to a quarter of a kelvin.
///
/// # Errors
/// [`DinnerError::SearAloneIsTooMuch`] where no number does.
pub(super) fn number(
    asked: &WaysAsked,
    road: Road,
    question: &Question,
    seed: u64,
) -> Result<f64, DinnerError> {
    let wish_c = asked.wish.c();
    let mut question = question.clone();
    let mut peak = |celsius: f64| -> Result<f64, DinnerError> {
        steer(&mut question, road, celsius);
        let peaks: Vec<f64> = answer(&question, if asked.whole { DRAWS / 4 } else { DRAWS }, seed)?
            .members
            .iter()
            .map(|m| m.peak_c)
            .collect();
        Ok(Band::of(&peaks).median)
    };
    let mut here = wish_c - FIRST_K;
    let mut miss = peak(here)? - wish_c;
    let mut slope = USUAL_SLOPE;
    for _ in 0..ROUNDS {
        if miss.abs() < NEAR_K {
            return Ok(here);
        }
        let next = (here - miss / slope).clamp(COLDEST_C, wish_c + 1.0);
        if (next - here).abs() < 1e-6 {
            break;
        }
        let there = peak(next)? - wish_c;
        let measured = (there - miss) / (next - here);
        // A core that was past the number before the stage began would never stop there: no slope at all.
        slope = if (0.2..=1.5).contains(&measured) { measured } else { USUAL_SLOPE };
        (here, miss) = (next, there);
    }
    if miss.abs() < TOLD_K {
        return Ok(here);
    }
    Err(DinnerError::SearAloneIsTooMuch { portions: "this piece".to_owned(), wish_c, least_c: wish_c + miss })
}

/// Members while the number is sought: the middle of the peak is then known to a fifth of a degree.
const DRAWS: usize = 64;
/// What sear and rest usually add, K.
const FIRST_K: f64 = 7.0;
/// A peak rises with the number by this much of it, before it is computed.
const USUAL_SLOPE: f64 = 0.75;
const ROUNDS: usize = 6;
const NEAR_K: f64 = 0.25;
/// A core is told to the degree.
const TOLD_K: f64 = 1.0;
/// Barely warmer than a fridge: below this there is no low heat at all.
const COLDEST_C: f64 = 10.0;
