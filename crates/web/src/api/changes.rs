//! `GET /api/changes`: server-sent events, one an entry, resumable by number.

use axum::extract::{Query, State};
use axum::http::HeaderMap;
use axum::response::sse::{Event, KeepAlive, Sse};
use axum::response::{IntoResponse, Response};
use std::convert::Infallible;
use std::time::Duration;
use tokio::sync::mpsc::{Sender, channel};
use tokio_stream::wrappers::ReceiverStream;

use super::entries::after;
use crate::house::House;

/// Events a slow listener may lag behind before the house waits for it, and rows read at once.
const BACKLOG: usize = 256;
/// A line of comment this often, so that nobody between takes a quiet kitchen for a dead one.
const ALIVE: Duration = Duration::from_secs(15);

/// Tells of every entry after the number the listener knows: `Last-Event-ID` where it comes back, `after` the first time,
/// else of what comes from now on.
pub(super) async fn listen(
    State(house): State<House>,
    Query(asked): Query<Vec<(String, String)>>,
    headers: HeaderMap,
) -> Response {
    let last = headers.get("last-event-id").and_then(|id| id.to_str().ok()).and_then(|id| id.parse().ok());
    let asked = match after(&asked) {
        Ok(asked) => asked,
        Err(refused) => return (*refused).into_response(),
    };
    let now = house.kitchen().state().number();
    // A listener that knows more than there is comes from another record: it hears what is new here.
    let from = last.or(asked).map_or(now, |known| now.min(known));
    let (events, heard) = channel::<Result<Event, Infallible>>(BACKLOG);
    tokio::spawn(tell(house, from, events));
    Sse::new(ReceiverStream::new(heard)).keep_alive(KeepAlive::new().interval(ALIVE)).into_response()
}

/// Sends the rows after `from` and waits for more, until the listener leaves or the house closes.
async fn tell(house: House, mut from: u64, events: Sender<Result<Event, Infallible>>) {
    let mut changes = house.changes();
    loop {
        changes.borrow_and_update();
        loop {
            let kitchen = house.kitchen().clone();
            let read = house.compute(move || kitchen.rows_after(from, BACKLOG)).await;
            let Ok(Ok(rows)) = read else { return };
            if rows.is_empty() {
                break;
            }
            for row in rows {
                from = row.number;
                let event = Event::default().event("entry").id(row.number.to_string()).data(row.line);
                if events.send(Ok(event)).await.is_err() {
                    return;
                }
            }
        }
        tokio::select! {
            changed = changes.changed() => if changed.is_err() { return },
            () = house.closed() => return,
            () = events.closed() => return,
        }
    }
}
