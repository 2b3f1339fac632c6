//! Bytes to lines and columns.

/// A line and a column, both counted from 1; columns count letters, not bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Place {
    pub(crate) line: usize,
    pub(crate) column: usize,
}

impl Place {
    /// Where this byte stands; the end of the text for any byte past it.
    pub(crate) fn of(text: &str, byte: usize) -> Self {
        let mut byte = byte.min(text.len());
        while !text.is_char_boundary(byte) {
            byte -= 1;
        }
        let before = &text[..byte];
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        Self { line: before.matches('\n').count() + 1, column: before[line_start..].chars().count() + 1 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_letters() {
        let text = "a = 1\nä = \"ö\" x";
        assert_eq!(Place::of(text, 0), Place { line: 1, column: 1 });
        assert_eq!(Place::of(text, text.len() - 1), Place { line: 2, column: 9 });
        assert_eq!(Place::of(text, 999), Place { line: 2, column: 10 });
        assert_eq!(Place::of(text, 7), Place { line: 2, column: 1 }, "inside a letter is that letter");
    }
}
