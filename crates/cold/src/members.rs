//! From a pack to members: the question put to heat, drawn and run.

use crate::Pack;
use crate::hours::Hours;
use band::{Draws, Input, Instrument, Value};
use catalogue::Law;
use heat::cook::{Form, Prepared, Question, StageQuestion, USUAL_STEAK_KG, meat_of_cut, usual_thickness};
use heat::{HeatError, History, Meat, Overrides, Settings, Until, simulate};
use quantity::{Span, Temperature};
use rayon::prelude::*;

/// One stage in one place, until the middle is at `until_c`.
pub(crate) struct Stay<'a> {
    pub(crate) pack: &'a Pack,
    pub(crate) name: &'static str,
    pub(crate) medium: &'a str,
    pub(crate) place_c: Value,
    pub(crate) until_c: f64,
    /// The medium whose temperature it starts from where nobody says.
    pub(crate) from_medium: &'static str,
}

/// Longer than any of this takes; a place too warm or too cold for it never gets there.
const AT_MOST: Span = Span::from_h(24.0 * 14.0);
/// Points on a member's curve.
const POINTS: f64 = 40.0;
/// The name heat gives this input.
const THICKNESS: &str = "thickness";

impl Stay<'_> {
    /// Runs the ensemble; `also` reads one more number off each member's history.
    pub(crate) fn run(
        &self,
        draws: usize,
        seed: u64,
        also: impl Fn(&History) -> f64 + Sync,
    ) -> Result<(Hours, Vec<f64>), HeatError> {
        let question = self.question()?;
        let prepared = Prepared::new(&question)?;
        let own = self.thickness(&question.meat);
        let named = |input: &Input| if input.name == THICKNESS { own.clone() } else { input.clone() };
        let inputs: Vec<Input> = prepared.inputs().iter().map(named).collect();
        let drawn: Draws = band::draw(&inputs, draws, seed);
        let settings = Settings { sample_every: Some(self.spacing(&question)?), ..settings() };
        let one = |member: usize| -> Result<(f64, f64), HeatError> {
            let ready = prepared.member(drawn.member(member))?;
            let history = simulate(&ready.meat, &ready.shape, &ready.start, &ready.stages, &settings)?;
            let reached = history.stages.first().is_some_and(|stage| stage.reached);
            let stretch = 1.0 + ready.model_share;
            let hours = if reached { history.time_s / 3600.0 * stretch } else { f64::INFINITY };
            Ok((hours, also(&history) * stretch))
        };
        let told: Vec<(f64, f64)> = (0..drawn.len()).into_par_iter().map(one).collect::<Result<_, _>>()?;
        let (hours, others): (Vec<f64>, Vec<f64>) = told.into_iter().unzip();
        let narrow = band::narrow(&inputs, &drawn, &finite(&hours));
        let is_assumed = |input: &Input| input.from.is_prior() && !input.spread.is_exact();
        let assumed = inputs.into_iter().filter(is_assumed).collect();
        Ok((Hours { members: hours, narrow, assumed }, others))
    }

    fn question(&self) -> Result<Question, HeatError> {
        let meat = meat_of_cut(&self.pack.cut, Overrides::default())?;
        let mut question = Question::new(meat, Form::Steak);
        let count = f64::from(self.pack.side_by_side.max(1));
        question.mass_kg = match self.pack.portion_kg {
            Value::Known(kg) => Value::Known(kg * count),
            Value::Range { low, high } => Value::Range { low: low * count, high: high * count },
            Value::Unknown => Value::Known(USUAL_STEAK_KG * count),
        };
        // A stand-in where it was left out: each member has its own.
        question.thickness_m = Value::Known(self.thickness(&question.meat).spread.median());
        question.start_c = match self.pack.start_c {
            Value::Unknown => usual_of(self.from_medium),
            given => given,
        };
        let mut stay =
            StageQuestion::new(self.name, self.medium, Until::Centre(Temperature::from_c(self.until_c)));
        stay.medium_c = self.place_c;
        stay.cover_m2_k_w = catalogue::wrap(&self.pack.wrap).map_or(0.0, catalogue::Wrap::resistance_m2_k_w);
        stay.at_most = AT_MOST;
        question.stages = vec![stay];
        Ok(question)
    }

    /// Measured, or what the portion's mass leaves for a steak of the usual footprint.
    fn thickness(&self, meat: &Meat) -> Input {
        let kg = match self.pack.portion_kg {
            Value::Known(kg) => kg,
            Value::Range { low, high } => f64::midpoint(low, high),
            Value::Unknown => USUAL_STEAK_KG,
        };
        let given = self.pack.thickness_m.input(THICKNESS, Instrument::Ruler);
        given.unwrap_or_else(|| usual_thickness(THICKNESS, kg, meat))
    }

    fn spacing(&self, question: &Question) -> Result<Span, HeatError> {
        let took = heat::cook::typical(question, &settings())?.time_s;
        Ok(Span::from_s((took / POINTS).clamp(10.0, 3600.0)))
    }
}

/// What a place of this medium is where nobody says.
fn usual_of(medium: &str) -> Value {
    match catalogue::medium(medium).map(|medium| medium.medium_c.law) {
        Some(Law::Uniform { low, high }) => Value::Range { low, high },
        Some(Law::Normal { mean, .. }) => Value::Known(mean),
        _ => Value::Unknown,
    }
}

/// A member that never gets there stands at the farthest that does: leaving it out would tear the hypercube.
fn finite(hours: &[f64]) -> Vec<f64> {
    let most = hours.iter().copied().filter(|hours| hours.is_finite()).fold(0.0, f64::max);
    hours.iter().map(|hours| hours.min(most)).collect()
}

fn settings() -> Settings {
    Settings { colour: false, tolerance: 1e-2, ..Settings::ensemble() }
}
