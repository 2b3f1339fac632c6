//! The inputs of a question, and the piece each row of draws stands for.

use super::door::Door;
use super::inputs::{Inputs, may_dry, may_press};
use super::media::{Moisture, Numbers, Over, faces};
use super::prepared::Ready;
use super::question::{Question, StageQuestion};
use super::sizes::Sizes;
use crate::{HeatError, Reserve, Stage, Start, Supply, Until};
use band::{Input, Instrument};
use catalogue::{Medium, steak_prior};
use quantity::Temperature;

/// The inputs of a question, each with its place.
pub(super) struct Plan<'a> {
    question: &'a Question,
    pub(super) inputs: Vec<Input>,
    sizes: Sizes,
    start: usize,
    conductivity: Option<usize>,
    juice: Option<usize>,
    model: Option<usize>,
    face: Option<FacePlaces>,
    stages: Vec<StagePlaces>,
}

/// Where the drying of bare faces is; one set for all stages, for it belongs to the piece.
pub(super) struct FacePlaces {
    pub(super) diffusivity: usize,
    pub(super) lean_share: usize,
    pub(super) juice_share: usize,
    pub(super) drawn: usize,
}

pub(super) struct StagePlaces {
    pub(super) medium: &'static Medium,
    pub(super) medium_c: usize,
    pub(super) film: usize,
    pub(super) emissivity: usize,
    pub(super) radiant: Option<usize>,
    pub(super) vapour: Option<(usize, bool)>,
    pub(super) reserve: Option<[usize; 2]>,
    pub(super) bottom: Option<usize>,
    pub(super) tent: Option<usize>,
    pub(super) door: Option<[usize; 3]>,
    pub(super) over: Option<[usize; 3]>,
}

impl<'a> Plan<'a> {
    pub(super) fn new(question: &'a Question) -> Result<Self, HeatError> {
        let mut inputs = Inputs(Vec::new());
        let sizes = Sizes::new(&mut inputs, question)?;
        let start = inputs.add("start", question.start_c, Instrument::Probe, &steak_prior().start_c);
        let composed = question.meat.composition().is_some();
        let conductivity = composed.then(|| inputs.conductivity());
        let model = Sizes::model_share(question.form).map(|prior| inputs.prior("shape", prior));
        let bare = composed && question.stages.iter().any(may_dry);
        let face = bare.then(|| inputs.face());
        let stages = question.stages.iter().map(|stage| inputs.stage(stage)).collect::<Result<_, _>>()?;
        // Last, so that what it is joined by does not move.
        let juice = (composed && question.stages.iter().any(may_press)).then(|| inputs.juice());
        Ok(Self { question, inputs: inputs.0, sizes, start, conductivity, juice, model, face, stages })
    }

    pub(super) fn piece(&self, row: &[f64]) -> Result<Ready, HeatError> {
        let factor = self.conductivity.map_or(1.0, |i| row[i].max(0.3));
        let juice = self.juice.map_or(1.0, |i| row[i]);
        let stages = self.question.stages.iter().zip(&self.stages);
        let cap = self.sizes.cap(row);
        Ok(Ready {
            meat: self.question.meat.with_conductivity_times(factor).with_juice_times(juice),
            shape: self.sizes.shape(self.question, row)?,
            start: Start::Even(Temperature::from_c(row[self.start])),
            stages: stages
                .map(|(asked, places)| {
                    let stage = self.stage(asked, places, row);
                    match cap {
                        Some(cap) => Stage { faces: cap.around(stage.faces), ..stage },
                        None => stage,
                    }
                })
                .collect(),
            cap,
            model_share: self.model.map_or(0.0, |i| row[i]),
        })
    }

    fn stage(&self, asked: &StageQuestion, at: &StagePlaces, row: &[f64]) -> Stage {
        let optional = |place: Option<usize>, otherwise: f64| place.map_or(otherwise, |i| row[i]);
        let (lean_share, supply) = match &self.face {
            Some(face) => (
                row[face.lean_share],
                Supply {
                    diffusivity_m2_s: row[face.diffusivity],
                    drawn_kg_m2: row[face.drawn],
                    juice_share: row[face.juice_share],
                },
            ),
            None => (1.0, Supply::USUAL),
        };
        let over =
            at.over.map_or(Over { medium_c: 20.0, film: 5.0, emissivity: 0.9 }, |[t, film, emissivity]| {
                Over { medium_c: row[t], film: row[film], emissivity: row[emissivity] }
            });
        let numbers = Numbers {
            kind: at.medium.kind,
            evaporation: asked.evaporation.unwrap_or(at.medium.evaporation),
            medium_c: row[at.medium_c],
            film: row[at.film].max(0.1),
            emissivity: row[at.emissivity].clamp(0.0, 1.0),
            radiant_above_k: optional(at.radiant, 0.0),
            moisture: match at.vapour {
                Some((place, true)) => Moisture::Relative(row[place]),
                Some((place, false)) => Moisture::Pressure(row[place]),
                None => Moisture::Relative(0.5),
            },
            reserve: at
                .reserve
                .map(|[held, back]| Reserve { capacity_j_m2_k: row[held], recovery_w_m2_k: row[back] }),
            bottom_share: optional(at.bottom, 1.0),
            tented: at.tent.is_some_and(|i| at.medium.tent.as_ref().is_some_and(|tent| row[i] < tent.chance)),
            door: asked.door.zip(at.door).map(|(opened, [falls, returns, room])| Door {
                opened,
                falls_in_s: row[falls],
                returns_in_s: row[returns],
                room_c: row[room],
                longest_s: match asked.until {
                    Until::Time(span) => span.s().min(asked.at_most.s()),
                    _ => asked.at_most.s(),
                },
            }),
            cover_m2_k_w: asked.cover_m2_k_w,
            lean_share,
            supply,
            over,
        };
        Stage {
            name: asked.name.clone(),
            faces: faces(&numbers),
            flip_every: asked.flip_every,
            until: asked.until,
            at_most: asked.at_most,
        }
    }
}
