//! At the sealer: which portions share a bag, what is sealed, what waits.

mod lot;
mod pairs;
mod thickness;

pub use lot::{Expected, Lot};
pub use pairs::{Together, Waiting, pairs};
pub use thickness::{Thickness, board_mass, thickness_of};

use quantity::{Length, Mass};
use record::{Pack, Part, PartName, Piece, Portion, Stage, State, Use};

/// A piece at the sealer.
#[derive(Clone, Debug, PartialEq)]
pub struct Packing<'s> {
    /// The piece.
    pub piece: &'s Piece,
    /// What goes into the next bag; nothing once no portion waits.
    pub next: Option<Bag<'s>>,
    /// Bags still to be sealed, the next one first.
    pub ahead: Vec<Bag<'s>>,
    /// Bags sealed so far that still hold something, in order of their first place.
    pub sealed: Vec<Sealed<'s>>,
    /// Heaps that were kept and are in no pack.
    pub heaps: Vec<&'s Part>,
    /// The bags in use and what they have shown.
    pub lot: Lot,
    /// Mass of an empty bag, where it is known.
    pub bag: Option<Mass>,
}

/// Portions that go into one bag.
#[derive(Clone, Debug, PartialEq)]
pub struct Bag<'s> {
    /// What goes in, from the named end.
    pub portions: Vec<Member<'s>>,
    /// Together.
    pub mass: Mass,
    /// How far apart their thicknesses are; nothing for one portion or where a thickness is not known.
    pub apart: Option<Length>,
    /// Whether they were cut to be alike.
    pub twins: bool,
}

/// A portion in a bag.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Member<'s> {
    /// The portion.
    pub portion: &'s Portion,
    /// How thick it is.
    pub thickness: Option<Thickness>,
}

/// A sealed bag.
#[derive(Clone, Debug, PartialEq)]
pub struct Sealed<'s> {
    /// The pack.
    pub pack: &'s Pack,
    /// What it holds, from the named end; empty for a heap.
    pub portions: Vec<Member<'s>>,
    /// How far apart their thicknesses are.
    pub apart: Option<Length>,
}

/// What was asked for instead of the pair that suits best.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Instead {
    /// This portion first.
    pub first: Option<u32>,
    /// With this one.
    pub with: Option<u32>,
    /// Alone.
    pub singly: bool,
}

/// A piece at the sealer.
#[must_use]
pub fn packing<'s>(state: &'s State, piece: &'s Piece, instead: Instead) -> Packing<'s> {
    let waiting: Vec<Member<'s>> = state
        .portions_of(piece)
        .filter(|portion| waits(state, portion) || is_bagged_anew(state, portion, instead))
        .map(|portion| member(state, piece, portion))
        .collect();
    let mut ahead: Vec<Bag<'s>> =
        together(&waiting, instead).iter().map(|bag| filled(bag, &waiting)).collect();
    if let Some(first) = instead.first
        && let Some(place) = ahead.iter().position(|bag| bag.portions.iter().any(|m| m.portion.n == first))
    {
        let bag = ahead.remove(place);
        ahead.insert(0, bag);
    }
    let name = state.settings().text("bag.lot").or_else(|| last_lot(state));
    Packing {
        piece,
        next: ahead.first().cloned(),
        ahead,
        sealed: sealed(state, piece),
        heaps: state.parts_of(piece).filter(|part| heap_waits(state, part)).collect(),
        lot: Lot::of(state, name),
        bag: bag_mass(state),
    }
}

/// What an empty bag weighs: as set, else what the last pack that was weighed in its bag leaves for it.
#[must_use]
pub fn bag_mass(state: &State) -> Option<Mass> {
    let set = state.settings().number("bag.mass_g").map(Mass::from_g);
    let weighed = |pack: &Pack| {
        let left = || Some(pack.sealed.with_bag? - pack.mass).filter(|bag| bag.g() > 0.0);
        pack.sealed.bag.or_else(left)
    };
    set.or_else(|| state.packs().rev().find_map(weighed))
}

/// A roast is sealed alone: thicker than any steak (common practice).
pub(crate) const ROAST_MM: f64 = 75.0;

