//! The board: where is the next mark, what is cut, what the rest comes to.

mod doubt;
mod warm;

pub use doubt::{Doubt, doubt};
pub use warm::{BOARD, OnTheBoard, on_the_board};

use crate::plan::question::question;
use crate::plan::{self, Plan};
use crate::{Thickness, board_mass, thickness_of};
use band::Band;
use jiff::ZonedDateTime;
use quantity::{Length, Mass};
use record::{Aim, PartName, Piece, Portion, State};
use roll::{Posterior, RollError};
use uuid::Uuid;

/// A piece on the board.
#[derive(Clone, Debug)]
pub struct Board<'s> {
    /// The piece.
    pub piece: &'s Piece,
    /// Its plan, as it stands after the last weighing.
    pub plan: Result<Plan, RollError>,
    /// What is cut and weighed, from the named end.
    pub cut: Vec<Cut<'s>>,
    /// What is cut and not weighed yet, in order.
    pub unweighed: Vec<Made>,
    /// What to cut next; nothing once the plan is cut.
    pub next: Option<NextCut>,
    /// Portions still to be cut, as planned after everything that is cut.
    pub ahead: Vec<roll::Portion>,
    /// How many portions there will be, what is cut included.
    pub of: usize,
    /// What lies on the board still, as far as the scale knows: uncut meat, ends, trim.
    pub left: Mass,
    /// Heaps weighed so far, by name.
    pub heaps: Vec<(PartName, Mass)>,
    /// The time on the board.
    pub warm: Option<OnTheBoard>,
}

/// A portion that is cut and weighed.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut<'s> {
    /// The portion.
    pub portion: &'s Portion,
    /// What it misses its aim by: over is above zero. Nothing where the aim is a thickness and nobody measured.
    pub off: Option<Off>,
    /// How thick it is.
    pub thickness: Option<Thickness>,
}

/// How far a portion is off what was wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Off {
    /// In mass.
    Mass(Mass),
    /// In thickness.
    Thickness(Length),
}

/// A portion between two marks, from the tip of the named end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Made {
    /// Its place from the named end.
    pub n: u32,
    /// Near face.
    pub from: Length,
    /// Far mark.
    pub to: Length,
}

/// The next cut.
#[derive(Clone, Debug, PartialEq)]
pub struct NextCut {
    /// The portion it makes.
    pub made: Made,
    /// From the squared end.
    pub mark: Length,
    /// From the face just cut.
    pub from_fresh_face: Length,
    /// What it will weigh, kg.
    pub mass: Band,
    /// Which of the wants it meets.
    pub want: Option<usize>,
    /// The portion it is to be like.
    pub twin: Option<u32>,
    /// Meat before it that no portion is made of, with the mark it ends at, from the squared end.
    pub passed_over: Option<Length>,
}

/// A piece on the board. `made` are portions cut and not weighed yet, in order: their marks stay where the knife made them.
#[must_use]
pub fn board<'s>(
    state: &'s State,
    piece: &'s Piece,
    made: &[(Length, Length)],
    now: &ZonedDateTime,
) -> Board<'s> {
    let planned = plan::bare(state, piece, plan::asked(state, piece)).map(|(_, plan)| plan);
    let portions: Vec<&Portion> = state.portions_of(piece).collect();
    let first_free = portions.last().map_or(1, |portion| portion.n + 1);
    let unweighed: Vec<Made> =
        (first_free..).zip(made).map(|(n, (from, to))| Made { n, from: *from, to: *to }).collect();
    let rest = planned.as_ref().ok().and_then(|plan| Rest::of(state, piece, plan, &unweighed));
    let next =
        planned.as_ref().ok().zip(rest.as_ref()).and_then(|(plan, rest)| rest.next(piece, plan, &unweighed));
    let ahead: Vec<roll::Portion> = rest.map_or_else(Vec::new, |rest| rest.ahead().cloned().collect());
    let cut = portions.iter().map(|portion| cut(state, piece, planned.as_ref().ok(), portion)).collect();
    Board {
        piece,
        cut,
        of: portions.len() + unweighed.len() + ahead.len(),
        ahead,
        left: board_mass(piece) - state.ledger(piece).cut(),
        heaps: state.ledger(piece).parts.iter().map(|(name, _, mass)| (*name, *mass)).collect(),
        warm: on_the_board(state, piece, now),
        plan: planned,
        unweighed,
        next,
    }
}

