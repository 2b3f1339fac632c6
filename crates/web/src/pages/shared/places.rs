//! Places things are put: those that are known, and what a kitchen that has named none yet is offered.

use record::{PlaceKind, place_key};
use season::known_places;

use crate::house::Visit;

/// A place a form offers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Offered {
    /// Its name, as entries carry it.
    pub(crate) name: String,
    /// What it is, where that is known.
    pub(crate) kind: Option<PlaceKind>,
}

/// Places to put something, the latest first; a freezer and a fridge are always among them.
pub(crate) fn offered(visit: &Visit) -> Vec<Offered> {
    let mut places: Vec<Offered> = Vec::new();
    for name in known_places(&visit.state) {
        if name == season::BOARD {
            continue;
        }
        let kind = kind_of(visit, &name);
        places.push(Offered { name: named(visit, &name), kind });
    }
    for (name, kind) in [("freezer", PlaceKind::Freezer), ("fridge", PlaceKind::Fridge)] {
        if !places.iter().any(|place| place.kind == Some(kind)) {
            places.push(Offered { name: name.to_owned(), kind: Some(kind) });
        }
    }
    places
}

/// The first place of a kind.
pub(crate) fn first_of(visit: &Visit, kind: PlaceKind) -> String {
    let found = offered(visit).into_iter().find(|place| place.kind == Some(kind));
    found.map_or_else(|| "fridge".to_owned(), |place| place.name)
}

/// What a place is: as set, as its packs were said to lie there, or by its name alone.
pub(crate) fn kind_of(visit: &Visit, place: &str) -> Option<PlaceKind> {
    let by_packs = || {
        let lying = visit.state.packs().rev().filter_map(|pack| pack.lying.as_ref());
        let freezes = lying.filter(|lying| lying.place == place).find_map(|lying| lying.freezes)?;
        freezes.then_some(PlaceKind::Freezer)
    };
    visit.settings().place_kind(place).or_else(by_packs).or_else(|| match place_key(place).as_str() {
        "freezer" => Some(PlaceKind::Freezer),
        "fridge" => Some(PlaceKind::Fridge),
        _ => None,
    })
}

/// Whether the entry has to say that a place freezes, because no setting does.
pub(crate) fn says_freezing(visit: &Visit, place: &str) -> Option<bool> {
    match visit.settings().place_kind(place) {
        Some(_) => None,
        None => kind_of(visit, place).map(PlaceKind::freezes),
    }
}

/// The name a place was given in the settings, where it is known by its key.
fn named(visit: &Visit, place: &str) -> String {
    let set = visit.settings().text(&format!("place.{}.name", place_key(place)));
    match set {
        Some(name) if place_key(name) == place_key(place) && place == place_key(place) => name.to_owned(),
        _ => place.to_owned(),
    }
}
