//! Pieces: received, measured, planned.

use super::check::{Gone, fits, still_there};
use super::cook::Probe;
use super::pack::Lying;
use super::{Made, State, Thrown};
use crate::{At, Entry, KnifePlanned, PieceMeasured, PieceReceived, Refusal, Station, Word};
use quantity::{Length, Mass, Temperature};
use std::collections::BTreeMap;
use uuid::Uuid;

/// A piece, from the wholesale case on.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The entry that received it.
    pub id: Uuid,
    /// That entry's number.
    pub number: u64,
    /// When it was received.
    pub at: At,
    /// What it is called.
    pub word: Word,
    /// What was said on receipt.
    pub received: PieceReceived,
    /// What was measured since.
    pub measured: Measured,
    /// The knife plan that holds.
    pub plan: Option<Planned>,
    /// Portions by place from the named end.
    pub portions: BTreeMap<u32, Uuid>,
    /// Heaps, in the order they were weighed.
    pub parts: Vec<Uuid>,
    /// Packs, in the order they were sealed.
    pub packs: Vec<Uuid>,
    /// Where the piece itself lies, if it was said.
    pub lying: Option<Lying>,
    /// Probe readings of the piece.
    pub probes: Vec<Probe>,
    /// Whether what is left of it was thrown away.
    pub discarded: Option<Thrown>,
    /// Numbers of the entries that concern it or what came of it.
    pub entries: Vec<u64>,
}

/// What was measured on a piece; each the latest that was said.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Measured {
    /// When it was last measured.
    pub at: Option<At>,
    /// Mass with the bag off.
    pub bag_off: Option<Mass>,
    /// Liquid in the bag.
    pub purge: Option<Mass>,
    /// Mass as it lies on the board, trimmed before slicing.
    pub on_board: Option<Mass>,
    /// Length.
    pub length: Option<Length>,
    /// How far the first end stands off square.
    pub slant_first: Option<Length>,
    /// How far the last end stands off square.
    pub slant_last: Option<Length>,
    /// Core, with its hour.
    pub core: Option<(At, Temperature)>,
    /// Cross-sections; a new list replaces the old one.
    pub stations: Vec<Station>,
    /// The end lengths are measured from.
    pub from_end: Option<String>,
}

/// A knife plan with its entry.
#[derive(Clone, Debug, PartialEq)]
pub struct Planned {
    /// The entry.
    pub id: Uuid,
    /// When it was settled.
    pub at: At,
    /// What was settled.
    pub plan: KnifePlanned,
}

impl State {
    pub(super) fn may_receive(&self, body: &PieceReceived) -> Result<(), Refusal> {
        match &body.word {
            Some(word) => self.may_be_called(word),
            None if self.next_word().is_none() => Err(Refusal::NoWordLeft),
            None => Ok(()),
        }
    }

    pub(super) fn receive(&mut self, number: u64, entry: &Entry, body: &PieceReceived) {
        let word = self.name_piece(entry.id, body);
        let lying = body.place.as_ref().map(|place| self.lying_at(entry, place, None, None));
        let place = self.pieces.push(Piece {
            id: entry.id,
            number,
            at: entry.at,
            word,
            received: body.clone(),
            measured: Measured {
                core: body.core.map(|core| (entry.at, core)),
                at: body.core.map(|_| entry.at),
                ..Measured::default()
            },
            plan: None,
            portions: BTreeMap::new(),
            parts: Vec::new(),
            packs: Vec::new(),
            lying,
            probes: Vec::new(),
            discarded: None,
            entries: Vec::new(),
        });
        self.made.insert(entry.id, Made::Piece(place));
    }

