//! The sizes of a question's piece, and the shape each row of draws gives.

use super::cap::Cap;
use super::inputs::{Inputs, origin, spread};
use super::question::{Form, Question};
use crate::roast::{Side, brick};
use crate::{Footprint, HeatError, Shape};
use band::{Input, Instrument, Spread, Value};
use catalogue::{Prior, roast_model_share, roast_prior, steak_prior};
use quantity::{Length, Mass};

/// Where the sizes are among the inputs.
pub(super) struct Sizes {
    thickness: usize,
    rest: Rest,
    cap: Option<[usize; 2]>,
}

/// Where all but the thickness are.
enum Rest {
    None,
    Mass { mass: usize, aspect: usize },
    Area { area: usize, aspect: usize },
    Sides { width: usize, length: usize },
    Roast { mass: usize, width: usize, length: Option<usize>, told: [bool; 2] },
}

/// A normal draw may stray: no section is narrower, m.
const NARROWEST: f64 = 0.01;

impl Sizes {
    pub(super) fn new(inputs: &mut Inputs, question: &Question) -> Result<Self, HeatError> {
        if question.form == Form::Roast {
            return Self::of_roast(inputs, question);
        }
        let thickness = inputs.size("thickness", question.thickness_m)?;
        Ok(Self { thickness, rest: rest(inputs, question)?, cap: None })
    }

    fn of_roast(inputs: &mut Inputs, question: &Question) -> Result<Self, HeatError> {
        let prior = roast_prior(question.cut.as_deref());
        let mut side = |name: &str, value: Value, prior: &Prior| {
            let usual = || (metres(spread(prior)), origin(prior));
            let told = value != Value::Unknown;
            (inputs.push(value.input_or(name, Instrument::Ruler, usual)), told)
        };
        let (thickness, height_told) = side("height", question.thickness_m, &prior.height_mm);
        let (width, width_told) = side("width", question.width_m, &prior.width_mm);
        let Some(mass) = question.mass_kg.input("mass", SCALE) else {
            let hint = "give it in grams: a roast is at least its mass";
            HeatError::check("mass", f64::NAN, (1.0, 200_000.0), "g", hint)?;
            return Ok(Self { thickness, rest: Rest::None, cap: None });
        };
        let mass = inputs.push(mass);
        let length = question.length_m.input("length", Instrument::Ruler).map(|input| inputs.push(input));
        let cap = match question.cap_m.input("fat cap", Instrument::Ruler) {
            Some(input) => inputs.push(Input { spread: over_fat(input.spread), ..input }),
            None => inputs.prior("fat cap and bone", &prior.cap_m2_k_w),
        };
        let bare = inputs.prior("bare share of the mantle", &prior.bare_share);
        let told = [height_told, width_told];
        Ok(Self { thickness, rest: Rest::Roast { mass, width, length, told }, cap: Some([cap, bare]) })
    }

    /// What a true outline's time differs from that of the shape that is solved.
    pub(super) fn model_share(form: Form) -> Option<&'static Prior> {
        match form {
            Form::Steak => Some(&steak_prior().model_share),
            Form::Roast => Some(roast_model_share()),
            _ => None,
        }
    }

    /// The cap over a roast's mantle.
    pub(super) fn cap(&self, row: &[f64]) -> Option<Cap> {
        self.cap.map(|[cap, bare]| Cap {
            resistance_m2_k_w: row[cap].max(0.0),
            bare_share: row[bare].clamp(0.0, 1.0),
        })
    }

    pub(super) fn shape(&self, question: &Question, row: &[f64]) -> Result<Shape, HeatError> {
        let thickness = Length::from_m(row[self.thickness]);
        let sides = |width: usize, length: usize| (Length::from_m(row[width]), Length::from_m(row[length]));
        let of_mass = |mass: Mass, aspect: usize| {
            let footprint = Footprint::MassAndAspect(mass, row[aspect].max(1.0));
            Shape::Steak { thickness, footprint }
        };
        let density = question.meat.density_kg_m3();
        Ok(match (question.form, &self.rest) {
            (Form::Cylinder, _) => Shape::Cylinder { diameter: thickness },
            (Form::Sphere, _) => Shape::Sphere { diameter: thickness },
            (_, Rest::None) => Shape::Slab { thickness },
            (_, Rest::Mass { mass, aspect }) => of_mass(Mass::from_kg(row[*mass]), *aspect),
            (_, Rest::Area { area, aspect }) => {
                // From cm²; a normal draw may stray, a steak of a square inch is no steak.
                let area = 1e-4 * row[*area].max(20.0);
                of_mass(Mass::from_kg(area * thickness.m() * density), *aspect)
            }
            (Form::Steak, Rest::Sides { width, length }) => {
                let (width, length) = sides(*width, *length);
                Shape::Steak { thickness, footprint: Footprint::Sides { width, length } }
            }
            (Form::FiniteCylinder, Rest::Sides { width, .. }) => {
                Shape::FiniteCylinder { diameter: Length::from_m(row[*width]), length: thickness }
            }
            (_, Rest::Sides { width, length }) => {
                let (width, length) = sides(*width, *length);
                Shape::Brick { thickness, width, length }
            }
            (_, Rest::Roast { mass, width, length, told }) => {
                let side = |at: usize, told: bool| Side { m: row[at].max(NARROWEST), told };
                let (height, width) = (side(self.thickness, told[0]), side(*width, told[1]));
                let sides = brick(row[*mass] / density, height, width, length.map(|at| row[at]))?;
                let [thickness, width, length] = sides.map(Length::from_m);
                Shape::Brick { thickness, width, length }
            }
        })
    }
}

const SCALE: Instrument = Instrument::Scale { division: Mass::from_g(1.0) };

fn rest(inputs: &mut Inputs, question: &Question) -> Result<Rest, HeatError> {
    let steak = steak_prior();
    let sides = !matches!((question.width_m, question.length_m), (Value::Unknown, _) | (_, Value::Unknown));
    Ok(match question.form {
        Form::Slab | Form::Cylinder | Form::Sphere | Form::Roast => Rest::None,
        Form::FiniteCylinder => {
            let width = inputs.size("diameter", question.width_m)?;
            Rest::Sides { width, length: width }
        }
        Form::Steak if !sides => {
            let aspect = inputs.prior("outline", &steak.aspect);
            match question.mass_kg.input("mass", SCALE) {
                Some(mass) => Rest::Mass { mass: inputs.push(mass), aspect },
                None => Rest::Area { area: inputs.prior("area", &steak.area_cm2), aspect },
            }
        }
        Form::Brick | Form::Steak => Rest::Sides {
            width: inputs.size("width", question.width_m)?,
            length: inputs.size("length", question.length_m)?,
        },
    })
}

/// A prior in millimetres, in metres.
fn metres(spread: Spread) -> Spread {
    scaled(spread, 1e-3)
}

/// A thickness of fat in metres, as a resistance in m²·K/W.
fn over_fat(spread: Spread) -> Spread {
    scaled(spread, Cap::of_fat(1.0).resistance_m2_k_w)
}

fn scaled(spread: Spread, by: f64) -> Spread {
    match spread {
        Spread::Exact(value) => Spread::Exact(value * by),
        Spread::Uniform { low, high } => Spread::Uniform { low: low * by, high: high * by },
        Spread::Normal { mean, sd } => Spread::Normal { mean: mean * by, sd: sd * by },
        Spread::LogNormal { median, sd_ln } => Spread::LogNormal { median: median * by, sd_ln },
        Spread::LogUniform { low, high } => Spread::LogUniform { low: low * by, high: high * by },
    }
}
