//! At the case: whole or counter; which one?

mod forms;
mod markup;
mod rolls;
#[cfg(test)]
mod tests;
mod view;

use axum::extract::{OriginalUri, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use crate::failure::Failure;
use crate::house::{House, Visit};
use crate::pages::piece::around;
use crate::parts::{Page, Place, Typed};
use crate::reading::Reading;
use crate::sent::Sent;
use rolls::{MOST, Roll, address};

/// `GET /case`: the candidates of the address side by side; a roll typed into the form joins them.
pub(crate) async fn show(
    State(house): State<House>,
    OriginalUri(asked_for): OriginalUri,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let sent = Sent::of_address(&asked_for);
    let mut rolls = rolls_of(&sent);
    if sent.form() != forms::ADD {
        return page(&house, visit, rolls, Typed::default(), StatusCode::OK).await;
    }
    let mut reading = Reading::new(&sent, &visit);
    match forms::read(&mut reading, &visit) {
        Some(_) if rolls.len() >= MOST => {
            reading.refuse_whole("Six are side by side already. Take one away first.");
            page(&house, visit.clone(), rolls, reading.into_typed(), StatusCode::UNPROCESSABLE_ENTITY).await
        }
        Some(roll) => {
            rolls.push(roll);
            Ok(Redirect::to(&address(&rolls)).into_response())
        }
        None => {
            let typed = reading.into_typed();
            page(&house, visit.clone(), rolls, typed, StatusCode::UNPROCESSABLE_ENTITY).await
        }
    }
}

/// `POST /case`: bought, either one of the candidates or the one in the form.
pub(crate) async fn bought(State(house): State<House>, sent: Sent) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = sent.id();
    let rolls = rolls_of(&sent);
    let written = {
        let mut reading = Reading::new(&sent, &visit);
        let one = match sent.get("bought") {
            Some(text) => Roll::read(text),
            None => forms::read(&mut reading, &visit),
        };
        let entries = one.map(|roll| vec![reading.entry(roll.received(&visit))]);
        reading.write(&house, entries).await?
    };
    match written {
        Ok(()) => {
            let state = house.kitchen().state();
            let word = state.piece(id).map(|piece| piece.word.slug());
            Ok(Redirect::to(&word.map_or_else(|| "/pieces".to_owned(), |word| format!("/piece/{word}")))
                .into_response())
        }
        Err(typed) => page(&house, visit, rolls, typed, StatusCode::UNPROCESSABLE_ENTITY).await,
    }
}

fn rolls_of(sent: &Sent) -> Vec<Roll> {
    sent.all("roll").filter_map(Roll::read).take(MOST).collect()
}

async fn page(
    house: &House,
    visit: Visit,
    rolls: Vec<Roll>,
    typed: Typed,
    status: StatusCode,
) -> Result<Response, Failure> {
    house
        .draw(visit, status, move |asked| {
            let around = around(asked, None);
            let candidates: Vec<_> = rolls.iter().map(Roll::candidate).collect();
            let case = season::case(&candidates, &around, crate::DRAWS, crate::SEED);
            let view = view::view(&rolls, case, &around, asked);
            Some(Page::new(Place::Pieces, "At the case", markup::main(&view, &rolls, &typed, asked)))
        })
        .await
}
