//! Inputs as they are named: readings, ranges and priors of the catalogue.

use super::plan::{FacePlaces, StagePlaces};
use super::question::StageQuestion;
use crate::HeatError;
use band::{Input, Instrument, Origin, Spread, Value};
use catalogue::{Law, Medium, Prior, drying_face, figures, medium, over};

/// Inputs as they are named.
pub(super) struct Inputs(pub(super) Vec<Input>);

impl Inputs {
    pub(super) fn push(&mut self, input: Input) -> usize {
        self.0.push(input);
        self.0.len() - 1
    }

    pub(super) fn prior(&mut self, name: &str, prior: &Prior) -> usize {
        self.push(Input::new(name, spread(prior), origin(prior)))
    }

    pub(super) fn add(&mut self, name: &str, value: Value, instrument: Instrument, prior: &Prior) -> usize {
        self.push(value.input_or(name, instrument, || (spread(prior), origin(prior))))
    }

    /// A size that has no prior: left out, it is an error.
    pub(super) fn size(&mut self, name: &str, value: Value) -> Result<usize, HeatError> {
        let hint = "give it in millimetres: nothing else tells how big the piece is";
        let Some(input) = value.input(name, Instrument::Ruler) else {
            HeatError::check(name, f64::NAN, (0.5, 2000.0), "mm", hint)?;
            return Ok(0);
        };
        Ok(self.push(input))
    }

    /// The model's own doubt about conductivity, as a factor.
    pub(super) fn conductivity(&mut self) -> usize {
        let figure = &figures().conductivity_uncertainty;
        let from = Origin::Prior { mark: figure.mark.word().to_owned(), source: figure.source.clone() };
        self.push(Input::new("conductivity", Spread::Normal { mean: 1.0, sd: figure.value }, from))
    }

    /// How much more or less juice than usual a piece gives off, as a factor.
    pub(super) fn juice(&mut self) -> usize {
        let figure = &figures().juice_uncertainty;
        let from = Origin::Prior { mark: figure.mark.word().to_owned(), source: figure.source.clone() };
        self.push(Input::new("juice", Spread::LogNormal { median: 1.0, sd_ln: figure.value }, from))
    }

    pub(super) fn face(&mut self) -> FacePlaces {
        let face = drying_face();
        FacePlaces {
            diffusivity: self.prior("moisture diffusivity", &face.diffusivity_m2_s),
            lean_share: self.prior("lean share of the face", &face.lean_share),
            juice_share: self.prior("juice to the face", &face.juice_share),
            drawn: self.prior("dryness of the face", &face.drawn_kg_m2),
        }
    }

    pub(super) fn stage(&mut self, asked: &StageQuestion) -> Result<StagePlaces, HeatError> {
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
            door: asked.door.filter(|_| medium.kind == catalogue::MediumKind::Air).map(|_| {
                let door = catalogue::door();
                [
                    self.prior(&name("falls while open in"), &door.falls_in_s),
                    self.prior(&name("returns once shut in"), &door.returns_in_s),
                    self.prior(&name("room"), &door.room_c),
                ]
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
    pub(super) fn temperature(&mut self, name: &str, value: Value, medium: &Medium) -> usize {
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

pub(super) fn assumed() -> Origin {
    Origin::Prior { mark: "assumed".to_owned(), source: "house-prior".to_owned() }
}

pub(super) fn origin(prior: &Prior) -> Origin {
    Origin::Prior { mark: prior.basis.mark.word().to_owned(), source: prior.basis.source.clone() }
}

pub(super) fn spread(prior: &Prior) -> Spread {
    match prior.law {
        Law::Exact { value } => Spread::Exact(value),
        Law::Uniform { low, high } => Spread::Uniform { low, high },
        Law::Normal { mean, sd } => Spread::Normal { mean, sd },
        Law::LogNormal { median, sd_ln } => Spread::LogNormal { median, sd_ln },
        Law::LogUniform { low, high } => Spread::LogUniform { low, high },
    }
}

pub(super) fn shifted(error: Spread, by: f64) -> Spread {
    match error {
        Spread::Exact(value) => Spread::Exact(value + by),
        Spread::Uniform { low, high } => Spread::Uniform { low: low + by, high: high + by },
        Spread::Normal { mean, sd } => Spread::Normal { mean: mean + by, sd },
        // An error of one sign has no place on a thermometer.
        Spread::LogNormal { .. } | Spread::LogUniform { .. } => Spread::Exact(by),
    }
}

/// Whether a stage can get so hot that juice is pressed out.
pub(super) fn may_press(stage: &StageQuestion) -> bool {
    let usual = || medium(&stage.medium).map_or(f64::INFINITY, |medium| spread(&medium.medium_c).median());
    let hot_c = match stage.medium_c {
        Value::Known(celsius) => celsius,
        Value::Range { high, .. } => high,
        _ => usual(),
    };
    hot_c > PRESSED_FROM_C
}

/// Colder media press out less than a hundredth, °C.
const PRESSED_FROM_C: f64 = 42.0;

/// Whether a stage can take water from a bare face.
pub(super) fn may_dry(stage: &StageQuestion) -> bool {
    use catalogue::Drying::{BoilingOnly, None};
    let usual = medium(&stage.medium).is_some_and(|m| !matches!(m.evaporation, None));
    stage.cover_m2_k_w == 0.0 && stage.evaporation.map_or(usual, |how| !matches!(how, None | BoilingOnly))
}
