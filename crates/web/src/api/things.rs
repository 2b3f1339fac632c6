//! Pieces, packs and suppers as they stand after the last entry.

use axum::extract::{Path, State};
use axum::http::HeaderMap;
use axum::response::Response;
use serde_json::Value;

use super::{shape, tag};
use crate::failure::Failure;
use crate::house::House;

/// `GET /api/pieces`: every piece, in the order they came.
pub(super) async fn pieces(State(house): State<House>, asked: HeaderMap) -> Response {
    tag::tagged(&house.kitchen().state(), &asked, |state| {
        Ok(state.pieces().map(|piece| shape::piece_in_short(state, piece)).collect())
    })
}

/// `GET /api/pieces/WORD`: one piece with everything that came of it.
pub(super) async fn piece(
    State(house): State<House>,
    Path(word): Path<String>,
    asked: HeaderMap,
) -> Response {
    tag::tagged(&house.kitchen().state(), &asked, |state| {
        let piece = state.piece_of(&word);
        found(piece.map(|piece| shape::piece(state, piece)), "piece", &word, "/api/pieces lists every piece.")
    })
}

/// `GET /api/packs`: every pack that was ever sealed, in that order.
pub(super) async fn packs(State(house): State<House>, asked: HeaderMap) -> Response {
    tag::tagged(&house.kitchen().state(), &asked, |state| {
        Ok(state.packs().map(|pack| shape::pack(state, pack)).collect())
    })
}

/// `GET /api/packs/SLUG`: one pack.
pub(super) async fn pack(State(house): State<House>, Path(slug): Path<String>, asked: HeaderMap) -> Response {
    tag::tagged(&house.kitchen().state(), &asked, |state| {
        let pack = state.pack_of(&slug);
        found(pack.map(|pack| shape::pack(state, pack)), "pack", &slug, "/api/packs lists every pack.")
    })
}

/// `GET /api/tables/DATE`: the supper of a day, a second one as `DATE-2`.
pub(super) async fn table(
    State(house): State<House>,
    Path(date): Path<String>,
    asked: HeaderMap,
) -> Response {
    tag::tagged(&house.kitchen().state(), &asked, |state| {
        let supper = state.supper_of(&date);
        let planned: Vec<&str> = state.suppers().map(|supper| supper.slug.as_str()).collect();
        let instead = match planned.as_slice() {
            [] => "No supper is planned.".to_owned(),
            dates => format!("Planned are {}.", dates.join(", ")),
        };
        found(supper.map(|supper| shape::table(state, supper)), "supper", &date, &instead)
    })
}

fn found(value: Option<Value>, what: &str, name: &str, instead: &str) -> Result<Value, Failure> {
    value.ok_or_else(|| Failure::no_such(format!("The {what} {name}"), instead))
}
