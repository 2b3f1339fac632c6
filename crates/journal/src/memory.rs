//! A journal that lives as long as the program: for tests and for trying things out.

use crate::{Journal, JournalError, Row, Rows};

/// Rows in memory.
#[derive(Debug, Default)]
pub struct Memory {
    rows: Vec<Row>,
}

impl Journal for Memory {
    fn rows(&self, after: u64) -> Result<Rows, JournalError> {
        let rows = self.rows.iter().filter(|row| row.number > after).cloned().collect();
        Ok(Rows { rows, broken: None })
    }

    fn append(&mut self, rows: &[Row]) -> Result<(), JournalError> {
        self.rows.extend_from_slice(rows);
        Ok(())
    }
}
