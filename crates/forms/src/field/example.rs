//! The printed example: a complete form with a comment beside each key, alternatives commented out, that runs as it stands.

use super::{Field, Kind, Rows, Shown};
use std::fmt::Write;

/// Column the comments stand at, where the line before them leaves room.
const COMMENTS_AT: usize = 42;

/// Where a line with its comment would be longer, the comment stands above it.
const WIDEST: usize = 118;

/// The example of a form.
pub(crate) fn example(head: &str, fields: &[Field]) -> String {
    let mut text = String::new();
    for line in head.lines() {
        let _ = writeln!(text, "# {line}");
    }
    table(&mut text, "", fields);
    text
}

/// Plain keys first, then tables, as TOML wants it.
fn table(text: &mut String, path: &str, fields: &[Field]) {
    for field in fields.iter().filter(|field| !is_table(field)) {
        keyed(text, field, fields);
    }
    for field in fields.iter().filter(|field| is_table(field)) {
        let path = if path.is_empty() { field.stem.to_owned() } else { format!("{path}.{}", field.stem) };
        match field.kind {
            Kind::Table(fields) => {
                heading(text, &format!("[{path}]"), field);
                table(text, &path, fields);
            }
            Kind::Tables(fields, rows) => {
                heading(text, &format!("[[{path}]]"), field);
                table(text, &path, fields);
                further(text, &path, rows);
            }
            _ => {}
        }
    }
}

/// Tables stand under a heading of their own, unless they are shown in one line.
fn is_table(field: &Field) -> bool {
    matches!(field.kind, Kind::Table(_) | Kind::Tables(..)) && field.shown_inline().is_none()
}

fn heading(text: &mut String, heading: &str, field: &Field) {
    text.push('\n');
    commented(text, heading, field.about);
}

fn keyed(text: &mut String, field: &Field, beside: &[Field]) {
    match field.shown {
        Shown::Set(literal) => commented(text, &format!("{} = {literal}", field.key()), field.about),
        Shown::Later(literal) => commented(text, &format!("# {} = {literal}", field.key()), field.about),
        Shown::Instead(literal, of) => {
            let about = match replaced(of, beside) {
                None => field.about.to_owned(),
                Some(replaced) => format!("in place of {replaced}: {}", field.about),
            };
            commented(text, &format!("# {} = {literal}", field.key()), &about);
        }
    }
}

/// The keys an alternative stands for, as they are shown.
fn replaced(of: &[&str], beside: &[Field]) -> Option<String> {
    let key = |stem: &&str| {
        beside.iter().find(|field| field.stem == *stem).map_or_else(|| (*stem).to_owned(), Field::key)
    };
    let keys: Vec<String> = of.iter().map(key).collect();
    (!keys.is_empty()).then(|| keys.join(" and "))
}

fn further(text: &mut String, path: &str, rows: Rows) {
    for row in rows {
        let _ = writeln!(text, "\n[[{path}]]");
        for (key, literal) in *row {
            let _ = writeln!(text, "{key} = {literal}");
        }
    }
}

fn commented(text: &mut String, line: &str, comment: &str) {
    let long = line.chars().count();
    if long + comment.chars().count() > WIDEST {
        let _ = writeln!(text, "# {comment}\n{line}");
    } else {
        let gap = COMMENTS_AT.saturating_sub(long).max(2);
        let _ = writeln!(text, "{line}{:gap$}# {comment}", "");
    }
}

impl Field {
    /// The one-line value of a table that is shown so.
    fn shown_inline(&self) -> Option<&'static str> {
        match self.shown {
            Shown::Set("") => None,
            Shown::Set(literal) | Shown::Instead(literal, _) | Shown::Later(literal) => Some(literal),
        }
    }
}
