use crate::{House, Kitchen, app};
use axum::Router;
use axum::body::{Body, to_bytes};
use axum::http::{Method, Request, StatusCode, header};
use record::example;
use serde_json::{Value, json};
use std::time::Duration;
use tokio_stream::StreamExt;
use tower::ServiceExt;

/// A house whose clock stands after the last example entry.
struct Door {
    kitchen: Kitchen,
    app: Router,
}

struct Answer {
    status: StatusCode,
    kind: String,
    etag: Option<String>,
    text: String,
}

impl Door {
    fn new() -> Self {
        let kitchen = Kitchen::in_memory();
        let house = House::new(kitchen.clone(), "2026-07-19T08:00:00Z".parse().ok(), Vec::new());
        Self { kitchen, app: app(house) }
    }

    async fn ask(&self, request: Request<Body>) -> Answer {
        let response = self.app.clone().oneshot(request).await.expect("a response");
        let header =
            |name| response.headers().get(name).and_then(|value| value.to_str().ok()).map(str::to_owned);
        let (status, etag) = (response.status(), header(header::ETAG));
        let kind = header(header::CONTENT_TYPE).unwrap_or_default();
        let bytes = to_bytes(response.into_body(), usize::MAX).await.expect("a body");
        Answer { status, kind, etag, text: String::from_utf8(bytes.to_vec()).expect("text") }
    }

    async fn get(&self, path: &str) -> Answer {
        self.ask(request(Method::GET, path, String::new())).await
    }

    async fn post(&self, body: impl ToString) -> Answer {
        self.ask(request(Method::POST, "/api/entries", body.to_string())).await
    }

    async fn season(&self) {
        let answer = self.post(Value::from(example::values())).await;
        assert_eq!(answer.status, StatusCode::CREATED, "{}", answer.text);
    }
}

impl Answer {
    fn json(&self) -> Value {
        serde_json::from_str(&self.text).unwrap_or_else(|error| panic!("{error}: {}", self.text))
    }

    fn is_problem(&self, status: u16, reason: &str) -> Value {
        let document = self.json();
        assert_eq!(self.status.as_u16(), status, "{}", self.text);
        assert_eq!(self.kind, "application/problem+json");
        assert_eq!(document["status"], status);
        assert_eq!(document["reason"], reason);
        document
    }
}

fn request(method: Method, path: &str, body: String) -> Request<Body> {
    let request = Request::builder().method(method).uri(path).header(header::HOST, "localhost:4177");
    let request = request.header(header::CONTENT_TYPE, "application/json");
    request.body(Body::from(body)).expect("a request")
}

#[tokio::test]
async fn an_entry_is_answered_once_it_is_kept_and_again_as_the_first_time() {
    let door = Door::new();
    let first = &example::values()[0];
    let answer = door.post(first).await;
    assert_eq!(answer.status, StatusCode::CREATED);
    assert!(answer.etag.as_deref().is_some_and(|tag| tag.starts_with("W/\"1-")), "{:?}", answer.etag);
    assert_eq!((&answer.json()[0]["id"], &answer.json()[0]["number"]), (&first["id"], &json!(1)));
    assert_eq!(answer.json()[0]["hash"].as_str().map(str::len), Some(64));
    let again = door.post(first).await;
    assert_eq!((again.status, &again.text), (StatusCode::OK, &answer.text));
    let mut other = first.clone();
    other["body"]["mass_g"] = json!(6300);
    door.post(other).await.is_problem(409, "conflict");
}

#[tokio::test]
async fn an_array_is_taken_whole_or_not_at_all() {
    let door = Door::new();
    let mut values = example::values();
    values[4]["body"]["n"] = json!(1);
    let problem = door.post(Value::from(values.clone())).await.is_problem(422, "weighed-twice");
    assert_eq!(problem["index"], 4);
    assert_eq!(door.kitchen.state().number(), 0);
    door.season().await;
    let all = door.post(Value::from(example::values())).await;
    assert_eq!(all.status, StatusCode::OK);
}

#[tokio::test]
async fn what_cannot_be_read_is_told_whole() {
    let door = Door::new();
    let mut value = example::values()[0].clone();
    value["body"]["mass_gr"] = json!(1);
    value["at"] = json!("yesterday");
    let problem = door.post(json!([example::values()[0], value])).await.is_problem(422, "unreadable");
    let pointers: Vec<&str> = problem["problems"]
        .as_array()
        .expect("problems")
        .iter()
        .filter_map(|p| p["pointer"].as_str())
        .collect();
    assert_eq!(pointers, ["/1/at", "/1/body/mass_gr"]);
    assert_eq!(problem["problems"][1]["nearest"], "mass_g");
    door.post("{").await.is_problem(422, "unreadable");
    let mut future = example::values()[0].clone();
    future["at"] = json!("2026-07-20T08:00:00Z");
    door.post(future).await.is_problem(422, "not-yet");
    let long = door.post(" ".repeat(17 * 1024 * 1024)).await;
    assert_eq!(long.status, StatusCode::PAYLOAD_TOO_LARGE);
}

#[tokio::test]
async fn entries_come_back_as_they_are_kept() {
    let door = Door::new();
    door.season().await;
    let rows = door.kitchen.rows_after(0, usize::MAX).expect("reads");
    let lines = |from: usize| rows[from..].iter().map(|row| format!("{}\n", row.line)).collect::<String>();
    assert_eq!(door.get("/api/entries").await.text, lines(0));
    let answer = door.get("/api/entries?after=3").await;
    assert_eq!((answer.text, answer.kind.as_str()), (lines(3), "application/x-ndjson"));
    assert_eq!(door.get("/api/entries?after=999").await.text, "");
    for slip in ["after=x", "befor=3", "after=1&after=2"] {
        assert_eq!(door.get(&format!("/api/entries?{slip}")).await.status, StatusCode::UNPROCESSABLE_ENTITY);
    }
}

