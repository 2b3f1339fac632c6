//! A house for tests: pages asked for, forms filled and sent as a browser without script would.

use axum::Router;
use axum::body::{Body, to_bytes};
use axum::http::{Request, StatusCode, header};
use record::{Entry, State};
use serde_json::{Value, json};
use std::sync::Arc;
use tower::ServiceExt;
use uuid::Uuid;

use crate::{House, Kitchen, app};

/// A house with its record.
pub(crate) struct Visitor {
    kitchen: Kitchen,
    app: Router,
}

/// A page as it came.
#[derive(Clone, Debug)]
pub(crate) struct Seen {
    /// What it came with.
    pub(crate) status: StatusCode,
    /// Where it led, for a redirect.
    pub(crate) location: Option<String>,
    /// What it is.
    pub(crate) kind: String,
    /// Its bytes.
    pub(crate) bytes: Vec<u8>,
}

/// The hour of every test: 5 July 2026, 11:42 in Vienna.
const NOW: &str = "2026-07-05T09:42:00Z";

impl Visitor {
    /// A house with nothing written down but its zone.
    pub(crate) fn new() -> Self {
        let kitchen = Kitchen::in_memory();
        let house = House::new(kitchen.clone(), NOW.parse().ok(), Vec::new());
        let visitor = Self { kitchen, app: app(house) };
        visitor.put(
            "2026-07-01T08:00:00+02:00",
            "setting-changed",
            json!({ "key": "kitchen.zone", "value": "Europe/Vienna" }),
        );
        visitor
    }

    /// Writes an entry beside the pages.
    pub(crate) fn put(&self, at: &str, kind: &str, mut body: Value) -> Uuid {
        body["v"] = json!(1);
        let id = Uuid::now_v7();
        let entry =
            Entry::read(&json!({ "id": id, "at": at, "kind": kind, "body": body })).expect("a sound entry");
        self.kitchen.offer(&[entry], "test").expect("an entry that may follow");
        id
    }

    /// What is written down.
    pub(crate) fn state(&self) -> Arc<State> {
        self.kitchen.state()
    }

    /// Asks for a page.
    pub(crate) async fn get(&self, path: &str) -> Seen {
        let request = Request::get(path).header(header::HOST, "192.168.1.20:4180").body(Body::empty());
        self.ask(request.expect("a request")).await
    }

    /// Sends fields to a page.
    pub(crate) async fn post(&self, path: &str, fields: &[(String, String)]) -> Seen {
        let pairs: Vec<String> =
            fields.iter().map(|(name, value)| format!("{}={}", encoded(name), encoded(value))).collect();
        let request = Request::post(path)
            .header(header::HOST, "192.168.1.20:4180")
            .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded")
            .body(Body::from(pairs.join("&")));
        self.ask(request.expect("a request")).await
    }

    /// Fills the form of that name on a page, sends it and follows where it leads.
    pub(crate) async fn fill(&self, page: &str, form: &str, values: &[(&str, &str)]) -> Seen {
        let seen = self.get(page).await;
        let (to, fields) = seen.form(form);
        let sent = self.post(&to, &filled(fields, values)).await;
        match &sent.location {
            Some(there) => self.get(&there.clone()).await,
            None => sent,
        }
    }

    async fn ask(&self, request: Request<Body>) -> Seen {
        let answer = self.app.clone().oneshot(request).await.expect("an answer");
        let text = |name: header::HeaderName| {
            answer.headers().get(name).and_then(|value| value.to_str().ok()).map(str::to_owned)
        };
        let (location, kind) = (text(header::LOCATION), text(header::CONTENT_TYPE).unwrap_or_default());
        let status = answer.status();
        let bytes = to_bytes(answer.into_body(), 10_000_000).await.expect("a body").to_vec();
        Seen { status, location, kind, bytes }
    }
}

/// The fields with these values; a value for a field that is not there is added, as a box that is ticked.
pub(crate) fn filled(fields: Vec<(String, String)>, values: &[(&str, &str)]) -> Vec<(String, String)> {
    let given =
        |name: &str| values.iter().find(|(other, _)| *other == name).map(|(_, value)| (*value).to_owned());
    let mut all: Vec<(String, String)> = fields
        .iter()
        .map(|(name, value)| (name.clone(), given(name).unwrap_or_else(|| value.clone())))
        .collect();
    for (name, value) in values {
        if !fields.iter().any(|(other, _)| other == name) {
            all.push(((*name).to_owned(), (*value).to_owned()));
        }
    }
    all
}

