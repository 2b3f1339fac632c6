//! Pieces: every piece, and how far it has come.

mod markup;
mod view;

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;

use crate::failure::Failure;
use crate::house::House;
use crate::parts::{Page, Place};

/// `GET /pieces`
pub(crate) async fn show(State(house): State<House>) -> Result<Response, Failure> {
    house
        .draw(house.visit(), StatusCode::OK, |seen| {
            Some(Page::new(Place::Pieces, "Pieces", markup::main(&view::view(seen))))
        })
        .await
}
