//! The ensemble: evenings that are the same for all portions, and what heat says of each portion in each of them.

use crate::layout::Layout;
use crate::passes::sear;
use crate::roads::{Curve, Spread, at};
use crate::stages::{low_stage, rest_stage, sear_stage};
use crate::{DinnerError, Portion, Table};
use band::{Draws, Input, Instrument, Narrow, Spread as Law, Value};
use heat::cook::{Form, Prepared, Question, StageQuestion, USUAL_STEAK_KG, meat_of_cut, usual_thickness};
use heat::{HeatError, Overrides, Settings, Until, simulate};
use quantity::{Span, Temperature};
use rayon::prelude::*;

/// One supper's ensemble.
pub(crate) struct Evenings<'t> {
    table: &'t Table,
    question: Question,
    inputs: Vec<Input>,
    draws: Draws,
    /// How many of the inputs are common to all portions; then one thickness a plate.
    common: usize,
    /// Places of thickness and mass among the common inputs.
    sizes: Sizes,
    portions: Vec<usize>,
    kinds: Vec<Kind>,
    kind_of: Vec<usize>,
}

#[derive(Clone, Copy)]
struct Sizes {
    thickness: usize,
    mass: usize,
}

/// In how many evenings a peak is followed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Followed {
    /// In as many as its middle needs.
    Sought,
    /// In all of them, as its band needs.
    Told,
}

/// Portions of about one mass, warmed at a few thicknesses that span theirs.
struct Kind {
    mass_kg: f64,
    nodes: Spread,
    /// For each node, for each evening, the warming of the core in the low place.
    warming: Vec<Vec<Curve>>,
}

/// The longest a portion may take in the low place.
const LONGEST: Span = Span::from_h(8.0);
/// Portions whose masses lie this near are one kind: 12 % of the mass is about 1 % of the minutes.
const ONE_KIND: f64 = 1.12;
/// Evenings the peak is followed in while the pull number is sought: its middle is then known to a fifth of a degree. The
/// band that is told takes every evening: of 64 its ends would stand five points off as often as not.
const SOUGHT_IN: usize = 64;
/// Points on a warming curve; between them it is straight to a hundredth of a minute.
const POINTS: f64 = 30.0;

impl<'t> Evenings<'t> {
    pub(crate) fn of(
        table: &'t Table,
        layout: &Layout,
        draws: usize,
        seed: u64,
    ) -> Result<Self, DinnerError> {
        let mut question = Question::new(meat_of_cut(&table.cut, Overrides::default())?, Form::Steak);
        // Only stand-ins: each plate has its own.
        (question.thickness_m, question.mass_kg) = (Value::Known(0.03), Value::Known(0.38));
        question.start_c = common_start(&table.portions, layout);
        question.stages = stages(table);
        let prepared = Prepared::new(&question)?;
        let mut inputs = prepared.inputs().to_vec();
        let place = |name: &str| inputs.iter().position(|input| input.name == name).unwrap_or(0);
        let sizes = Sizes { thickness: place("thickness"), mass: place("mass") };
        for stand_in in [sizes.thickness, sizes.mass] {
            inputs[stand_in].spread = Law::Exact(inputs[stand_in].spread.median());
        }
        let common = inputs.len();
        let portions: Vec<usize> = layout.plates.iter().map(|plate| plate.portion).collect();
        inputs.extend(portions.iter().map(|&portion| thickness(&table.portions[portion], &question)));
        let draws = band::draw(&inputs, draws, seed);
        let mut evenings =
            Self { table, question, inputs, draws, common, sizes, portions, kinds: vec![], kind_of: vec![] };
        evenings.warm(layout)?;
        Ok(evenings)
    }

    /// Minutes from in to the pull, evening by evening; infinite where it is never reached. What is out already took what
    /// it took.
    pub(crate) fn low_minutes(&self, plate: usize, pull_c: f64) -> Vec<f64> {
        let portion = &self.table.portions[self.portions[plate]];
        if let (Some(went_in), Some(pulled)) = (portion.went_in, portion.pulled) {
            return vec![(went_in - pulled).min(); self.draws.len()];
        }
        let kind = &self.kinds[self.kind_of[plate]];
        (0..self.draws.len())
            .map(|evening| {
                let minutes: Vec<f64> = kind.warming.iter().map(|node| at(&node[evening], pull_c)).collect();
                kind.nodes.between(self.thickness(plate, evening), &minutes)
            })
            .collect()
    }

