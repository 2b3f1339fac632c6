//! The computing verbs over HTTP: a form in, an answer out, nothing written down.
//!
//! `POST /api/VERB` takes the form as TOML or JSON, told apart by content; the flags of the command line are query
//! parameters (`exact`, `draws`, `seed`, `units`). `GET /api/form/VERB` prints the form, `?schema` its JSON Schema.

use crate::failure::Failure;
use crate::house::House;
use axum::Router;
use axum::body::Bytes;
use axum::extract::{Path, Query, State};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use forms::{Flags, Verb};
use serde_json::{Map, Value, json};

/// The body as problems name it: it has no file.
const BODY: &str = "the request";

const TOML: &str = "application/toml; charset=utf-8";
const JSON: &str = "application/json";
const PROBLEM: &str = "application/problem+json";
const SCHEMA: &str = "application/schema+json";

/// Routes of every verb, and of their forms.
pub(crate) fn routes() -> Router<House> {
    let forms = Router::new().route("/form/{verb}", get(form));
    Verb::ALL.into_iter().fold(forms, |router, verb| {
        let answer = move |house: State<House>, asked: Query<Vec<(String, String)>>, body: Bytes| {
            answer(house, verb, asked, body)
        };
        router.route(&format!("/{}", verb.name()), post(answer))
    })
}

async fn answer(
    State(house): State<House>,
    verb: Verb,
    Query(asked): Query<Vec<(String, String)>>,
    body: Bytes,
) -> Response {
    let flags = match flags(&asked) {
        Ok(flags) => flags,
        Err(detail) => return problem(&detail),
    };
    let answered = house.compute(move || forms::answer(verb, BODY, &body, &flags)).await;
    match answered {
        Ok(Ok(answer)) => json_as(StatusCode::OK, JSON, &answer.json),
        Ok(Err(problems)) => json_as(StatusCode::UNPROCESSABLE_ENTITY, PROBLEM, &problems.document()),
        Err(failure) => failure.into_response(),
    }
}

async fn form(Path(name): Path<String>, Query(asked): Query<Vec<(String, String)>>) -> Response {
    let schema = match asked.as_slice() {
        [] => false,
        [(key, value)] if key == "schema" && ["", "true"].contains(&value.as_str()) => true,
        _ => return problem("The form takes one query parameter, schema, without a value."),
    };
    if name == "entry" {
        return match schema {
            true => json_as(StatusCode::OK, SCHEMA, &record::schema::entry()),
            false => ([(header::CONTENT_TYPE, TOML)], record::example::form()).into_response(),
        };
    }
    match name.parse::<Verb>() {
        Ok(verb) if schema => json_as(StatusCode::OK, SCHEMA, &forms::schema(verb)),
        Ok(verb) => ([(header::CONTENT_TYPE, TOML)], forms::example(verb)).into_response(),
        Err(error) => Failure::no_such(format!("The form {name}"), format!("{error}.")).into_response(),
    }
}

fn json_as(status: StatusCode, kind: &'static str, value: &Value) -> Response {
    (status, [(header::CONTENT_TYPE, kind)], value.to_string()).into_response()
}

fn problem(detail: &str) -> Response {
    let document = json!({
        "type": "about:blank",
        "title": "The flags cannot be taken",
        "status": 422,
        "detail": detail,
        "problems": [],
    });
    json_as(StatusCode::UNPROCESSABLE_ENTITY, PROBLEM, &document)
}

/// The flags of the command line; anything else is refused, as it is there.
fn flags(asked: &[(String, String)]) -> Result<Flags, String> {
    let mut flags = Flags::default();
    let mut seen: Vec<&str> = Vec::new();
    for (key, value) in asked {
        if seen.contains(&key.as_str()) {
            return Err(format!("{key} is given twice; allowed: once."));
        }
        seen.push(key);
        let refused = |allowed: &str| format!("{key} = \"{value}\"; allowed: {allowed}.");
        match key.as_str() {
            "exact" => {
                flags.exact = match value.as_str() {
                    "" | "true" => true,
                    "false" => false,
                    _ => return Err(refused("true or false")),
                }
            }
            "draws" => {
                let most = Flags::MOST_DRAWS;
                let draws = value.parse().ok().filter(|draws| (1..=most).contains(draws));
                flags.draws = draws.ok_or_else(|| refused(&format!("a whole number from 1 to {most}")))?;
            }
            "seed" => flags.seed = value.parse().map_err(|_| refused("a whole number from 0"))?,
            "units" => {
                flags.us = match value.as_str() {
                    "us" => true,
                    "metric" => false,
                    _ => return Err(refused("metric or us")),
                }
            }
            _ => return Err(format!("{key} is no flag; known: exact, draws, seed, units.")),
        }
    }
    Ok(flags)
}

