//! One entry: what was written, when and by whom; taking it back, or writing the weight it should have had.

mod markup;
#[cfg(test)]
mod tests;

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use quantity::Mass;
use record::{Body, Corrected, Kind, Logged, Replacement};

use crate::failure::Failure;
use crate::house::{House, Visit};
use crate::parts::{Page, Place, Typed};
use crate::reading::{Reading, Size};
use crate::sent::Sent;

/// Takes the entry back.
pub(super) const BACK: &str = "back";
/// Writes another weight in its place.
pub(super) const WEIGHT: &str = "weight";

/// `GET /entry/NUMBER`
pub(crate) async fn show(State(house): State<House>, Path(number): Path<u64>) -> Result<Response, Failure> {
    let visit = house.visit();
    page(&visit, number, &Typed::default(), StatusCode::OK)
}

/// `POST /entry/NUMBER`: a correction.
pub(crate) async fn write(
    State(house): State<House>,
    Path(number): Path<u64>,
    sent: Sent,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let row = row(&visit, number)?;
    let written = {
        let mut reading = Reading::new(&sent, &visit);
        let because = reading.text("because");
        let because =
            reading.needs("because", because, "Why? A few words; they stand beside the struck line.");
        let body = if sent.form() == WEIGHT { another_weight(&mut reading, row) } else { None };
        let wants_body = sent.form() == WEIGHT;
        let entries = because
            .filter(|_| reading.is_good() && body.is_some() == wants_body)
            .map(|because| Corrected { entry: row.stored.entry.id, because, body })
            .map(|body| vec![reading.entry(body)]);
        reading.write(&house, entries).await?
    };
    match written {
        // A piece taken back has no page any more.
        Ok(()) if sent.form() == BACK && row.stored.entry.kind() == Kind::PieceReceived => {
            Ok(Redirect::to("/pieces").into_response())
        }
        Ok(()) => Ok(Redirect::to(&back_to(&visit, row)).into_response()),
        Err(typed) => page(&visit, number, &typed, StatusCode::UNPROCESSABLE_ENTITY),
    }
}

fn page(visit: &Visit, number: u64, typed: &Typed, status: StatusCode) -> Result<Response, Failure> {
    let row = row(visit, number)?;
    let main = markup::main(visit, row, typed, &back_to(visit, row));
    Ok(visit.answer(status, &Page::new(Place::Pieces, format!("Entry {number}"), main)))
}

fn row(visit: &Visit, number: u64) -> Result<&Logged, Failure> {
    visit.state.entry(number).ok_or_else(|| {
        Failure::no_such(format!("Entry {number}"), format!("The record goes to {}.", visit.state.number()))
    })
}

/// The piece an entry belongs to, if it belongs to one: where its line stands.
fn back_to(visit: &Visit, row: &Logged) -> String {
    let number = row.stored.number;
    let piece = visit.state.pieces().find(|piece| piece.entries.contains(&number) || piece.number == number);
    piece.map_or_else(|| "/books".to_owned(), |piece| format!("/piece/{}", piece.word.slug()))
}

/// The weight an entry holds, if it is about one weight.
pub(super) fn weight_of(body: &Body) -> Option<(Mass, Size)> {
    match body {
        Body::PieceReceived(body) => Some((body.mass, Size::Large)),
        Body::PortionWeighed(body) => Some((body.mass, Size::Small)),
        Body::PartWeighed(body) => Some((body.mass, Size::Small)),
        _ => None,
    }
}

fn another_weight(reading: &mut Reading<'_>, row: &Logged) -> Option<Replacement> {
    let mut body = row.effective().unwrap_or(&row.stored.entry).body.clone();
    let (_, size) = weight_of(&body)?;
    let mass = reading.mass("mass", size, 0.1..=200_000.0);
    let mass = reading.needs("mass", mass, "What should have stood there?")?;
    match &mut body {
        Body::PieceReceived(body) => body.mass = mass,
        Body::PortionWeighed(body) => body.mass = mass,
        Body::PartWeighed(body) => body.mass = mass,
        _ => return None,
    }
    Some(Replacement::new(&body))
}
