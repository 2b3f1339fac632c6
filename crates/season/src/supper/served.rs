//! What came of a supper: plate by plate, what was wished and what was seen.

use super::asked::{scale, wish_word};
use record::{Outcome, Portion, ServedAs, State, Supper};
use uuid::Uuid;

/// What came of a supper.
#[derive(Clone, Debug)]
pub struct SupperServed<'s> {
    /// One a portion that was set aside or served, in order of piece and place.
    pub plates: Vec<PlateServed<'s>>,
    /// How many were eaten.
    pub eaten: usize,
    /// How many were left over.
    pub spare: usize,
    /// How many were thrown away.
    pub discarded: usize,
}

/// One portion of it.
#[derive(Clone, Debug)]
pub struct PlateServed<'s> {
    /// The portion.
    pub portion: &'s Portion,
    /// Who it was meant for, where a seat chose it.
    pub seat: Option<String>,
    /// The word of that seat's wish.
    pub wish: Option<String>,
    /// What was written down, if it was.
    pub served: Option<&'s ServedAs>,
}

impl SupperServed<'_> {
    /// How many nothing was written about.
    #[must_use]
    pub fn waiting(&self) -> usize {
        self.plates.iter().filter(|plate| plate.served.is_none()).count()
    }
}

/// What came of a supper, as far as it is written down.
#[must_use]
pub fn supper_served<'s>(state: &'s State, supper: &'s Supper) -> SupperServed<'s> {
    let mut ids: Vec<Uuid> = supper.planned.portions.clone();
    ids.extend(supper.served.iter().filter(|id| !supper.planned.portions.contains(id)));
    let mut portions: Vec<&Portion> = ids.iter().filter_map(|id| state.portion(*id)).collect();
    portions.sort_by_key(|portion| (portion.word, portion.n));
    let plates: Vec<PlateServed<'s>> =
        portions.into_iter().map(|portion| plate(state, supper, portion)).collect();
    let count = |outcome: Outcome| {
        let is = |plate: &&PlateServed<'_>| plate.served.is_some_and(|s| s.served.outcome == outcome);
        plates.iter().filter(is).count()
    };
    SupperServed {
        eaten: count(Outcome::Eaten),
        spare: count(Outcome::Spare),
        discarded: count(Outcome::Discarded),
        plates,
    }
}

fn plate<'s>(state: &State, supper: &Supper, portion: &'s Portion) -> PlateServed<'s> {
    let seat = supper.planned.seat.iter().find(|seat| seat.portion == Some(portion.id));
    let wish = seat.and_then(|seat| wish_word(&seat.wish, &scale(state)).word);
    let at_this = |served: &&ServedAs| served.served.supper.is_none_or(|id| is_of(supper, id));
    PlateServed {
        portion,
        seat: seat.and_then(|seat| seat.name.clone()),
        wish,
        served: portion.served.iter().rev().find(at_this),
    }
}

/// An entry may name the supper by any entry that planned it.
fn is_of(supper: &Supper, id: Uuid) -> bool {
    supper.id == id || supper.revisions.iter().any(|(revision, _)| *revision == id)
}
