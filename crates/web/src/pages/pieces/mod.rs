//! Pieces: every piece, and how far it has come.

mod markup;
mod view;

use axum::extract::State;
use axum::response::Response;

use crate::failure::Failure;
use crate::house::House;
use crate::parts::{Page, Place};

/// `GET /pieces`
pub(crate) async fn show(State(house): State<House>) -> Result<Response, Failure> {
    let visit = house.visit();
    let asked = visit.clone();
    let main = house.compute(move || markup::main(&view::view(&asked))).await?;
    Ok(visit.page(&Page::new(Place::Pieces, "Pieces", main)))
}
