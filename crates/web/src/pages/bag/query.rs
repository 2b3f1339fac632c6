//! One pack as it lies.

use record::Pack;
use season::Lain;
use uuid::Uuid;

use crate::house::Visit;

/// A pack with what it holds.
pub(super) struct Found<'v> {
    pub(super) pack: &'v Pack,
    pub(super) lain: Lain<'v>,
}

pub(super) fn found(visit: &Visit, id: Uuid) -> Option<Found<'_>> {
    let pack = visit.state.pack(id)?;
    Some(Found { pack, lain: Lain::of(&visit.state, pack, visit.now()) })
}
