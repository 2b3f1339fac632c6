//! The JSON Schema against the reader: what runs is valid, and slips the schema can see are not. The validator here knows
//! the words our schemas use (JSON Schema draft 2020-12) and fails on any other.

#![allow(clippy::expect_used, reason = "a broken schema is a broken test")]

use forms::{Verb, example, schema};
use serde_json::{Value, json};

/// Why a value does not fit, or nothing.
fn against(schema: &Value, value: &Value) -> Option<String> {
    let words = schema.as_object().expect("a schema is an object");
    words.iter().find_map(|(word, wanted)| {
        let fits = match word.as_str() {
            "$schema" | "title" | "description" => true,
            "type" => has_type(wanted.as_str().expect("a type"), value),
            "enum" => wanted.as_array().expect("words").contains(value),
            "minimum" => value.as_f64().is_none_or(|value| value >= wanted.as_f64().expect("a bound")),
            "maximum" => value.as_f64().is_none_or(|value| value <= wanted.as_f64().expect("a bound")),
            "minLength" => value.as_str().is_none_or(|text| !text.is_empty()),
            "minItems" | "maxItems" => value.as_array().is_none_or(|list| list.len() == 2),
            "pattern" => value.as_str().is_none_or(|text| matches(wanted.as_str().expect("a pattern"), text)),
            "properties" | "additionalProperties" => return properties(schema, value),
            "required" => {
                let keys = wanted.as_array().expect("keys").iter().filter_map(Value::as_str);
                let missing = keys.filter(|key| value.is_object() && value.get(key).is_none());
                missing.count() == 0
            }
            "items" => return each(wanted, value),
            "prefixItems" => {
                let pairs =
                    wanted.as_array().expect("schemas").iter().zip(value.as_array().into_iter().flatten());
                pairs.into_iter().all(|(schema, value)| against(schema, value).is_none())
            }
            "anyOf" => fitting(wanted, value) > 0,
            "oneOf" => fitting(wanted, value) == 1,
            "allOf" => fitting(wanted, value) == wanted.as_array().expect("schemas").len(),
            "not" => against(wanted, value).is_some(),
            other => panic!("the schema says {other}, which this validator does not know"),
        };
        (!fits).then(|| format!("{word} {wanted}: {value}"))
    })
}

fn fitting(schemas: &Value, value: &Value) -> usize {
    schemas.as_array().expect("schemas").iter().filter(|schema| against(schema, value).is_none()).count()
}

fn has_type(wanted: &str, value: &Value) -> bool {
    match wanted {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "boolean" => value.is_boolean(),
        "number" => value.is_number(),
        "integer" => value.as_f64().is_some_and(|number| number.fract() == 0.0),
        other => panic!("type {other}"),
    }
}

/// The two patterns our schemas have.
fn matches(pattern: &str, text: &str) -> bool {
    match pattern {
        "^[A-Za-z]{3}$" => text.len() == 3 && text.bytes().all(|byte| byte.is_ascii_alphabetic()),
        "^[0-9]+([.][0-9]+)?$" => text.parse::<f64>().is_ok() && !text.starts_with('-'),
        other => panic!("pattern {other}"),
    }
}

fn properties(schema: &Value, value: &Value) -> Option<String> {
    let entries = value.as_object()?;
    entries.iter().find_map(|(key, value)| {
        match (schema.get("properties").and_then(|known| known.get(key)), &schema["additionalProperties"]) {
            (Some(known), _) => against(known, value).map(|why| format!("{key}: {why}")),
            (None, Value::Bool(false)) => Some(format!("{key} is no key")),
            (None, other) if other.is_object() => against(other, value),
            (None, _) => None,
        }
    })
}

fn each(schema: &Value, value: &Value) -> Option<String> {
    value.as_array()?.iter().find_map(|value| against(schema, value))
}

/// An example as the JSON it would be.
fn as_json(form: &str) -> Value {
    let table: toml::Table = form.parse().expect("TOML");
    serde_json::to_value(table).expect("JSON")
}

#[test]
fn what_runs_is_valid() {
    for verb in Verb::ALL {
        assert_eq!(against(&schema(verb), &as_json(&example(verb))), None, "{}", verb.name());
    }
}

#[test]
fn slips_are_not_valid() {
    let worth = as_json(&example(Verb::Worth));
    type Slip = fn(&mut Value);
    let slips: [(&str, Slip); 8] = [
        ("an unknown key", |form| form["curency"] = json!("EUR")),
        ("a missing table", |form| form["piece"] = Value::Null),
        ("a quantity twice", |form| form["piece"]["mass_lb"] = json!(14.0)),
        ("a thing said in two ways", |form| form["piece"]["total"] = json!("159.36")),
        ("another kind of value", |form| form["part"][0]["mass_g"] = json!("5318 g")),
        ("out of range", |form| form["piece"]["mass_kg"] = json!(-7)),
        ("an unknown word", |form| form["part"][0]["use"] = json!("eat")),
        ("half a range", |form| form["piece"]["mass_kg"] = json!({ "low": 6 })),
    ];
    for (what, slip) in slips {
        let mut form = worth.clone();
        slip(&mut form);
        assert!(against(&schema(Verb::Worth), &form).is_some(), "{what} passes the schema");
        let text = form.to_string();
        let read = forms::answer(Verb::Worth, "-", text.as_bytes(), &forms::Flags::default());
        assert!(read.is_err(), "{what} passes the reader");
    }
}
