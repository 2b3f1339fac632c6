//! The pull temperature whose peak is the wish.

use super::question::Question;
use super::typical;
use crate::{HeatError, Settings, Until};
use quantity::Temperature;

/// The temperature of the middle at which a stage must end so that the warmest the middle gets from then on is `wish`, °C;
/// on the middle of every input.
///
/// The stage's own rule is replaced; carry-over is whatever the later stages make of it, never a rule of thumb.
///
/// # Errors
/// [`HeatError::OutOfRange`] where the later stages alone take the piece past the wish, and what [`super::typical`] refuses.
pub fn pull_for_peak(question: &Question, stage: usize, wish: Temperature) -> Result<Temperature, HeatError> {
    let mut asked = question.clone();
    let start = asked.start_c.known().unwrap_or_else(|| middle_of_start(question));
    let mut peak = |pull: f64| -> Result<f64, HeatError> {
        if let Some(stage) = asked.stages.get_mut(stage) {
            stage.until = Until::Centre(Temperature::from_c(pull));
        }
        let settings = Settings { colour: false, ..Settings::ensemble() };
        Ok(typical(&asked, &settings)?.peak_centre_c.max(pull))
    };
    let wish = wish.c();
    let (mut low, mut high) = (start + 0.5, wish);
    let least = peak(low)?;
    HeatError::check(
        "peak",
        wish,
        (least, f64::INFINITY),
        "°C",
        "what comes after the pull already takes the piece past it: shorten it, or start colder",
    )?;
    let (mut at_low, mut at_high) = (least - wish, peak(high)? - wish);
    let mut pull = high;
    for _ in 0..40 {
        if at_high.abs() < NEAR {
            pull = high;
            break;
        }
        // The peak rises with the pull almost one for one: the secant is there in a few rounds, halving guards it.
        let secant = high - at_high * (high - low) / (at_high - at_low);
        pull = if secant > low && secant < high { secant } else { 0.5 * (low + high) };
        let here = peak(pull)? - wish;
        if here.abs() < NEAR || high - low < NEAR {
            break;
        }
        if here < 0.0 {
            (low, at_low) = (pull, here);
        } else {
            (high, at_high) = (pull, here);
        }
    }
    Ok(Temperature::from_c(pull))
}

/// K; a probe shows a tenth.
const NEAR: f64 = 0.01;

fn middle_of_start(question: &Question) -> f64 {
    let spread = question.start_c.spread(band::Instrument::Probe);
    spread.map_or_else(
        || match catalogue::steak_prior().start_c.law {
            catalogue::Law::Uniform { low, high } => 0.5 * (low + high),
            _ => 4.0,
        },
        |spread| spread.median(),
    )
}