/// The plan of what is not cut. Portions cut without weighing stand where the knife made them; what they weigh is not
/// known, so the band of the next one is that of a piece of which they were never weighed.
struct Rest {
    plan: roll::KnifePlan,
    /// What is known of the piece, where something is cut and not weighed.
    posterior: Option<Posterior>,
    kerf_mm: f64,
}

impl Rest {
    fn of(state: &State, piece: &Piece, planned: &Plan, unweighed: &[Made]) -> Option<Self> {
        let mut question = question(state, piece, &planned.asked).ok()?;
        let kerf_mm = question.piece.knife.kerf.mm();
        if unweighed.is_empty() {
            return Some(Self { plan: planned.plan.clone(), posterior: None, kerf_mm });
        }
        let posterior = posterior(&question.piece, planned)?;
        plan::planned(&mut question).ok()?;
        for made in unweighed {
            let mass = posterior.between(made.from, made.to, true).median;
            let marks = Some((made.from, made.to));
            question.weighed.push(roll::Weighed { marks, ..roll::Weighed::at_the_plan(Mass::from_kg(mass)) });
        }
        Some(Self { plan: plan::planned(&mut question).ok()?.0, posterior: Some(posterior), kerf_mm })
    }

    fn ahead(&self) -> impl Iterator<Item = &roll::Portion> {
        self.plan.portions.iter().filter(|portion| !portion.weighed)
    }

    fn next(&self, piece: &Piece, planned: &Plan, unweighed: &[Made]) -> Option<NextCut> {
        let portion = self.ahead().next()?;
        let cut = self.plan.portions.iter().rfind(|portion| portion.weighed);
        let face = cut.map_or(planned.zero, |portion| portion.to);
        let last = unweighed.last().map(|made| made.n).or(piece.portions.keys().next_back().copied());
        let n = last.map_or(1, |n| n + 1);
        let unsure = self.posterior.as_ref().map(|known| known.between(portion.from, portion.to, true));
        Some(NextCut {
            made: Made { n, from: portion.from, to: portion.to },
            mark: portion.to - planned.zero,
            from_fresh_face: portion.to - portion.from,
            mass: unsure.unwrap_or(portion.mass),
            want: portion.want,
            twin: twin(&planned.asked.want, &self.plan, portion, n),
            passed_over: ((portion.from - face).mm() > self.kerf_mm + 0.5)
                .then(|| portion.from - planned.zero),
        })
    }
}

/// What is known of the piece after everything that was weighed.
fn posterior(piece: &roll::Piece, planned: &Plan) -> Option<Posterior> {
    let mut posterior = Posterior::new(piece).ok()?;
    for portion in planned.plan.portions.iter().filter(|portion| portion.weighed) {
        let weighed = roll::Weighed::at_the_plan(Mass::from_kg(portion.mass.median));
        posterior.weigh(portion.from, portion.to, true, &weighed).ok()?;
    }
    Some(posterior)
}

/// The second of two twins is like the one before it.
fn twin(wants: &[record::Want], plan: &roll::KnifePlan, next: &roll::Portion, n: u32) -> Option<u32> {
    let want = next.want?;
    if wants.get(want)?.twins != Some(true) {
        return None;
    }
    let before = || plan.portions.iter().filter(|one| one.want == Some(want) && one.number < next.number);
    let apart = u32::try_from(next.number - before().next_back()?.number).ok()?;
    (before().count() % 2 == 1).then(|| n.saturating_sub(apart)).filter(|n| *n > 0)
}

fn cut<'s>(state: &'s State, piece: &Piece, plan: Option<&Plan>, portion: &'s Portion) -> Cut<'s> {
    let thickness = thickness_of(state, piece, portion);
    let want = plan.and_then(|plan| {
        let place = piece.portions.keys().position(|n| *n == portion.n)?;
        plan.asked.want.get(plan.plan.portions.get(place)?.want?)
    });
    let off = match want.map(|want| want.aim) {
        Some(Aim::Portion(aim)) => Some(Off::Mass(portion.weighed.mass - aim)),
        Some(Aim::Thickness(aim) | Aim::Roast(aim)) => {
            portion.weighed.thickness.map(|thickness| Off::Thickness(thickness - aim))
        }
        None => None,
    };
    Cut { portion, off, thickness }
}

/// The entry that undo takes back: the last weighing of a portion or heap of this piece that still stands.
#[must_use]
pub fn last_weighed(state: &State, piece: &Piece) -> Option<Uuid> {
    let portions = state.portions_of(piece).map(|portion| (portion.number, portion.id));
    let parts = state.parts_of(piece).map(|part| (part.number, part.id));
    portions.chain(parts).max().map(|(_, id)| id)
}

#[cfg(test)]
mod tests;
