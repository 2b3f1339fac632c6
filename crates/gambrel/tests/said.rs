//! Sessions kept whole: command, output, exit code. `$ gambrel …` lines of a file are run in its folder, in order.

#![allow(clippy::expect_used, reason = "a broken test file is a broken test")]

mod support;

use std::fmt::Write;
use std::path::Path;
use support::{files, folder, gambrel, kept};

#[test]
fn every_session_says_what_it_said() {
    for session in files(&folder("said"), &["txt"]) {
        let before = std::fs::read_to_string(&session).expect("readable");
        kept(&session, &replayed(&before));
    }
}

/// The session run again: comment lines between the commands stay, commands are answered anew.
fn replayed(session: &str) -> String {
    let (mut text, mut answering) = (String::new(), false);
    for line in session.lines() {
        if answering {
            // A form that was printed has comments of its own.
            answering = !line.starts_with("[exit ");
        } else if line.starts_with('#') {
            let _ = writeln!(text, "{line}");
        } else if let Some(command) = line.strip_prefix("$ gambrel ") {
            let (command, input) = command.split_once(" < ").map_or((command, None), |(c, i)| (c, Some(i)));
            let arguments: Vec<&str> = command.split_whitespace().collect();
            let said = gambrel(&arguments, &folder("said"), input.map(Path::new));
            let _ = writeln!(text, "\n{line}");
            text.push_str(&said.out);
            for line in said.err.lines() {
                let _ = writeln!(text, "2> {line}");
            }
            let _ = writeln!(text, "[exit {}]", said.code);
            answering = true;
        }
    }
    text
}