#[tokio::test]
async fn things_are_told_as_of_the_last_entry() {
    let door = Door::new();
    door.season().await;
    let pieces = door.get("/api/pieces").await;
    assert_eq!(pieces.json()[0]["word"], "TARN");
    let piece = door.get("/api/pieces/tarn").await.json();
    assert_eq!(piece["ledger"]["came_in_g"], 6400.0);
    assert_eq!(piece["portions"][0]["stage"], "spare");
    assert_eq!(piece["portions"][1]["stage"], "pulled");
    let packs = door.get("/api/packs").await.json();
    let slugs: Vec<&str> =
        packs.as_array().expect("packs").iter().filter_map(|p| p["pack"].as_str()).collect();
    assert_eq!(slugs, ["tarn-1-2", "tarn-trim"]);
    assert_eq!(packs[1]["gone"]["how"], "discarded");
    let table = door.get("/api/tables/2026-07-18").await.json();
    assert_eq!(table["served"], json!(["TARN 1"]));
    for nothing in ["/api/pieces/dusk", "/api/tables/2026-07-19"] {
        let answer = door.get(nothing).await;
        assert_eq!(
            (answer.status, answer.kind.as_str()),
            (StatusCode::NOT_FOUND, "application/problem+json")
        );
    }
    let mut known = request(Method::GET, "/api/pieces", String::new());
    known.headers_mut().insert(header::IF_NONE_MATCH, pieces.etag.expect("a tag").parse().expect("a header"));
    assert_eq!(door.ask(known).await.status, StatusCode::NOT_MODIFIED);
}

#[tokio::test]
async fn a_page_of_another_site_writes_nothing() {
    let door = Door::new();
    let body = example::values()[0].to_string();
    for (name, value) in [("sec-fetch-site", "cross-site"), ("origin", "http://evil.example")] {
        let mut foreign = request(Method::POST, "/api/entries", body.clone());
        foreign.headers_mut().insert(name, value.parse().expect("a header"));
        assert_eq!(door.ask(foreign).await.status, StatusCode::FORBIDDEN);
    }
    let mut named = request(Method::POST, "/api/entries", body);
    named.headers_mut().insert(header::HOST, "evil.example:4177".parse().expect("a header"));
    assert_eq!(door.ask(named).await.status, StatusCode::MISDIRECTED_REQUEST);
    let mut form = request(Method::POST, "/api/entries", example::values()[0].to_string());
    form.headers_mut().insert(header::CONTENT_TYPE, "text/plain".parse().expect("a header"));
    door.ask(form).await.is_problem(415, "not-json");
    assert_eq!(door.kitchen.state().number(), 0);
}

#[tokio::test]
async fn every_reason_of_a_problem_has_its_address() {
    let door = Door::new();
    let mut value = example::values()[0].clone();
    value["body"]["word"] = json!("T-BONE");
    let problem = door.post(value).await.is_problem(422, "not-a-word");
    let about = door.get(problem["type"].as_str().expect("an address")).await;
    assert_eq!((about.status, &about.json()["title"]), (StatusCode::OK, &problem["title"]));
}

/// Reads events until `ends` is in them, at most five seconds.
async fn heard(door: &Door, path: &str, last_seen: Option<u64>, ends: &str) -> String {
    let mut request = request(Method::GET, path, String::new());
    if let Some(number) = last_seen {
        request.headers_mut().insert("last-event-id", number.to_string().parse().expect("a header"));
    }
    let response = door.app.clone().oneshot(request).await.expect("a response");
    let mut stream = response.into_body().into_data_stream();
    let mut text = String::new();
    while !text.contains(ends) {
        let next = tokio::time::timeout(Duration::from_secs(5), stream.next()).await;
        let bytes =
            next.unwrap_or_else(|_| panic!("nothing more after: {text}")).expect("open").expect("bytes");
        text.push_str(&String::from_utf8_lossy(&bytes));
    }
    text
}

#[tokio::test]
async fn changes_go_on_from_the_number_last_seen() {
    let door = Door::new();
    door.season().await;
    let last = door.kitchen.state().number();
    let resumed = heard(&door, "/api/changes?after=1", Some(last - 2), &format!("id: {last}\n")).await;
    assert_eq!(resumed.matches("event: entry").count(), 2, "{resumed}");
    let from_page =
        heard(&door, &format!("/api/changes?after={}", last - 1), None, &format!("id: {last}\n")).await;
    assert_eq!(from_page.matches("event: entry").count(), 1, "{from_page}");
    // One that listens hears of an entry written afterwards, and of that alone.
    let kitchen = door.kitchen.clone();
    let later = async {
        tokio::time::sleep(Duration::from_millis(50)).await;
        let body = json!({"v": 1, "place": "cellar chest", "at_c": -18});
        let entry = json!({"id": uuid::Uuid::now_v7(), "at": "2026-07-18T23:00:00+02:00", "kind": "temperature-read", "body": body});
        kitchen.offer(&[record::Entry::read(&entry).expect("reads")], "test").expect("taken");
    };
    let ends = format!("id: {}\n", last + 1);
    let (live, ()) = tokio::join!(heard(&door, "/api/changes", None, &ends), later);
    assert_eq!(live.matches("event: entry").count(), 1, "{live}");
}
