//! The knife plan of a piece: how many, how thick, where.

mod measure;
mod other;
pub(crate) mod question;

pub use measure::{Measure, Narrowing};
pub use other::Other;

use catalogue::{KNOTS, muscle_share};
use quantity::{Length, Mass};
use question::{Question, question};
use record::{Aim, Count, Ends, KnifePlanned, Piece, State, Thickness, Want, Word};
use roll::{KnifePlan, Posterior, RollError};

/// A knife plan with all that its page shows.
#[derive(Clone, Debug)]
pub struct Plan {
    /// What is asked.
    pub asked: Asked,
    /// The best plan for it. Places run from the tip of the named end.
    pub plan: KnifePlan,
    /// Where the squared face stands: marks are counted from there.
    pub zero: Length,
    /// The want most portions are cut for.
    pub main: Option<usize>,
    /// Weight for thickness, or thickness for weight.
    pub other: Option<Other>,
    /// Where the wants do not fit: the same number, each smaller, and the same size, fewer of them.
    pub nearest: Vec<Other>,
    /// What to measure next.
    pub narrowing: Option<Narrowing>,
    /// How the piece looks from the side.
    pub outline: Vec<Section>,
    /// Names of the named end and of the other.
    pub ends: (String, String),
    /// Own pieces that stand behind it.
    pub own_pieces: usize,
    /// Portions whose weight does not fit their marks; nothing is learned from them.
    pub unlikely: Vec<u32>,
}

/// What is asked of a piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// What is wanted, in order.
    pub want: Vec<Want>,
    /// What is squared off, where that is settled.
    pub ends: Option<Ends>,
    /// Limits of thickness.
    pub limits: Option<Thickness>,
    /// What the knife takes away.
    pub knife: Option<Length>,
    /// Where it comes from.
    pub from: AskedFrom,
}

/// Where the wants come from.
#[derive(Clone, Debug, PartialEq)]
pub enum AskedFrom {
    /// They are written down for this piece.
    Settled,
    /// Nothing is written down: as for the last piece of this cut.
    LastTime(Word),
    /// Nothing is written down, and there was no such piece: what is usual.
    Usual,
}

/// A cross-section of the outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// From the tip of the named end.
    pub at: Length,
    /// How high it is, of a section as wide as usual.
    pub height: Length,
    /// Share of the face that is cap; 0 where the cut has none.
    pub cap_share: f64,
}

/// What is asked of a piece: as settled, else as last time, else what is usual.
#[must_use]
pub fn asked(state: &State, piece: &Piece) -> Asked {
    if let Some(planned) = &piece.plan {
        return Asked::of(&planned.plan, AskedFrom::Settled);
    }
    let cut = question::shaped_cut(piece);
    let last = state
        .pieces()
        .filter(|other| other.id != piece.id && question::shaped_cut(other) == cut)
        .filter_map(|other| Some((other, other.plan.as_ref()?)))
        .max_by_key(|(_, planned)| planned.at.timestamp());
    match last {
        // How far that piece stood off square says nothing of this one.
        Some((other, planned)) => {
            Asked { ends: None, ..Asked::of(&planned.plan, AskedFrom::LastTime(other.word)) }
        }
        None => Asked::usual(state),
    }
}

/// Plans the knife for what is asked, with the other ways and what would narrow it.
///
/// # Errors
/// [`RollError`] if the cut cannot be sliced, a measure cannot be, or the wants contradict themselves.
pub fn plan(state: &State, piece: &Piece, asked: Asked) -> Result<Plan, RollError> {
    let (question, plan) = bare(state, piece, asked)?;
    Ok(Plan {
        other: other::other_aim(&question, &plan.asked.want, &plan.plan),
        nearest: other::nearest(&question, &plan.asked.want, &plan.plan),
        narrowing: measure::narrowing(&question, &plan.plan),
        ..plan
    })
}

/// The plan alone, as the board takes it after each weighing: the other ways cost as much again each.
pub(crate) fn bare(state: &State, piece: &Piece, asked: Asked) -> Result<(Question, Plan), RollError> {
    let mut question = question(state, piece, &asked)?;
    let (plan, unlikely) = planned(&mut question)?;
    let bare = Plan {
        zero: zero(&question, &plan),
        main: other::main_want(&asked.want, &plan),
        other: None,
        nearest: Vec::new(),
        narrowing: None,
        outline: outline(piece, &question, &plan),
        ends: ends(piece),
        own_pieces: question.piece.prior.own_pieces(),
        unlikely: numbers(state, piece, &unlikely),
        asked,
        plan,
    };
    Ok((question, bare))
}

