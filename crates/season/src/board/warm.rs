//! How long the meat has been out of the cold, and when it has to go back.

use jiff::{SignedDuration, ZonedDateTime};
use quantity::Span;
use record::{At, Piece, PlaceKind, State};

/// The time on the board.
#[derive(Clone, Debug, PartialEq)]
pub struct OnTheBoard {
    /// Since when.
    pub since: At,
    /// How long it may be: the kitchen's own limit, else the official one.
    pub limit: Span,
    /// Whether that is the kitchen's own limit; it is never looser than the official one.
    pub own: bool,
    /// When it has to be back.
    pub back_by: ZonedDateTime,
    /// Whether that is over.
    pub over: bool,
}

/// What a place is called where the knife works, if nobody named it otherwise.
pub const BOARD: &str = "board";
/// Where no rule stands in the catalogue: the leaving-out limit of two hours.
const OFFICIAL_MIN: f64 = 120.0;
/// A board nobody has touched for so long is not being worked at; what happened since was not written down.
const FORGOTTEN_H: i64 = 24;

/// How long what is cut of a piece has been out; nothing while it lies in the cold, or once it is packed.
#[must_use]
pub fn on_the_board(state: &State, piece: &Piece, now: &ZonedDateTime) -> Option<OnTheBoard> {
    let since = since(state, piece)?;
    let hours = now.timestamp().duration_since(since.timestamp()).as_hours();
    if !(0..FORGOTTEN_H).contains(&hours) || !is_anything_out(state, piece) {
        return None;
    }
    let region = match state.settings().text("kitchen.rules") {
        Some("au") => catalogue::Region::Au,
        _ => catalogue::Region::Us,
    };
    let rule = catalogue::official_rule("leaving-out", region).and_then(|rule| rule.minutes);
    let official = rule.unwrap_or(OFFICIAL_MIN);
    let own = state.settings().number("board.warm_min").filter(|own| *own <= official);
    let limit = Span::from_min(own.unwrap_or(official));
    let back_by = since
        .in_zone(now.time_zone())
        .checked_add(SignedDuration::from_secs(limit.s() as i64))
        .unwrap_or_else(|_| now.clone());
    Some(OnTheBoard { since, limit, own: own.is_some(), over: *now > back_by, back_by })
}

/// Since it was put on the board, if that was said; else since the first cut after it last lay in the cold.
fn since(state: &State, piece: &Piece) -> Option<At> {
    let lying = piece.lying.as_ref();
    if let Some(lying) = lying.filter(|lying| is_warm(state, &lying.place)) {
        return Some(lying.since);
    }
    let cold_since = lying.map(|lying| lying.since.timestamp());
    let portions = state.portions_of(piece).map(|portion| portion.at);
    let parts = state.parts_of(piece).map(|part| part.at);
    let cuts = portions.chain(parts).filter(|at| cold_since.is_none_or(|cold| at.timestamp() >= cold));
    cuts.min_by_key(|at| at.timestamp())
}

fn is_warm(state: &State, place: &str) -> bool {
    place == BOARD || state.settings().place_kind(place) == Some(PlaceKind::Room)
}

/// Whether there is something that is in no pack: uncut, loose, or a kept heap.
fn is_anything_out(state: &State, piece: &Piece) -> bool {
    let loose = state.portions_of(piece).any(|portion| state.stage(portion) == record::Stage::Loose);
    let ledger = state.ledger(piece);
    loose || ledger.unexplained.g() > ledger.scale_error.g().max(50.0)
}
