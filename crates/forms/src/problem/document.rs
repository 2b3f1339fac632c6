//! Problems as one JSON object (RFC 9457, problem details).

use super::{Problem, Problems};
use serde_json::{Value, json};

impl Problems {
    /// One JSON object: `type, title, status, detail` as RFC 9457 names them, and `problems`, one object each.
    #[must_use]
    pub fn document(&self) -> Value {
        let count = self.list().len() + self.more();
        json!({
            "type": "about:blank",
            "title": "The form cannot be answered as it stands",
            "status": 422,
            "detail": match count {
                1 => format!("One thing stands against {}.", self.file()),
                _ => format!("{count} things stand against {}.", self.file()),
            },
            "more": self.more(),
            "problems": self.list().iter().map(|problem| self.one(problem)).collect::<Vec<_>>(),
        })
    }

    fn one(&self, problem: &Problem) -> Value {
        let place = self.place(problem);
        json!({
            "problem": problem.what.word(),
            "file": self.file(),
            "line": place.line,
            "column": place.column,
            "key": problem.key,
            "pointer": problem.pointer,
            "found": problem.found,
            "allowed": problem.allowed,
            "nearest": problem.nearest,
            "message": problem.message,
            "advice": problem.advice,
        })
    }
}
