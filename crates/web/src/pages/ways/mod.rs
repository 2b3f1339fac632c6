//! Ways side by side: which way for this piece?

mod chart;
mod form;
mod markup;
mod says;
#[cfg(test)]
mod tests;
mod view;

use axum::extract::{OriginalUri, Path, State};
use axum::http::{StatusCode, Uri};
use axum::response::Response;
use record::{Portion, Supper};
use season::portion_ways;
use uuid::Uuid;

use crate::failure::Failure;
use crate::house::{House, Visit};
use crate::pages::{served, table};
use crate::parts::{Page, Place};
use crate::sent::Sent;

/// `GET /piece/WORD/N/ways`: how would I cook this one? Back from its supper's hour, if it has one to come.
pub(crate) async fn of_portion(
    State(house): State<House>,
    Path((word, n)): Path<(String, String)>,
    OriginalUri(asked): OriginalUri,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let portion = served::named(&visit, &word, &n)?;
    let supper = coming(&visit, portion).map(|supper| supper.id);
    page(&house, visit, portion, supper, &asked).await
}

/// `GET /table/DATE/ways/WORD-N`: the same, from the supper's own page.
pub(crate) async fn at_supper(
    State(house): State<House>,
    Path((slug, portion)): Path<(String, String)>,
    OriginalUri(asked): OriginalUri,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let supper = table::supper::named(&visit, &slug)?;
    let (word, n) = portion.rsplit_once('-').unwrap_or((&portion, ""));
    let portion = served::named(&visit, word, n)?;
    page(&house, visit, portion, Some(supper), &asked).await
}

/// The next supper it is set aside for.
fn coming(visit: &Visit, portion: Uuid) -> Option<&Supper> {
    let now = visit.now().timestamp();
    let suppers = visit.state.suppers().filter(|supper| supper.planned.portions.contains(&portion));
    suppers
        .filter(|supper| supper.planned.serve.at.timestamp() >= now)
        .min_by_key(|supper| supper.planned.serve.at)
}

async fn page(
    house: &House,
    visit: Visit,
    portion: Uuid,
    supper: Option<Uuid>,
    asked: &Uri,
) -> Result<Response, Failure> {
    let sent = Sent::of_address(asked);
    let (wish, typed) = form::read(&sent, &visit);
    let status = if typed.is_good() { StatusCode::OK } else { StatusCode::UNPROCESSABLE_ENTITY };
    house
        .draw(visit, status, move |seen| {
            let portion: &Portion = seen.state.portion(portion)?;
            let supper = supper.and_then(|id| seen.state.supper(id));
            let ways = portion_ways(&seen.state, &seen.plans, portion, supper, &wish, seen.now());
            let view = view::view(seen, portion, supper, ways.as_ref());
            let place = if supper.is_some() { Place::Table } else { Place::Pieces };
            Some(Page::new(place, format!("{}, ways", portion.name()), markup::main(&view, &typed)))
        })
        .await
}
