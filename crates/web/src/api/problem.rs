//! What stands against an entry, as a problem document (RFC 9457).
//!
//! `type` is an address under `/api/problems/` that says what the reason means; `problems` names every place: `index` of
//! the entry in the array, `key`, `pointer` (RFC 6901) into what was sent, `found`, `allowed`, `nearest`.

use axum::Json;
use axum::extract::Path;
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use journal::JournalError;
use record::{Problem, Refusal};
use serde_json::{Map, Value, json};

use crate::failure::Failure;

/// The media type of a problem document.
pub(super) const PROBLEM: &str = "application/problem+json";

/// Every reason with its title, which is the same each time.
const REASONS: &[(&str, &str)] = &[
    ("unreadable", "The entry cannot be read"),
    ("does-not-fit", "Values do not go together"),
    ("id-taken", "The id is that of another entry"),
    ("unknown-reference", "A reference leads to nothing of its kind"),
    ("before-it-existed", "It happened before the thing existed"),
    ("weighed-twice", "The portion was weighed before"),
    ("grams-from-nowhere", "More comes out than went in"),
    ("word-taken", "The word is another piece's"),
    ("word-too-like", "The word is too like another piece's"),
    ("not-a-word", "Not a word a piece can have"),
    ("no-word-left", "No word is left"),
    ("packed-twice", "It is in a pack already"),
    ("two-pieces", "A pack holds portions of one piece"),
    ("taken-out-twice", "The pack was taken out already"),
    ("gone", "It is no longer there"),
    ("no-such-setting", "There is no such setting"),
    ("corrects-a-correction", "A correction cannot be corrected"),
    ("later-stands-on-it", "Later entries stand on what would change"),
    ("conflict", "An entry of this id says something else"),
    ("not-yet", "It has not happened yet"),
    ("clock-went-back", "The clock of the house went back"),
    ("disk-full", "The disk is full"),
    ("disk-erred", "The disk did not take it"),
    ("read-only", "The record may only be read"),
    ("not-written", "The record could not be written"),
    ("not-json", "Entries come as JSON"),
    ("parameter", "A query parameter cannot be taken"),
];

/// A refusal with its status, ready to be answered.
#[derive(Debug)]
pub(super) struct Refused {
    status: StatusCode,
    reason: &'static str,
    detail: String,
    more: Map<String, Value>,
    problems: Vec<Value>,
}

impl Refused {
    /// An entry that cannot be read.
    pub(super) fn entry(refusal: &Refusal) -> Self {
        let problems = refusal.problems().iter().map(|problem| placed(problem, None)).collect();
        Self::new(StatusCode::UNPROCESSABLE_ENTITY, refusal.reason(), refusal.to_string(), problems)
    }

    /// Entries that were not taken.
    pub(super) fn offer(refused: &journal::Refused, is_array: bool) -> Self {
        use journal::Refused as Why;
        let at = |index: usize| is_array.then_some(index);
        let detail = refused.to_string();
        let (status, reason, problems) = match refused {
            Why::MayNotFollow { index, refusal } => {
                let problems = refusal.problems();
                let problems = problems.iter().map(|problem| placed(problem, at(*index))).collect();
                (StatusCode::UNPROCESSABLE_ENTITY, refusal.reason(), problems)
            }
            Why::NotYet { index, at: said, now } => {
                let problem = Problem {
                    key: "at".to_owned(),
                    found: said.to_string(),
                    allowed: format!("up to {} minutes from now, {now}", record::CLOCK_SLACK_MIN),
                    nearest: None,
                };
                (StatusCode::UNPROCESSABLE_ENTITY, "not-yet", vec![placed(&problem, at(*index))])
            }
            Why::Conflict { .. } => (StatusCode::CONFLICT, "conflict", Vec::new()),
            Why::ClockWentBack { .. } => (StatusCode::SERVICE_UNAVAILABLE, "clock-went-back", Vec::new()),
            Why::Journal(JournalError::DiskFull) => {
                (StatusCode::INSUFFICIENT_STORAGE, "disk-full", Vec::new())
            }
            Why::Journal(JournalError::DiskErred { .. }) => {
                (StatusCode::INSUFFICIENT_STORAGE, "disk-erred", Vec::new())
            }
            Why::Journal(JournalError::ReadOnly { .. }) => {
                (StatusCode::SERVICE_UNAVAILABLE, "read-only", Vec::new())
            }
            Why::Journal(_) => (StatusCode::SERVICE_UNAVAILABLE, "not-written", Vec::new()),
        };
        let mut answer = Self::new(status, reason, detail, problems);
        match refused {
            Why::MayNotFollow { index, .. } | Why::NotYet { index, .. } => {
                answer.more.insert("index".to_owned(), json!(index));
            }
            Why::Conflict { id, number } => {
                answer.more.insert("id".to_owned(), json!(id));
                answer.more.insert("number".to_owned(), json!(number));
            }
            Why::ClockWentBack { .. } | Why::Journal(_) => {}
        }
        answer
    }

