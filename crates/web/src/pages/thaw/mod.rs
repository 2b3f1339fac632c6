//! Thaw and salt of one supper: out when, salt when and how much?

mod acts;
mod markup;
mod picture;
mod salt;
#[cfg(test)]
mod tests;
mod view;

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use season::thaw_plan;
use uuid::Uuid;

use crate::failure::Failure;
use crate::house::{House, Visit};
use crate::pages::table::supper::named;
use crate::parts::{Page, Place, Typed};
use crate::reading::Reading;
use crate::sent::Sent;

/// `GET /table/DATE/thaw`
pub(crate) async fn show(State(house): State<House>, Path(slug): Path<String>) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &slug)?;
    page(&house, visit, id, Typed::default(), StatusCode::OK).await
}

/// `POST /table/DATE/thaw`: packs are out, the fridge is read, salt is given.
pub(crate) async fn write(
    State(house): State<House>,
    Path(slug): Path<String>,
    sent: Sent,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &slug)?;
    let mut form = Reading::new(&sent, &visit);
    let entries = acts::read(&mut form, &visit, &sent);
    match form.write(&house, entries).await? {
        Ok(()) => Ok(Redirect::to(&format!("/table/{}/thaw", slug.to_lowercase())).into_response()),
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
            let supper = asked.state.supper(id)?;
            let thaw = thaw_plan(&asked.state, &asked.plans, supper, asked.now());
            let view = view::view(asked, supper, thaw.as_ref().map_err(ToString::to_string));
            Some(Page::new(Place::Table, view.title.clone(), markup::main(&view, &typed)))
        })
        .await
}