fn together(waiting: &[Member<'_>], instead: Instead) -> Vec<Together> {
    let mut open: Vec<Waiting> = waiting.iter().map(in_line).collect();
    let first = instead.first.or_else(|| open.first().map(|portion| portion.n));
    let by_hand = match (first, instead.with) {
        (Some(first), _) if instead.singly => Some(Together::Single(first)),
        (Some(first), Some(with)) if first != with => Some(Together::Pair(first.min(with), first.max(with))),
        _ => None,
    };
    // What was asked for holds only as long as it still waits.
    let by_hand =
        by_hand.filter(|bag| bag.places().iter().all(|n| open.iter().any(|portion| portion.n == *n)));
    if let Some(bag) = by_hand {
        open.retain(|portion| !bag.places().contains(&portion.n));
    }
    by_hand.into_iter().chain(pairs(&open)).collect()
}

fn in_line(member: &Member<'_>) -> Waiting {
    let thickness_mm = member.thickness.map_or(f64::NAN, |thickness| thickness.length().mm());
    Waiting {
        n: member.portion.n,
        // Where nothing tells how thick it is, all are alike and neighbours go together.
        thickness_mm: if thickness_mm.is_nan() { 0.0 } else { thickness_mm },
        twin: member.portion.weighed.twin,
        alone: thickness_mm >= ROAST_MM,
    }
}

fn filled<'s>(bag: &Together, waiting: &[Member<'s>]) -> Bag<'s> {
    let places = bag.places();
    let portions: Vec<Member<'s>> =
        waiting.iter().filter(|member| places.contains(&member.portion.n)).copied().collect();
    Bag {
        mass: portions.iter().map(|member| member.portion.weighed.mass).sum(),
        apart: apart(&portions),
        twins: are_twins(&portions),
        portions,
    }
}

fn are_twins(portions: &[Member<'_>]) -> bool {
    let [one, other] = portions else { return false };
    one.portion.weighed.twin == Some(other.portion.n) || other.portion.weighed.twin == Some(one.portion.n)
}

fn apart(portions: &[Member<'_>]) -> Option<Length> {
    let [one, other] = portions else { return None };
    let (one, other) = (one.thickness?.length().mm(), other.thickness?.length().mm());
    Some(Length::from_mm((one - other).abs()))
}

fn member<'s>(state: &'s State, piece: &Piece, portion: &'s Portion) -> Member<'s> {
    Member { portion, thickness: thickness_of(state, piece, portion) }
}

fn waits(state: &State, portion: &Portion) -> bool {
    state.stage(portion) == Stage::Loose
}

/// A portion whose bag came loose waits for another one only if somebody asks for it: it is frozen, and may stay so.
fn is_bagged_anew(state: &State, portion: &Portion, instead: Instead) -> bool {
    let asked = [instead.first, instead.with].contains(&Some(portion.n));
    let pack = portion.pack.and_then(|id| state.pack(id));
    asked && portion.gone().is_none() && pack.is_some_and(|pack| pack.leaker.is_some() && pack.is_in_store())
}

/// Purge and what was thrown away never wait for a bag.
fn heap_waits(state: &State, part: &Part) -> bool {
    let kept = part.weighed.keep == Use::Keep && part.weighed.part != PartName::Purge;
    kept && part.discarded.is_none() && part.pack.and_then(|id| state.pack(id)).is_none()
}

fn sealed<'s>(state: &'s State, piece: &'s Piece) -> Vec<Sealed<'s>> {
    let mut sealed: Vec<Sealed<'s>> = state
        .packs_of(piece)
        .filter(|pack| pack.gone.is_none())
        .map(|pack| {
            let portions: Vec<Member<'s>> =
                state.portions_in(pack).map(|portion| member(state, piece, portion)).collect();
            Sealed { pack, apart: apart(&portions), portions }
        })
        .collect();
    sealed.sort_by_key(|bag| bag.portions.first().map_or(u32::MAX, |member| member.portion.n));
    sealed
}

fn last_lot(state: &State) -> Option<&str> {
    state.packs().next_back().and_then(|pack| pack.sealed.bag_lot.as_deref())
}

#[cfg(test)]
mod tests;
