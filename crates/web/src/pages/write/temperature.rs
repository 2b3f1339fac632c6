//! A temperature: of a place, or the core of a piece.

use axum::extract::{OriginalUri, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use maud::{Markup, html};
use quantity::{Grain, TemperatureUnit};
use record::{Body, Entry, PieceMeasured, TemperatureRead};
use uuid::Uuid;

use crate::failure::Failure;
use crate::house::{House, Visit};
use crate::parts::{Choice, Field, Page, Place, Typed, answer, entry_form, said};
use crate::reading::Reading;
use crate::sent::Sent;

const FORM: &str = "temperature";
/// How many places and pieces the list offers.
const SHOWN: usize = 5;

/// `GET /write/temperature`
pub(crate) async fn show(
    State(house): State<House>,
    OriginalUri(asked): OriginalUri,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let place = Sent::of_address(&asked).get("place").map(str::to_owned);
    let fresh = Typed::fresh(&place.map(|place| vec![("of", format!("place {place}"))]).unwrap_or_default());
    Ok(page(&visit, &fresh, StatusCode::OK))
}

/// `POST /write/temperature`
pub(crate) async fn write(State(house): State<House>, sent: Sent) -> Result<Response, Failure> {
    let visit = house.visit();
    let written = {
        let mut reading = Reading::new(&sent, &visit);
        let entries = read(&mut reading);
        reading.write(&house, entries).await?
    };
    match written {
        Ok(()) => Ok(Redirect::to("/").into_response()),
        Err(typed) => Ok(page(&visit, &typed, StatusCode::UNPROCESSABLE_ENTITY)),
    }
}

fn read(reading: &mut Reading<'_>) -> Option<Vec<Entry>> {
    let other = reading.text("place");
    let of = reading.text("of").filter(|of| of != "other");
    let temperature = reading.temperature("at_what", -90.0..=400.0);
    let temperature = reading.needs("at_what", temperature, "What does the thermometer show?");
    let place = other.or_else(|| of.as_deref()?.strip_prefix("place ").map(str::to_owned));
    let piece = of.as_deref().and_then(|of| Uuid::parse_str(of.strip_prefix("piece ")?).ok());
    if place.is_none() && piece.is_none() {
        reading.refuse("place", "Of what? Choose one above, or write the place’s name here.");
    }
    reading.is_good().then_some(())?;
    let body: Body = match (place, piece) {
        (Some(place), _) => TemperatureRead { place, at: temperature? }.into(),
        (None, Some(piece)) => PieceMeasured {
            piece,
            bag_off: None,
            on_board: None,
            purge: None,
            length: None,
            slant_first: None,
            slant_last: None,
            core: temperature,
            station: Vec::new(),
            from_end: None,
        }
        .into(),
        (None, None) => return None,
    };
    Some(vec![reading.entry(body)])
}

fn page(visit: &Visit, typed: &Typed, status: StatusCode) -> Response {
    let main = html! {
        h1 { "A temperature" }
        (answer("What does the thermometer show, and where?"))
        (form(visit, typed))
        @if let Some(last) = last(visit) { (said(last)) }
    };
    visit.answer(status, &Page::new(Place::Today, "A temperature", main))
}

fn form(visit: &Visit, typed: &Typed) -> Markup {
    let mut options: Vec<(String, String)> = season::known_places(&visit.state)
        .into_iter()
        .take(SHOWN)
        .map(|place| (format!("place {place}"), place))
        .collect();
    let pieces =
        visit.state.pieces().rev().filter(|piece| piece.discarded.is_none() && piece.portions.is_empty());
    options.extend(
        pieces.take(SHOWN).map(|piece| (format!("piece {}", piece.id), format!("core of {}", piece.word))),
    );
    options.push(("other".to_owned(), "another place".to_owned()));
    let options: Vec<(&str, &str)> =
        options.iter().map(|(value, words)| (value.as_str(), words.as_str())).collect();
    let start = options.first().map_or("other", |(value, _)| value);
    let degree = if visit.units.temperature == TemperatureUnit::Fahrenheit { "°F" } else { "°C" };
    let fields = html! {
        (Choice { name: "of", label: "Of", options: &options, start }.pick(typed))
        div class="fields" {
            (Field::number("at_what", "It shows").unit(degree).required().draw(typed))
            (Field::text("place", "Another place").unknown("as above").draw(typed))
            (Field::when("when", "When").hint("Left empty, now.").wide().draw(typed))
        }
    };
    entry_form("/write/temperature", typed, FORM, fields, html! { button class="press first" { "Read" } })
}

/// The latest reading, so that a slip of a sign is seen.
fn last(visit: &Visit) -> Option<String> {
    let reading = visit.state.temperatures().next_back()?;
    Some(format!(
        "Last read: {} at {}, {}.",
        reading.note.place,
        visit.units.temperature(reading.note.at, Grain::Reading),
        visit.moments.time(&visit.zoned(reading.at))
    ))
}
