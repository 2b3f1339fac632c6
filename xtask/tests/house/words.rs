//! The tree says nothing of whose machine it was written on, and leaves no note of what is still to be done.

use crate::tree::{files, root, told};

const READ: &[&str] =
    &[".rs", ".toml", ".md", ".css", ".js", ".py", ".html", ".txt", ".json", ".snap", "run"];

/// Split, so that this file does not say them.
const FOLDERS: &[&str] =
    &[concat!("/ho", "me/"), concat!("/Us", "ers/"), concat!("/ro", "ot/"), concat!("/wo", "rk/")];
const NOTES: &[&str] = &[
    concat!("TO", "DO"),
    concat!("FIX", "ME"),
    concat!("to", "do!("),
    concat!("unimple", "mented!("),
    concat!("db", "g!("),
];
const TICKET: &str = concat!("iss", "ue ");

#[test]
fn no_folder_of_a_machine_no_note_to_self_no_ticket() {
    let mut wrong = Vec::new();
    for file in files(&root(), READ) {
        let Ok(text) = std::fs::read_to_string(&file) else { continue };
        for (number, line) in text.lines().enumerate() {
            let word = FOLDERS.iter().chain(NOTES).find(|word| line.contains(**word));
            let ticket = line.to_lowercase().split(TICKET).skip(1).any(|after| {
                after
                    .trim_start_matches(['#', 'n', 'o', '.', ' '])
                    .starts_with(|letter: char| letter.is_ascii_digit())
            });
            if word.is_some() || ticket {
                wrong.push(format!("{}:{}: {}", told(&file), number + 1, line.trim()));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}
