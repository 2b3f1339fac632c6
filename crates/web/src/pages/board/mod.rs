//! The board: where is the next mark?

mod drawing;
mod heaps;
mod markup;
mod query;
#[cfg(test)]
mod tests;
mod view;
mod warm;
mod weigh;
mod write;

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

/// `GET /piece/WORD/board`
pub(crate) async fn show(
    State(house): State<House>,
    Path(word): Path<String>,
    asked: Sought,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &word)?;
    page(&house, visit, id, asked.0, Typed::default(), StatusCode::OK).await
}

/// `POST /piece/WORD/board`: a weight, a cut without one, a heap, undo.
pub(crate) async fn write(
    State(house): State<House>,
    Path(word): Path<String>,
    asked: Sought,
    sent: Sent,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &word)?;
    let found = query::found(&visit, id, &asked.0).ok_or(Failure::Fault)?;
    let mut reading = Reading::new(&sent, &visit);
    let told = write::read(&mut reading, &visit, &found, &sent);
    let there = |asked: &Asked| format!("/piece/{}/board{}", word.to_lowercase(), asked.tail());
    match told {
        write::Told::Cut(asked) => Ok(Redirect::to(&there(&asked)).into_response()),
        write::Told::Written(entries, asked) => match reading.write(&house, entries).await? {
            Ok(()) => Ok(Redirect::to(&there(&asked)).into_response()),
            Err(typed) => {
                let here = found.asked.clone();
                page(&house, house.visit(), id, here, typed, StatusCode::UNPROCESSABLE_ENTITY).await
            }
        },
    }
}

async fn page(
    house: &House,
    visit: Visit,
    id: Uuid,
    asked: Asked,
    typed: Typed,
    status: StatusCode,
) -> Result<Response, Failure> {
    house
        .draw(visit, status, move |seen| {
            let found = query::found(seen, id, &asked)?;
            let view = view::view(&found, seen);
            let (main, hands) = markup::page(&view, &typed);
            let page = Page::new(Place::Pieces, view.title.clone(), main).held(Held::Far);
            Some(page.hands(hands, format!("/piece/{}", view.slug), view.word.clone()))
        })
        .await
}