    /// A body of a type that a form of another site could send.
    pub(super) fn form(kind: &str) -> Self {
        let detail = format!("Content-Type is {kind}; allowed: application/json.");
        Self::new(StatusCode::UNSUPPORTED_MEDIA_TYPE, "not-json", detail, Vec::new())
    }

    /// A query parameter that is not there or cannot be what it is.
    pub(super) fn parameter(key: &str, found: &str, allowed: &str) -> Self {
        let detail = format!("{key} = \"{found}\"; allowed: {allowed}.");
        let problem =
            json!({ "key": key, "found": found, "allowed": allowed, "nearest": null, "message": detail });
        Self::new(StatusCode::UNPROCESSABLE_ENTITY, "parameter", detail, vec![problem])
    }

    fn new(status: StatusCode, reason: &'static str, detail: String, problems: Vec<Value>) -> Self {
        Self { status, reason, detail, more: Map::new(), problems }
    }
}

impl IntoResponse for Refused {
    fn into_response(self) -> Response {
        let mut document = json!({
            "type": address(self.reason),
            "title": title(self.reason),
            "status": self.status.as_u16(),
            "detail": self.detail,
            "reason": self.reason,
        });
        if let Value::Object(members) = &mut document {
            members.extend(self.more);
            members.insert("problems".to_owned(), self.problems.into());
        }
        let mut response = (self.status, Json(document)).into_response();
        response.headers_mut().insert(header::CONTENT_TYPE, HeaderValue::from_static(PROBLEM));
        response
    }
}

/// `GET /api/problems/NAME`: what a reason means.
pub(super) async fn about(Path(name): Path<String>) -> Response {
    match REASONS.iter().find(|(reason, _)| *reason == name) {
        Some((reason, title)) => Json(json!({ "type": address(reason), "title": title })).into_response(),
        None => {
            let known: Vec<&str> = REASONS.iter().map(|(reason, _)| *reason).collect();
            Failure::no_such(format!("The reason {name}"), format!("Known are {}.", known.join(", ")))
                .into_response()
        }
    }
}

fn address(reason: &str) -> String {
    format!("/api/problems/{reason}")
}

fn title(reason: &str) -> &'static str {
    REASONS.iter().find(|(known, _)| *known == reason).map_or("Not taken", |(_, title)| title)
}

/// A problem with its place in what was sent. One that cannot be read carries its index in its key, `[2].body.n`.
fn placed(problem: &Problem, index: Option<usize>) -> Value {
    let (within, key) = match problem.key.strip_prefix('[').and_then(|rest| rest.split_once("].")) {
        Some((place, key)) => (place.parse().ok(), key),
        None => (None, problem.key.as_str()),
    };
    let index = index.or(within);
    json!({
        "index": index,
        "key": key,
        "pointer": pointer(index, key),
        "found": problem.found,
        "allowed": problem.allowed,
        "nearest": problem.nearest,
        "message": Problem { key: key.to_owned(), ..problem.clone() }.to_string(),
    })
}

/// `body.want[0].count` of the third entry: `/2/body/want/0/count`. The entry itself, `entry`, is its own place.
fn pointer(index: Option<usize>, key: &str) -> String {
    let mut pointer = index.map_or_else(String::new, |index| format!("/{index}"));
    if key == "entry" {
        return pointer;
    }
    for part in key.split(['.', '[']) {
        pointer.push('/');
        pointer.push_str(&part.trim_end_matches(']').replace('~', "~0").replace('/', "~1"));
    }
    pointer
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pointer_leads_into_what_was_sent() {
        assert_eq!(pointer(Some(2), "body.want[0].count"), "/2/body/want/0/count");
        assert_eq!(pointer(None, "at"), "/at");
        assert_eq!(pointer(Some(0), "entry"), "/0");
        assert_eq!(pointer(None, "a/b~c"), "/a~1b~0c");
    }

    #[test]
    fn every_reason_has_its_title() {
        let mut seen = std::collections::BTreeSet::new();
        for (reason, title) in REASONS {
            assert!(seen.insert(reason) && !title.is_empty(), "{reason}");
        }
        assert!(seen.contains(&Refusal::NoWordLeft.reason()));
    }
}
