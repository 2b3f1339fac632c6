//! What a plan lets run, gives up, and what would narrow it, in words and as step lines.

use quantity::{Grain, Length, Mass, Units};
use record::Aim;
use season::{Measure, Other, Plan, PlannedPortion};

use super::wants;
use crate::pages::shared::aim_words;
use crate::plot::profile::{Profile, Tread};
use crate::words::{and_list, counted, sentence_case};

/// What this plan lets run, and what the other one would.
pub(super) fn profiles(plan: &Plan, units: &Units) -> Vec<Profile> {
    let Some(main) = plan.main else { return Vec::new() };
    let own = profile(&plan.plan.portions, main, plan.asked.want[main].aim, units);
    let other = plan.other.as_ref();
    let other = other.and_then(|other| profile(&other.plan.portions, main, other.want[main].aim, units));
    own.into_iter().chain(other).collect()
}

fn profile(portions: &[PlannedPortion], main: usize, aim: Aim, units: &Units) -> Option<Profile> {
    let by_weight = matches!(aim, Aim::Portion(_));
    let value = |portion: &PlannedPortion| {
        if by_weight { portion.thickness.mm() } else { portion.mass.median * 1000.0 }
    };
    let shown = |value: f64| {
        if by_weight {
            units.length(Length::from_mm(value))
        } else {
            units.mass(Mass::from_g(value), Grain::Forecast)
        }
    };
    let of_this: Vec<&PlannedPortion> =
        portions.iter().filter(|portion| portion.want == Some(main)).collect();
    let (first, last) = (of_this.first()?, of_this.last()?);
    Some(Profile {
        kept: format!("Keep {}", aim_words(aim, units)),
        runs: if by_weight { "thickness runs" } else { "weight runs" }.to_owned(),
        first: shown(value(first)),
        last: shown(value(last)),
        treads: of_this
            .iter()
            .map(|portion| Tread {
                from_mm: portion.from.mm(),
                to_mm: portion.to.mm(),
                value: value(portion),
            })
            .collect(),
    })
}

pub(super) fn gives_up(plan: &Plan, units: &Units) -> Vec<String> {
    let mut words: Vec<String> = plan
        .plan
        .given_up
        .iter()
        .filter_map(|given| Some(wants::missed_words(plan.asked.want.get(given.want)?, given.missed, units)))
        .collect();
    let own = spread(&plan.plan.portions, plan.main);
    let other = plan.other.as_ref().map(|other| spread(&other.plan.portions, plan.main));
    let aim = plan.main.map(|main| plan.asked.want[main].aim);
    let thickness = |mm: f64| units.length(Length::from_mm(mm));
    let weight = |grams: f64| units.mass(Mass::from_g(grams), Grain::Forecast);
    match (aim, own, other) {
        (Some(Aim::Portion(_)), Some((mm, _)), Some(Some((_, grams)))) => words.push(format!(
            "{} of thickness between the thinnest and the thickest. The other plan gives up {} of weight instead.",
            thickness(mm),
            weight(grams)
        )),
        (Some(Aim::Thickness(_)), Some((_, grams)), Some(Some((mm, _)))) => words.push(format!(
            "{} of weight between the lightest and the heaviest. The other plan gives up {} of thickness instead.",
            weight(grams),
            thickness(mm)
        )),
        _ => {}
    }
    words
}

/// How far thickness (mm) and weight (g) run over the portions of a want.
fn spread(portions: &[PlannedPortion], want: Option<usize>) -> Option<(f64, f64)> {
    let of_this: Vec<&PlannedPortion> = portions.iter().filter(|portion| portion.want == want).collect();
    let run = |value: &dyn Fn(&PlannedPortion) -> f64| {
        let values = of_this.iter().map(|portion| value(portion));
        let (low, high) = values.fold((f64::MAX, f64::MIN), |(low, high), v| (low.min(v), high.max(v)));
        high - low
    };
    (!of_this.is_empty())
        .then(|| (run(&|portion| portion.thickness.mm()), run(&|portion| portion.mass.median * 1000.0)))
}

/// `16 of 345 g`
pub(super) fn nearest_words(other: &Other, units: &Units) -> String {
    let count = other.plan.portions.iter().filter(|portion| portion.want == Some(other.changed)).count();
    format!("{count} of {}", aim_words(other.want[other.changed].aim, units))
}

pub(super) fn narrow(plan: &Plan, units: &Units) -> Option<String> {
    let narrowing = plan.narrowing.as_ref()?;
    let share = format!("{:.0}\u{202f}%", narrowing.share * 100.0);
    Some(match &narrowing.measure {
        Measure::Length => format!("Measure its length. It makes {share} of the width of each weight."),
        Measure::Mass => {
            format!("Weigh it with the bag off. That makes {share} of the width of each weight.")
        }
        Measure::Stations(places) => {
            let places: Vec<String> = places.iter().map(|place| units.length(*place)).collect();
            format!(
                "Measure width and height at {}. Its section makes {share} of the width.",
                and_list(&places)
            )
        }
    })
}

/// Who gets the cap: the first quarter against the last.
pub(super) fn cap(plan: &Plan) -> Option<String> {
    let shares: Vec<f64> = plan.plan.portions.iter().filter_map(|portion| portion.cap_share).collect();
    let quarter = (shares.len() / 4).max(1);
    if shares.len() < 4 {
        return None;
    }
    let mean = |part: &[f64]| part.iter().sum::<f64>() / part.len() as f64 * 100.0;
    let (first, last) = (mean(&shares[..quarter]), mean(&shares[shares.len() - quarter..]));
    let run = |from: usize, to: usize| {
        if from == to { format!("{from} shows") } else { format!("{from} to {to} show") }
    };
    Some(format!(
        "{} about {first:.0}\u{202f}% of the face as cap, {} about {last:.0}\u{202f}%. Split it by turns, one from each end.",
        sentence_case(&run(1, quarter)),
        run(shares.len() - quarter + 1, shares.len()).replace(" shows", "").replace(" show", "")
    ))
}

pub(super) fn basis(plan: &Plan) -> String {
    match plan.own_pieces {
        0 => "How mass lies along such a piece is assumed, not measured; your own pieces take its place."
            .to_owned(),
        1 => "Learned from one piece of yours, and assumed beyond that.".to_owned(),
        own => format!("Learned from {} of yours.", counted(own, "piece", "pieces")),
    }
}
