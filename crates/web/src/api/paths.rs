//! The record in the `OpenAPI` document.

use serde_json::{Map, Value, json};

/// Addresses of the record and what they take and answer.
pub(super) fn paths() -> Map<String, Value> {
    let mut paths = Map::new();
    let mut put = |address: &str, item: Value| paths.insert(address.to_owned(), item);
    put("/api/entries", json!({ "post": offer(), "get": after() }));
    put("/api/changes", json!({ "get": changes() }));
    put("/api/pieces", thing("pieces", "Every piece, in the order they came", None, "array"));
    put(
        "/api/pieces/{word}",
        thing(
            "piece",
            "One piece: ledger, portions, heaps, packs",
            Some(("word", "its word, as TARN")),
            "object",
        ),
    );
    put(
        "/api/packs/{slug}",
        thing(
            "pack",
            "One pack: what is in it, where it lies, what became of it",
            Some(("slug", "its name as on its label, as tarn-11-12")),
            "object",
        ),
    );
    put("/api/problems/{name}", about());
    put("/api/packs", thing("packs", "Every pack that was ever sealed", None, "array"));
    let date = Some(("date", "its day, as 2026-07-18, or 2026-07-18-2"));
    put("/api/tables/{date}", thing("table", "One supper: its plan and what was served", date, "object"));
    paths
}

fn offer() -> Value {
    let one = json!({ "$ref": "#/components/schemas/Entry" });
    let receipts = json!({ "type": "array", "items": {
        "type": "object",
        "required": ["id", "number", "hash"],
        "properties": {
            "id": { "type": "string", "format": "uuid" },
            "number": { "type": "integer", "minimum": 1 },
            "hash": { "type": "string", "pattern": "^[0-9a-f]{64}$" },
        },
    } });
    let taken = |words: &str| json!({ "description": words, "headers": etag(), "content": { "application/json": { "schema": receipts } } });
    json!({
        "operationId": "offer",
        "summary": "Write down one entry or an array of them, whole or not at all",
        "description": "Answers once they are on disk. An entry sent again gets its first answer.",
        "tags": ["record"],
        "requestBody": { "required": true, "content": { "application/json": {
            "schema": { "oneOf": [one, { "type": "array", "items": one }] },
        } } },
        "responses": {
            "200": taken("All of them were there before: the first answers again"),
            "201": taken("On disk"),
            "409": problem("An id is there already and says something else"),
            "415": problem("Of a type that a form of another site could send"),
            "413": problem("Longer than an offer may be"),
            "422": problem("What stands against it; nothing was written"),
            "503": problem("The record cannot be written"),
            "507": problem("The disk is full; nothing was written"),
        },
    })
}

fn after() -> Value {
    json!({
        "operationId": "entries",
        "summary": "Entries after a number, to the byte as they are kept",
        "tags": ["record"],
        "parameters": [after_parameter("entries after this number; all without it")],
        "responses": {
            "200": { "description": "JSON Lines", "headers": etag(),
                     "content": { "application/x-ndjson": { "schema": { "type": "string" } } } },
            "422": problem("A parameter it does not take"),
        },
    })
}

fn changes() -> Value {
    json!({
        "operationId": "changes",
        "summary": "A server-sent event for each entry, resumable by number",
        "tags": ["record"],
        "parameters": [
            after_parameter("from the entry after this number; new ones alone without it"),
            { "name": "Last-Event-ID", "in": "header", "required": false, "schema": { "type": "integer", "minimum": 0 } },
        ],
        "responses": {
            "200": { "description": "event: entry, id: its number, data: its line", "headers": etag(),
                     "content": { "text/event-stream": { "schema": { "type": "string" } } } },
            "422": problem("A parameter it does not take"),
        },
    })
}

fn after_parameter(about: &str) -> Value {
    json!({ "name": "after", "in": "query", "required": false, "description": about,
            "schema": { "type": "integer", "minimum": 0 } })
}

fn thing(id: &str, summary: &str, parameter: Option<(&str, &str)>, kind: &str) -> Value {
    let parameters: Vec<Value> = parameter
        .iter()
        .map(|(name, about)| {
            json!({ "name": name, "in": "path", "required": true, "description": about, "schema": { "type": "string" } })
        })
        .collect();
    let mut responses = json!({
        "200": { "description": summary, "headers": etag(), "content": { "application/json": { "schema": { "type": kind } } } },
        "304": { "description": "Nothing was written since" },
    });
    if parameter.is_some() {
        responses["404"] = problem("There is none of that name");
    }
    json!({ "get": {
        "operationId": id, "summary": summary, "tags": ["record"], "parameters": parameters, "responses": responses,
    } })
}

fn about() -> Value {
    json!({ "get": {
        "operationId": "problem",
        "summary": "What the reason of a problem means",
        "tags": ["record"],
        "parameters": [{ "name": "name", "in": "path", "required": true, "schema": { "type": "string" } }],
        "responses": {
            "200": { "description": "The reason", "content": { "application/json": { "schema": { "type": "object" } } } },
            "404": problem("No such reason"),
        },
    } })
}

fn etag() -> Value {
    json!({
        "ETag": { "description": "number of the last entry this speaks of, with the head of its hash", "schema": { "type": "string" } },
        "Entry-Number": { "description": "that number alone", "schema": { "type": "integer" } },
    })
}

fn problem(description: &str) -> Value {
    json!({ "description": description, "content": { "application/problem+json": { "schema": {
        "type": "object",
        "required": ["type", "title", "status", "detail"],
        "properties": {
            "type": { "type": "string" },
            "title": { "type": "string" },
            "status": { "type": "integer" },
            "detail": { "type": "string" },
            "reason": { "type": "string" },
            "index": { "type": "integer", "description": "which entry of the array, from 0" },
            "problems": { "type": "array", "items": { "type": "object", "properties": {
                "index": { "type": ["integer", "null"] },
                "key": { "type": "string" },
                "pointer": { "type": "string", "description": "RFC 6901, into what was sent" },
                "found": { "type": "string" },
                "allowed": { "type": "string" },
                "nearest": { "type": ["string", "null"] },
                "message": { "type": "string" },
            } } },
        },
    } } } })
}
