//! An acknowledged entry beside SQLite's own full-sync commit, and a start on many entries: how to repeat
//! `BENCHMARKS.md`. Run with `cargo bench -p journal`.

use journal::{Kitchen, Sqlite};
use record::Entry;
use serde_json::json;
use std::path::Path;
use std::time::{Duration, Instant};
use uuid::Uuid;

const PAIRS: usize = 2000;
const MANY: usize = 100_000;

fn main() {
    let folder = std::env::temp_dir().join(format!("gambrel-append-{}", std::process::id()));
    pairs(&folder);
    start(&folder);
    let _ = std::fs::remove_dir_all(&folder);
}

/// Alternating, so that a disk that slows down slows both.
fn pairs(folder: &Path) {
    let kitchen = Kitchen::open(&folder.join("ours")).unwrap_or_else(|problem| panic!("{problem}"));
    let alone =
        rusqlite::Connection::open(folder.join("alone.sqlite")).unwrap_or_else(|problem| panic!("{problem}"));
    let batch = "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;
        CREATE TABLE entry (number INTEGER PRIMARY KEY, id BLOB UNIQUE, line TEXT, hash BLOB) STRICT;";
    alone.execute_batch(batch).unwrap_or_else(|problem| panic!("{problem}"));
    let line = record::Written::from(reading(0)).line(1, jiff::Timestamp::now(), "bench");
    let (mut ours, mut theirs) = (Vec::new(), Vec::new());
    for number in 0..PAIRS {
        let entry = reading(number);
        let begun = Instant::now();
        kitchen.offer(&[entry], "bench").unwrap_or_else(|refused| panic!("{refused}"));
        ours.push(begun.elapsed());
        let id: &[u8] = &Uuid::now_v7().into_bytes();
        let begun = Instant::now();
        alone
            .prepare_cached("INSERT INTO entry (id, line, hash) VALUES (?1, ?2, ?3)")
            .and_then(|mut insert| insert.execute((id, &line, [0_u8; 32])))
            .unwrap_or_else(|problem| panic!("{problem}"));
        theirs.push(begun.elapsed());
    }
    let (ours, theirs) = (median(ours), median(theirs));
    let ratio = ours.as_secs_f64() / theirs.as_secs_f64();
    eprintln!("acknowledged entry: median {ours:?}; SQLite alone {theirs:?}; ratio {ratio:.3} (aim 1.10)");
}

fn start(folder: &Path) {
    let folder = folder.join("many");
    let kitchen = Kitchen::open(&folder).unwrap_or_else(|problem| panic!("{problem}"));
    for hundred in 0..MANY / 1000 {
        let entries: Vec<Entry> = (0..1000).map(|one| reading(hundred * 1000 + one)).collect();
        kitchen.offer(&entries, "bench").unwrap_or_else(|refused| panic!("{refused}"));
    }
    drop(kitchen);
    let begun = Instant::now();
    let journal = Sqlite::open(&folder).unwrap_or_else(|problem| panic!("{problem}"));
    let kitchen = Kitchen::over(journal, None).unwrap_or_else(|problem| panic!("{problem}"));
    eprintln!("start on {} entries, hashes checked: {:?}", kitchen.state().number(), begun.elapsed());
    let wrong = kitchen.state().entry(kitchen.state().number()).map(|row| row.stored.entry.id);
    let correction = entry("corrected", &json!({ "v": 1, "entry": wrong, "because": "misread" }));
    let begun = Instant::now();
    kitchen.offer(&[correction], "bench").unwrap_or_else(|refused| panic!("{refused}"));
    eprintln!("a correction there, everything tried again: {:?}", begun.elapsed());
}

/// Readings of the cold store, so that no piece is used up.
fn reading(number: usize) -> Entry {
    entry(
        "temperature-read",
        &json!({ "v": 1, "place": "cellar chest", "at_c": -19.0 - (number % 10) as f64 / 10.0 }),
    )
}

fn entry(kind: &str, body: &serde_json::Value) -> Entry {
    let at = "2026-07-18T15:10:00+02:00";
    let entry = json!({ "id": Uuid::now_v7(), "at": at, "kind": kind, "body": body });
    Entry::read(&entry).unwrap_or_else(|problems| panic!("{problems:?}"))
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort();
    times[times.len() / 2]
}
