//! The reader of one object and the writer of one.

use serde_json::{Map, Value};
use std::fmt;

/// What is wrong at one place of an entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// Dotted key, as `body.want[0].count`; the entry itself is `entry`.
    pub key: String,
    /// What stood there; `nothing` where nothing did.
    pub found: String,
    /// What may stand there.
    pub allowed: String,
    /// The nearest known key or word, where one is near.
    pub nearest: Option<String>,
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: found {}; allowed: {}", self.key, self.found, self.allowed)?;
        match &self.nearest {
            Some(nearest) => write!(f, "; nearest: {nearest}"),
            None => Ok(()),
        }
    }
}

/// What one key of a body means, for forms and descriptions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Note {
    /// The key as written first, as `mass_g`; every name it may take follows it.
    pub keys: Vec<String>,
    /// What stands at each of the keys, as JSON Schema has it (draft 2020-12).
    pub values: Vec<Value>,
    /// What stands there.
    pub meaning: &'static str,
    /// What may stand there.
    pub allowed: String,
    /// Whether it may be left out.
    pub optional: bool,
    /// Whether it is a list.
    pub list: bool,
    /// Keys of the objects inside, where it holds objects.
    pub inside: Vec<Note>,
}

impl Note {
    /// A key that must be there under one of its names; the same value stands at each.
    pub(crate) fn one_of(keys: Vec<String>, value: Value, meaning: &'static str, allowed: String) -> Self {
        let values = vec![value; keys.len()];
        Self { keys, values, meaning, allowed, optional: false, list: false, inside: Vec::new() }
    }

    /// One thing said in one of several ways, each with its own keys.
    pub(crate) fn either(ways: Vec<Self>, meaning: &'static str, allowed: String) -> Self {
        let (keys, values): (Vec<_>, Vec<_>) = ways.into_iter().map(|way| (way.keys, way.values)).unzip();
        Self {
            keys: keys.concat(),
            values: values.concat(),
            ..Self::one_of(Vec::new(), Value::Null, meaning, allowed)
        }
    }
}

/// Reads the keys of one JSON object; a key nobody asked for is a problem.
pub(crate) struct Reader<'a> {
    map: &'a Map<String, Value>,
    path: String,
    known: Vec<String>,
    problems: Vec<Problem>,
}

impl<'a> Reader<'a> {
    /// Reads one object with `read`; nothing if it is none or if anything in it is wrong.
    pub(crate) fn object<T>(
        value: &'a Value,
        path: &str,
        problems: &mut Vec<Problem>,
        read: impl FnOnce(&mut Self) -> Option<T>,
    ) -> Option<T> {
        let Value::Object(map) = value else {
            problems.push(Problem {
                key: if path.is_empty() { "entry".to_owned() } else { path.to_owned() },
                found: shown(value),
                allowed: "an object, { … }".to_owned(),
                nearest: None,
            });
            return None;
        };
        let mut reader = Reader { map, path: path.to_owned(), known: Vec::new(), problems: Vec::new() };
        let read = read(&mut reader);
        reader.refuse_the_unknown();
        let sound = reader.problems.is_empty();
        problems.append(&mut reader.problems);
        read.filter(|_| sound)
    }

    /// What stands at a key; null counts as nothing.
    pub(crate) fn take(&mut self, key: &str) -> Option<&'a Value> {
        if !self.known.iter().any(|known| known == key) {
            self.known.push(key.to_owned());
        }
        self.map.get(key).filter(|value| !value.is_null())
    }

    /// What stands at a key, null or not.
    pub(crate) fn take_even_null(&mut self, key: &str) -> Option<&'a Value> {
        self.known.push(key.to_owned());
        self.map.get(key)
    }

    /// Whether any of these keys is there.
    pub(crate) fn has_any<'k>(&self, keys: impl IntoIterator<Item = &'k str>) -> bool {
        keys.into_iter().any(|key| self.map.get(key).is_some_and(|value| !value.is_null()))
    }

    /// The dotted path of a key.
    pub(crate) fn path(&self, key: &str) -> String {
        if self.path.is_empty() { key.to_owned() } else { format!("{}.{key}", self.path) }
    }

    /// Where problems are put.
    pub(crate) fn problems(&mut self) -> &mut Vec<Problem> {
        &mut self.problems
    }

    /// Says what is wrong at a key.
    pub(crate) fn problem(&mut self, key: &str, found: impl Into<String>, allowed: impl Into<String>) {
        let key = self.path(key);
        self.problems.push(Problem { key, found: found.into(), allowed: allowed.into(), nearest: None });
    }

    fn refuse_the_unknown(&mut self) {
        for (key, value) in self.map {
            if self.known.iter().any(|known| known == key) {
                continue;
            }
            let nearest = nearest(key, self.known.iter().map(String::as_str)).map(str::to_owned);
            let key = self.path(key);
            let found = format!("an unknown key with {}", shown(value));
            self.problems.push(Problem { key, found, allowed: self.known.join(", "), nearest });
        }
    }
}

/// Collects the keys of one JSON object in order.
#[derive(Default)]
pub(crate) struct Writer(Map<String, Value>);

impl Writer {
    pub(crate) fn put(&mut self, key: &str, value: Value) {
        self.0.insert(key.to_owned(), value);
    }

    pub(crate) fn into_value(self) -> Value {
        Value::Object(self.0)
    }
}

/// The known word most like this one, if it is like enough to be meant.
pub(crate) fn nearest<'w>(word: &str, known: impl IntoIterator<Item = &'w str>) -> Option<&'w str> {
    known
        .into_iter()
        .map(|candidate| (strsim::jaro_winkler(word, candidate), candidate))
        .filter(|(likeness, _)| *likeness >= 0.75)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, candidate)| candidate)
}

/// A value as a message shows it: short, in its JSON form.
pub(crate) fn shown(value: &Value) -> String {
    match value {
        Value::Object(_) => "a table".to_owned(),
        Value::Array(list) => format!("a list of {}", list.len()),
        other => {
            let text = other.to_string();
            if text.chars().count() <= 60 {
                text
            } else {
                let head: String = text.chars().take(57).collect();
                format!("{head}…")
            }
        }
    }
}
