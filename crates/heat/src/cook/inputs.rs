//! The inputs of a question, and the piece each row of draws stands for.

use super::media::{Moisture, Numbers, Over, faces};
use super::prepared::Ready;
use super::question::{Form, Question, StageQuestion};
use crate::{Footprint, HeatError, Reserve, Shape, Stage, Start, Supply};
use band::{Input, Instrument, Origin, Spread, Value};
use catalogue::{Law, Medium, Prior, drying_face, figures, medium, over, steak_prior};
use quantity::{Length, Mass, Temperature};

/// The inputs of a question, each with its place.
pub(super) struct Plan<'a> {
    question: &'a Question,
    pub(super) inputs: Vec<Input>,
    thickness: usize,
    size: Size,
    start: usize,
    conductivity: Option<usize>,
    model: Option<usize>,
    face: Option<FacePlaces>,
    stages: Vec<StagePlaces>,
}

/// Where the rest of the shape's sizes are.
enum Size {
    None,
    Mass { mass: usize, aspect: usize },
    Area { area: usize, aspect: usize },
    Sides { width: usize, length: usize },
}

/// Where the drying of bare faces is; one set for all stages, for it belongs to the piece.
struct FacePlaces {
    diffusivity: usize,
    lean_share: usize,
    juice_share: usize,
    drawn: usize,
}

struct StagePlaces {
    medium: &'static Medium,
    medium_c: usize,
    film: usize,
    emissivity: usize,
    radiant: Option<usize>,
    vapour: Option<(usize, bool)>,
    reserve: Option<[usize; 2]>,
    bottom: Option<usize>,
    tent: Option<usize>,
    over: Option<[usize; 3]>,
}

impl<'a> Plan<'a> {
    pub(super) fn new(question: &'a Question) -> Result<Self, HeatError> {
        let mut inputs = Inputs(Vec::new());
        let steak = steak_prior();
        let thickness = inputs.size("thickness", question.thickness_m, question.form)?;
        let size = inputs.sizes(question)?;
        let start = inputs.add("start", question.start_c, Instrument::Probe, &steak.start_c);
        let composed = question.meat.composition().is_some();
        let conductivity = composed.then(|| inputs.conductivity());
        let model = (question.form == Form::Steak).then(|| inputs.prior("shape", &steak.model_share));
        let bare = composed && question.stages.iter().any(may_dry);
        let face = bare.then(|| inputs.face());
        let stages = question.stages.iter().map(|stage| inputs.stage(stage)).collect::<Result<_, _>>()?;
        Ok(Self { question, inputs: inputs.0, thickness, size, start, conductivity, model, face, stages })
    }

    pub(super) fn piece(&self, row: &[f64]) -> Result<Ready, HeatError> {
        let factor = self.conductivity.map_or(1.0, |i| row[i].max(0.3));
        let stages = self.question.stages.iter().zip(&self.stages);
        Ok(Ready {
            meat: self.question.meat.with_conductivity_times(factor),
            shape: self.shape(row)?,
            start: Start::Even(Temperature::from_c(row[self.start])),
            stages: stages.map(|(asked, places)| self.stage(asked, places, row)).collect(),
            model_share: self.model.map_or(0.0, |i| row[i]),
        })
    }