    pub(super) fn may_measure(&self, entry: &Entry, body: &PieceMeasured) -> Result<(), Refusal> {
        let piece = self.named_piece(entry, "body.piece", body.piece)?;
        still_there(piece.gone(), entry.at)?;
        let something = body.bag_off.is_some()
            || body.purge.is_some()
            || body.on_board.is_some()
            || body.length.is_some()
            || body.slant_first.is_some()
            || body.slant_last.is_some()
            || body.core.is_some()
            || body.from_end.is_some()
            || !body.station.is_empty();
        fits(something, "body", || "nothing measured".to_owned(), "at least one measure")?;
        if let Some(length) = body.length.or(piece.measured.length)
            && let Some(station) = body.station.iter().find(|station| station.at.mm() > length.mm())
        {
            let found =
                || format!("a cross-section at {} mm of a piece {} mm long", station.at.mm(), length.mm());
            fits(false, "body.station", found, "places on the piece")?;
        }
        if let Some(on_board) = body.on_board {
            // Trimming takes off: what lies on the board is never more than the piece.
            self.may_come_out("body.on_board_g", piece, body.bag_off, Mass::default(), on_board)?;
        }
        self.may_lose_purge(piece, body)
    }

    /// Liquid that comes to more than the piece is grams from nowhere too.
    fn may_lose_purge(&self, piece: &Piece, body: &PieceMeasured) -> Result<(), Refusal> {
        let Some(purge) = body.purge else { return Ok(()) };
        let ledger = self.ledger(piece);
        let others = ledger.cut();
        self.may_come_out("body.purge_g", piece, body.bag_off, others, purge)
    }

    pub(super) fn measure(&mut self, entry: &Entry, body: &PieceMeasured) {
        let Some(Made::Piece(place)) = self.made.get(body.piece) else { return };
        let Some(piece) = self.pieces.get_mut(place) else { return };
        let measured = &mut piece.measured;
        // A measure that comes late, from a device that was off-line, does not replace a younger one.
        let newer = measured.at.is_none_or(|at| entry.at >= at);
        keep(&mut measured.bag_off, body.bag_off, newer);
        keep(&mut measured.purge, body.purge, newer);
        keep(&mut measured.on_board, body.on_board, newer);
        keep(&mut measured.length, body.length, newer);
        keep(&mut measured.slant_first, body.slant_first, newer);
        keep(&mut measured.slant_last, body.slant_last, newer);
        keep(&mut measured.core, body.core.map(|core| (entry.at, core)), newer);
        keep(&mut measured.from_end, body.from_end.clone(), newer);
        if !body.station.is_empty() && (newer || measured.stations.is_empty()) {
            measured.stations.clone_from(&body.station);
        }
        if newer {
            measured.at = Some(entry.at);
        }
    }

    pub(super) fn may_plan_knife(&self, entry: &Entry, body: &KnifePlanned) -> Result<(), Refusal> {
        let piece = self.named_piece(entry, "body.piece", body.piece)?;
        still_there(piece.gone(), entry.at)?;
        if let Some(limits) = &body.limits {
            let found =
                || format!("thickest {} mm below thinnest {} mm", limits.thickest.mm(), limits.thinnest.mm());
            fits(
                limits.thickest >= limits.thinnest,
                "body.limits",
                found,
                "thickest_mm at least thinnest_mm",
            )?;
        }
        Ok(())
    }

    pub(super) fn plan_knife(&mut self, entry: &Entry, body: &KnifePlanned) {
        let Some(Made::Piece(place)) = self.made.get(body.piece) else { return };
        let Some(piece) = self.pieces.get_mut(place) else { return };
        if piece.plan.as_ref().is_none_or(|plan| entry.at >= plan.at) {
            piece.plan = Some(Planned { id: entry.id, at: entry.at, plan: body.clone() });
        }
    }
}

impl Piece {
    /// What became of it, once it was thrown away.
    #[must_use]
    pub fn gone(&self) -> Option<Gone> {
        self.discarded.as_ref().map(|thrown| Gone::discarded(self.word.to_string(), thrown))
    }

    /// The mass the knife divides: as it lies on the board, else with the bag off, else the label less its purge.
    #[must_use]
    pub fn to_divide(&self) -> Mass {
        let drained = || self.received.mass - self.measured.purge.unwrap_or_default();
        self.measured.on_board.or(self.measured.bag_off).unwrap_or_else(drained)
    }
}

fn keep<T>(old: &mut Option<T>, new: Option<T>, newer: bool) {
    if new.is_some() && (newer || old.is_none()) {
        *old = new;
    }
}
