//! The form as JSON Schema, so that editors complete and check it.

use super::{Amount, Field, Kind, Unit};
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;

/// The schema of a form (JSON Schema, draft 2020-12).
pub(crate) fn schema(title: &str, about: &str, fields: &[Field]) -> Value {
    let mut schema = object(fields);
    let head = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": title,
        "description": about,
    });
    if let (Value::Object(schema), Value::Object(mut head)) = (&mut schema, head) {
        head.append(schema);
        return Value::Object(head);
    }
    schema
}

fn object(fields: &[Field]) -> Value {
    let mut properties = Map::new();
    let mut needed = Vec::new();
    let mut rules = Vec::new();
    let mut groups: BTreeMap<&str, (bool, Vec<String>)> = BTreeMap::new();
    for field in fields {
        let keys = field.keys();
        for (key, unit) in &keys {
            let mut value = kind(&field.kind, *unit);
            if let Value::Object(value) = &mut value {
                value.insert("description".to_owned(), json!(field.about));
            }
            properties.insert(key.clone(), value);
        }
        let names: Vec<String> = keys.into_iter().map(|(key, _)| key).collect();
        match (field.one_of, names.as_slice()) {
            (Some(group), _) => {
                let entry = groups.entry(group.name).or_insert((group.needed, Vec::new()));
                entry.1.extend(names);
            }
            (None, [only]) if field.needed => needed.push(only.clone()),
            (None, [_]) => {}
            (None, _) => rules.push(one_of(&names, field.needed)),
        }
    }
    rules.extend(groups.values().map(|(needed, names)| one_of(names, *needed)));
    let mut object = json!({ "type": "object", "properties": properties, "additionalProperties": false });
    if let Value::Object(object) = &mut object {
        if !needed.is_empty() {
            object.insert("required".to_owned(), json!(needed));
        }
        if !rules.is_empty() {
            object.insert("allOf".to_owned(), json!(rules));
        }
    }
    object
}

/// Exactly one of the keys where it is needed, else at most one.
fn one_of(keys: &[String], needed: bool) -> Value {
    let mut choices: Vec<Value> = keys.iter().map(|key| json!({ "required": [key] })).collect();
    if !needed {
        choices.push(json!({ "not": { "anyOf": choices.clone() } }));
    }
    json!({ "oneOf": choices })
}

fn kind(of: &Kind, unit: Unit) -> Value {
    match of {
        Kind::Amount(amount) => number_or_range(amount, unit),
        Kind::Count { low, high } => json!({ "type": "integer", "minimum": low, "maximum": high }),
        Kind::Flag => json!({ "type": "boolean" }),
        Kind::Word(words) => json!({ "enum": words() }),
        Kind::Text => json!({ "type": "string", "minLength": 1 }),
        Kind::Currency => json!({ "type": "string", "pattern": "^[A-Za-z]{3}$" }),
        Kind::Table(fields) => object(fields),
        Kind::Tables(fields, _) => json!({ "type": "array", "items": object(fields) }),
        Kind::Numbers(amount) => json!({ "type": "array", "items": number(amount, unit) }),
        Kind::Pairs(first, second) => json!({
            "type": "array",
            "items": {
                "type": "array",
                "prefixItems": [number(first, first.unit), number(second, unit)],
                "minItems": 2,
                "maxItems": 2,
            },
        }),
        Kind::Named(amount) => {
            json!({ "type": "object", "additionalProperties": number(amount, amount.unit) })
        }
        Kind::Either(kinds) => json!({ "anyOf": kinds.iter().map(|of| kind(of, unit)).collect::<Vec<_>>() }),
    }
}

fn number_or_range(amount: &Amount, unit: Unit) -> Value {
    let plain = number(amount, unit);
    if !amount.range {
        return plain;
    }
    let range = json!({
        "type": "object",
        "properties": { "low": plain, "high": plain },
        "required": ["low", "high"],
        "additionalProperties": false,
    });
    json!({ "anyOf": [plain, range] })
}

fn number(amount: &Amount, unit: Unit) -> Value {
    let (low, high) = amount.bounds_in(unit);
    let number = json!({ "type": "number", "minimum": low, "maximum": high });
    if unit.is_money() {
        return json!({ "anyOf": [number, { "type": "string", "pattern": "^[0-9]+([.][0-9]+)?$" }] });
    }
    number
}
