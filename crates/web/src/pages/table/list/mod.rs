//! Suppers: those to come, those eaten, and a new one.

mod markup;
#[cfg(test)]
mod tests;
mod view;

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use super::plan_form;
use crate::failure::Failure;
use crate::house::{House, Visit};
use crate::parts::{Page, Place, Typed};
use crate::reading::Reading;
use crate::sent::Sent;

/// `GET /table`
pub(crate) async fn show(State(house): State<House>) -> Result<Response, Failure> {
    Ok(page(&house.visit(), None))
}

/// `POST /table`: a supper is planned; then its own page.
pub(crate) async fn write(State(house): State<House>, sent: Sent) -> Result<Response, Failure> {
    let visit = house.visit();
    let draft = plan_form::draft(&visit, None);
    let mut form = Reading::new(&sent, &visit);
    let planned = plan_form::read(&mut form, &sent, &visit, &draft.words, None);
    let entries = planned.map(|planned| vec![form.entry(planned)]);
    Ok(match form.write(&house, entries).await? {
        Ok(()) => {
            let state = house.visit().state;
            let slug = state.supper(sent.id()).map(|supper| supper.slug.clone()).unwrap_or_default();
            Redirect::to(&format!("/table/{slug}")).into_response()
        }
        Err(typed) => page(&visit, Some(&typed)),
    })
}

fn page(visit: &Visit, refused: Option<&Typed>) -> Response {
    let draft = plan_form::draft(visit, None);
    let typed = refused.unwrap_or(&draft.values);
    let page = Page::new(Place::Table, "Table", markup::main(&view::view(visit), &draft, typed));
    let status = if refused.is_some() { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::OK };
    visit.answer(status, &page)
}
