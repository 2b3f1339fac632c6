//! The cold store: what lies where, and which pack is used next.

mod count;
mod weight;

pub use count::{LastCount, last_count};
pub use weight::{ByWeight, Match, by_weight};

use catalogue::{Keeps, Kept, keeps};
use jiff::ToSpan;
use jiff::ZonedDateTime;
use jiff::civil::Date;
use quantity::{Mass, Temperature};
use record::{At, Contents, Pack, PartName, Portion, State, Supper};
use uuid::Uuid;

/// Everything in the store.
#[derive(Clone, Debug)]
pub struct Shelf<'s> {
    /// Places with packs in them, freezers first, then by name; packs whose place nobody wrote come last.
    pub places: Vec<ShelfPlace<'s>>,
    /// The pack to use next: the first in order that no supper waits for.
    pub next: Option<Lain<'s>>,
    /// Packs that the last count of their place missed.
    pub missing: Vec<&'s Pack>,
    /// Packs out of the store that still hold something.
    pub out: Vec<&'s Pack>,
}

/// A place with its packs.
#[derive(Clone, Debug)]
pub struct ShelfPlace<'s> {
    /// Its name; nothing for packs whose place nobody wrote.
    pub name: Option<String>,
    /// Whether it freezes; nothing where nobody said.
    pub freezes: Option<bool>,
    /// Its packs, first to use first.
    pub packs: Vec<Lain<'s>>,
    /// All of them together.
    pub mass: Mass,
    /// Its last temperature reading.
    pub reading: Option<(At, Temperature)>,
    /// Its last count.
    pub count: Option<LastCount>,
}

/// A pack as it lies there.
#[derive(Clone, Debug)]
pub struct Lain<'s> {
    /// The pack.
    pub pack: &'s Pack,
    /// What it holds, from the named end; empty for a heap.
    pub portions: Vec<&'s Portion>,
    /// The heap it holds, where it holds one, and what that was called.
    pub heap: Option<(PartName, Option<String>)>,
    /// The piece's catalogue name.
    pub cut: &'s str,
    /// The supper its portions are set aside for, if one is to come.
    pub supper: Option<&'s Supper>,
    /// What the official chart says of it.
    pub chart: Chart,
}

/// A row of the official chart, laid on the days of one pack.
#[derive(Clone, Copy, Debug)]
pub struct Chart {
    /// The row.
    pub row: &'static Keeps,
    /// Whether the freezer's months count, or the fridge's days.
    pub frozen: bool,
    /// The day counting starts.
    pub since: Date,
    /// The first end of the chart's span.
    pub from: Date,
    /// Its last end.
    pub until: Date,
}

impl<'s> Lain<'s> {
    /// A pack as it lies there, seen from `now`.
    #[must_use]
    pub fn of(state: &'s State, pack: &'s Pack, now: &ZonedDateTime) -> Self {
        let portions: Vec<&Portion> = state.portions_in(pack).collect();
        let heap = match &pack.sealed.contents {
            Contents::Portions(_) => None,
            Contents::Part(id) => state.part(*id).map(|part| (part.weighed.part, part.weighed.name.clone())),
        };
        Self {
            cut: state.piece(pack.piece).map_or("", |piece| piece.received.cut.as_str()),
            supper: supper_of(state, &portions, now),
            chart: Chart::of(state, pack, &portions, heap.is_some(), now),
            pack,
            portions,
            heap,
        }
    }

    /// Loose bags first: air is at them. Then what is not frozen, then the oldest. Age, not quality: what keeping does to
    /// each is not reckoned here.
    fn order(&self) -> (bool, bool, Date, u64) {
        (self.pack.leaker.is_none(), self.chart.frozen, self.chart.since, self.pack.number)
    }
}

