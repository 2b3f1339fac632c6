//! The piece: where are its grams and its money? Receiving it, weighing its bag and its heaps.

mod forms;
mod markup;
mod query;
#[cfg(test)]
mod tests;
mod view;

pub(crate) use query::around;

use axum::extract::{OriginalUri, Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use std::collections::BTreeMap;
use uuid::Uuid;

use crate::failure::Failure;
use crate::house::{House, Visit};
use crate::parts::{Page, Place, Typed};
use crate::reading::Reading;
use crate::sent::Sent;

/// `GET /piece/WORD`
pub(crate) async fn show(
    State(house): State<House>,
    Path(word): Path<String>,
    OriginalUri(asked): OriginalUri,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &word)?;
    // A form that another page leads to stands open.
    let open = Sent::of_address(&asked).get("open").unwrap_or_default().to_owned();
    page(&house, visit, id, Typed::sent(&open, BTreeMap::new()), StatusCode::OK).await
}

/// `POST /piece/WORD`: one of its forms.
pub(crate) async fn write(
    State(house): State<House>,
    Path(word): Path<String>,
    sent: Sent,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &word)?;
    let written = {
        let mut reading = Reading::new(&sent, &visit);
        let entries = forms::read(&mut reading, &visit, id, sent.form());
        reading.write(&house, entries).await?
    };
    match written {
        Ok(()) => Ok(Redirect::to(&format!("/piece/{}", word.to_lowercase())).into_response()),
        Err(typed) => page(&house, visit, id, typed, StatusCode::UNPROCESSABLE_ENTITY).await,
    }
}

async fn page(
    house: &House,
    visit: Visit,
    id: Uuid,
    typed: Typed,
    status: StatusCode,
) -> Result<Response, Failure> {
    house
        .draw(visit, status, move |asked| {
            let found = query::found(asked, id)?;
            let view = view::view(&found, asked);
            Some(Page::new(Place::Pieces, view.title.clone(), markup::main(&view, &typed)))
        })
        .await
}

/// The piece of that word, in either case.
pub(crate) fn named(visit: &Visit, word: &str) -> Result<Uuid, Failure> {
    let piece = visit.state.piece_of(word).map(|piece| piece.id);
    piece.ok_or_else(|| {
        Failure::no_such(
            format!("A piece called {}", word.to_uppercase()),
            "Every piece that was written down stands under Pieces.",
        )
    })
}
