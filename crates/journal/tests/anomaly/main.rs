//! Trouble: what the journal does when something goes wrong. One file a kind of trouble.
#![allow(clippy::expect_used, reason = "a test that cannot set up its trouble has failed")]

mod brought;
mod clock_went_back;
mod disk_full;
mod row_damaged;
mod second_writer;
mod sent_twice;

use journal::Kitchen;
use record::Entry;
use serde_json::{Value, json};
use std::path::PathBuf;
use uuid::Uuid;

/// A folder of its own, gone at the end.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("gambrel-{name}-{}", Uuid::now_v7()));
        std::fs::create_dir_all(&path).expect("a temporary folder");
        Self(path)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

fn reading(celsius: f64) -> Entry {
    entry("temperature-read", json!({ "v": 1, "place": "cellar chest", "at_c": celsius }))
}

fn entry(kind: &str, body: Value) -> Entry {
    let value =
        json!({ "id": Uuid::now_v7(), "at": "2026-07-18T15:10:00+02:00", "kind": kind, "body": body });
    Entry::read(&value).expect("an entry")
}

fn reopened(folder: &Folder) -> Kitchen {
    Kitchen::open(&folder.0).expect("the last copy let go of the lock")
}