impl Chart {
    fn of(state: &State, pack: &Pack, portions: &[&Portion], is_heap: bool, now: &ZonedDateTime) -> Self {
        let zone = now.time_zone();
        let frozen = pack.frozen;
        let since = frozen.unwrap_or_else(|| cut_at(state, pack, portions)).in_zone(zone).date();
        let roast = portions.iter().any(|portion| {
            let piece = state.piece(portion.piece);
            let thick = piece.and_then(|piece| crate::thickness_of(state, piece, portion));
            thick.is_some_and(|thick| thick.length().mm() >= crate::packing::ROAST_MM)
        });
        // Trim and ends are mince to be: the chart's shorter row is the one that holds for them.
        let row = keeps(if is_heap {
            Kept::Mince
        } else if roast {
            Kept::Roasts
        } else {
            Kept::Steaks
        });
        let after =
            |days: u32, months: u32| since.saturating_add(i64::from(days).days().months(i64::from(months)));
        let (from, until) = if frozen.is_some() {
            (after(0, row.freezer_months.0), after(0, row.freezer_months.1))
        } else {
            (after(row.fridge_days.0, 0), after(row.fridge_days.1, 0))
        };
        Self { row, frozen: frozen.is_some(), since, from, until }
    }
}

/// The store, seen from `now`.
#[must_use]
pub fn shelf<'s>(state: &'s State, now: &ZonedDateTime) -> Shelf<'s> {
    let mut packs: Vec<Lain<'s>> =
        state.packs().filter(|pack| pack.is_in_store()).map(|pack| Lain::of(state, pack, now)).collect();
    packs.sort_by_key(Lain::order);
    let next = packs.iter().find(|lain| lain.supper.is_none()).or(packs.first()).cloned();
    let mut places: Vec<ShelfPlace<'s>> = Vec::new();
    for lain in packs {
        let name = lain.pack.lying.as_ref().map(|lying| lying.place.clone());
        let freezes = lain.pack.lying.as_ref().and_then(|lying| lying.freezes);
        match places.iter_mut().find(|place| place.name == name) {
            Some(place) => {
                place.mass = place.mass + lain.pack.mass;
                place.freezes = place.freezes.or(freezes);
                place.packs.push(lain);
            }
            None => places.push(place(state, name, freezes, lain)),
        }
    }
    places.sort_by_key(|place| (place.name.is_none(), place.freezes != Some(true), place.name.clone()));
    let held = state.packs().filter(|pack| pack.gone.is_none());
    Shelf {
        places,
        next,
        missing: held.clone().filter(|pack| pack.missing.is_some() && pack.out.is_none()).collect(),
        out: held.filter(|pack| pack.out.is_some()).collect(),
    }
}

fn place<'s>(state: &State, name: Option<String>, freezes: Option<bool>, lain: Lain<'s>) -> ShelfPlace<'s> {
    let reading = name.as_ref().and_then(|name| {
        let of_place = state.temperatures().filter(|noted| noted.note.place == *name);
        of_place.max_by_key(|noted| noted.at.timestamp()).map(|noted| (noted.at, noted.note.at))
    });
    let count = name.as_ref().and_then(|name| last_count(state, name));
    ShelfPlace { name, freezes, mass: lain.pack.mass, packs: vec![lain], reading, count }
}

/// When what is in the pack was cut or trimmed: a bag put round it later does not make it younger.
fn cut_at(state: &State, pack: &Pack, portions: &[&Portion]) -> At {
    let part = match &pack.sealed.contents {
        Contents::Part(id) => state.part(*id).map(|part| part.at),
        Contents::Portions(_) => None,
    };
    portions.iter().map(|portion| portion.at).chain(part).min_by_key(|at| at.timestamp()).unwrap_or(pack.at)
}

/// The next supper that waits for any of these portions.
fn supper_of<'s>(state: &'s State, portions: &[&Portion], now: &ZonedDateTime) -> Option<&'s Supper> {
    let waits =
        |supper: &Supper, id: Uuid| supper.planned.portions.contains(&id) && !supper.served.contains(&id);
    state
        .suppers()
        .filter(|supper| {
            supper.planned.serve.at.timestamp() > now.timestamp() - jiff::SignedDuration::from_hours(6)
        })
        .filter(|supper| portions.iter().any(|portion| waits(supper, portion.id)))
        .min_by_key(|supper| supper.planned.serve.at.timestamp())
}

#[cfg(test)]
mod tests;
