//! Finding a pack by its weight, when its label is gone.

use quantity::Mass;
use record::{Pack, State};

/// A pack a reading may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Match<'s> {
    /// The pack.
    pub pack: &'s Pack,
    /// What it would read: meat and bag.
    pub would_read: Mass,
    /// Its bag; nothing where none was ever weighed and a usual one stands in.
    pub bag: Option<Mass>,
}

/// What a reading says.
#[derive(Clone, Debug, PartialEq)]
pub enum ByWeight<'s> {
    /// It is this one; the nearest other one reads so differently that scale and bag do not explain it.
    It(Match<'s>, Option<Match<'s>>),
    /// Any of these, the likeliest first.
    OneOf(Vec<Match<'s>>),
    /// None is near; the nearest, if there is any.
    None(Option<Match<'s>>),
}

/// A vacuum bag for a pair, where none was weighed, and how far it may be off (common practice, 20 × 30 cm to 30 × 40 cm).
const USUAL_BAG_G: (f64, f64) = (15.0, 10.0);
/// A weighed bag against another of its kind (common practice).
const BAG_SPREAD_G: f64 = 2.0;
/// Ice on the outside, frost scraped off (assumed).
const FROST_G: f64 = 2.0;

/// Which pack in the store a reading with bag may be.
#[must_use]
pub fn by_weight(state: &State, reading: Mass) -> ByWeight<'_> {
    let division = state.settings().scale_division();
    let slack = 2.0 * record::scale_error(reading, division).g() + FROST_G;
    let mut all: Vec<(f64, f64, Match<'_>)> = state
        .packs()
        .filter(|pack| pack.gone.is_none() && pack.out.is_none())
        .map(|pack| {
            let (bag, spread) = bag_of(state, pack);
            let would_read = pack.mass + Mass::from_g(bag.map_or(USUAL_BAG_G.0, Mass::g));
            let off = (would_read - reading).g().abs();
            (off, slack + spread, Match { pack, would_read, bag })
        })
        .collect();
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    let near: Vec<Match<'_>> =
        all.iter().filter(|(off, slack, _)| off <= slack).map(|(_, _, found)| *found).collect();
    let next = |place: usize| all.get(place).map(|(_, _, found)| *found);
    match near.as_slice() {
        [] => ByWeight::None(next(0)),
        [only] => ByWeight::It(*only, next(1)),
        _ => ByWeight::OneOf(near),
    }
}

/// Its bag and how far that may be off.
fn bag_of(state: &State, pack: &Pack) -> (Option<Mass>, f64) {
    let sealed = &pack.sealed;
    // Read with its bag on, it reads the same again.
    let as_read = sealed.with_bag.map(|with_bag| with_bag - pack.mass).filter(|bag| bag.g() > 0.0);
    if let Some(bag) = as_read {
        return (Some(bag), 0.0);
    }
    match sealed.bag.or_else(|| crate::bag_mass(state)) {
        Some(bag) => (Some(bag), BAG_SPREAD_G),
        None => (None, USUAL_BAG_G.1),
    }
}
