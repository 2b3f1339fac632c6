//! The other ways: keep the thickness instead of the weight, and what to do where the wants do not fit.

use super::question::Question;
use quantity::{Length, Mass};
use record::{Aim, Count, Want};
use roll::KnifePlan;

/// Another list of wants with its plan.
#[derive(Clone, Debug)]
pub struct Other {
    /// What would be wanted then.
    pub want: Vec<Want>,
    /// Which of the wants changed.
    pub changed: usize,
    /// The plan.
    pub plan: KnifePlan,
}

/// The want most portions are cut for, roasts aside.
pub(crate) fn main_want(wants: &[Want], plan: &KnifePlan) -> Option<usize> {
    let count = |want: usize| plan.portions.iter().filter(|portion| portion.want == Some(want)).count();
    (0..wants.len())
        .filter(|want| !matches!(wants[*want].aim, Aim::Roast(_)))
        .max_by_key(|want| (count(*want), usize::MAX - want))
}

/// The same wants with weight for thickness, or thickness for weight, in the one that most portions are cut for.
pub(crate) fn other_aim(question: &Question, wants: &[Want], plan: &KnifePlan) -> Option<Other> {
    let changed = main_want(wants, plan)?;
    let of_this = || plan.portions.iter().filter(|portion| portion.want == Some(changed));
    let count = of_this().count();
    if count == 0 {
        return None;
    }
    let mean = |value: &dyn Fn(&roll::Portion) -> f64| of_this().map(value).sum::<f64>() / count as f64;
    let aim = match wants[changed].aim {
        Aim::Portion(_) => {
            let (low, high) = (question.limits.thinnest.mm().ceil(), question.limits.thickest.mm().floor());
            Aim::Thickness(Length::from_mm(
                mean(&|portion| portion.thickness.mm()).round().clamp(low, high.max(low)),
            ))
        }
        // Nobody asks for 383 g: to five grams.
        Aim::Thickness(_) => {
            Aim::Portion(Mass::from_g((mean(&|portion| portion.mass.median * 1000.0) / 5.0).round() * 5.0))
        }
        Aim::Roast(_) => return None,
    };
    let mut want = wants.to_vec();
    want[changed] = Want { aim, tolerance: None, ..want[changed].clone() };
    let plan = planned(question, &want)?;
    Some(Other { want, changed, plan })
}

/// Where so many of that size do not fit: the same number, each smaller; and the same size, fewer of them.
pub(crate) fn nearest(question: &Question, wants: &[Want], plan: &KnifePlan) -> Vec<Other> {
    let Some((changed, count)) = plan.given_up.iter().find_map(|given| match wants[given.want] {
        Want { count: Some(Count::Number(count)), aim: Aim::Portion(_) | Aim::Thickness(_), .. } => {
            Some((given.want, count))
        }
        _ => None,
    }) else {
        return Vec::new();
    };
    let step = if wants[changed].twins == Some(true) { 2 } else { 1 };
    let try_with = |want: Want| {
        let mut wants = wants.to_vec();
        wants[changed] = want;
        let plan = planned(question, &wants)?;
        let met = !plan.given_up.iter().any(|given| given.want == changed);
        met.then_some(Other { want: wants, changed, plan })
    };
    // Down to half: what is smaller is another dish.
    let smaller = (1..=25).find_map(|times| {
        let aim = shrunk(wants[changed].aim, 1.0 - 0.02 * f64::from(times));
        try_with(Want { aim, tolerance: None, ..wants[changed].clone() })
    });
    let fewer = (1..count).step_by(step).find_map(|less| {
        let count = Some(Count::Number(count.checked_sub(less + step as u32 - 1).filter(|left| *left > 0)?));
        try_with(Want { count, ..wants[changed].clone() })
    });
    [smaller, fewer].into_iter().flatten().collect()
}

fn shrunk(aim: Aim, share: f64) -> Aim {
    match aim {
        Aim::Portion(mass) => Aim::Portion(Mass::from_g((mass.g() * share / 5.0).round() * 5.0)),
        Aim::Thickness(length) => Aim::Thickness(Length::from_mm((length.mm() * share).round())),
        Aim::Roast(length) => Aim::Roast(length),
    }
}

fn planned(question: &Question, wants: &[Want]) -> Option<KnifePlan> {
    let wants: Vec<roll::Want> =
        wants.iter().enumerate().map(|(place, want)| super::question::roll_want(place, want)).collect();
    roll::plan(&question.piece, &wants, &question.limits, &question.weighed).ok()
}