    fn shape(&self, row: &[f64]) -> Result<Shape, HeatError> {
        let thickness = Length::from_m(row[self.thickness]);
        let missing = |what: &str| {
            HeatError::check(
                what,
                f64::NAN,
                (0.5, 2000.0),
                "mm",
                "give it: nothing else tells how big the piece is",
            )
            .map(|()| Shape::Slab { thickness })
        };
        Ok(match (self.question.form, &self.size) {
            (Form::Slab, _) => Shape::Slab { thickness },
            (Form::Cylinder, _) => Shape::Cylinder { diameter: thickness },
            (Form::Sphere, _) => Shape::Sphere { diameter: thickness },
            (Form::Steak, Size::Mass { mass, aspect }) => {
                let mass = Mass::from_kg(row[*mass]);
                Shape::Steak { thickness, footprint: Footprint::MassAndAspect(mass, row[*aspect].max(1.0)) }
            }
            (Form::Steak, Size::Area { area, aspect }) => {
                // From cm²; a normal draw may stray, a steak of a square inch is no steak.
                let area = 1e-4 * row[*area].max(20.0);
                let mass = Mass::from_kg(area * thickness.m() * self.question.meat.density_kg_m3());
                Shape::Steak { thickness, footprint: Footprint::MassAndAspect(mass, row[*aspect].max(1.0)) }
            }
            (Form::Steak, Size::Sides { width, length }) => {
                let (width, length) = (Length::from_m(row[*width]), Length::from_m(row[*length]));
                Shape::Steak { thickness, footprint: Footprint::Sides { width, length } }
            }
            (Form::Brick, Size::Sides { width, length }) => {
                let (width, length) = (Length::from_m(row[*width]), Length::from_m(row[*length]));
                Shape::Brick { thickness, width, length }
            }
            (Form::FiniteCylinder, Size::Sides { width, .. }) => {
                Shape::FiniteCylinder { diameter: Length::from_m(row[*width]), length: thickness }
            }
            (Form::Steak, Size::None) => return missing("mass"),
            (Form::Brick | Form::FiniteCylinder, _) => return missing("width"),
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

/// Whether a stage can take water from a bare face.
fn may_dry(stage: &StageQuestion) -> bool {
    use catalogue::Drying::{BoilingOnly, None};
    let usual = medium(&stage.medium).is_some_and(|m| !matches!(m.evaporation, None));
    stage.cover_m2_k_w == 0.0 && stage.evaporation.map_or(usual, |how| !matches!(how, None | BoilingOnly))
}

/// Inputs as they are named.
struct Inputs(Vec<Input>);

impl Inputs {
    fn push(&mut self, input: Input) -> usize {
        self.0.push(input);
        self.0.len() - 1
    }

    fn prior(&mut self, name: &str, prior: &Prior) -> usize {
        self.push(Input::new(name, spread(prior), origin(prior)))
    }

    fn add(&mut self, name: &str, value: Value, instrument: Instrument, prior: &Prior) -> usize {
        self.push(value.input_or(name, instrument, || (spread(prior), origin(prior))))
    }

    /// A size that has no prior: left out, it is an error.
    fn size(&mut self, name: &str, value: Value, form: Form) -> Result<usize, HeatError> {
        let hint = "give it in millimetres: nothing else tells how thick the piece is";
        let Some(input) = value.input(name, Instrument::Ruler) else {
            let _ = form;
            HeatError::check(name, f64::NAN, (0.5, 2000.0), "mm", hint)?;
            return Ok(0);
        };
        Ok(self.push(input))
    }

    fn sizes(&mut self, question: &Question) -> Result<Size, HeatError> {
        let steak = steak_prior();
        let scale = Instrument::Scale { division: Mass::from_g(1.0) };
        let sides =
            !matches!((question.width_m, question.length_m), (Value::Unknown, _) | (_, Value::Unknown));
        Ok(match question.form {
            Form::Slab | Form::Cylinder | Form::Sphere => Size::None,
            Form::Brick => Size::Sides {
                width: self.size("width", question.width_m, question.form)?,
                length: self.size("length", question.length_m, question.form)?,
            },
            Form::FiniteCylinder => {
                let width = self.size("diameter", question.width_m, question.form)?;
                Size::Sides { width, length: width }
            }
            Form::Steak if sides => Size::Sides {
                width: self.size("width", question.width_m, question.form)?,
                length: self.size("length", question.length_m, question.form)?,
            },
            Form::Steak => {
                let aspect = self.prior("outline", &steak.aspect);
                match question.mass_kg.input("mass", scale) {
                    Some(mass) => Size::Mass { mass: self.push(mass), aspect },
                    None => Size::Area { area: self.prior("area", &steak.area_cm2), aspect },
                }
            }
        })
    }

    /// The model's own doubt about conductivity, as a factor.
    fn conductivity(&mut self) -> usize {
        let figure = &figures().conductivity_uncertainty;
        let from = Origin::Prior { mark: figure.mark.word().to_owned(), source: figure.source.clone() };
        self.push(Input::new("conductivity", Spread::Normal { mean: 1.0, sd: figure.value }, from))
    }

    fn face(&mut self) -> FacePlaces {
        let face = drying_face();
        FacePlaces {
            diffusivity: self.prior("moisture diffusivity", &face.diffusivity_m2_s),
            lean_share: self.prior("lean share of the face", &face.lean_share),
            juice_share: self.prior("juice to the face", &face.juice_share),
            drawn: self.prior("dryness of the face", &face.drawn_kg_m2),
        }
    }

    fn stage(&mut self, asked: &StageQuestion) -> Result<StagePlaces, HeatError> {
        let Some(medium) = medium(&asked.medium) else {
            let known: Vec<&str> = catalogue::media().iter().map(|m| m.name.as_str()).collect();
            let name = asked.medium.clone();
            return Err(HeatError::Unknown { kind: "medium", name, known: known.join(" ") });
        };
        let name = |what: &str| format!("{}: {what}", asked.name);
        let moist = may_dry(asked);
        let vapour = if !moist {
            None
        } else if asked.humidity == Value::Unknown && medium.vapour_pa.is_some() {
            medium.vapour_pa.as_ref().map(|prior| (self.prior(&name("moisture"), prior), false))
        } else {
            let usual = medium.humidity.as_ref().map(|p| (spread(p), origin(p)));
            let usual = usual.unwrap_or((Spread::Uniform { low: 0.3, high: 0.7 }, assumed()));
            let input = asked.humidity.input_or(name("moisture"), Instrument::None, || usual);
            Some((self.push(input), true))
        };
        Ok(StagePlaces {
            medium,
            medium_c: self.temperature(&name("temperature"), asked.medium_c, medium),
            film: self.add(&name("film"), asked.film_w_m2_k, Instrument::None, &medium.film),
            emissivity: self.add(&name("emissivity"), asked.emissivity, Instrument::None, &medium.emissivity),
            radiant: medium.radiant_above_k.as_ref().map(|p| self.prior(&name("what it sees"), p)),
            vapour,
            reserve: medium.reserve.as_ref().map(|plate| {
                [
                    self.prior(&name("held by the plate"), &plate.capacity_j_m2_k),
                    self.prior(&name("recovery of the plate"), &plate.recovery_w_m2_k),
                ]
            }),
            bottom: medium.bottom_share.as_ref().map(|p| self.prior(&name("under the piece"), p)),
            tent: medium.tent.as_ref().map(|_| {
                let whether = Spread::Uniform { low: 0.0, high: 1.0 };
                self.push(Input::new(name("foil over it"), whether, assumed()))
            }),
            over: (medium.kind == catalogue::MediumKind::Below).then(|| {
                let over = over();
                [
                    self.prior(&name("air above"), &over.medium_c),
                    self.prior(&name("film above"), &over.film),
                    self.prior(&name("emissivity above"), &over.emissivity),
                ]
            }),
        })
    }

    /// What was read or set, with what the medium strays from that.
    fn temperature(&mut self, name: &str, value: Value, medium: &Medium) -> usize {
        let input = match value {
            Value::Known(read) => {
                Input::new(name, shifted(spread(&medium.medium_error_k), read), Origin::Instrument)
            }
            other => other
                .input_or(name, Instrument::None, || (spread(&medium.medium_c), origin(&medium.medium_c))),
        };
        self.push(input)
    }
}

fn assumed() -> Origin {
    Origin::Prior { mark: "assumed".to_owned(), source: "house-prior".to_owned() }
}

fn origin(prior: &Prior) -> Origin {
    Origin::Prior { mark: prior.basis.mark.word().to_owned(), source: prior.basis.source.clone() }
}

fn spread(prior: &Prior) -> Spread {
    match prior.law {
        Law::Exact { value } => Spread::Exact(value),
        Law::Uniform { low, high } => Spread::Uniform { low, high },
        Law::Normal { mean, sd } => Spread::Normal { mean, sd },
        Law::LogNormal { median, sd_ln } => Spread::LogNormal { median, sd_ln },
        Law::LogUniform { low, high } => Spread::LogUniform { low, high },
    }
}

fn shifted(error: Spread, by: f64) -> Spread {
    match error {
        Spread::Exact(value) => Spread::Exact(value + by),
        Spread::Uniform { low, high } => Spread::Uniform { low: low + by, high: high + by },
        Spread::Normal { mean, sd } => Spread::Normal { mean: mean + by, sd },
        // An error of one sign has no place on a thermometer.
        Spread::LogNormal { .. } | Spread::LogUniform { .. } => Spread::Exact(by),
    }
}
