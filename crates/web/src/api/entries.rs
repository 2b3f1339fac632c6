//! `/api/entries`: what happened goes in, one entry or an array of them; every entry comes out as it is kept.

use axum::body::{Body, Bytes};
use axum::extract::rejection::BytesRejection;
use axum::extract::{Query, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Response};
use journal::Receipt;
use record::{Problem, Refusal, Written};
use serde_json::{Value, json};
use tokio_stream::wrappers::ReceiverStream;

use super::problem::Refused;
use super::tag;
use crate::failure::Failure;
use crate::house::House;

/// At most this many bytes are read at once; a season of 10 000 entries is sent in a few parts.
pub(super) const LIMIT: usize = 4 * 1024 * 1024;
/// Who wrote what came this way.
const WRITER: &str = "api";
/// Rows read at once while all are sent.
const ROWS: usize = 1000;
const LINES: &str = "application/x-ndjson";

/// `POST /api/entries`: taken whole or not at all; answered once it is on disk.
pub(super) async fn offer(
    State(house): State<House>,
    headers: HeaderMap,
    body: Result<Bytes, BytesRejection>,
) -> Response {
    match take(&house, &headers, body).await {
        Ok((status, receipts)) => {
            let mut response = (status, axum::Json(Value::Array(receipts))).into_response();
            tag::mark(&house.kitchen().state(), &mut response);
            response
        }
        Err(response) => response,
    }
}

async fn take(
    house: &House,
    headers: &HeaderMap,
    body: Result<Bytes, BytesRejection>,
) -> Result<(StatusCode, Vec<Value>), Response> {
    if let Some(kind) = form_type(headers) {
        return Err(Refused::form(kind).into_response());
    }
    let body = body.map_err(|_| Failure::TooLong { limit: LIMIT }.into_response())?;
    let text =
        std::str::from_utf8(&body).map_err(|error| Refused::entry(&not_text(&error)).into_response())?;
    let is_array = text.trim_start().starts_with('[');
    let entries = Written::read_all(text).map_err(|refusal| Refused::entry(&refusal).into_response())?;
    let kitchen = house.kitchen().clone();
    let answer = house.compute(move || kitchen.offer_written(entries, WRITER)).await;
    let offered = answer
        .map_err(IntoResponse::into_response)?
        .map_err(|refused| Refused::offer(&refused, is_array).into_response())?;
    let status = if offered.new { StatusCode::CREATED } else { StatusCode::OK };
    Ok((status, offered.receipts.iter().map(receipt).collect()))
}

fn receipt(receipt: &Receipt) -> Value {
    json!({ "id": receipt.id, "number": receipt.number, "hash": journal::hex(&receipt.hash) })
}

/// A type that a page of any site can send without asking first (Fetch, CORS-safelisted request headers). Entries come as
/// JSON, so that even a browser that says neither its origin nor its site cannot be made to write here.
fn form_type(headers: &HeaderMap) -> Option<&str> {
    let kind = headers.get(header::CONTENT_TYPE)?.to_str().ok()?;
    let bare = kind.split(';').next().unwrap_or_default().trim();
    ["application/x-www-form-urlencoded", "multipart/form-data", "text/plain"]
        .iter()
        .any(|form| form.eq_ignore_ascii_case(bare))
        .then_some(bare)
}

fn not_text(error: &std::str::Utf8Error) -> Refusal {
    let problem = Problem {
        key: "entry".to_owned(),
        found: format!("a byte that is no UTF-8, at {}", error.valid_up_to()),
        allowed: "JSON in UTF-8".to_owned(),
        nearest: None,
    };
    Refusal::Unreadable { problems: vec![problem] }
}

/// `GET /api/entries?after=N`: JSON Lines, to the byte as they are kept and exported.
pub(super) async fn list(State(house): State<House>, Query(asked): Query<Vec<(String, String)>>) -> Response {
    let mut from = match after(&asked) {
        Ok(after) => after.unwrap_or(0),
        Err(refused) => return (*refused).into_response(),
    };
    let state = house.kitchen().state();
    let to = state.number();
    let (lines, sent) = tokio::sync::mpsc::channel::<Result<String, std::io::Error>>(4);
    tokio::spawn(async move {
        while from < to {
            let kitchen = house.kitchen().clone();
            let most = usize::try_from(to - from).unwrap_or(ROWS).min(ROWS);
            let read = house.compute(move || kitchen.rows_after(from, most)).await;
            // What cannot be read ends the answer before its end, so that nobody takes it for the whole.
            let part = match read {
                Ok(Ok(rows)) if rows.is_empty() => return,
                Ok(Ok(rows)) => {
                    from = rows.last().map_or(to, |row| row.number);
                    Ok(rows.into_iter().map(|row| row.line + "\n").collect())
                }
                Ok(Err(problem)) => Err(std::io::Error::other(problem)),
                Err(failure) => Err(std::io::Error::other(failure)),
            };
            if lines.send(part).await.is_err() {
                return;
            }
        }
    });
    let body = Body::from_stream(ReceiverStream::new(sent));
    let mut response = ([(header::CONTENT_TYPE, LINES)], body).into_response();
    tag::mark(&state, &mut response);
    response
}

/// The query parameter `after`; anything else is refused.
pub(super) fn after(asked: &[(String, String)]) -> Result<Option<u64>, Box<Refused>> {
    match asked {
        [] => Ok(None),
        [(key, value)] if key == "after" => {
            let number = value.parse().ok();
            number.map(Some).ok_or_else(|| Refused::parameter("after", value, "a whole number from 0").into())
        }
        [(key, value), ..] => Err(Refused::parameter(key, value, "one parameter, after, once").into()),
    }
}
