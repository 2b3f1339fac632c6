//! The store, and what a weight may be.

use axum::extract::Query;
use quantity::{Mass, read_mass};
use season::{ByWeight, Shelf, by_weight, shelf};
use serde::Deserialize;

use crate::house::Visit;

/// What the address asks for.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Asked {
    /// A weight whose pack is looked for.
    pub(super) weight: Option<String>,
}

/// The query of a request.
pub(super) type Sought = Query<Asked>;

/// The store with an answer to a weight.
pub(super) struct Found<'v> {
    pub(super) shelf: Shelf<'v>,
    /// The weight as it was typed, and what it may be; nothing if it could not be read.
    pub(super) sought: Option<(String, Option<(Mass, ByWeight<'v>)>)>,
}

pub(super) fn found<'v>(visit: &'v Visit, asked: &Asked) -> Found<'v> {
    let text = asked.weight.as_deref().map(str::trim).filter(|text| !text.is_empty());
    let sought = text.map(|text| {
        let mass = read_mass(text, visit.units.small_mass())
            .ok()
            .filter(|mass| (1.0..=100_000.0).contains(&mass.g()));
        (text.to_owned(), mass.map(|mass| (mass, by_weight(&visit.state, mass))))
    });
    Found { shelf: shelf(&visit.state, visit.now()), sought }
}
