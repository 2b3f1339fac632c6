//! The ledger of every piece by a second road: straight from the entries that count.

use super::{Piece, State};
use crate::{Body, PartName, Word};
use quantity::Mass;
use std::collections::BTreeMap;
use uuid::Uuid;

/// A piece whose ledger is not what its entries add up to.
#[derive(Clone, Debug, PartialEq)]
pub struct Imbalance {
    /// The piece.
    pub word: Word,
    /// What its ledger says was cut.
    pub ledger: Mass,
    /// What its entries add up to.
    pub entries: Mass,
    /// What is left of came in = purge + cut + discarded + unexplained; nothing in a sound ledger.
    pub left: Mass,
}

/// Below every scale: what sums of decimals in binary may differ by.
const ROUNDING_G: f64 = 1e-6;

impl State {
    /// Pieces whose ledger does not balance; none unless the program is at fault.
    #[must_use]
    pub fn imbalances(&self) -> Vec<Imbalance> {
        let mut cut: BTreeMap<Uuid, Mass> = BTreeMap::new();
        for entry in self.log().filter_map(|row| row.effective()) {
            let (piece, mass) = match &entry.body {
                Body::PortionWeighed(body) => (body.piece, body.mass),
                Body::PartWeighed(body) if body.part != PartName::Purge => (body.piece, body.mass),
                _ => continue,
            };
            let sum = cut.entry(piece).or_default();
            *sum = *sum + mass;
        }
        let entries = |piece: &Piece| cut.get(&piece.id).copied().unwrap_or_default();
        self.pieces().filter_map(|piece| self.imbalance(piece, entries(piece))).collect()
    }

    fn imbalance(&self, piece: &Piece, entries: Mass) -> Option<Imbalance> {
        let ledger = self.ledger(piece);
        let purge = ledger.purge.map_or(Mass::default(), super::Purge::mass);
        let left = ledger.came_in - purge - ledger.cut() - ledger.discarded - ledger.unexplained;
        let balances = left.g().abs() < ROUNDING_G && (ledger.cut() - entries).g().abs() < ROUNDING_G;
        (!balances).then(|| Imbalance { word: piece.word, ledger: ledger.cut(), entries, left })
    }
}
