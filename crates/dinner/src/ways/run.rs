//! A road through the ensemble.

use super::pull::{core_of, number, steer};
use super::road::ON_THE_COUNTER;
use super::{Chill, Point, Road, SLIP, Slice, Way, WaysAsked};
use crate::DinnerError;
use band::Band;
use heat::cook::{Banded, Form, Member, Prepared, Question, StageQuestion, answer, typical};
use heat::{HeatError, Meat, Settings, Until, simulate};
use quantity::{Span, Temperature};
use rayon::prelude::*;

/// One road, steered so that the peak of the middle of the ensemble is the wish.
pub(super) fn way(
    asked: &WaysAsked,
    road: Road,
    meat: &Meat,
    draws: usize,
    seed: u64,
) -> Result<Way, DinnerError> {
    let mut question = road.question(asked, meat);
    let governed = road.governed(&question);
    let number = number(asked, road, &question, seed)?;
    steer(&mut question, road, number);
    let banded = answer(&question, draws, seed)?;
    let never = 1.0 - banded.stages[governed].reached;
    if never > 0.5 {
        let medium_c = question.stages[governed].medium_c.known().unwrap_or(f64::NAN);
        return Err(DinnerError::TooLow { portions: "this piece".into(), wish_c: asked.wish.c(), medium_c });
    }
    let minutes: Vec<f64> = banded.members.iter().map(|member| member.time_s() / 60.0).collect();
    let in_before = quantile(&minutes, asked.chance).ceil();
    let takes = Band::of(&minutes);
    let (curve, thick_m, section) = middle(&question, takes.median)?;
    Ok(Way {
        in_before,
        ready_before: Band::of(&minutes.iter().map(|took| in_before - took).collect::<Vec<_>>()),
        takes,
        pull: Temperature::from_c(core_of(road, number)),
        bath: (road == Road::Bath).then(|| Temperature::from_c(number)),
        peak: banded.peak_c,
        grey: banded.grey_share,
        lost: lost(&banded),
        slip: slip(&question, governed, &banded)?,
        on_hot: Band::of(&banded.members.iter().map(|member| on_hot(road, member)).collect::<Vec<_>>()),
        never,
        narrow: banded.narrow_time(),
        curve,
        thick_m,
        section,
    })
}

/// The value below which such a share of the members lies; infinite ones count as later than any.
fn quantile(values: &[f64], share: f64) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let place = (share * sorted.len() as f64).ceil() as usize;
    sorted[place.clamp(1, sorted.len()) - 1]
}

fn on_hot(road: Road, member: &Member) -> f64 {
    member.stage_s[road.on_hot()].iter().sum::<f64>() / 60.0
}

/// Share of each member's own mass.
fn lost(banded: &Banded) -> Band {
    let mass = banded.inputs.iter().position(|input| input.name == "mass");
    let share = |(i, member): (usize, &Member)| {
        let kg = mass.map_or(f64::NAN, |place| banded.draws.member(i)[place]);
        member.mass_lost_kg / kg
    };
    Band::of(&banded.members.iter().enumerate().map(share).collect::<Vec<_>>())
}

/// Every member again, its governed stage by the clock and five minutes longer.
fn slip(question: &Question, governed: usize, banded: &Banded) -> Result<Band, DinnerError> {
    let prepared = Prepared::new(question)?;
    let settings = Settings { colour: false, ..question.settings() };
    let rise = |i: usize| -> Result<Option<f64>, DinnerError> {
        let member = &banded.members[i];
        if !member.time_s().is_finite() {
            return Ok(None);
        }
        let mut ready = prepared.member(banded.draws.member(i))?;
        let took = Span::from_s(member.stage_s[governed] / (1.0 + ready.model_share));
        ready.stages[governed].until = Until::Time(took + SLIP);
        match simulate(&ready.meat, &ready.shape, &ready.start, &ready.stages, &settings) {
            // A skin beyond the figures' range, in the hottest pans alone.
            Err(HeatError::OutsideFit { .. }) => Ok(None),
            other => Ok(Some(other?.peak_centre_c - member.peak_c)),
        }
    };
    let slips = if question.form == Form::Roast { SLIPS / 4 } else { SLIPS };
    let every = (banded.members.len() / slips).max(1);
    let members: Vec<usize> = (0..banded.members.len()).step_by(every).collect();
    let rises: Vec<Option<f64>> = members.into_par_iter().map(rise).collect::<Result<_, _>>()?;
    Ok(Band::of(&rises.into_iter().flatten().collect::<Vec<_>>()))
}

/// Members a slip is followed in: it is told to the degree.
const SLIPS: usize = 64;

/// The middle member's way, as long as the middle of all, and its slice.
fn middle(question: &Question, takes_min: f64) -> Result<(Vec<Point>, f64, Vec<Slice>), DinnerError> {
    let every = Span::from_s((takes_min * 60.0 / POINTS).clamp(5.0, 600.0));
    let fine = if question.form == Form::Roast { question.settings() } else { Settings::exact() };
    let settings = Settings { sample_every: Some(every), ..fine };
    let history = typical(question, &settings)?;
    let stretch = takes_min / (history.time_s / 60.0);
    let point = |moment: &heat::Moment| Point {
        at_min: moment.t_s / 60.0 * stretch,
        core_c: moment.centre_c,
        face_c: moment.surface_c,
    };
    let full = history.section.last().map_or(1.0, |layer| layer.depth_m).max(f64::MIN_POSITIVE);
    let slice = |layer: &heat::Layer| Slice {
        depth: layer.depth_m / full,
        c: layer.c,
        denatured: layer.colour_share,
    };
    Ok((history.curve.iter().map(point).collect(), full, history.section.iter().map(slice).collect()))
}

/// Points on a curve.
const POINTS: f64 = 150.0;

/// Low heat with an hour on the counter before it, against the same without: the same draws in both.
pub(super) fn chill(asked: &WaysAsked, meat: &Meat, draws: usize, seed: u64) -> Result<Chill, DinnerError> {
    let mut question = Road::LowThenSear.question(asked, meat);
    question.stages.insert(0, StageQuestion::new(ON_THE_COUNTER, "counter", Until::Time(Span::from_s(1.0))));
    let number = number(asked, Road::LowThenSear, &question, seed)?;
    steer(&mut question, Road::LowThenSear, number);
    let mut run = |hour: Span| -> Result<Banded, DinnerError> {
        question.stages[0].until = Until::Time(hour);
        Ok(answer(&question, draws, seed)?)
    };
    let (without, with) = (run(Span::from_s(1.0))?, run(Span::from_h(1.0))?);
    let less = |of: &dyn Fn(&Member) -> f64| {
        let pairs = without.members.iter().zip(&with.members);
        Band::of(&pairs.map(|(a, b)| of(a) - of(b)).filter(|value| value.is_finite()).collect::<Vec<_>>())
    };
    Ok(Chill {
        saved_min: less(&|member| member.stage_s[1] / 60.0),
        less_grey: less(&|member| member.grey_share),
    })
}
