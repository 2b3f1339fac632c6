//! The runs: one where inputs are taken as true, an ensemble otherwise.

use super::face::Gathered;
use super::fields as f;
use super::shape::ShapeDraft;
use super::stage::{StageDraft, StartDraft};
use crate::Flags;
use crate::read::Table;
use crate::verb::meat::{MEAT, MeatDraft, refuse};
use band::{Draws, Input, Value, draw};
use heat::cook::{Form, Prepared, Question};
use heat::{Faces, HeatError, History, Meat, Organism, Settings, Start, simulate};
use rayon::prelude::*;

/// The whole form, read.
pub(super) struct Asked {
    pub(super) meat: MeatDraft,
    pub(super) shape: ShapeDraft,
    /// Of the catalogue, whose section a roast has.
    pub(super) cut: Option<String>,
    pub(super) start: StartDraft,
    pub(super) stages: Vec<StageDraft>,
    pub(super) organisms: Vec<Organism>,
    pub(super) gathered: Gathered,
    /// What is kept of the way of the one history that is shown.
    pub(super) shown: Settings,
}

/// What came of it.
pub(super) struct Ran {
    /// The history whose curve and section are shown: of the inputs, or of the middle of each.
    pub(super) shown: History,
    /// Every member; one where inputs are taken as true.
    pub(super) members: Vec<Outcome>,
    pub(super) inputs: Vec<Input>,
    pub(super) draws: Draws,
    pub(super) stages: Vec<String>,
    pub(super) organisms: Vec<String>,
    /// What heat and mass are told of where the piece has no end: a square metre of a slab, a metre of a cylinder.
    pub(super) each: Option<&'static str>,
}

/// One member: times in s, temperatures in °C, kJ, g.
pub(super) struct Outcome {
    /// Infinite where a stage never ends.
    pub(super) time_s: f64,
    pub(super) centre_c: f64,
    pub(super) surface_c: f64,
    pub(super) mean_c: f64,
    pub(super) peak_centre_c: f64,
    pub(super) peak_at_s: f64,
    pub(super) heat_kj: f64,
    pub(super) mass_lost_g: f64,
    pub(super) grey_share: f64,
    pub(super) ice_share: f64,
    pub(super) kills: Vec<f64>,
    pub(super) energy_error: f64,
    pub(super) stages: Vec<StageOutcome>,
}

pub(super) struct StageOutcome {
    /// Infinite where its rule is never met.
    pub(super) time_s: f64,
    pub(super) centre_c: f64,
    pub(super) surface_c: f64,
    pub(super) mean_c: f64,
    pub(super) mass_lost_g: f64,
    pub(super) reached: bool,
}

/// Runs the form; what heat has against it goes back as problems.
pub(super) fn run(root: &Table<'_>, asked: &Asked, flags: &Flags) -> Option<Ran> {
    let ran = if flags.exact { exact(asked) } else { banded(asked, flags) };
    ran.map_err(|error| object(root, &error)).ok()
}

/// Points at the table an error is about: the meat, the stage it names, or the stages.
fn object(root: &Table<'_>, error: &HeatError) {
    if let HeatError::Shares { .. } | HeatError::Rows { .. } | HeatError::NotRising { .. } = error {
        return refuse(root, &MEAT, error);
    }
    // What is out of range in a stage says its name first; the rest are the piece's sizes.
    if let HeatError::OutOfRange { what, .. } = error
        && !what.contains(": ")
    {
        return refuse(root, &f::SHAPE, error);
    }
    let (HeatError::OutsideFit { stage, .. } | HeatError::Stuck { stage, .. }) = error else {
        return refuse(root, &f::STAGE, error);
    };
    let named = root.tables(&f::STAGE).into_iter().find(|table| table.text(&f::NAME) == Some(stage.as_str()));
    match named {
        Some(table) => refuse(&table, &f::NAME, error),
        None => refuse(root, &f::STAGE, error),
    }
}

fn exact(asked: &Asked) -> Result<Ran, HeatError> {
    let meat = asked.meat.meat(&[])?;
    let size = || HeatError::Unknown {
        kind: "size",
        name: "of the shape".into(),
        known: "every size as a number".into(),
    };
    let shape = asked.shape.exact().ok_or_else(size)?;
    let start = asked.start.exact().ok_or_else(size)?;
    let cap = asked.shape.exact_cap();
    let stages: Vec<_> =
        asked.stages.iter().map(|stage| stage.stage(&[], &[], &asked.gathered, cap)).collect();
    let shown = simulate(&meat, &shape, &start, &stages, &asked.shown)?;
    let members = vec![Outcome::of(&shown, asked, None)];
    Ok(asked.ran(shown, members, Vec::new(), draw(&[], 0, 0)))
}