impl Seen {
    /// The page, thin spaces as plain ones.
    pub(crate) fn text(&self) -> String {
        String::from_utf8_lossy(&self.bytes).replace('\u{202f}', " ")
    }

    /// The large sentence, without its marks.
    pub(crate) fn answer(&self) -> String {
        bare(between(&self.text(), "<p class=\"answer\">", "</p>"))
    }

    /// What stands in the element that opens so, without its marks.
    pub(crate) fn inside(&self, opening: &str, closing: &str) -> String {
        bare(between(&self.text(), opening, closing))
    }

    /// Where the form of that name goes, and what it would send as it stands.
    pub(crate) fn form(&self, name: &str) -> (String, Vec<(String, String)>) {
        let text = self.text();
        let mark = format!("name=\"form\" value=\"{name}\"");
        let form = text.split("<form ").skip(1).find(|form| between(form, "", "</form>").contains(&mark));
        let form = form.unwrap_or_else(|| panic!("no form {name} on the page:\n{}", bare(&text)));
        let form = between(form, "", "</form>");
        let to = attribute(form, "action").unwrap_or_default();
        let mut fields = Vec::new();
        for input in form.split("<input ").skip(1).map(|input| between(input, "", ">")) {
            let is_choice = input.contains("type=\"radio\"") || input.contains("type=\"checkbox\"");
            let is_chosen = !is_choice || input.split_whitespace().any(|word| word == "checked");
            if let (Some(name), true) = (attribute(input, "name"), is_chosen) {
                fields.push((name, attribute(input, "value").unwrap_or_default()));
            }
        }
        for select in form.split("<select ").skip(1).map(|select| between(select, "", "</select>")) {
            let chosen =
                select.split("<option ").find(|option| between(option, "", ">").contains(" selected"));
            if let (Some(name), Some(option)) = (attribute(select, "name"), chosen) {
                fields.push((name, attribute(option, "value").unwrap_or_default()));
            }
        }
        (to, fields)
    }

    /// Whether the page has a form of that name.
    pub(crate) fn has_form(&self, name: &str) -> bool {
        self.text().contains(&format!("name=\"form\" value=\"{name}\""))
    }

    /// What stands against what was sent.
    pub(crate) fn wrong(&self) -> Vec<String> {
        let text = self.text();
        let parts = text.split("class=\"wrong\"").skip(1);
        parts.map(|part| bare(&format!("<{}", between(part, "", "</")))).collect()
    }
}

fn between<'t>(text: &'t str, opening: &str, closing: &str) -> &'t str {
    let from = text.find(opening).map_or(text.len(), |at| at + opening.len());
    let rest = &text[from..];
    &rest[..rest.find(closing).unwrap_or(rest.len())]
}

fn attribute(tag: &str, name: &str) -> Option<String> {
    let mark = format!("{name}=\"");
    let starts = |at: usize| at == 0 || tag[..at].ends_with(' ');
    let at = tag.match_indices(&mark).map(|(at, _)| at).find(|at| starts(*at))? + mark.len();
    Some(plain(&tag[at..at + tag[at..].find('"')?]))
}

fn bare(markup: &str) -> String {
    let mut text = String::new();
    let mut inside = false;
    for letter in markup.chars() {
        match letter {
            '<' => inside = true,
            '>' => inside = false,
            _ if !inside => text.push(letter),
            _ => {}
        }
    }
    plain(text.trim())
}

fn plain(text: &str) -> String {
    text.replace("&amp;", "&").replace("&quot;", "\"").replace("&lt;", "<").replace("&gt;", ">")
}

fn encoded(text: &str) -> String {
    text.bytes()
        .map(
            |byte| {
                if byte.is_ascii_alphanumeric() {
                    char::from(byte).to_string()
                } else {
                    format!("%{byte:02X}")
                }
            },
        )
        .collect()
}