/// The path items of the `OpenAPI` document (3.1, whose schemas are JSON Schema): address to description.
#[must_use]
pub(crate) fn paths() -> Map<String, Value> {
    let mut paths = Map::new();
    for verb in Verb::ALL {
        paths.insert(format!("/api/{}", verb.name()), described(verb));
    }
    let names: Vec<&str> = Verb::ALL.into_iter().map(Verb::name).chain(["entry"]).collect();
    paths.insert(
        "/api/form/{verb}".to_owned(),
        json!({ "get": {
            "operationId": "form",
            "summary": "A complete form with a comment beside each key, or its JSON Schema",
            "tags": ["verbs"],
            "parameters": [
                { "name": "verb", "in": "path", "required": true, "schema": { "enum": names } },
                { "name": "schema", "in": "query", "required": false, "allowEmptyValue": true,
                  "description": "the JSON Schema instead", "schema": { "type": "string" } },
            ],
            "responses": {
                "200": { "description": "The form", "content": {
                    "application/toml": { "schema": { "type": "string" } },
                    "application/schema+json": { "schema": { "type": "object" } },
                } },
                "404": problem_response("No such form"),
                "422": problem_response("A query parameter it does not take"),
            },
        } }),
    );
    paths
}

fn described(verb: Verb) -> Value {
    let flag = |name: &str, about: &str, schema: Value| json!({ "name": name, "in": "query", "required": false, "description": about, "schema": schema });
    let usual = Flags::default();
    json!({ "post": {
        "operationId": verb.name(),
        "summary": verb.about(),
        "tags": ["verbs"],
        "parameters": [
            flag("exact", "inputs are taken as true: no ensemble, no range, no blank", json!({ "type": "boolean", "default": false })),
            flag("draws", "members of the ensemble",
                 json!({ "type": "integer", "minimum": 1, "maximum": Flags::MOST_DRAWS, "default": usual.draws })),
            flag("seed", "same form, same seed, same bytes out", json!({ "type": "integer", "minimum": 0, "default": usual.seed })),
            flag("units", "us adds the US twin beside each metric result", json!({ "enum": ["metric", "us"], "default": "metric" })),
        ],
        "requestBody": { "required": true, "content": {
            "application/json": { "schema": forms::schema(verb) },
            "application/toml": { "schema": { "type": "string" }, "example": forms::example(verb) },
        } },
        "responses": {
            "200": { "description": "The answer", "content": { "application/json": { "schema": { "type": "object" } } } },
            "422": problem_response("Everything that stands against the form, at once"),
        },
    } })
}

fn problem_response(description: &str) -> Value {
    json!({ "description": description, "content": { PROBLEM: { "schema": {
        "type": "object",
        "required": ["type", "title", "status", "detail"],
        "properties": {
            "type": { "type": "string" },
            "title": { "type": "string" },
            "status": { "type": "integer" },
            "detail": { "type": "string" },
            "problems": { "type": "array", "items": { "type": "object", "properties": {
                "problem": { "type": "string" },
                "file": { "type": "string" },
                "line": { "type": "integer" },
                "column": { "type": "integer" },
                "key": { "type": "string" },
                "pointer": { "type": "string" },
                "found": { "type": "string" },
                "allowed": { "type": "string" },
                "nearest": { "type": ["string", "null"] },
                "message": { "type": "string" },
                "advice": { "type": ["string", "null"] },
            } } },
        },
    } } } })
}

#[cfg(test)]
mod tests {
    use super::*;
    use tower::ServiceExt as _;

    fn asked(pairs: &[(&str, &str)]) -> Result<Flags, String> {
        let pairs: Vec<(String, String)> =
            pairs.iter().map(|(key, value)| ((*key).to_owned(), (*value).to_owned())).collect();
        flags(&pairs)
    }

