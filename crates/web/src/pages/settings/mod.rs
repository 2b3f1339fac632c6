//! Settings: is this my kitchen? Each is an entry; changing a unit changes how things are shown, never what was written.

mod items;
mod markup;
#[cfg(test)]
mod tests;
mod view;
mod write;

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use crate::failure::Failure;
use crate::house::{House, Visit};
use crate::parts::{Page, Place, Typed};
use crate::reading::Reading;
use crate::sent::Sent;

/// `GET /books/settings`
pub(crate) async fn show(State(house): State<House>) -> Result<Response, Failure> {
    let visit = house.visit();
    Ok(page(&visit, &view::fresh(&visit), StatusCode::OK))
}

/// `POST /books/settings`
pub(crate) async fn write(State(house): State<House>, sent: Sent) -> Result<Response, Failure> {
    let visit = house.visit();
    let written = {
        let mut reading = Reading::new(&sent, &visit);
        let entries = write::entries(&mut reading, &visit, &sent);
        if entries.as_ref().is_some_and(Vec::is_empty) {
            return Ok(Redirect::to("/books/settings").into_response());
        }
        reading.write(&house, entries).await?
    };
    match written {
        Ok(()) => Ok(Redirect::to("/books/settings").into_response()),
        Err(typed) => Ok(page(&visit, &typed, StatusCode::UNPROCESSABLE_ENTITY)),
    }
}

fn page(visit: &Visit, typed: &Typed, status: StatusCode) -> Response {
    let main = markup::main(&view::view(visit), visit, typed);
    visit.answer(status, &Page::new(Place::Books, "Settings", main))
}
