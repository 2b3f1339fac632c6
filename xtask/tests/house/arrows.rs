//! Arrows run one way, and nothing but its keeper knows a database, a web server, a file or a clock.

use std::path::PathBuf;

use crate::tree::{crates, files, metadata, product_lines, root, told};

/// From the ground up; a crate may know those below its own row.
const ROWS: &[&[&str]] = &[
    &["quantity"],
    &["band", "catalogue"],
    &["heat"],
    &["worth", "roll", "cold"],
    &["dinner"],
    &["record"],
    &["forms", "paper", "season", "journal"],
    &["web"],
    &["gambrel"],
];

/// Tighter than the rows: all these may know of the house.
const ONLY: &[(&str, &[&str])] = &[
    // The record knows no physics and no catalogue: it folds what was written down.
    ("record", &["quantity"]),
    ("journal", &["quantity", "record"]),
    // Paper prints what it is handed.
    ("paper", &["quantity"]),
];

/// Libraries that only these crates may use.
const KEEPERS: &[(&str, &[&str])] = &[
    ("rusqlite", &["journal"]),
    ("axum", &["web"]),
    ("tower-http", &["web"]),
    ("maud", &["web"]),
    ("utoipa", &["web"]),
    ("tokio", &["web", "gambrel"]),
    ("pdf-writer", &["paper"]),
    ("clap", &["gambrel"]),
];

/// Crates that are handed everything they work on.
const PURE: &[&str] = &[
    "quantity",
    "band",
    "catalogue",
    "heat",
    "worth",
    "roll",
    "cold",
    "dinner",
    "record",
    "season",
    "paper",
    "forms",
];
/// What they would need to reach out.
const REACHING_OUT: &[&str] = &[
    "std::fs",
    "std::net",
    "std::env::",
    "SystemTime",
    "Instant::now",
    "Zoned::now",
    "Timestamp::now",
    "File::open",
];

/// Each crate with the names it depends on outside its tests.
fn dependencies() -> Vec<(String, Vec<String>)> {
    let told = metadata(&["--no-deps"]);
    let packages = told["packages"].as_array().unwrap();
    let ours = packages.iter().filter(|package| {
        let place = PathBuf::from(package["manifest_path"].as_str().unwrap());
        place.starts_with(root().join("crates"))
    });
    ours.map(|package| {
        let needs =
            package["dependencies"].as_array().unwrap().iter().filter(|needed| needed["kind"].is_null());
        let names = needs.map(|needed| needed["name"].as_str().unwrap().to_owned());
        (package["name"].as_str().unwrap().to_owned(), names.collect())
    })
    .collect()
}

fn row(name: &str) -> Option<usize> {
    ROWS.iter().position(|row| row.contains(&name))
}

#[test]
fn every_crate_has_its_row() {
    for name in crates() {
        assert!(row(&name).is_some(), "crates/{name} stands in no row: say what it may know");
    }
}

#[test]
fn arrows_run_one_way() {
    for (name, needs) in dependencies() {
        let own = row(&name).unwrap_or_else(|| panic!("{name} stands in no row"));
        for needed in &needs {
            if let Some(theirs) = row(needed) {
                assert!(theirs < own, "{name} may not know {needed}: it stands in the same row or above");
                if let Some((_, only)) = ONLY.iter().find(|(crate_name, _)| *crate_name == name) {
                    assert!(only.contains(&needed.as_str()), "{name} may not know {needed}, only {only:?}");
                }
            }
        }
    }
}

#[test]
fn each_library_has_its_keeper() {
    for (name, needs) in dependencies() {
        for (library, keepers) in KEEPERS {
            let needed = needs.iter().any(|needed| needed == library);
            assert!(
                !needed || keepers.contains(&name.as_str()),
                "{name} may not use {library}, only {keepers:?}"
            );
        }
    }
}

#[test]
fn what_computes_is_handed_everything() {
    for name in PURE {
        for file in files(&root().join("crates").join(name).join("src"), &[".rs"]) {
            if file.ends_with("tests.rs") {
                continue;
            }
            for (number, line) in product_lines(&file).iter().enumerate() {
                let code = line.split("//").next().unwrap_or_default();
                let reached = REACHING_OUT.iter().find(|word| code.contains(**word));
                assert!(reached.is_none(), "{}:{}: {name} reaches out: {line}", told(&file), number + 1);
            }
        }
    }
}
