//! Answers with their bands: a question of readings, ranges and gaps becomes an ensemble of pieces.
//!
//! Every number of a [`Question`] is a reading (which carries its instrument's error), a range, or left out (then the
//! catalogue's prior for that medium stands in and [`Banded::assumed`] says so). [`answer`] draws the ensemble by Latin
//! hypercube, runs every member through all stages, and gives back times, temperatures and losses as 80 % bands, with the
//! members themselves for whoever plans on from there.
//!
//! ```
//! use band::Value;
//! use heat::cook::{Form, Opened, Question, StageQuestion, answer};
//! use heat::Until;
//! use quantity::{Span, Temperature};
//!
//! let mut question = Question::of_cut("beef-strip-loin", Form::Steak)?;
//! question.thickness_m = Value::Known(0.038);
//! question.mass_kg = Value::Known(0.42);
//! question.start_c = Value::Known(4.0);
//! let mut oven = StageQuestion::new("oven", "oven", Until::Centre(Temperature::from_c(48.0)));
//! oven.medium_c = Value::Known(110.0);
//! question.stages.push(oven);
//! question.stages.push(StageQuestion::new("rest", "rest", Until::Time(Span::from_min(8.0))));
//! let banded = answer(&question, 64, 1)?;
//! let minutes = banded.stages[0].time_s.times(1.0 / 60.0);
//! assert!(minutes.low > 20.0 && minutes.high < 120.0);
//! assert!(banded.assumed().any(|input| input.name == "oven: film"));
//! # Ok::<(), heat::HeatError>(())
//! ```

mod banded;
mod cap;
mod door;
mod inputs;
mod media;
mod plan;
mod prepared;
mod pull;
mod question;
mod sizes;
mod usual;

pub use banded::{Banded, Member, StageBand};
pub use cap::Cap;
pub use media::humidity_from_wet_bulb;
pub use prepared::{Prepared, Ready};
pub use pull::pull_for_peak;
pub use question::{Form, Opened, Question, StageQuestion, meat_of_cut};
pub use usual::{USUAL_STEAK_KG, usual_thickness};

use crate::{HeatError, History, Settings, simulate};
use plan::Plan;
use rayon::prelude::*;

/// Runs a question's ensemble; times in s, temperatures in °C, masses in kg. Same question, draws and seed: same bits.
///
/// # Errors
/// [`HeatError::Unknown`] for a medium or cut the catalogue does not know; whatever [`simulate`] refuses, from the first
/// member (in the order of the draws) it refuses.
pub fn answer(question: &Question, draws: usize, seed: u64) -> Result<Banded, HeatError> {
    let plan = Plan::new(question)?;
    let drawn = band::draw(&plan.inputs, draws, seed);
    let settings = question.settings();
    // Collected in the order of the draws, so that the answer does not depend on who finished first.
    let members: Result<Vec<Member>, HeatError> = (0..drawn.len())
        .into_par_iter()
        .map(|i| {
            let ready = plan.piece(drawn.member(i))?;
            let history = run(&ready, &settings)?;
            Ok(Member::new(&history, ready.model_share, &question.stages))
        })
        .collect();
    Ok(Banded::new(question, plan.inputs, drawn, members?))
}

/// The one history of the middle of every input, as fine as `settings` ask.
///
/// # Errors
/// As [`answer`].
pub fn typical(question: &Question, settings: &Settings) -> Result<History, HeatError> {
    let plan = Plan::new(question)?;
    let middle: Vec<f64> = plan.inputs.iter().map(|input| input.spread.median()).collect();
    run(&plan.piece(&middle)?, settings)
}

fn run(ready: &Ready, settings: &Settings) -> Result<History, HeatError> {
    simulate(&ready.meat, &ready.shape, &ready.start, &ready.stages, settings)
}
