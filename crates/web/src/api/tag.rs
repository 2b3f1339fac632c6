//! The tag of an answer that depends on nothing but the record: the number of its last entry.

use axum::Json;
use axum::http::{HeaderMap, HeaderName, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use record::State;
use serde_json::Value;

use crate::failure::Failure;

/// The number of the last entry, plain.
pub(super) const NUMBER: HeaderName = HeaderName::from_static("entry-number");

/// Answers with what `shown` makes of the state, or says that nothing has changed since the asker's own tag.
pub(super) fn tagged(
    state: &State,
    asked: &HeaderMap,
    shown: impl FnOnce(&State) -> Result<Value, Failure>,
) -> Response {
    let tag = of(state);
    let mut response = if is_known(asked, &tag) {
        StatusCode::NOT_MODIFIED.into_response()
    } else {
        match shown(state) {
            Ok(value) => Json(value).into_response(),
            Err(failure) => return failure.into_response(),
        }
    };
    mark(state, &mut response);
    response
}

/// Puts tag and number on an answer.
pub(super) fn mark(state: &State, response: &mut Response) {
    let headers = response.headers_mut();
    headers.insert(NUMBER, HeaderValue::from(state.number()));
    if let Ok(tag) = HeaderValue::from_str(&of(state)) {
        headers.insert(header::ETAG, tag);
    }
}

/// `W/"273-1f0c9a4e"`: the last entry's number, and the head of its hash, so that another record at the same address is
/// another tag. Weak (RFC 9110, 8.8.1), because the same answer travels plain and compressed.
fn of(state: &State) -> String {
    let mut tag = format!("W/\"{}", state.number());
    if let Some(last) = state.entry(state.number()) {
        tag.push('-');
        tag.extend(journal::hex(&last.stored.hash).chars().take(8));
    }
    tag.push('"');
    tag
}

/// Whether the asker has this very state: weak comparison over the list (RFC 9110, 13.1.2).
fn is_known(asked: &HeaderMap, tag: &str) -> bool {
    let bare = |tag: &str| tag.trim().trim_start_matches("W/").to_owned();
    asked
        .get_all(header::IF_NONE_MATCH)
        .iter()
        .filter_map(|value| value.to_str().ok())
        .flat_map(|list| list.split(','))
        .any(|known| known.trim() == "*" || bare(known) == bare(tag))
}
