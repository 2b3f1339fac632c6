//! What stands against a form: all of it at once, each with its place, what was found and what is allowed.

mod document;
mod print;

use crate::tree::Place;
use std::ops::Range;

/// The kind of a problem, a stable word for scripts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// The text is neither TOML nor JSON, or no text.
    Syntax,
    /// The file could not be read.
    Unreadable,
    /// A JSON key stands twice.
    DuplicateKey,
    /// No such key here.
    UnknownKey,
    /// Another kind of value is wanted.
    WrongType,
    /// A needed key is missing.
    Missing,
    /// Outside what is allowed.
    OutOfRange,
    /// One quantity is given in two units, or in two ways.
    GivenTwice,
    /// `--exact` takes no range and no blank.
    NotExact,
    /// The numbers contradict one another.
    Impossible,
}

impl What {
    /// The word itself.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Syntax => "syntax",
            Self::Unreadable => "unreadable",
            Self::DuplicateKey => "duplicate-key",
            Self::UnknownKey => "unknown-key",
            Self::WrongType => "wrong-type",
            Self::Missing => "missing",
            Self::OutOfRange => "out-of-range",
            Self::GivenTwice => "given-twice",
            Self::NotExact => "not-exact",
            Self::Impossible => "impossible",
        }
    }
}

/// One thing that stands against a form.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// Its kind.
    pub what: What,
    /// The bytes it is about.
    pub span: Range<usize>,
    /// Dotted key, list places counted from 1: `part[2].mass_g`.
    pub key: String,
    /// JSON pointer (RFC 6901) of the same value.
    pub pointer: String,
    /// What stands there.
    pub found: String,
    /// What may stand there.
    pub allowed: String,
    /// The nearest known key.
    pub nearest: Option<String>,
    /// All of it as one sentence.
    pub message: String,
    /// What to do, where that is more than the sentence says.
    pub advice: Option<String>,
}

impl Problem {
    pub(crate) fn at(what: What, span: Range<usize>) -> Self {
        Self {
            what,
            span,
            key: String::new(),
            pointer: String::new(),
            found: String::new(),
            allowed: String::new(),
            nearest: None,
            message: String::new(),
            advice: None,
        }
    }
    pub(crate) fn key(mut self, key: &str) -> Self {
        key.clone_into(&mut self.key);
        self
    }
    pub(crate) fn pointer(mut self, pointer: &str) -> Self {
        pointer.clone_into(&mut self.pointer);
        self
    }
    pub(crate) fn found(mut self, found: &str) -> Self {
        found.clone_into(&mut self.found);
        self
    }
    pub(crate) fn allowed(mut self, allowed: &str) -> Self {
        allowed.clone_into(&mut self.allowed);
        self
    }
    pub(crate) fn saying(mut self, message: &str) -> Self {
        message.clone_into(&mut self.message);
        self
    }
    pub(crate) fn advising(mut self, advice: &str) -> Self {
        self.advice = Some(advice.to_owned());
        self
    }
    pub(crate) fn nearest(mut self, nearest: Option<String>) -> Self {
        self.nearest = nearest;
        self
    }
}

/// Everything that stands against one form, with the form's own text to point into.
#[derive(Clone, Debug)]
pub struct Problems {
    file: String,
    text: String,
    list: Vec<Problem>,
    more: usize,
}

/// More problems than a person reads are counted, not listed.
const MOST: usize = 200;

impl Problems {
    /// The problems of a form, in the order they stand in it; `file` names it for people (`-` is standard input).
    pub(crate) fn new(file: &str, text: &str, mut list: Vec<Problem>) -> Self {
        list.sort_by_key(|problem| problem.span.start);
        let more = list.len().saturating_sub(MOST);
        list.truncate(MOST);
        Self { file: file.to_owned(), text: text.to_owned(), list, more }
    }

    /// A file that could not be read at all.
    #[must_use]
    pub fn unreadable(file: &str, why: &str) -> Self {
        let problem = Problem::at(What::Unreadable, 0..0)
            .found(why)
            .allowed("a TOML or JSON form, or - for standard input")
            .saying(&format!("{file} cannot be read: {why}"));
        Self::new(file, "", vec![problem])
    }

    /// Each problem, in the order they stand in the form.
    #[must_use]
    pub fn list(&self) -> &[Problem] {
        &self.list
    }

    /// How many more there are than are listed.
    #[must_use]
    pub fn more(&self) -> usize {
        self.more
    }

    /// The name of the form's file, `standard input` for `-`.
    #[must_use]
    pub fn file(&self) -> &str {
        if self.file == "-" { "standard input" } else { &self.file }
    }

    fn place(&self, problem: &Problem) -> Place {
        Place::of(&self.text, problem.span.start)
    }
}
