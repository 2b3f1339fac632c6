//! Cold store: what lies where, and which do I use next?

pub(crate) mod chart;
mod count;
mod markup;
mod query;
#[cfg(test)]
mod tests;
mod view;

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use record::{Entry, TemperatureRead};
use uuid::Uuid;

use crate::failure::Failure;
use crate::house::{House, Visit};
use crate::pages::bag::{OUT, taken_out};
use crate::parts::layout::Held;
use crate::parts::{Page, Place, Typed};
use crate::reading::Reading;
use crate::sent::Sent;
use query::{Asked, Sought};

/// A temperature of a place.
const READ: &str = "read";

/// `GET /store`
pub(crate) async fn show(State(house): State<House>, asked: Sought) -> Result<Response, Failure> {
    page(&house, house.visit(), asked.0, Typed::default(), StatusCode::OK).await
}

/// `POST /store`: a pack is taken out, a place is counted or its temperature read.
pub(crate) async fn write(
    State(house): State<House>,
    asked: Sought,
    sent: Sent,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let mut reading = Reading::new(&sent, &visit);
    let entries = read(&mut reading, &visit, &sent);
    match reading.write(&house, entries).await? {
        Ok(()) => Ok(Redirect::to("/store").into_response()),
        Err(typed) => page(&house, visit, asked.0, typed, StatusCode::UNPROCESSABLE_ENTITY).await,
    }
}

fn read(reading: &mut Reading<'_>, visit: &Visit, sent: &Sent) -> Option<Vec<Entry>> {
    match sent.form() {
        OUT => {
            let pack = sent.get("pack").and_then(|id| Uuid::parse_str(id).ok());
            let pack = pack.filter(|id| visit.state.pack(*id).is_some());
            if pack.is_none() {
                reading.refuse_whole("That pack is not in the record. Look at the list once more.");
            }
            taken_out(reading, pack?)
        }
        READ => {
            let place = reading.text("place");
            let place = reading.needs("place", place, "Say which place.")?;
            let at = reading.temperature("at_c", -90.0..=60.0);
            let at = reading.needs("at_c", at, "What does the thermometer show?")?;
            Some(vec![reading.entry(TemperatureRead { place, at })])
        }
        count::COUNT => count::read(reading, visit, sent).map(|body| vec![reading.entry(body)]),
        _ => {
            reading.refuse_whole(
                "This form is not one of the store’s. Open the page anew and send it once more.",
            );
            None
        }
    }
}

async fn page(
    house: &House,
    visit: Visit,
    asked: Asked,
    typed: Typed,
    status: StatusCode,
) -> Result<Response, Failure> {
    house
        .draw(visit, status, move |seen| {
            let found = query::found(seen, &asked);
            let main = markup::main(&view::view(&found, seen), &typed);
            Some(Page::new(Place::Store, "Cold store", main).held(Held::Cellar))
        })
        .await
}
