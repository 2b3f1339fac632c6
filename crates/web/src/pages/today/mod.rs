//! Today: what next, and when?

mod markup;
mod query;
#[cfg(test)]
mod tests;
mod view;

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;

use crate::failure::Failure;
use crate::house::House;
use crate::parts::{Page, Place};

/// `GET /`
pub(crate) async fn show(State(house): State<House>) -> Result<Response, Failure> {
    house
        .draw(house.visit(), StatusCode::OK, |seen| {
            Some(Page::new(Place::Today, "Today", markup::main(&view::view(&query::found(seen), seen))))
        })
        .await
}
