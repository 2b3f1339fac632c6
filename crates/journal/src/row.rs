//! One stored line and the hash that ties it to the line before.

use jiff::Timestamp;
use record::{Entry, Stored};
use serde_json::{Map, Value};
use std::sync::Arc;
use uuid::Uuid;

/// A blake3 hash, 32 bytes.
pub type Hash = [u8; 32];

/// A row of the journal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Its place, from 1.
    pub number: u64,
    /// The entry's id.
    pub id: Uuid,
    /// One line of JSON, kept to the byte: number, written, writer, then the entry.
    pub line: String,
    /// blake3 over the previous row's hash and this line.
    pub hash: Hash,
}

impl Row {
    /// The row that keeps an entry after the row with the hash `before` (zeros for the first).
    #[must_use]
    pub fn after(before: &Hash, number: u64, written: Timestamp, writer: &str, entry: &Entry) -> Self {
        let mut line = Map::new();
        line.insert("number".to_owned(), number.into());
        line.insert("written".to_owned(), written.to_string().into());
        line.insert("writer".to_owned(), writer.into());
        if let Value::Object(entry) = entry.to_value() {
            line.extend(entry);
        }
        let line = Value::Object(line).to_string();
        let hash = link(before, &line);
        Self { number, id: entry.id, line, hash }
    }

    /// Whether this row follows the row with the hash `before`.
    #[must_use]
    pub fn follows(&self, before: &Hash) -> bool {
        self.hash == link(before, &self.line)
    }

    /// The entry in the line, as the house keeps it.
    ///
    /// # Errors
    /// Words for what is wrong with the line.
    pub fn read(&self) -> Result<Stored, String> {
        let value: Value = serde_json::from_str(&self.line).map_err(|problem| problem.to_string())?;
        let Value::Object(mut line) = value else { return Err("not a JSON object".to_owned()) };
        let number = line.shift_remove("number").and_then(|number| number.as_u64());
        if number != Some(self.number) {
            return Err(format!("its line says number {number:?}, its row {}", self.number));
        }
        let written = text(&mut line, "written")?;
        let written: Timestamp =
            written.parse().map_err(|_| format!("written = \"{written}\" is no moment"))?;
        let writer: Arc<str> = text(&mut line, "writer")?.into();
        let entry = Entry::read(&Value::Object(line))
            .map_err(|problems| problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))?;
        if entry.id != self.id {
            return Err(format!("its line says id {}, its row {}", entry.id, self.id));
        }
        Ok(Stored { entry, number: self.number, written, writer, hash: self.hash })
    }
}

fn text(line: &mut Map<String, Value>, key: &str) -> Result<String, String> {
    match line.shift_remove(key) {
        Some(Value::String(text)) => Ok(text),
        other => Err(format!("{key} is {other:?}; allowed: text")),
    }
}

fn link(before: &Hash, line: &str) -> Hash {
    let mut hasher = blake3::Hasher::new();
    hasher.update(before);
    hasher.update(line.as_bytes());
    *hasher.finalize().as_bytes()
}
