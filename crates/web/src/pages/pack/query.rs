//! A piece at the sealer.

use axum::extract::Query;
use record::Piece;
use season::{Instead, Packing, packing};
use serde::Deserialize;
use uuid::Uuid;

use crate::house::Visit;

/// What the address asks for instead of the pair that suits best.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Asked {
    first: Option<String>,
    with: Option<String>,
    single: Option<String>,
}

/// The query of a request.
pub(super) type Sought = Query<Asked>;

impl Asked {
    /// As the address carries it: a form that is refused comes back to the same bag.
    pub(super) fn tail(&self) -> String {
        let Instead { first, with, singly } = self.instead();
        let parts = [
            first.map(|n| format!("first={n}")),
            with.map(|n| format!("with={n}")),
            singly.then(|| "single=yes".to_owned()),
        ];
        let parts: Vec<String> = parts.into_iter().flatten().collect();
        if parts.is_empty() { String::new() } else { format!("?{}", parts.join("&")) }
    }

    pub(super) fn instead(&self) -> Instead {
        let number = |text: &Option<String>| text.as_deref().and_then(|text| text.parse().ok());
        Instead { first: number(&self.first), with: number(&self.with), singly: self.single.is_some() }
    }
}

/// A piece and its bags.
pub(super) struct Found<'v> {
    pub(super) piece: &'v Piece,
    pub(super) packing: Packing<'v>,
    pub(super) instead: Instead,
    /// What the address asks for.
    pub(super) tail: String,
}

pub(super) fn found<'v>(visit: &'v Visit, id: Uuid, asked: &Asked) -> Option<Found<'v>> {
    let piece = visit.state.piece(id)?;
    let instead = asked.instead();
    Some(Found { piece, packing: packing(&visit.state, piece, instead), instead, tail: asked.tail() })
}
