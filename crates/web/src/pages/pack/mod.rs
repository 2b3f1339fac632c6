//! Packing and label: which go together?

mod bags;
mod label;
mod markup;
mod query;
mod seal;
#[cfg(test)]
mod tests;
mod view;

pub(crate) use label::{Base, all as labels, no_such_pack, pdf};

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use uuid::Uuid;

use crate::failure::Failure;
use crate::house::{House, Visit};
use crate::pages::piece::named;
use crate::parts::layout::Held;
use crate::parts::{Page, Place, Typed};
use crate::reading::Reading;
use crate::sent::Sent;
use query::{Asked, Sought};

/// `GET /piece/WORD/pack`
pub(crate) async fn show(
    State(house): State<House>,
    Path(word): Path<String>,
    asked: Sought,
    base: Base,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &word)?;
    page(&house, visit, id, (asked.0, base), Typed::default(), StatusCode::OK).await
}

/// `POST /piece/WORD/pack`: a bag is sealed.
pub(crate) async fn write(
    State(house): State<House>,
    Path(word): Path<String>,
    asked: Sought,
    base: Base,
    sent: Sent,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &word)?;
    let mut reading = Reading::new(&sent, &visit);
    let entries = seal::read(&mut reading, &visit, id, &sent);
    match reading.write(&house, entries).await? {
        Ok(()) => Ok(Redirect::to(&format!("/piece/{}/pack", word.to_lowercase())).into_response()),
        Err(typed) => page(&house, visit, id, (asked.0, base), typed, StatusCode::UNPROCESSABLE_ENTITY).await,
    }
}

async fn page(
    house: &House,
    visit: Visit,
    id: Uuid,
    (asked, base): (Asked, Base),
    typed: Typed,
    status: StatusCode,
) -> Result<Response, Failure> {
    house
        .draw(visit, status, move |seen| {
            let found = query::found(seen, id, &asked)?;
            let view = view::view(&found, seen, &base);
            Some(Page::new(Place::Pieces, view.title.clone(), markup::main(&view, &typed)).held(Held::Glove))
        })
        .await
}
