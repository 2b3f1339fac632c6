//! One portion, and what came of it.

mod markup;
#[cfg(test)]
mod tests;
mod view;

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use record::{Entry, Outcome, Served};
use uuid::Uuid;

use crate::failure::Failure;
use crate::house::{House, Visit};
use crate::parts::{Page, Place, Typed};
use crate::reading::Reading;
use crate::sent::Sent;

/// The form's name.
const CAME: &str = "came";

/// `GET /piece/WORD/N`
pub(crate) async fn show(
    State(house): State<House>,
    Path((word, n)): Path<(String, String)>,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &word, &n)?;
    page(&house, visit, id, Typed::default(), StatusCode::OK).await
}

/// `POST /piece/WORD/N`: what came of it.
pub(crate) async fn write(
    State(house): State<House>,
    Path((word, n)): Path<(String, String)>,
    sent: Sent,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &word, &n)?;
    let mut form = Reading::new(&sent, &visit);
    let entries = read(&mut form, &visit, id, &sent);
    match form.write(&house, entries).await? {
        Ok(()) => Ok(Redirect::to(&format!("/piece/{}/{n}", word.to_lowercase())).into_response()),
        Err(typed) => page(&house, visit, id, typed, StatusCode::UNPROCESSABLE_ENTITY).await,
    }
}

/// The portion of an address.
pub(crate) fn named(visit: &Visit, word: &str, n: &str) -> Result<Uuid, Failure> {
    let piece = visit.state.piece_of(word);
    let place = n.parse::<u32>().ok();
    let found = piece.zip(place).and_then(|(piece, n)| piece.portions.get(&n).copied());
    found.ok_or_else(|| {
        let instead = match piece {
            Some(piece) => format!("Its portions stand on the page of {}.", piece.word),
            None => "Every piece stands under Pieces.".to_owned(),
        };
        Failure::no_such(format!("A portion {} {n}", word.to_uppercase()), instead)
    })
}

fn read(form: &mut Reading<'_>, visit: &Visit, portion: Uuid, sent: &Sent) -> Option<Vec<Entry>> {
    if sent.form() != CAME {
        form.refuse_whole("This form is not the portion’s. Open the page anew and send it once more.");
        return None;
    }
    let outcome = form.choice("outcome", Outcome::of);
    let outcome = form.needs("outcome", outcome, "Was it eaten, left over or thrown away?");
    let core = form.temperature("core_c", 0.0..=110.0);
    let (doneness, note) = (form.text("doneness"), form.text("note"));
    let supper = view::supper_of(visit, portion).map(|supper| supper.id);
    Some(vec![form.entry(Served { portion, supper, outcome: outcome?, core, peak: None, doneness, note })])
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
            let view = view::view(asked, asked.state.portion(id)?)?;
            Some(Page::new(Place::Pieces, view.name.clone(), markup::main(&view, &typed)))
        })
        .await
}
