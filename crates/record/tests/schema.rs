//! The JSON Schema of entries against the reader: what the reader takes is valid, and slips the schema can see are not. The
//! validator here knows the words our schema uses (JSON Schema, draft 2020-12) and fails on any other.
#![allow(clippy::expect_used, reason = "a broken schema is a broken test")]

use proptest::prelude::*;
use record::{Entry, example, schema};
use serde_json::{Value, json};

/// Whether a value fits.
fn fits(schema: &Value, value: &Value) -> bool {
    let words = schema.as_object().expect("a schema is an object");
    words.iter().all(|(word, wanted)| match word.as_str() {
        "$schema" | "title" | "description" => true,
        "type" => match wanted {
            Value::Array(types) => types.iter().any(|one| has_type(one, value)),
            one => has_type(one, value),
        },
        "enum" => wanted.as_array().expect("words").contains(value),
        "const" => wanted == value,
        "minimum" => value.as_f64().is_none_or(|value| value >= wanted.as_f64().expect("a bound")),
        "maximum" => value.as_f64().is_none_or(|value| value <= wanted.as_f64().expect("a bound")),
        "minLength" => {
            value.as_str().is_none_or(|text| text.chars().count() as u64 >= wanted.as_u64().expect("a count"))
        }
        "minItems" => {
            value.as_array().is_none_or(|list| list.len() as u64 >= wanted.as_u64().expect("a count"))
        }
        "maxItems" => {
            value.as_array().is_none_or(|list| list.len() as u64 <= wanted.as_u64().expect("a count"))
        }
        "pattern" => value.as_str().is_none_or(|text| matches(wanted.as_str().expect("a pattern"), text)),
        "format" => value.as_str().is_none_or(|text| is_of(wanted.as_str().expect("a format"), text)),
        "properties" => value.as_object().is_none_or(|map| {
            map.iter().all(|(key, value)| wanted.get(key).is_none_or(|known| fits(known, value)))
        }),
        "additionalProperties" => {
            assert_eq!(wanted, &json!(false));
            value.as_object().is_none_or(|map| map.keys().all(|key| schema["properties"].get(key).is_some()))
        }
        "required" => {
            let mut keys = wanted.as_array().expect("keys").iter().filter_map(Value::as_str);
            keys.all(|key| !value.is_object() || value.get(key).is_some())
        }
        "items" => value.as_array().is_none_or(|list| list.iter().all(|value| fits(wanted, value))),
        "anyOf" => fitting(wanted, value) > 0,
        "oneOf" => fitting(wanted, value) == 1,
        "allOf" => fitting(wanted, value) == wanted.as_array().expect("schemas").len(),
        "not" => !fits(wanted, value),
        other => panic!("the schema says {other}, which this validator does not know"),
    })
}

fn fitting(schemas: &Value, value: &Value) -> usize {
    schemas.as_array().expect("schemas").iter().filter(|schema| fits(schema, value)).count()
}

fn has_type(wanted: &Value, value: &Value) -> bool {
    match wanted.as_str().expect("a type") {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "boolean" => value.is_boolean(),
        "number" => value.is_number(),
        "integer" => value.as_f64().is_some_and(|number| number.fract() == 0.0),
        "null" => value.is_null(),
        other => panic!("type {other}"),
    }
}

fn matches(pattern: &str, text: &str) -> bool {
    let (whole, rest) = text.split_once('.').unwrap_or((text, "0"));
    let digits = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    match pattern {
        "^[A-Za-z]{3}$" => text.len() == 3 && text.bytes().all(|byte| byte.is_ascii_alphabetic()),
        "^[0-9]+([.][0-9]+)?$" => digits(whole) && digits(rest),
        other => panic!("pattern {other}"),
    }
}

fn is_of(format: &str, text: &str) -> bool {
    match format {
        "uuid" => uuid::Uuid::try_parse(text).is_ok(),
        "date-time" => record::At::read(text).is_some(),
        "date" => text.len() == 10 && text.parse::<jiff::civil::Date>().is_ok(),
        other => panic!("format {other}"),
    }
}

#[test]
fn every_example_is_valid() {
    let schema = schema::entry();
    for value in example::values() {
        assert!(fits(&schema, &value), "{value}");
    }
}

#[test]
fn slips_are_not_valid() {
    let schema = schema::entry();
    let received = &example::values()[0];
    type Slip = fn(&mut Value);
    let slips: [(&str, Slip); 11] = [
        ("an unknown key", |entry| entry["body"]["mass_gr"] = json!(6400)),
        ("a kind there is not", |entry| entry["kind"] = json!("piece-recieved")),
        ("a moment without an offset", |entry| entry["at"] = json!("2026-07-03T18:20:00")),
        ("a body without a version", |entry| {
            drop(entry["body"].as_object_mut().expect("a body").remove("v"))
        }),
        ("a missing key", |entry| drop(entry["body"].as_object_mut().expect("a body").remove("cut"))),
        ("a quantity twice", |entry| entry["body"]["mass_lb"] = json!(14.1)),
        ("a thing said in two ways", |entry| entry["body"]["total"] = json!("159.36")),
        ("another kind of value", |entry| entry["body"]["mass_g"] = json!("6400 g")),
        ("money as a number", |entry| entry["body"]["price_per_kg"] = json!(24.9)),
        ("out of range", |entry| entry["body"]["mass_g"] = json!(6.4)),
        ("an unknown word", |entry| entry["body"]["trim"] = json!("to-6mm")),
    ];
    for (what, slip) in slips {
        let mut entry = received.clone();
        slip(&mut entry);
        assert!(!fits(&schema, &entry), "{what} passes the schema");
        assert!(Entry::read(&entry).is_err(), "{what} passes the reader");
    }
}

/// A value to put somewhere, of every type and about every bound.
fn values() -> impl Strategy<Value = Value> {
    prop_oneof![
        (-1000.0..300_000.0).prop_map(|number| json!(number)),
        prop::sample::select(vec![0, 1, 2, 60, 400, 401, 1000, 100_000]).prop_map(|number| json!(number)),
        prop::sample::select(vec![
            "vacuum",
            "keep",
            "eaten",
            "max",
            "EUR",
            "24.90",
            "2026-07-18",
            "fridge",
            ""
        ])
        .prop_map(|word| json!(word)),
        prop::sample::select(vec![json!(true), json!([]), json!({}), json!([0, 10]), json!(["x"])]),
        Just(json!(example::values()[3]["id"])),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, max_global_rejects: 100_000, failure_persistence: None, ..ProptestConfig::default() })]

    /// An example with one of its values changed: whatever the reader takes is valid.
    #[test]
    fn what_the_reader_takes_is_valid(place in any::<prop::sample::Index>(), key in any::<prop::sample::Index>(), value in values()) {
        let mut entry = place.get(&example::values()).clone();
        let body = entry["body"].as_object_mut().expect("a body");
        let keys: Vec<String> = body.keys().cloned().collect();
        body.insert(key.get(&keys).clone(), value);
        prop_assume!(Entry::read(&entry).is_ok());
        prop_assert!(fits(&schema::entry(), &entry), "{}", entry);
    }
}