    /// The warmest a plate's core gets, evening by evening, pulled at `pull_c` after its own wait; °C.
    pub(crate) fn peaks(
        &self,
        layout: &Layout,
        plate: usize,
        pull_c: f64,
        hold_min: &[f64],
        followed: Followed,
    ) -> Result<Vec<f64>, DinnerError> {
        let prepared = Prepared::new(&self.question)?;
        let stride = match followed {
            Followed::Sought => (self.draws.len() / SOUGHT_IN).max(1),
            Followed::Told => 1,
        };
        let evenings: Vec<usize> = (0..self.draws.len()).step_by(stride).collect();
        let rest = rest(self.table, layout, plate);
        let mass_kg = self.kinds[self.kind_of[plate]].mass_kg;
        let peak = |evening: usize| -> Result<f64, DinnerError> {
            let mut row = self.row(evening);
            (row[self.sizes.thickness], row[self.sizes.mass]) = (self.thickness(plate, evening), mass_kg);
            let mut ready = prepared.member(&row)?;
            ready.stages[LOW].until = Until::Centre(Temperature::from_c(pull_c));
            ready.stages[HOLD].until = Until::Time(Span::from_min(hold_min[evening]));
            ready.stages[REST].until = Until::Time(rest);
            let history = match simulate(&ready.meat, &ready.shape, &ready.start, &ready.stages, &coarse()) {
                // A skin beyond the figures' range, in the hottest pans alone: the core hardly knows of it.
                Err(HeatError::OutsideFit { .. }) => return Ok(f64::NAN),
                other => other?,
            };
            Ok(if history.stages.len() == ready.stages.len() { history.peak_centre_c } else { f64::NAN })
        };
        let peaks: Vec<f64> = evenings.into_par_iter().map(peak).collect::<Result<_, _>>()?;
        Ok(peaks.into_iter().filter(|peak| peak.is_finite()).collect())
    }

    /// How many evenings there are.
    pub(crate) fn count(&self) -> usize {
        self.draws.len()
    }

    /// What makes the width of a number that has one value an evening.
    pub(crate) fn narrow(&self, values: &[f64]) -> Vec<Narrow> {
        band::narrow(&self.inputs, &self.draws, values)
    }

    /// What nobody gave.
    pub(crate) fn assumed(&self) -> Vec<Input> {
        let is_assumed = |input: &&Input| input.from.is_prior() && !input.spread.is_exact();
        self.inputs.iter().filter(is_assumed).cloned().collect()
    }

    /// Warms every kind at its nodes in every evening.
    fn warm(&mut self, layout: &Layout) -> Result<(), DinnerError> {
        self.sort_into_kinds(layout);
        let hottest = layout.rows.iter().map(|row| row.wish.c()).fold(0.0, f64::max);
        let mut alone = self.question.clone();
        alone.stages.truncate(1);
        alone.stages[LOW].until = Until::Centre(Temperature::from_c(hottest));
        let prepared = Prepared::new(&self.question)?;
        for kind in 0..self.kinds.len() {
            let (mass_kg, nodes) = (self.kinds[kind].mass_kg, self.kinds[kind].nodes.places().to_vec());
            let settings =
                Settings { sample_every: Some(self.spacing(&alone, mass_kg, &nodes)?), ..settings() };
            let count = self.draws.len();
            let one = |job: usize| -> Result<Curve, DinnerError> {
                let mut row = self.row(job % count);
                (row[self.sizes.thickness], row[self.sizes.mass]) = (nodes[job / count], mass_kg);
                let mut ready = prepared.member(&row)?;
                ready.stages.truncate(1);
                ready.stages[LOW].until = Until::Centre(Temperature::from_c(hottest));
                ready.stages[LOW].at_most = LONGEST;
                let history = simulate(&ready.meat, &ready.shape, &ready.start, &ready.stages, &settings)?;
                let minutes = |s: f64| s / 60.0 * (1.0 + ready.model_share);
                Ok(history.curve.iter().map(|point| (minutes(point.t_s), point.centre_c)).collect())
            };
            let all: Vec<Curve> =
                (0..nodes.len() * count).into_par_iter().map(one).collect::<Result<_, _>>()?;
            self.kinds[kind].warming = all.chunks(count).map(<[Curve]>::to_vec).collect();
        }
        Ok(())
    }

