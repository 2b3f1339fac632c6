//! One supper: when does what start so that all eat at the hour?

mod acts;
mod beside;
mod came;
mod chain;
mod markup;
#[cfg(test)]
mod tests;
mod view;
mod who;

pub(crate) use came::{OUTCOMES, degree, served_words};
pub(crate) use view::eaters;

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use uuid::Uuid;

use super::plan_form;
use crate::failure::Failure;
use crate::house::{House, Visit};
use crate::parts::{Page, Place, Typed};
use crate::reading::Reading;
use crate::sent::Sent;

/// `GET /table/DATE`
pub(crate) async fn show(State(house): State<House>, Path(slug): Path<String>) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &slug)?;
    page(&house, visit, id, Typed::default(), StatusCode::OK).await
}

/// `POST /table/DATE`: one of its forms. A supper that changes its day changes its address.
pub(crate) async fn write(
    State(house): State<House>,
    Path(slug): Path<String>,
    sent: Sent,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &slug)?;
    let mut form = Reading::new(&sent, &visit);
    let entries = acts::read(&mut form, &visit, id, &sent);
    match form.write(&house, entries).await? {
        Ok(()) => {
            let state = house.visit().state;
            let slug = state.supper(id).map_or(slug, |supper| supper.slug.clone());
            Ok(Redirect::to(&format!("/table/{slug}")).into_response())
        }
        Err(typed) => page(&house, visit, id, typed, StatusCode::UNPROCESSABLE_ENTITY).await,
    }
}

/// The supper of an address.
pub(crate) fn named(visit: &Visit, slug: &str) -> Result<Uuid, Failure> {
    let found = visit.state.supper_of(&slug.to_lowercase()).map(|supper| supper.id);
    found.ok_or_else(|| {
        Failure::no_such(format!("A supper of {slug}"), "All suppers stand on the table’s own page, /table.")
    })
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
            let draft = plan_form::draft(asked, Some(supper));
            let view = view::view(asked, supper);
            Some(Page::new(Place::Table, view.title.clone(), markup::main(&view, &draft, &typed)))
        })
        .await
}
