//! One tree for TOML and JSON, every value with the bytes it stands on.

mod json;
mod place;
mod toml;

pub(crate) use place::Place;

use crate::problem::{Problem, What};
use std::ops::Range;

/// A value and where it stands.
#[derive(Clone, Debug)]
pub(crate) struct Node {
    /// Bytes of the source.
    pub(crate) span: Range<usize>,
    /// What stands there.
    pub(crate) value: Tree,
}

/// What a form can hold.
#[derive(Clone, Debug)]
pub(crate) enum Tree {
    /// JSON's `null`: refused like any other wrong kind, never read as "left out".
    Null,
    Flag(bool),
    /// A number as its digits, so that 38.50 stays 38.50.
    Number(String),
    Text(String),
    List(Vec<Node>),
    Table(Vec<Entry>),
}

/// A key with its value.
#[derive(Clone, Debug)]
pub(crate) struct Entry {
    pub(crate) key: String,
    /// Bytes of the key.
    pub(crate) at: Range<usize>,
    pub(crate) node: Node,
}

impl Node {
    /// The entries of a table; none where it is something else.
    pub(crate) fn entries(&self) -> &[Entry] {
        match &self.value {
            Tree::Table(entries) => entries,
            _ => &[],
        }
    }

    /// The entry with this key.
    pub(crate) fn entry(&self, key: &str) -> Option<&Entry> {
        self.entries().iter().find(|entry| entry.key == key)
    }

    /// What stands here, in words.
    pub(crate) fn found(&self) -> String {
        match &self.value {
            Tree::Null => "null".to_owned(),
            Tree::Flag(flag) => flag.to_string(),
            Tree::Number(digits) => digits.clone(),
            Tree::Text(text) => format!("the text \"{}\"", shortened(text)),
            Tree::List(nodes) => format!("a list of {}", nodes.len()),
            Tree::Table(_) => match (self.entry("low"), self.entry("high")) {
                (Some(low), Some(high)) => {
                    format!("{{ low = {}, high = {} }}", low.node.found(), high.node.found())
                }
                _ => "a table".to_owned(),
            },
        }
    }
}

/// Reads TOML or JSON, told apart by the first sign: JSON forms begin with a brace, and no TOML does.
///
/// A tree comes back even from a damaged text where the reader could go on, so that all problems can be named at once.
pub(crate) fn parse(text: &str) -> (Option<Node>, Vec<Problem>) {
    match text.trim_start().as_bytes() {
        [b'{', ..] => json::parse(text),
        _ => toml::parse(text),
    }
}

/// The text of a form, or why its bytes are none.
pub(crate) fn decode(bytes: &[u8]) -> Result<&str, Box<Problem>> {
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let at = error.valid_up_to();
        let problem = Problem::at(What::Syntax, at..at + 1)
            .found("bytes that are no UTF-8 text")
            .allowed("a TOML or JSON form as UTF-8 text")
            .saying("this is no text: the bytes from here on are not UTF-8");
        Box::new(problem)
    })?;
    Ok(text.strip_prefix('\u{feff}').unwrap_or(text))
}

/// At most forty letters of a text, on one line.
pub(crate) fn shortened(text: &str) -> String {
    let one_line: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).take(40).collect();
    if text.chars().count() > 40 { format!("{one_line}…") } else { one_line }
}