    fn sort_into_kinds(&mut self, layout: &Layout) {
        let mass = |plate: usize| match self.table.portions[self.portions[plate]].mass_kg() {
            known if known > 0.0 => known,
            _ => USUAL_STEAK_KG,
        };
        let mut order: Vec<usize> = (0..layout.plates.len()).collect();
        order.sort_by(|&a, &b| mass(a).total_cmp(&mass(b)).then(a.cmp(&b)));
        let mut groups: Vec<Vec<usize>> = Vec::new();
        for plate in order {
            match groups.last_mut().filter(|group| mass(plate) <= mass(group[0]) * ONE_KIND) {
                Some(group) => group.push(plate),
                None => groups.push(vec![plate]),
            }
        }
        let kinds = groups.iter().map(|plates| {
            let drawn = plates.iter().flat_map(|&plate| self.draws.column(self.common + plate));
            let mass_kg = plates.iter().map(|&plate| mass(plate)).sum::<f64>() / plates.len() as f64;
            Kind { mass_kg, nodes: Spread::over(drawn), warming: Vec::new() }
        });
        let kinds: Vec<Kind> = kinds.collect();
        let mut kind_of = vec![0; layout.plates.len()];
        for (kind, plates) in groups.iter().enumerate() {
            plates.iter().for_each(|&plate| kind_of[plate] = kind);
        }
        (self.kinds, self.kind_of) = (kinds, kind_of);
    }

    /// A thirtieth of the middle evening's minutes.
    fn spacing(&self, alone: &Question, mass_kg: f64, nodes: &[f64]) -> Result<Span, DinnerError> {
        let mut question = alone.clone();
        question.thickness_m = Value::Known(nodes[0]);
        question.mass_kg = Value::Known(mass_kg);
        question.stages[LOW].at_most = LONGEST;
        let took = heat::cook::typical(&question, &settings())?.time_s;
        Ok(Span::from_s((took / POINTS).clamp(10.0, 300.0)))
    }

    /// The degree of the low place as it was given, or the middle of its prior.
    pub(crate) fn low_c(&self) -> f64 {
        let name = format!("{}: temperature", self.question.stages[LOW].name);
        let input = self.inputs.iter().find(|input| input.name == name);
        input.map_or(f64::NAN, |input| input.spread.median())
    }

    /// The portions of a row, by name.
    pub(crate) fn names(&self, row: &crate::layout::Together) -> String {
        let names: Vec<&str> =
            row.plates.iter().map(|&plate| self.table.portions[self.portions[plate]].name.as_str()).collect();
        names.join(", ")
    }

    fn row(&self, evening: usize) -> Vec<f64> {
        self.draws.member(evening)[..self.common].to_vec()
    }

    fn thickness(&self, plate: usize, evening: usize) -> f64 {
        self.draws.member(evening)[self.common + plate]
    }
}

const LOW: usize = 0;
const HOLD: usize = 1;
const REST: usize = 3;
/// Low, wait, sear, rest. Ends that differ between rows are put in later.
fn stages(table: &Table) -> Vec<StageQuestion> {
    let usual = Until::Centre(Temperature::from_c(50.0));
    let wait = StageQuestion::new("wait", table.wait.clone(), Until::Time(Span::from_min(4.0)));
    vec![
        low_stage(&table.low, usual),
        wait,
        sear_stage(&table.hot, &table.habits),
        rest_stage(table.habits.rest),
    ]
}

/// From the end of this plate's own sear to the hour.
fn rest(table: &Table, layout: &Layout, plate: usize) -> Span {
    Span::from_min(layout.sear_min[plate]) - sear(&table.habits)
}

/// One start for all, since they come out of one fridge: what was given, from the coldest to the warmest.
fn common_start(portions: &[Portion], layout: &Layout) -> Value {
    let mut ends: Option<(f64, f64)> = None;
    for plate in &layout.plates {
        let (low, high) = match portions[plate.portion].start_c {
            Value::Known(read) => (read - 0.5, read + 0.5),
            Value::Range { low, high } => (low, high),
            Value::Unknown => return Value::Unknown,
        };
        ends = Some(ends.map_or((low, high), |(a, b): (f64, f64)| (a.min(low), b.max(high))));
    }
    ends.map_or(Value::Unknown, |(low, high)| Value::Range { low, high })
}

/// A portion's own thickness: measured, or what its mass leaves for a steak of the usual footprint.
fn thickness(portion: &Portion, question: &Question) -> Input {
    let name = format!("thickness of {}", portion.name);
    let mass = Some(portion.mass_kg()).filter(|kg| *kg > 0.0).unwrap_or(USUAL_STEAK_KG);
    let given = portion.thickness_m.input(name.clone(), Instrument::Ruler);
    given.unwrap_or_else(|| usual_thickness(name, mass, &question.meat))
}

/// A peak is told to the degree: a tenth of one is near enough.
fn coarse() -> Settings {
    Settings { tolerance: 3e-2, ..settings() }
}

/// A tenth of a per cent of the time is far below what the inputs leave open.
fn settings() -> Settings {
    Settings { colour: false, tolerance: 1e-2, ..Settings::ensemble() }
}
