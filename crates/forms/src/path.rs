//! Dotted keys and JSON pointers.

use crate::problem::Problem;

/// Where in the form a value stands, for people and as a JSON pointer.
#[derive(Clone, Debug, Default)]
pub(crate) struct Path {
    dotted: String,
    pointer: String,
}

impl Path {
    pub(crate) fn key(&self, key: &str) -> Self {
        let dot = if self.dotted.is_empty() { "" } else { "." };
        let escaped = key.replace('~', "~0").replace('/', "~1");
        Self { dotted: format!("{}{dot}{key}", self.dotted), pointer: format!("{}/{escaped}", self.pointer) }
    }
    /// People count from one, pointers from nought.
    pub(crate) fn place(&self, at: usize) -> Self {
        Self { dotted: format!("{}[{}]", self.dotted, at + 1), pointer: format!("{}/{at}", self.pointer) }
    }
    pub(crate) fn on(&self, problem: Problem) -> Problem {
        problem.key(&self.dotted).pointer(&self.pointer)
    }
    pub(crate) fn dotted(&self) -> &str {
        &self.dotted
    }
}
