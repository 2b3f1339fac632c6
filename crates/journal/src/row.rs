//! One stored line and the hash that ties it to the line before.

use jiff::Timestamp;
use record::{Origin, Stored, Written};
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
    /// One line of JSON, kept to the byte: number, written, writer, then the entry in its writer's own text.
    pub line: String,
    /// blake3 over the previous row's hash and this line.
    pub hash: Hash,
}

impl Row {
    /// The row that keeps an entry after the row with the hash `before` (zeros for the first).
    #[must_use]
    pub fn after(before: &Hash, number: u64, written: Timestamp, writer: &str, entry: &Written) -> Self {
        let line = entry.line(number, written, writer);
        let hash = link(before, &line);
        Self { number, id: entry.entry.id, line, hash }
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
        let line = Written::read_line(&self.line).map_err(|refusal| refusal.to_string())?;
        let Some(Origin { written, writer }) = line.origin.clone() else {
            return Err("its line does not begin with number, written and writer".to_owned());
        };
        if line.line(self.number, written, &writer) != self.line {
            return Err(format!("its line is not that of row {}", self.number));
        }
        if line.entry.id != self.id {
            return Err(format!("its line says id {}, its row {}", line.entry.id, self.id));
        }
        Ok(Stored { entry: line.entry, number: self.number, written, writer, hash: self.hash })
    }
}

fn link(before: &Hash, line: &str) -> Hash {
    let mut hasher = blake3::Hasher::new();
    hasher.update(before);
    hasher.update(line.as_bytes());
    *hasher.finalize().as_bytes()
}

/// A hash as people and programs write it: 64 small hexadecimal digits.
#[must_use]
pub fn hex(hash: &Hash) -> String {
    blake3::Hash::from_bytes(*hash).to_hex().to_string()
}
