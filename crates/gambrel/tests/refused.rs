//! Every refusal has a file that provokes it; the gallery of all of them, `docs/refusals.md`, is generated here.

#![allow(clippy::expect_used, reason = "a broken test file is a broken test")]

mod support;

use serde_json::Value;
use std::fmt::Write;
use std::path::Path;
use support::{Said, files, folder, gambrel, kept};

/// The command of a file: its name up to the first dot or underscore, and what its first line asks for behind `# flags:`.
fn command(file: &Path) -> Vec<String> {
    let name = file.file_name().expect("a name").to_string_lossy().into_owned();
    let verb = name.split(['_', '.']).next().expect("a verb").to_owned();
    let text = String::from_utf8_lossy(&std::fs::read(file).expect("readable")).into_owned();
    let flags = text.lines().next().and_then(|line| line.strip_prefix("# flags:")).unwrap_or("").to_owned();
    let mut command = vec![verb, name];
    command.extend(flags.split_whitespace().map(str::to_owned));
    command
}

fn run(command: &[String], json: bool) -> Said {
    let mut arguments: Vec<&str> = command.iter().map(String::as_str).collect();
    if json {
        arguments.push("--json");
    }
    gambrel(&arguments, &folder("refused"), None)
}

#[test]
fn every_file_is_refused_whole_and_the_gallery_shows_it() {
    let mut gallery = String::from(
        "# What is refused, and how it is said\n\nEach form below is refused with exit 2 and nothing is written. Generated from \
         `crates/gambrel/tests/refused/` by the test beside it; edit the wording in the code, then run it with \
         `GAMBREL_WRITE=1`.\n",
    );
    for file in files(&folder("refused"), &["toml", "json"]) {
        let command = command(&file);
        let said = run(&command, false);
        let shown = command.join(" ");
        assert_eq!(said.code, 2, "{shown}: exit {}\n{}{}", said.code, said.out, said.err);
        assert_eq!(said.out, "", "{shown}: a refusal leaves standard output empty");
        same_as_json(&command, &said);
        let text = String::from_utf8_lossy(&std::fs::read(&file).expect("readable")).into_owned();
        let _ = write!(
            gallery,
            "\n## `gambrel {shown}`\n\n```{}\n{}\n```\n\n```text\n{}\n```\n",
            file.extension().expect("an ending").to_string_lossy(),
            text.trim_end(),
            said.err.trim_end()
        );
    }
    kept(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/refusals.md"), &gallery);
}

/// With `--json` the same content, one object on standard output, nothing on standard error.
fn same_as_json(command: &[String], said: &Said) {
    let json = run(command, true);
    assert_eq!((json.code, json.err.as_str()), (2, ""), "{command:?}");
    let document: Value = serde_json::from_str(&json.out).expect("one JSON object");
    let problems = document["problems"].as_array().expect("a list of problems");
    assert!(!problems.is_empty(), "{command:?}: refused without a problem");
    for problem in problems {
        let text = |key: &str| {
            problem[key].as_str().unwrap_or_else(|| panic!("{command:?}: {key} is no text: {problem}"))
        };
        assert!(said.err.contains(text("message")), "{command:?}: {problem}");
        assert!(said.err.contains(text("allowed")), "{command:?}: {problem}");
        assert!(!text("found").is_empty() && !text("allowed").is_empty(), "{command:?}: {problem}");
        let place = format!("{}:{}", problem["line"], problem["column"]);
        assert!(said.err.contains(&place), "{command:?}: {place} is not in\n{}", said.err);
        assert!(text("file").len() > 1, "{problem}");
        if let Some(nearest) = problem["nearest"].as_str() {
            assert!(said.err.contains(nearest), "{problem}");
        }
    }
}

#[test]
fn a_file_that_cannot_be_read_is_named() {
    for file in ["nowhere.toml", "."] {
        let said = gambrel(&["worth", file], &folder("refused"), None);
        assert_eq!(said.code, 2);
        assert!(said.err.contains(file) && said.err.contains("cannot be read"), "{}", said.err);
        let json = gambrel(&["worth", file, "--json"], &folder("refused"), None);
        assert_eq!((json.code, json.err.as_str()), (2, ""));
        let document: Value = serde_json::from_str(&json.out).expect("one JSON object");
        assert_eq!(document["problems"][0]["problem"], "unreadable");
    }
}

#[test]
fn a_slip_in_the_arguments_is_exit_2() {
    for arguments in [
        ["worht", "x.toml"].as_slice(),
        &["worth", "x.toml", "--unit", "us"],
        &["worth", "x.toml", "--draws", "0"],
        &["worth", "x.toml", "--seed", "-1"],
        &["form", "wroth"],
        &[],
    ] {
        let said = gambrel(arguments, &folder("refused"), None);
        assert_eq!(said.code, 2, "{arguments:?}");
        assert_eq!(said.out, "", "{arguments:?}");
        assert!(!said.err.is_empty(), "{arguments:?}");
    }
    let json = gambrel(&["worth", "--draws", "x", "--json"], &folder("refused"), None);
    let document: Value = serde_json::from_str(&json.out).expect("one JSON object");
    assert_eq!((json.code, document["status"].as_i64()), (2, Some(422)));
}