fn banded(asked: &Asked, flags: &Flags) -> Result<Ran, HeatError> {
    let own = asked.gathered.unknowns.inputs();
    let middle = asked.gathered.unknowns.middle();
    let question = asked.question(asked.meat.meat(&middle)?);
    let prepared = Prepared::new(&question)?;
    let inputs: Vec<Input> = own.iter().chain(prepared.inputs()).cloned().collect();
    let drawn = draw(&inputs, flags.draws, flags.seed);
    let settings = question.settings();
    // Collected in the order of the draws, so that the answer does not hang on who finished first.
    let members: Result<Vec<Outcome>, HeatError> = (0..drawn.len())
        .into_par_iter()
        .map(|at| {
            let (history, model_share) = asked.member(&prepared, drawn.member(at), &settings)?;
            Ok(Outcome::of(&history, asked, Some(model_share)))
        })
        .collect();
    let middle: Vec<f64> = inputs.iter().map(|input| input.spread.median()).collect();
    let (shown, _) = asked.member(&prepared, &middle, &asked.shown)?;
    Ok(asked.ran(shown, members?, inputs, drawn))
}

impl Asked {
    fn ran(&self, shown: History, members: Vec<Outcome>, inputs: Vec<Input>, draws: Draws) -> Ran {
        let stages = self.stages.iter().map(|stage| stage.name().to_owned()).collect();
        let organisms = self.organisms.iter().map(|organism| organism.name.clone()).collect();
        let each = match self.shape.form {
            Form::Slab => Some("each square metre"),
            Form::Cylinder => Some("each metre"),
            _ => None,
        };
        Ran { shown, members, inputs, draws, stages, organisms, each }
    }

    /// Sizes, start and the media of the catalogue as a question of the band layer.
    fn question(&self, meat: Meat) -> Question {
        let mut question = Question::new(meat, self.shape.form);
        question.thickness_m = self.shape.thickness_m;
        question.mass_kg = self.shape.mass_kg;
        question.width_m = self.shape.width_m;
        question.length_m = self.shape.length_m;
        question.cap_m = self.shape.cap_m;
        question.cut.clone_from(&self.cut);
        question.start_c = match &self.start {
            StartDraft::Even(value) => *value,
            // Replaced by the rows themselves in every member.
            StartDraft::Profile(rows) => Value::Known(rows.first().map_or(4.0, |row| row.1.c())),
        };
        question.stages.clone_from(&self.gathered.slots);
        question.organisms.clone_from(&self.organisms);
        question
    }

    /// One member's history, and what a true oval's times differ from the disc's.
    fn member(
        &self,
        prepared: &Prepared<'_>,
        row: &[f64],
        settings: &Settings,
    ) -> Result<(History, f64), HeatError> {
        let (own, rest) = row.split_at(self.gathered.unknowns.inputs().len());
        let ready = if own.is_empty() {
            prepared.member(rest)?
        } else {
            let question = self.question(self.meat.meat(own)?);
            Prepared::new(&question)?.member(rest)?
        };
        let catalogue: Vec<Faces> = ready.stages.into_iter().map(|stage| stage.faces).collect();
        let stages: Vec<_> =
            self.stages.iter().map(|stage| stage.stage(own, &catalogue, &self.gathered, ready.cap)).collect();
        let start = match &self.start {
            StartDraft::Even(_) => ready.start,
            StartDraft::Profile(rows) => Start::Profile(rows.clone()),
        };
        let history = simulate(&ready.meat, &ready.shape, &start, &stages, settings)?;
        Ok((history, ready.model_share))
    }
}

impl Outcome {
    /// With a model share, a member of an ensemble: its times are stretched by it unless a clock ends them, and what is
    /// never reached takes for ever. Without, the history as it is.
    fn of(history: &History, asked: &Asked, model_share: Option<f64>) -> Self {
        let stretch = 1.0 + model_share.unwrap_or(0.0);
        let stages: Vec<StageOutcome> = asked
            .stages
            .iter()
            .enumerate()
            .map(|(at, stage)| {
                let end = history.stages.get(at);
                let reached = end.is_some_and(|end| end.reached);
                let ran = end.map_or(0.0, |end| end.time_s);
                let time_s = match model_share {
                    Some(_) if !reached => f64::INFINITY,
                    Some(_) if !stage.by_clock() => ran * stretch,
                    _ => ran,
                };
                let of = |get: fn(&heat::StageEnd) -> f64| end.map_or(f64::NAN, get);
                StageOutcome {
                    time_s,
                    centre_c: of(|end| end.centre_c),
                    surface_c: of(|end| end.surface_c),
                    mean_c: of(|end| end.mean_c),
                    mass_lost_g: of(|end| 1000.0 * end.mass_lost_kg),
                    reached,
                }
            })
            .collect();
        Self {
            time_s: stages.iter().map(|stage| stage.time_s).sum(),
            centre_c: history.centre_c,
            surface_c: history.surface_c,
            mean_c: history.mean_c,
            peak_centre_c: history.peak_centre_c,
            peak_at_s: history.peak_at_s * stretch,
            heat_kj: 1e-3 * history.heat_j,
            mass_lost_g: 1e3 * history.mass_lost_kg,
            grey_share: history.grey_share,
            ice_share: history.ice_share,
            kills: history.kill_log10.iter().map(|(_, kill)| *kill).collect(),
            energy_error: history.energy_error,
            stages,
        }
    }
}
