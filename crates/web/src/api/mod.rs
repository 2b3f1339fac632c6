//! The JSON API: the record and the verbs.
//!
//! The record is written through one address, `POST /api/entries`, the same door the pages use. What is read carries the
//! number of the last entry as its tag, so that whoever has it already is told so in a line.

mod changes;
mod entries;
mod openapi;
mod paths;
mod problem;
mod shape;
mod tag;
mod things;
mod verbs;

#[cfg(test)]
mod tests;

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::routing::{get, post};

use crate::house::House;

/// Routes under `/api`.
pub(crate) fn routes() -> Router<House> {
    verbs::routes()
        .route("/openapi.json", get(openapi::serve))
        .route(
            "/entries",
            post(entries::offer).layer(DefaultBodyLimit::max(entries::LIMIT)).get(entries::list),
        )
        .route("/changes", get(changes::listen))
        .route("/pieces", get(things::pieces))
        .route("/pieces/{word}", get(things::piece))
        .route("/packs", get(things::packs))
        .route("/packs/{slug}", get(things::pack))
        .route("/tables/{date}", get(things::table))
        .route("/problems/{name}", get(problem::about))
}