    #[test]
    fn flags_are_those_of_the_command_line() {
        let found = asked(&[("exact", ""), ("draws", "64"), ("seed", "7"), ("units", "us")]);
        assert_eq!(found, Ok(Flags { exact: true, draws: 64, seed: 7, us: true }));
        assert_eq!(asked(&[]), Ok(Flags::default()));
        for slip in [
            ("draws", "0"),
            ("draws", "1e9"),
            ("seed", "-1"),
            ("units", "lb"),
            ("exact", "yes"),
            ("exakt", ""),
        ] {
            let said = asked(&[slip]).expect_err("a slip");
            assert!(said.contains(slip.0), "{said}");
        }
        assert!(asked(&[("seed", "1"), ("seed", "2")]).is_err());
    }

    #[test]
    fn every_verb_is_described_with_its_own_schema() {
        let paths = paths();
        for verb in Verb::ALL {
            let post = &paths[&format!("/api/{}", verb.name())]["post"];
            assert_eq!(post["requestBody"]["content"]["application/json"]["schema"], forms::schema(verb));
        }
    }

    async fn request(method: &str, address: &str, body: impl Into<String>) -> (StatusCode, String, String) {
        let house = House::new(crate::Kitchen::in_memory(), None, Vec::new());
        let request = axum::http::Request::builder()
            .method(method)
            .uri(address)
            .header(header::HOST, "localhost")
            .body(axum::body::Body::from(body.into()))
            .expect("a request");
        let response = crate::app(house).oneshot(request).await.expect("a response");
        let kind = response.headers().get(header::CONTENT_TYPE).and_then(|kind| kind.to_str().ok());
        let (status, kind) = (response.status(), kind.unwrap_or_default().to_owned());
        let bytes = axum::body::to_bytes(response.into_body(), usize::MAX).await.expect("a body");
        (status, kind, String::from_utf8(bytes.to_vec()).expect("text"))
    }

    #[tokio::test]
    async fn a_form_printed_is_a_form_answered() {
        for verb in Verb::ALL {
            let (status, kind, form) = request("GET", &format!("/api/form/{}", verb.name()), "").await;
            assert_eq!((status, kind.as_str()), (StatusCode::OK, TOML));
            let address = format!("/api/{}?draws=16&units=us", verb.name());
            let (status, kind, answer) = request("POST", &address, form.as_str()).await;
            assert_eq!((status, kind.as_str()), (StatusCode::OK, JSON), "{answer}");
            let flags = Flags { draws: 16, us: true, ..Flags::default() };
            let wanted = forms::answer(verb, BODY, form.as_bytes(), &flags).expect("the example runs").json;
            assert_eq!(answer, wanted.to_string());
            let (status, kind, schema) =
                request("GET", &format!("/api/form/{}?schema", verb.name()), "").await;
            assert_eq!((status, kind.as_str()), (StatusCode::OK, SCHEMA));
            assert_eq!(schema, forms::schema(verb).to_string());
        }
        let (status, _, entries) = request("GET", "/api/form/entry", "").await;
        assert_eq!(status, StatusCode::OK);
        assert!(entries.contains("[[entry]]"));
    }

    #[tokio::test]
    async fn what_cannot_be_answered_is_a_problem_document() {
        let slips = [
            ("/api/worth", "{ \"curency\": 1 }", StatusCode::UNPROCESSABLE_ENTITY, "curency"),
            ("/api/worth?exakt", "", StatusCode::UNPROCESSABLE_ENTITY, "exakt"),
            ("/api/form/wroth", "", StatusCode::NOT_FOUND, "wroth"),
            ("/api/wroth", "", StatusCode::NOT_FOUND, "wroth"),
        ];
        for (address, body, wanted, word) in slips {
            let method = if address.contains("form") { "GET" } else { "POST" };
            let (status, kind, said) = request(method, address, body).await;
            assert_eq!((status, kind.as_str()), (wanted, PROBLEM), "{address}: {said}");
            let document: Value = serde_json::from_str(&said).expect("one JSON object");
            assert_eq!(document["status"], wanted.as_u16());
            assert!(said.contains(word), "{address}: {said}");
        }
    }
}
