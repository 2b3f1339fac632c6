//! What comes back.

use super::question::{Question, StageQuestion};
use crate::{History, Until};
use band::{Band, Draws, Input, Narrow, chance, narrow};

/// An answer with its bands, and the members it was made from.
#[derive(Clone, Debug)]
pub struct Banded {
    /// One row a stage.
    pub stages: Vec<StageBand>,
    /// Sum of the stages, s; infinite where a stage never ends.
    pub time_s: Band,
    /// The middle at the end, °C.
    pub centre_c: Band,
    /// The warmest the middle ever was, °C.
    pub peak_c: Band,
    /// When that was, s from the start.
    pub peak_at_s: Band,
    /// Water and drip lost, kg.
    pub mass_lost_kg: Band,
    /// Share of the thickness that is grey.
    pub grey_share: Band,
    /// Every member, in the order of the draws.
    pub members: Vec<Member>,
    /// What each member was drawn from.
    pub inputs: Vec<Input>,
    /// Their draws.
    pub draws: Draws,
}

/// One stage's bands.
#[derive(Clone, Debug)]
pub struct StageBand {
    /// Its name.
    pub name: String,
    /// Its own length, s; infinite for members whose rule is never met.
    pub time_s: Band,
    /// The middle at its end, °C.
    pub centre_c: Band,
    /// The middle of the top face at its end, °C.
    pub surface_c: Band,
    /// Share of the members whose rule is met.
    pub reached: f64,
}

/// One member's outcome.
#[derive(Clone, Debug, PartialEq)]
pub struct Member {
    /// Length of each stage, s; infinite from the stage on whose rule is never met.
    pub stage_s: Vec<f64>,
    /// The middle at the end of each stage, °C; where it settles if the rule is never met, NaN for stages after that.
    pub centre_c: Vec<f64>,
    /// The middle of the top face likewise, °C.
    pub surface_c: Vec<f64>,
    /// The warmest the middle ever was, °C.
    pub peak_c: f64,
    /// When that was, s from the start.
    pub peak_at_s: f64,
    /// Lost by the end, kg.
    pub mass_lost_kg: f64,
    /// Share of the thickness that is grey.
    pub grey_share: f64,
    /// Kill of each organism asked for, powers of ten.
    pub kill_log10: Vec<f64>,
}

impl Member {
    /// `model_share` is what a true oval's times differ from the disc's; a stage by the clock keeps its time.
    pub(super) fn new(history: &History, model_share: f64, asked: &[StageQuestion]) -> Self {
        let mut member = Self {
            stage_s: Vec::with_capacity(asked.len()),
            centre_c: Vec::with_capacity(asked.len()),
            surface_c: Vec::with_capacity(asked.len()),
            peak_c: history.peak_centre_c,
            peak_at_s: history.peak_at_s * (1.0 + model_share),
            mass_lost_kg: history.mass_lost_kg,
            grey_share: history.grey_share,
            kill_log10: history.kill_log10.iter().map(|(_, kill)| *kill).collect(),
        };
        for (i, asked) in asked.iter().enumerate() {
            let end = history.stages.get(i);
            let time = end.filter(|end| end.reached).map_or(f64::INFINITY, |end| end.time_s);
            let by_clock = matches!(asked.until, Until::Time(_));
            member.stage_s.push(if by_clock { time } else { time * (1.0 + model_share) });
            member.centre_c.push(end.map_or(f64::NAN, |end| end.centre_c));
            member.surface_c.push(end.map_or(f64::NAN, |end| end.surface_c));
        }
        member
    }

    /// Sum of the stages, s.
    #[must_use]
    pub fn time_s(&self) -> f64 {
        self.stage_s.iter().sum()
    }
}

impl Banded {
    pub(super) fn new(question: &Question, inputs: Vec<Input>, draws: Draws, members: Vec<Member>) -> Self {
        let band = |of: &dyn Fn(&Member) -> f64| {
            // What a member never came to has no value; it is in `reached` and in the infinite times.
            let values: Vec<f64> = members.iter().map(of).filter(|value| !value.is_nan()).collect();
            Band::of(&values)
        };
        let stages = question.stages.iter().enumerate();
        let stages = stages
            .map(|(i, stage)| StageBand {
                name: stage.name.clone(),
                time_s: band(&|m| m.stage_s[i]),
                centre_c: band(&|m| m.centre_c[i]),
                surface_c: band(&|m| m.surface_c[i]),
                reached: chance(members.iter().map(|m| m.stage_s[i].is_finite())),
            })
            .collect();
        Self {
            stages,
            time_s: band(&Member::time_s),
            centre_c: band(&|m| m.centre_c.last().copied().unwrap_or(f64::NAN)),
            peak_c: band(&|m| m.peak_c),
            peak_at_s: band(&|m| m.peak_at_s),
            mass_lost_kg: band(&|m| m.mass_lost_kg),
            grey_share: band(&|m| m.grey_share),
            members,
            inputs,
            draws,
        }
    }

    /// What would narrow the total time, largest share of its variance first; members that never end are left out.
    #[must_use]
    pub fn narrow_time(&self) -> Vec<Narrow> {
        self.narrow(Member::time_s)
    }

    /// What would narrow any number of the members, by its logarithm where it is positive throughout.
    #[must_use]
    pub fn narrow(&self, of: impl Fn(&Member) -> f64) -> Vec<Narrow> {
        let values: Vec<f64> = self.members.iter().map(of).collect();
        // A member without a value stands at the farthest that has one: dropping it would tear the hypercube.
        let most = values.iter().copied().filter(|v| v.is_finite()).fold(f64::NEG_INFINITY, f64::max);
        let values: Vec<f64> = values.into_iter().map(|v| if v.is_finite() { v } else { most }).collect();
        narrow(&self.inputs, &self.draws, &values)
    }

    /// The inputs nobody gave: what was assumed, and from where.
    pub fn assumed(&self) -> impl Iterator<Item = &Input> {
        self.inputs.iter().filter(|input| input.from.is_prior() && !input.spread.is_exact())
    }
}
