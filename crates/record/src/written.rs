//! An entry with the very text its writer gave it.

use crate::read::{Problem, parse};
use crate::{Entry, Refusal};
use jiff::Timestamp;
use serde_json::Value;
use serde_json::value::RawValue;
use std::sync::Arc;

/// An entry and its text: one JSON object on one line, kept as the writer wrote it save for white space between tokens.
///
/// Pounds stay pounds and `1.50` stays `1.50`: what is kept is what was said, not what this program made of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Written {
    /// The entry.
    pub entry: Entry,
    /// Where it comes from, if another house had written it down before.
    pub origin: Option<Origin>,
    text: Arc<str>,
}

/// When and by whom an entry was written down before it was brought here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Origin {
    /// When it was written down.
    pub written: Timestamp,
    /// Who wrote it.
    pub writer: Arc<str>,
}

impl Written {
    /// Reads the text of one entry.
    ///
    /// # Errors
    /// [`Refusal::Unreadable`] with everything that is wrong with it.
    pub fn read(text: &str) -> Result<Self, Refusal> {
        let entry = Entry::read(&parse(text).map_err(|error| not_json(&error))?)?;
        Ok(Self { entry, origin: None, text: one_line(text).into() })
    }

    /// Reads one entry or an array of them; an entry that cannot be read is named by its place.
    ///
    /// # Errors
    /// [`Refusal::Unreadable`] with everything that is wrong with any of them.
    pub fn read_all(text: &str) -> Result<Vec<Self>, Refusal> {
        if !text.trim_start().starts_with('[') {
            return Ok(vec![Self::read(text)?]);
        }
        let texts: Vec<&RawValue> = serde_json::from_str(text).map_err(|error| not_json(&error))?;
        let (mut entries, mut problems) = (Vec::with_capacity(texts.len()), Vec::new());
        for (place, text) in texts.into_iter().enumerate() {
            match Self::read(text.get()) {
                Ok(written) => entries.push(written),
                Err(Refusal::Unreadable { problems: found }) => problems.extend(
                    found
                        .into_iter()
                        .map(|problem| Problem { key: format!("[{place}].{}", problem.key), ..problem }),
                ),
                Err(other) => return Err(other),
            }
        }
        if problems.is_empty() { Ok(entries) } else { Err(Refusal::Unreadable { problems }) }
    }

    /// Reads a line as a journal keeps it: `number`, `written`, `writer`, then the entry; or an entry alone.
    ///
    /// # Errors
    /// [`Refusal::Unreadable`] with everything that is wrong with it.
    pub fn read_line(line: &str) -> Result<Self, Refusal> {
        let Some((origin, rest)) = split_origin(line) else { return Self::read(line) };
        Ok(Self { origin: Some(origin), ..Self::read(&rest)? })
    }

    /// The text, one line.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The line a journal keeps: what the house adds, then the writer's own text.
    #[must_use]
    pub fn line(&self, number: u64, written: Timestamp, writer: &str) -> String {
        let writer = Value::from(writer);
        let own = self.text.strip_prefix('{').unwrap_or(&self.text);
        format!("{{\"number\":{number},\"written\":\"{written}\",\"writer\":{writer},{own}")
    }
}

impl From<Entry> for Written {
    fn from(entry: Entry) -> Self {
        let text = entry.to_value().to_string().into();
        Self { entry, origin: None, text }
    }
}

/// The house's part of a line and the writer's; nothing if the line does not begin as [`Written::line`] writes it.
fn split_origin(line: &str) -> Option<(Origin, String)> {
    let rest = line.trim().strip_prefix("{\"number\":")?.trim_start_matches(|c: char| c.is_ascii_digit());
    let (written, rest) = rest.strip_prefix(",\"written\":\"")?.split_once('"')?;
    let rest = rest.strip_prefix(",\"writer\":")?;
    // The writer is a JSON text of its own, whatever stands in it.
    let mut values = serde_json::Deserializer::from_str(rest).into_iter::<String>();
    let writer = values.next()?.ok()?;
    let own = rest.get(values.byte_offset()..)?.strip_prefix(',')?;
    let origin = Origin { written: written.parse().ok()?, writer: writer.into() };
    Some((origin, format!("{{{own}")))
}

/// White space between tokens taken out; inside texts it stays. The text is known to be JSON.
fn one_line(text: &str) -> String {
    let (mut inside, mut escaped) = (false, false);
    text.chars()
        .filter(|c| {
            match (inside, escaped, c) {
                (true, true, _) => escaped = false,
                (true, false, '\\') => escaped = true,
                (_, false, '"') => inside = !inside,
                _ => {}
            }
            inside || !matches!(c, ' ' | '\n' | '\r' | '\t')
        })
        .collect()
}

fn not_json(error: &serde_json::Error) -> Refusal {
    let problem = Problem {
        key: "entry".to_owned(),
        found: error.to_string(),
        allowed: "a JSON object { id, at, kind, body }, or an array of such".to_owned(),
        nearest: None,
    };
    Refusal::Unreadable { problems: vec![problem] }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::example;

    #[test]
    fn what_the_writer_wrote_is_kept() {
        let text = "{ \"id\": \"019f28b5-5401-7000-8000-000000000001\",\n  \"at\": \"2026-07-06T08:00:00.000+02:00\",\n\
            \"kind\": \"temperature-read\", \"body\": { \"v\": 1, \"place\": \"the \\\"old\\\" chest\", \"at_f\": -2.90 } }";
        let written = Written::read(text).unwrap();
        let kept = "{\"id\":\"019f28b5-5401-7000-8000-000000000001\",\"at\":\"2026-07-06T08:00:00.000+02:00\",\
            \"kind\":\"temperature-read\",\"body\":{\"v\":1,\"place\":\"the \\\"old\\\" chest\",\"at_f\":-2.90}}";
        assert_eq!(written.text(), kept);
    }

    #[test]
    fn a_line_is_read_back_to_the_byte() {
        let moment = Timestamp::UNIX_EPOCH;
        for entry in example::entries() {
            let written = Written::from(entry);
            let line = written.line(7, moment, "the \"old\" phone, kitchen");
            let back = Written::read_line(&line).unwrap();
            assert_eq!(back.entry, written.entry);
            let origin = back.origin.clone().unwrap();
            assert_eq!(back.line(7, origin.written, &origin.writer), line);
        }
    }

    #[test]
    fn an_array_names_the_place_of_what_is_wrong() {
        let good = Written::from(example::entries().remove(0));
        let refusal = Written::read_all(&format!("[{}, {{\"id\": 7}}]", good.text())).unwrap_err();
        assert!(refusal.to_string().contains("[1].id: found 7"), "{refusal}");
        assert_eq!(Written::read_all(&format!("[{}]", good.text())).unwrap(), [good]);
        assert!(Written::read_all("[").is_err());
        assert_eq!(Written::read_all("[]"), Ok(vec![]));
    }
}
