//! One thing that happened, as its writer wrote it and as the house keeps it.

use crate::read::{Problem, Reader, Scalar, Writer, nearest, shown};
use crate::{At, Body, Kind};
use jiff::Timestamp;
use serde_json::Value;
use std::sync::Arc;
use uuid::Uuid;

/// One thing that happened: `{ id, at, kind, body }`.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Made by the writer (UUIDv7), so that a phone that was off-line can send twice and it counts once.
    pub id: Uuid,
    /// When it happened.
    pub at: At,
    /// What happened.
    pub body: Body,
}

impl Entry {
    /// Puts an entry together.
    #[must_use]
    pub fn new(id: Uuid, at: At, body: impl Into<Body>) -> Self {
        Self { id, at, body: body.into() }
    }

    /// What kind of thing happened.
    #[must_use]
    pub const fn kind(&self) -> Kind {
        self.body.kind()
    }

    /// Reads an entry from JSON.
    ///
    /// # Errors
    /// Every problem of the entry at once.
    pub fn read(value: &Value) -> Result<Self, Vec<Problem>> {
        let mut problems = Vec::new();
        let entry = Reader::object(value, "", &mut problems, |reader| {
            let id = id(reader);
            let at = <At as crate::read::Field>::read(reader, "at", &());
            let kind = kind(reader);
            let body = match (reader.take("body"), kind) {
                (None, _) => {
                    reader.problem("body", "nothing", "a table with \"v\": 1 and the keys of the kind");
                    None
                }
                // Of which keys it should consist cannot be said without the kind.
                (Some(_), None) => None,
                (Some(value), Some(kind)) => match Body::read(kind, value, "body") {
                    Ok(body) => Some(body),
                    Err(mut found) => {
                        reader.problems().append(&mut found);
                        None
                    }
                },
            };
            Some(Self { id: id?, at: at?, body: body? })
        });
        entry.ok_or(problems)
    }

    /// The entry as JSON, in metric units.
    #[must_use]
    pub fn to_value(&self) -> Value {
        let mut writer = Writer::default();
        writer.put("id", self.id.json());
        writer.put("at", self.at.json());
        writer.put("kind", self.kind().word().into());
        writer.put("body", self.body.to_value());
        writer.into_value()
    }
}

/// An entry as the house keeps it.
#[derive(Clone, Debug, PartialEq)]
pub struct Stored {
    /// The entry.
    pub entry: Entry,
    /// Its place in the record, from 1.
    pub number: u64,
    /// When the house wrote it down.
    pub written: Timestamp,
    /// Who wrote it.
    pub writer: Arc<str>,
    /// blake3 over the previous hash and the stored line.
    pub hash: [u8; 32],
}

fn id(reader: &mut Reader<'_>) -> Option<Uuid> {
    let allowed = "a UUID of version 7 (RFC 9562), made by the writer";
    let value = reader.take("id");
    let id = value.and_then(|value| Uuid::parse(value, &())).filter(|id| id.get_version_num() == 7);
    if id.is_none() {
        reader.problem("id", value.map_or("nothing".to_owned(), shown), allowed);
    }
    id
}

fn kind(reader: &mut Reader<'_>) -> Option<Kind> {
    let words = || Kind::ALL.iter().map(|kind| kind.word());
    let value = reader.take("kind");
    let kind = value.and_then(Value::as_str).and_then(Kind::of);
    if kind.is_none() {
        let near = value.and_then(Value::as_str).and_then(|word| nearest(word, words()));
        let problem = Problem {
            key: reader.path("kind"),
            found: value.map_or("nothing".to_owned(), shown),
            allowed: words().collect::<Vec<_>>().join(" | "),
            nearest: near.map(str::to_owned),
        };
        reader.problems().push(problem);
    }
    kind
}
