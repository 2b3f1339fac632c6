//! Knife plan: how many, how thick, where?

mod markup;
mod measure;
mod query;
mod says;
mod strip;
#[cfg(test)]
mod tests;
mod view;
mod wants;
mod write;

pub(crate) use strip::{pdf_named, show as strip};

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use uuid::Uuid;

use crate::failure::Failure;
use crate::house::{House, Visit};
use crate::pages::piece::named;
use crate::parts::{Page, Place, Typed};
use crate::reading::Reading;
use crate::sent::Sent;

/// `GET /piece/WORD/plan`
pub(crate) async fn show(State(house): State<House>, Path(word): Path<String>) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &word)?;
    page(&house, visit, id, Typed::default(), StatusCode::OK).await
}

/// `POST /piece/WORD/plan`: one of its forms.
pub(crate) async fn write(
    State(house): State<House>,
    Path(word): Path<String>,
    sent: Sent,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &word)?;
    let mut reading = Reading::new(&sent, &visit);
    let entries = write::read(&mut reading, &visit, id, &sent);
    match reading.write(&house, entries).await? {
        Ok(()) => Ok(Redirect::to(&write::after(&word.to_lowercase(), sent.form())).into_response()),
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
