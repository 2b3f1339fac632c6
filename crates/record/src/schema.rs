//! Entries as JSON Schema (draft 2020-12): what an editor completes and a program is generated from.
//!
//! The reader has the last word: it also knows what must go together, and it takes `null` for a key that is left out.

use crate::{Kind, Note};
use serde_json::{Map, Value, json};

/// The schema of one entry, whichever its kind.
#[must_use]
pub fn entry() -> Value {
    let kinds: Vec<Value> = Kind::ALL.iter().map(|kind| of(*kind)).collect();
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "entry",
        "description": "One thing that happened",
        "oneOf": kinds,
    })
}

/// The schema of an entry of one kind.
fn of(kind: Kind) -> Value {
    json!({
        "title": kind.word(),
        "description": kind.meaning(),
        "type": "object",
        "required": ["id", "at", "kind", "body"],
        "additionalProperties": false,
        "properties": {
            "id": { "type": "string", "format": "uuid", "description": "a UUID of version 7, the writer's" },
            "at": { "type": "string", "format": "date-time", "description": "when it happened, with its offset" },
            "kind": { "const": kind.word() },
            "body": body(&kind.notes()),
        },
    })
}

fn body(notes: &[Note]) -> Value {
    let mut body = object(notes);
    body["properties"]["v"] = json!({ "const": 1, "description": "the version of the body" });
    if let Some(required) = body["required"].as_array_mut() {
        required.insert(0, "v".into());
    }
    body
}

/// An object of these keys and no other.
pub(crate) fn object(notes: &[Note]) -> Value {
    let (mut properties, mut required, mut choices) = (Map::new(), Vec::new(), Vec::new());
    for note in notes {
        let description = format!("{} ({})", note.meaning, note.allowed);
        for (key, value) in note.keys.iter().zip(&note.values) {
            let mut value = value.clone();
            value["description"] = description.as_str().into();
            properties.insert(key.clone(), value);
        }
        match note.keys.as_slice() {
            [key] if !note.optional => required.push(Value::from(key.as_str())),
            [_] => {}
            keys => choices.push(one_of(keys, note.optional)),
        }
    }
    let mut object = json!({
        "type": "object", "additionalProperties": false, "properties": properties, "required": required,
    });
    if !choices.is_empty() {
        object["allOf"] = choices.into();
    }
    object
}

/// One of several keys; at most one, where it may be left out.
fn one_of(keys: &[String], optional: bool) -> Value {
    let mut ways: Vec<Value> = keys.iter().map(|key| json!({ "required": [key] })).collect();
    if optional {
        ways.push(json!({ "not": { "anyOf": ways.clone() } }));
    }
    json!({ "oneOf": ways })
}