impl Asked {
    /// What an entry asks.
    #[must_use]
    pub fn of(planned: &KnifePlanned, from: AskedFrom) -> Self {
        Self {
            want: planned.want.clone(),
            ends: planned.ends.clone(),
            limits: planned.limits.clone(),
            knife: planned.knife,
            from,
        }
    }

    /// As many as sensible of the portion the kitchen serves, else of a thickness that suits most (common practice, 1 1/2 in).
    fn usual(state: &State) -> Self {
        let portion =
            state.settings().number("supper.portion_g").map(|grams| Aim::Portion(Mass::from_g(grams)));
        let want = Want {
            name: None,
            count: Some(Count::Max),
            aim: portion.unwrap_or(Aim::Thickness(Length::from_mm(38.0))),
            tolerance: None,
            from: None,
            twins: None,
        };
        Self { want: vec![want], ends: None, limits: None, knife: None, from: AskedFrom::Usual }
    }
}

/// Solves it. A portion whose weight does not fit its marks by far would end the plan: it is passed over, and said.
pub(crate) fn planned(question: &mut Question) -> Result<(KnifePlan, Vec<usize>), RollError> {
    let mut unlikely = Vec::new();
    loop {
        match roll::plan(&question.piece, &question.wants, &question.limits, &question.weighed) {
            Ok(plan) => return Ok((plan, unlikely)),
            Err(RollError::WeighedUnlikely { number, low, high, mass })
                if !unlikely.contains(&(number - 1)) =>
            {
                let Some(weighed) = question.weighed.get_mut(number - 1) else {
                    return Err(RollError::WeighedUnlikely { number, low, high, mass });
                };
                // What such a piece was expected to give: it teaches nothing and keeps the knife in its place.
                weighed.mass = (low + high) * 0.5;
                unlikely.push(number - 1);
            }
            Err(error) => return Err(error),
        }
    }
}

/// Where marks are counted from: the face that squaring the named end makes.
fn zero(question: &Question, plan: &KnifePlan) -> Length {
    let squared = question.piece.ends.first.squared;
    plan.marks.first().copied().filter(|_| squared).unwrap_or_default()
}

fn numbers(state: &State, piece: &Piece, places: &[usize]) -> Vec<u32> {
    let all: Vec<u32> = state.portions_of(piece).map(|portion| portion.n).collect();
    places.iter().filter_map(|place| all.get(*place).copied()).collect()
}

/// The two ends as they are named, the one measured from first.
fn ends(piece: &Piece) -> (String, String) {
    let named = piece.measured.from_end.clone();
    match catalogue::profile(&piece.received.cut) {
        Some(profile) => {
            let (first, last) = (end_name(&profile.first_end), end_name(&profile.last_end));
            if question::is_turned(piece) { (last, first) } else { (first, last) }
        }
        None => (named.unwrap_or_else(|| "first end".to_owned()), "other end".to_owned()),
    }
}

/// An end's name without what stands in brackets or after a comma: `chuck end`.
#[must_use]
pub fn end_name(catalogued: &str) -> String {
    let bare = catalogued.split(',').next().unwrap_or(catalogued);
    let mut name = String::new();
    let mut depth = 0_u32;
    for letter in bare.chars() {
        match letter {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            _ if depth == 0 => name.push(letter),
            _ => {}
        }
    }
    name.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// How high the piece stands at each knot, of the section its grams make there.
fn outline(piece: &Piece, question: &Question, plan: &KnifePlan) -> Vec<Section> {
    let posterior = Posterior::new(&question.piece).map(|posterior| posterior.profile());
    let profile = posterior.unwrap_or_else(|_| question.piece.prior.profile());
    let cap = muscle_share(&question::shaped_cut(piece), "cap").map(|cap| cap.share);
    let turned = question::is_turned(piece);
    let section = question.piece.prior.cut().section.as_ref();
    let (density, factor) =
        section.map_or((1040.0, 0.785), |section| (section.density_kg_m3, section.factor));
    let per_m = plan.mass.median / plan.length.m();
    (0..KNOTS)
        .map(|knot| {
            let area_m2 = per_m * profile[knot].max(0.0) / (density * factor);
            let mirrored = if turned { KNOTS - 1 - knot } else { knot };
            Section {
                at: plan.length * (knot as f64 / (KNOTS - 1) as f64),
                height: Length::from_m((area_m2 / measure::ASPECT).sqrt()),
                cap_share: cap.map_or(0.0, |share| share[mirrored]),
            }
        })
        .collect()
}

#[cfg(test)]
mod tests;
