//! Every figure of the catalogue names where it comes from, and that source stands in `sources.toml` with its status.

use toml::{Table, Value};

use crate::tree::{files, root, told};

/// How far a source is to be trusted.
const STATUS: &[&str] = &["published", "secondary", "common-practice", "from-memory", "computed"];

#[test]
fn every_figure_has_a_source() {
    let folder = root().join("catalogue");
    let sources: Vec<String> = sources().keys().cloned().collect();
    let mut wrong = Vec::new();
    for file in files(&folder, &[".toml"]) {
        if !file.ends_with("sources.toml") {
            walk(&read(&file), &told(&file), false, &sources, &mut wrong);
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn every_source_says_what_it_is_and_how_far_to_trust_it() {
    for (id, source) in sources() {
        let citation = source.get("citation").and_then(Value::as_str).unwrap_or_default();
        assert!(citation.len() > 10, "{id} has no citation");
        let status = source.get("status").and_then(Value::as_str).unwrap_or_default();
        assert!(STATUS.contains(&status), "{id} has status {status:?}, allowed: {STATUS:?}");
    }
}

/// A table with a number needs a source, its own or that of the table it stands in.
fn walk(table: &Table, place: &str, sourced: bool, sources: &[String], wrong: &mut Vec<String>) {
    let sourced = sourced || table.contains_key("source");
    let figures = table.iter().filter(|(_, value)| is_figure(value)).map(|(key, _)| key.as_str());
    let figures: Vec<&str> = figures.collect();
    if !sourced && !figures.is_empty() {
        wrong.push(format!("{place}: {figures:?} without a source"));
    }
    for (key, value) in table {
        let place = format!("{place}, {key}");
        if key == "source" || key.ends_with("_source") {
            let named: Vec<&str> = match value {
                Value::Array(names) => names.iter().filter_map(Value::as_str).collect(),
                _ => value.as_str().into_iter().collect(),
            };
            wrong.extend(
                named
                    .iter()
                    .filter(|name| !sources.iter().any(|id| id == *name))
                    .map(|name| format!("{place}: {name:?} stands in no row of sources.toml")),
            );
        }
        match value {
            Value::Table(inner) => walk(inner, &place, sourced, sources, wrong),
            Value::Array(items) => {
                for (number, item) in items.iter().enumerate() {
                    if let Value::Table(inner) = item {
                        walk(inner, &format!("{place} {}", number + 1), sourced, sources, wrong);
                    }
                }
            }
            _ => {}
        }
    }
}

fn is_figure(value: &Value) -> bool {
    match value {
        Value::Integer(_) | Value::Float(_) => true,
        Value::Array(items) => items.iter().any(is_figure),
        _ => false,
    }
}

fn read(path: &std::path::Path) -> Table {
    let text = std::fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", told(path)));
    text.parse().unwrap_or_else(|error| panic!("{}: {error}", told(path)))
}

/// Sources by their ids.
fn sources() -> Table {
    let file = read(&root().join("catalogue/sources.toml"));
    file["source"].as_table().expect("sources.toml lists sources").clone()
}
