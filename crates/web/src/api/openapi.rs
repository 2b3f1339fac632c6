//! The `OpenAPI` document the program serves of itself.

use super::{paths, verbs};
use axum::Json;
use serde_json::{Map, Value, json};

/// `GET /api/openapi.json`: every address under `/api`, as `OpenAPI` 3.1.
pub(super) async fn serve() -> Json<Value> {
    Json(document())
}

fn document() -> Value {
    let addresses: Map<String, Value> = verbs::paths().into_iter().chain(paths::paths()).collect();
    json!({
        "openapi": "3.1.0",
        "info": {
            "title": "gambrel",
            "description": env!("CARGO_PKG_DESCRIPTION"),
            "version": env!("CARGO_PKG_VERSION"),
            "license": { "name": "MIT OR Apache-2.0", "identifier": "MIT OR Apache-2.0" },
        },
        "tags": [
            { "name": "verbs", "description": "A form in, an answer out; nothing is written down." },
            { "name": "record", "description": "Entries in, entries out, what follows from them." },
        ],
        "paths": addresses,
        "components": { "schemas": { "Entry": record::schema::entry() } },
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_address_says_what_it_answers() {
        let document = document();
        let paths = document["paths"].as_object().expect("paths");
        assert!(!paths.is_empty());
        for (address, item) in paths {
            for (method, operation) in item.as_object().expect("a path item") {
                let responses = operation["responses"].as_object().expect("responses");
                assert!(responses.contains_key("200"), "{method} {address}");
                assert!(
                    operation["summary"].as_str().is_some_and(|summary| summary.len() > 10),
                    "{method} {address}"
                );
            }
        }
    }

    #[test]
    fn every_reference_leads_somewhere() {
        fn references(value: &Value) -> Vec<&str> {
            match value {
                Value::Object(map) => {
                    let own = map.get("$ref").and_then(Value::as_str);
                    map.values().flat_map(references).chain(own).collect()
                }
                Value::Array(list) => list.iter().flat_map(references).collect(),
                _ => Vec::new(),
            }
        }
        let document = document();
        let found = references(&document);
        assert!(!found.is_empty());
        for reference in found {
            let pointer = reference.strip_prefix('#').expect("inside the document");
            assert!(document.pointer(pointer).is_some(), "{reference}");
        }
    }
}
