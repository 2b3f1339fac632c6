//! Portions by where they are, and heaps by name.

use super::answer::{Heap, Whereabouts};
use quantity::Mass;
use record::{Contents, Pack, PartName, Piece, Portion, Stage, State};
use rust_decimal::Decimal;
use std::collections::BTreeMap;

/// Portions by where they are and heaps by name, in the order of the ledger.
pub(super) fn heaps(state: &State, piece: &Piece) -> Vec<(Heap, Mass)> {
    let mut groups: BTreeMap<Whereabouts, (Vec<u32>, Vec<uuid::Uuid>, Mass)> = BTreeMap::new();
    for portion in state.portions_of(piece) {
        let (places, packs, mass) = groups.entry(whereabouts(state, portion)).or_default();
        places.push(portion.n);
        if let Some(pack) = portion.pack.filter(|pack| !packs.contains(pack)) {
            packs.push(pack);
        }
        *mass = *mass + portion.weighed.mass;
    }
    let portions = groups.into_iter().map(|(whereabouts, (places, packs, mass))| {
        (Heap::Portions { whereabouts, places, packs: packs.len() }, mass)
    });
    let mut parts: Vec<(Heap, Mass)> = Vec::new();
    for part in state.parts_of(piece).filter(|part| part.weighed.part != PartName::Purge) {
        let heap = Heap::Part {
            part: part.weighed.part,
            called: part.weighed.name.clone(),
            whereabouts: part_whereabouts(state, part),
            value_per_kg: kept_value(state, part),
        };
        match parts.iter_mut().find(|(other, _)| *other == heap) {
            Some((_, mass)) => *mass = *mass + part.weighed.mass,
            None => parts.push((heap, part.weighed.mass)),
        }
    }
    portions.chain(parts).collect()
}

/// Where a portion is.
#[must_use]
pub fn whereabouts(state: &State, portion: &Portion) -> Whereabouts {
    let pack = portion.pack.and_then(|id| state.pack(id));
    match state.stage(portion) {
        Stage::Loose => Whereabouts::Loose,
        Stage::Packed => Whereabouts::Store(pack.and_then(place)),
        Stage::Out => Whereabouts::Out(pack.and_then(place).unwrap_or_default()),
        Stage::OnHeat | Stage::Pulled => Whereabouts::Heat,
        Stage::Served(record::Outcome::Eaten) => Whereabouts::Eaten,
        Stage::Served(record::Outcome::Spare) => Whereabouts::Spare,
        Stage::Served(record::Outcome::Discarded) | Stage::Discarded => Whereabouts::Discarded,
    }
}

fn place(pack: &Pack) -> Option<String> {
    match &pack.out {
        Some(out) => Some(out.place.clone()),
        None => pack.lying.as_ref().map(|lying| lying.place.clone()),
    }
}

fn part_whereabouts(state: &State, part: &record::Part) -> Option<Whereabouts> {
    if part.discarded.is_some() || part.weighed.keep == record::Use::Waste {
        return Some(Whereabouts::Discarded);
    }
    let pack = part.pack.and_then(|id| state.pack(id))?;
    let holds = matches!(&pack.sealed.contents, Contents::Part(id) if *id == part.id);
    match (&pack.gone, &pack.out) {
        (Some(_), _) => Some(Whereabouts::Eaten),
        _ if !holds => None,
        (None, Some(out)) => Some(Whereabouts::Out(out.place.clone())),
        (None, None) => Some(Whereabouts::Store(place(pack))),
    }
}

/// What a kilo of a kept heap replaces: as said of it, else what the kitchen says such a heap is worth.
fn kept_value(state: &State, part: &record::Part) -> Option<Decimal> {
    if part.weighed.keep == record::Use::Waste {
        return None;
    }
    let settings = state.settings();
    part.weighed.value.map(record::Price::per_kg).or_else(|| match part.weighed.part {
        PartName::LeanTrim | PartName::EndsFirst | PartName::EndsLast => {
            settings.amount("money.lean_trim_per_kg")
        }
        PartName::CleanFat => settings.amount("money.clean_fat_per_kg"),
        _ => None,
    })
}

/// Kept unless it was waste on the board; what was kept and thrown away later still replaced nothing.
pub(super) fn is_kept(whereabouts: Option<&Whereabouts>) -> bool {
    whereabouts != Some(&Whereabouts::Discarded)
}
