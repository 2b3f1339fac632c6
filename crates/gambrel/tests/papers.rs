//! Labels and strips from a record and from a form, printed as a person would.

#![allow(clippy::expect_used, reason = "a broken record is a broken test")]

#[allow(dead_code, reason = "this test needs one of its helpers")]
mod support;

use journal::Kitchen;
use record::Entry;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use support::gambrel;
use uuid::Uuid;

/// A record with MOOR 1+2 packed and KELP uncut, in a folder of its own.
fn record(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = std::fs::remove_dir_all(&folder);
    let kitchen = Kitchen::open(&folder).expect("a new record");
    let put = |at: &str, kind: &str, mut body: Value| {
        body["v"] = json!(1);
        let id = Uuid::now_v7();
        let entry =
            Entry::read(&json!({ "id": id, "at": at, "kind": kind, "body": body })).expect("a sound entry");
        kitchen.offer(&[entry], "test").expect("an entry that may follow");
        id
    };
    let cut = "beef-strip-loin";
    let piece = put(
        "2026-02-07T09:00:00+01:00",
        "piece-received",
        json!({ "cut": cut, "mass_g": 4200, "total": "80", "currency": "EUR", "word": "MOOR" }),
    );
    let portions: Vec<Uuid> = (1..=2)
        .map(|n| {
            let body =
                json!({ "piece": piece, "n": n, "mass_g": 300 + n, "from_mm": n * 30, "to_mm": n * 30 + 30 });
            put("2026-02-08T11:00:00+01:00", "portion-weighed", body)
        })
        .collect();
    put("2026-02-08T19:00:00+01:00", "pack-sealed", json!({ "portions": portions, "wrap": "vacuum" }));
    put(
        "2026-02-09T09:00:00+01:00",
        "piece-received",
        json!({ "cut": "beef-ribeye-roll", "mass_g": 6400, "total": "159.36", "currency": "EUR", "word": "KELP" }),
    );
    folder
}

/// Pages of a PDF, by its own count.
fn pages(pdf: &[u8]) -> usize {
    let text = String::from_utf8_lossy(pdf);
    let count =
        text.split("/Count ").nth(1).and_then(|rest| rest.split(|c: char| !c.is_ascii_digit()).next());
    count.and_then(|count| count.parse().ok()).expect("a count of pages")
}

#[test]
fn labels_of_a_pack_and_of_a_piece_while_nothing_else_writes() {
    let folder = record("labels");
    let print = |arguments: &[&str]| {
        let mut all = vec!["label"];
        all.extend(arguments);
        all.extend(["--record", ".", "-o", "out.pdf"]);
        let said = gambrel(&all, &folder, None);
        assert_eq!(said.code, 0, "{arguments:?}: {}", said.err);
        std::fs::read(folder.join("out.pdf")).expect("a file")
    };
    assert_eq!(pages(&print(&["moor-1-2"])), 1);
    assert_eq!(pages(&print(&["MOOR 1+2", "moor", "--address", "http://192.168.1.20:4180"])), 2);
    assert_eq!(pages(&print(&["moor", "--on", "sheet", "--from", "21"])), 1);
}

#[test]
fn what_is_not_there_is_said_with_what_is() {
    let folder = record("not_there");
    let refused = |arguments: &[&str], words: &str| {
        let said = gambrel(arguments, &folder, None);
        assert_eq!((said.code, said.out.as_str()), (2, ""), "{arguments:?}");
        assert!(said.err.contains(words), "{arguments:?}: {}", said.err);
        assert!(!folder.join("out.pdf").exists(), "nothing is written");
    };
    refused(&["label", "moor-7", "--record", ".", "-o", "out.pdf"], "packs of MOOR: moor-1-2");
    refused(&["label", "kelp", "--record", ".", "-o", "out.pdf"], "KELP has no pack");
    refused(&["label", "tarn-1", "--record", ".", "-o", "out.pdf"], "there is no pack \"tarn-1\"");
    refused(&["label", "moor", "--on", "sheet", "--from", "22", "--record", ".", "-o", "out.pdf"], "22");
    refused(&["strip", "tarn", "--record", ".", "-o", "out.pdf"], "pieces in the record: MOOR, KELP");
    refused(&["label", "moor", "--record", "nowhere", "-o", "out.pdf"], "nowhere");
    refused(&["label", "moor", "--record", ".", "-o", "no/such/folder.pdf"], "could not be written");
}

#[test]
fn a_strip_of_a_piece_and_of_a_form() {
    let folder = record("strips");
    let said = gambrel(&["strip", "kelp", "--record", ".", "-o", "kelp.pdf"], &folder, None);
    assert_eq!(said.code, 0, "{}", said.err);
    let of_piece = std::fs::read(folder.join("kelp.pdf")).expect("a file");
    assert_eq!(pages(&of_piece), 2, "a ribeye roll is longer than one sheet");
    let form = gambrel(&["form", "cut"], &folder, None).out;
    std::fs::write(folder.join("cut.toml"), form).expect("a file");
    for file in ["cut.toml", "-"] {
        let said = gambrel(&["strip", file, "-o", "form.pdf"], &folder, Some(Path::new("cut.toml")));
        assert_eq!(said.code, 0, "{}", said.err);
        assert_eq!(pages(&std::fs::read(folder.join("form.pdf")).expect("a file")), 2);
    }
    std::fs::write(folder.join("bad.toml"), "[piece]\ncut = \"beef-ribeye\"\n").expect("a file");
    let said = gambrel(&["strip", "bad.toml", "-o", "bad.pdf"], &folder, None);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("beef-ribeye-roll"), "the nearest known name: {}", said.err);
}
