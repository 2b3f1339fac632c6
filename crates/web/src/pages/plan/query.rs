//! A piece with its knife plan.

use record::Piece;
use season::{Plan, RollError, asked, plan};
use uuid::Uuid;

use crate::house::Visit;

/// A piece and the plan of it.
pub(super) struct Found<'v> {
    pub(super) piece: &'v Piece,
    pub(super) plan: Result<Plan, RollError>,
}

pub(super) fn found(visit: &Visit, id: Uuid) -> Option<Found<'_>> {
    let piece = visit.state.piece(id)?;
    Some(Found { piece, plan: plan(&visit.state, piece, asked(&visit.state, piece)) })
}
