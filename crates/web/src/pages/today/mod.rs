//! Today: what next, and when?

mod markup;
mod query;
#[cfg(test)]
mod tests;
mod view;

use axum::extract::State;
use axum::response::Response;

use crate::failure::Failure;
use crate::house::House;
use crate::parts::{Page, Place};

/// `GET /`
pub(crate) async fn show(State(house): State<House>) -> Result<Response, Failure> {
    let visit = house.visit();
    let asked = visit.clone();
    let main = house
        .compute(move || {
            let found = query::found(&asked);
            markup::main(&view::view(&found, &asked))
        })
        .await?;
    Ok(visit.page(&Page::new(Place::Today, "Today", main)))
}
