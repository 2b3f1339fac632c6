//! A record kept by hand: entries with ids and hours of their own, offered one by one.

use jiff::{SignedDuration, Timestamp};
use record::{At, Body, Entry, Kind, Refusal, State, Stored};
use serde_json::{Value, json};
use std::sync::Arc;
use uuid::Uuid;

/// A state with everything it was folded from.
#[derive(Default)]
pub(crate) struct Book {
    pub(crate) state: State,
    pub(crate) stored: Vec<Stored>,
    made: u64,
}

impl Book {
    /// Offers an entry a minute after the one before.
    pub(crate) fn write(&mut self, kind: Kind, body: Value) -> Result<Uuid, Refusal> {
        let at = minutes(self.made as i64);
        self.write_at(kind, at, body)
    }

    /// Offers an entry of a given hour.
    pub(crate) fn write_at(&mut self, kind: Kind, at: At, body: Value) -> Result<Uuid, Refusal> {
        let entry = self.entry(kind, at, body)?;
        let id = entry.id;
        self.offer(entry)?;
        Ok(id)
    }

    /// Offers an entry as it stands.
    pub(crate) fn offer(&mut self, entry: Entry) -> Result<(), Refusal> {
        let stored = stored(self.state.number() + 1, entry);
        self.state.take(stored.clone())?;
        self.stored.push(stored);
        Ok(())
    }

    /// Makes an entry without offering it.
    pub(crate) fn entry(&mut self, kind: Kind, at: At, mut body: Value) -> Result<Entry, Refusal> {
        self.made += 1;
        body["v"] = json!(1);
        let body = Body::read(kind, &body, "body")?;
        Ok(Entry { id: id(self.made), at, body })
    }

    /// A piece as it came, by its word.
    pub(crate) fn receive(&mut self, word: &str, grams: f64) -> Uuid {
        let body = json!({"cut": "beef-strip-loin", "mass_g": grams, "price_per_kg": "20", "currency": "EUR", "word": word});
        self.write(Kind::PieceReceived, body).expect("a piece comes in")
    }

    /// A portion of a piece.
    pub(crate) fn portion(&mut self, piece: Uuid, n: u32, grams: f64) -> Uuid {
        self.write(Kind::PortionWeighed, json!({"piece": piece, "n": n, "mass_g": grams})).expect("a portion")
    }

    /// A pack of portions in the cellar chest.
    pub(crate) fn pack(&mut self, portions: &[Uuid]) -> Uuid {
        let pack = self
            .write(Kind::PackSealed, json!({"portions": portions, "wrap": "vacuum", "sealed": 1}))
            .expect("a pack");
        self.write(Kind::Moved, json!({"what": pack, "place": "cellar chest", "frozen": true}))
            .expect("moved");
        pack
    }
}

/// So many minutes after four on a Saturday afternoon.
pub(crate) fn minutes(count: i64) -> At {
    let start: Timestamp = "2026-07-04T14:00:00Z".parse().expect("a moment");
    At::new(start + SignedDuration::from_mins(count), jiff::tz::offset(2))
}

/// The count-th id of a test: a UUIDv7 whose last bytes are the count.
pub(crate) fn id(count: u64) -> Uuid {
    let time = u128::from(1_783_094_400_000 + count) << 80;
    Uuid::from_u128(time | (0x7 << 76) | (0b10 << 62) | u128::from(count))
}

pub(crate) fn stored(number: u64, entry: Entry) -> Stored {
    Stored { written: entry.at.timestamp(), writer: Arc::from("board"), hash: [0; 32], number, entry }
}
