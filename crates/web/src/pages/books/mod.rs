//! Books: did it pay? Cost and yield of every piece, to the cent.

mod csv;
mod markup;
mod query;
#[cfg(test)]
mod tests;
mod view;

use axum::extract::{OriginalUri, State};
use axum::http::StatusCode;
use axum::http::header;
use axum::response::{IntoResponse, Response};

use crate::failure::Failure;
use crate::house::House;
use crate::parts::{Page, Place};
use crate::sent::Sent;

/// `GET /books`, by default in the order the pieces came.
pub(crate) async fn show(
    State(house): State<House>,
    OriginalUri(asked): OriginalUri,
) -> Result<Response, Failure> {
    let order = Sent::of_address(&asked).get("by").and_then(query::Order::named).unwrap_or_default();
    house
        .draw(house.visit(), StatusCode::OK, move |seen| {
            Some(Page::new(
                Place::Books,
                "Books",
                markup::main(&view::view(&query::found(seen, order), seen)),
            ))
        })
        .await
}

/// `GET /books/pieces.csv`
pub(crate) async fn csv(State(house): State<House>) -> Result<Response, Failure> {
    let visit = house.visit();
    let table = house.compute(move || csv::pieces(&visit)).await?;
    Ok((
        [
            (header::CONTENT_TYPE, "text/csv; charset=utf-8"),
            (header::CONTENT_DISPOSITION, "attachment; filename=\"pieces.csv\""),
        ],
        table,
    )
        .into_response())
}
