//! One pack: the page that the code of its label opens.

mod acts;
mod markup;
mod query;
#[cfg(test)]
mod tests;
mod view;

pub(crate) use acts::{OUT, taken_out};

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use uuid::Uuid;

use crate::failure::Failure;
use crate::house::{House, Visit};
use crate::pages::pack::no_such_pack;
use crate::parts::layout::Held;
use crate::parts::{Page, Place, Typed};
use crate::reading::Reading;
use crate::sent::Sent;

/// `GET /pack/SLUG`, in either case.
pub(crate) async fn show(State(house): State<House>, Path(slug): Path<String>) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &slug)?;
    page(&house, visit, id, Typed::default(), StatusCode::OK).await
}

/// `GET /PACK/SLUG`: codes are written in capitals.
pub(crate) async fn capitals(Path(slug): Path<String>) -> Redirect {
    Redirect::permanent(&format!("/pack/{}", slug.to_lowercase()))
}

/// `POST /pack/SLUG`: taken out, put somewhere, found loose, thrown away.
pub(crate) async fn write(
    State(house): State<House>,
    Path(slug): Path<String>,
    sent: Sent,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &slug)?;
    let mut reading = Reading::new(&sent, &visit);
    let entries = acts::read(&mut reading, &visit, id, &sent);
    match reading.write(&house, entries).await? {
        Ok(()) => Ok(Redirect::to(&format!("/pack/{}", slug.to_lowercase())).into_response()),
        Err(typed) => page(&house, visit, id, typed, StatusCode::UNPROCESSABLE_ENTITY).await,
    }
}

fn named(visit: &Visit, slug: &str) -> Result<Uuid, Failure> {
    visit.state.pack_of(slug).map(|pack| pack.id).ok_or_else(|| no_such_pack(slug))
}

async fn page(
    house: &House,
    visit: Visit,
    id: Uuid,
    typed: Typed,
    status: StatusCode,
) -> Result<Response, Failure> {
    house
        .draw(visit, status, move |seen| {
            let found = query::found(seen, id)?;
            let view = view::view(&found, seen);
            Some(Page::new(Place::Store, view.name.clone(), markup::main(&view, &typed)).held(Held::Cellar))
        })
        .await
}
