//! Numbers of a question that may be uncertain: read once, drawn for each member of the ensemble.

use crate::answer::number;
use crate::field::Field;
use crate::read::{Given, Table};
use band::{Input, Instrument, Origin};
use serde_json::{Value, json};

/// The uncertain inputs of a question, in the order they were met.
#[derive(Debug, Default)]
pub(crate) struct Unknowns {
    inputs: Vec<Input>,
    exact: bool,
}

/// A number: the same for all members, or the draw of an input.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Number {
    Fixed(f64),
    Drawn(usize),
}

impl Number {
    /// The number as one member of the ensemble has it.
    pub(crate) fn of(self, member: &[f64]) -> f64 {
        match self {
            Self::Fixed(value) => value,
            Self::Drawn(at) => member.get(at).copied().unwrap_or(f64::NAN),
        }
    }
}

impl Unknowns {
    pub(crate) fn new(exact: bool) -> Self {
        Self { inputs: Vec::new(), exact }
    }

    pub(crate) fn inputs(&self) -> &[Input] {
        &self.inputs
    }

    /// A field's number in SI (`si` is one base unit in SI); with its instrument's error unless inputs are taken as true.
    /// `None` where it was left out.
    pub(crate) fn read(
        &mut self,
        table: &Table<'_>,
        field: &Field,
        instrument: Instrument,
        si: f64,
    ) -> Option<Number> {
        let given = table.given(field);
        if let (true, Some(value)) = (self.exact || instrument == Instrument::None, given.known()) {
            return f64::try_from(value).ok().map(|value| Number::Fixed(value * si));
        }
        match given {
            Given::Unknown => None,
            given => given.value(si).input(table.name(field), instrument).map(|input| self.add(input)),
        }
    }

    /// Another uncertain input, such as a prior.
    pub(crate) fn add(&mut self, input: Input) -> Number {
        if input.spread.is_exact() {
            return Number::Fixed(input.spread.median());
        }
        self.inputs.push(input);
        Number::Drawn(self.inputs.len() - 1)
    }

    /// The middle of every input: the member nearest to what a person would type.
    pub(crate) fn middle(&self) -> Vec<f64> {
        self.inputs.iter().map(|input| input.spread.median()).collect()
    }

    /// The priors that stood in for what was left out.
    pub(crate) fn assumed(&self) -> Value {
        self.inputs.iter().filter_map(assumed).collect()
    }
}

/// Four figures: priors span from 1e-10 m²/s to kilowatts.
fn significant(value: f64) -> Value {
    let digits = if value == 0.0 { 0.0 } else { value.abs().log10().floor() };
    number(value, (3.0 - digits).clamp(0.0, 18.0) as i32)
}

/// An input's prior with its 80 % band, if it is one.
pub(crate) fn assumed(input: &Input) -> Option<Value> {
    let Origin::Prior { mark, source } = &input.from else { return None };
    let cited = catalogue::source(source).map_or_else(|| source.clone(), |found| found.citation.clone());
    Some(json!({
        "input": input.name,
        "low": significant(input.spread.quantile(0.1)),
        "high": significant(input.spread.quantile(0.9)),
        "from": format!("{mark}: {cited}"),
    }))
}
