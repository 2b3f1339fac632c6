//! A journal that lives as long as the program: for tests and for trying things out.

use crate::{Journal, JournalError, Row, Rows};

/// Rows in memory.
#[derive(Debug, Default)]
pub struct Memory {
    rows: Vec<Row>,
}

impl Journal for Memory {
    fn rows(&self, after: u64, most: usize) -> Result<Rows, JournalError> {
        let skipped = usize::try_from(after).unwrap_or(usize::MAX);
        let rows = self.rows.iter().skip(skipped).take(most).cloned().collect();
        Ok(Rows { rows, broken: Vec::new() })
    }

    fn append(&mut self, rows: &[Row]) -> Result<(), JournalError> {
        self.rows.extend_from_slice(rows);
        Ok(())
    }
}
