//! One example entry of every kind, in an order in which all are accepted: the contract of the record in a page.

use crate::{Entry, Kind, Note};
use serde_json::{Map, Value, json};
use uuid::Uuid;

/// The example entries, a short season of one piece: every kind is there once, some twice.
///
/// Ids and hours are fixed, so that the text is the same each time it is printed; a writer makes its own.
#[must_use]
pub fn entries() -> Vec<Entry> {
    // The values below are read by the same reader as anybody's; a test holds that none is refused.
    values().iter().filter_map(|value| Entry::read(value).ok()).collect()
}

/// The example entry of one kind, with the entries before it that it stands on.
#[must_use]
pub fn up_to(kind: Kind) -> Vec<Entry> {
    let entries = entries();
    let last = entries.iter().position(|entry| entry.kind() == kind).map_or(0, |place| place + 1);
    entries.into_iter().take(last).collect()
}

/// The example entries as a form: TOML, `[[entry]]` by `[[entry]]`, with what each key means and may be beside it.
#[must_use]
pub fn form() -> String {
    let mut text = String::from(HEAD);
    for value in values() {
        let Ok(entry) = Entry::read(&value) else { continue };
        let kind = entry.kind();
        text.push_str(&format!("\n[[entry]] # {}\n", kind.meaning()));
        for key in ["id", "at", "kind"] {
            text.push_str(&format!("{key} = {}\n", value[key]));
        }
        text.push_str("[entry.body]\nv = 1\n");
        let mut notes = kind.notes();
        if let Value::Object(body) = &value["body"] {
            write_table(&mut text, body, &mut notes);
        }
    }
    text
}

const HEAD: &str = "\
# One example of every kind of entry. An entry is { id, at, kind, body }:
#   id    a UUID of version 7 that the writer makes; sent twice, it counts once
#   at    when it happened, RFC 3339 with its offset
#   body  v = 1 and the keys of its kind; wherever _g, _mm, _c or _per_kg stands, _kg _oz _lb, _cm _in, _f or _per_lb may
# piece, portion, part, pack and supper are ids of the entries that made them.
# Keys that may be left out are marked so; those with no example stand commented out.
";

/// Writes the keys that are there with their meaning, then those that could be.
fn write_table(text: &mut String, body: &Map<String, Value>, notes: &mut Vec<Note>) {
    for (key, value) in body.iter().filter(|(key, _)| *key != "v") {
        let place = notes.iter().position(|note| note.keys.contains(key));
        let comment = place.map(|place| comment(&notes.remove(place))).unwrap_or_default();
        text.push_str(&format!("{key} = {} # {comment}\n", toml(value)));
    }
    for note in notes.iter() {
        if let Some(key) = note.keys.first() {
            text.push_str(&format!("# {key} = … # {}\n", comment(note)));
        }
    }
}

fn comment(note: &Note) -> String {
    let optional = if note.optional { "; may be left out" } else { "" };
    let inside: Vec<String> = note
        .inside
        .iter()
        .filter_map(|note| {
            let key = note.keys.first()?;
            Some(if note.optional { format!("{key}?") } else { key.clone() })
        })
        .collect();
    let keys = if inside.is_empty() { note.allowed.clone() } else { inside.join(", ") };
    format!("{} ({keys}{optional})", note.meaning.trim_end_matches('.'))
}

/// A JSON value as TOML on one line.
fn toml(value: &Value) -> String {
    match value {
        Value::Array(list) => format!("[{}]", list.iter().map(toml).collect::<Vec<_>>().join(", ")),
        Value::Object(map) => {
            let pairs: Vec<String> =
                map.iter().map(|(key, value)| format!("{key} = {}", toml(value))).collect();
            format!("{{ {} }}", pairs.join(", "))
        }
        other => other.to_string(),
    }
}

/// The example entries as JSON objects.
#[must_use]
pub fn values() -> Vec<Value> {
    let mut season = Season { entries: Vec::new() };
    let piece = season.write(
        "2026-07-03T18:20:00+02:00",
        Kind::PieceReceived,
        json!({
            "v": 1, "cut": "beef-ribeye-roll", "mass_g": 6400, "price_per_kg": "24.90", "currency": "EUR",
            "counter_price_per_kg": "38.50", "word": "TARN", "trim": "as-packed", "lip": "on",
            "date": {"kind": "pack", "day": "2026-06-24"}, "core_c": 3.1, "place": "fridge",
        }),
    );
    season.write("2026-07-04T08:40:00+02:00", Kind::PieceMeasured, json!({
        "v": 1, "piece": piece, "purge_g": 46, "length_mm": 452, "slant_first_mm": 8, "slant_last_mm": 20,
        "core_c": 3.4, "station": [{"at_mm": 200, "width_mm": 190, "height_mm": 84}], "from_end": "chuck end",
    }));
    season.write("2026-07-04T08:55:00+02:00", Kind::KnifePlanned, json!({
        "v": 1, "piece": piece,
        "want": [{"name": "guests", "count": 2, "portion_g": 380, "tolerance": 15, "from": "any", "twins": true}],
        "ends": {"first_mm": 10, "last_mm": 22}, "limits": {"thinnest_mm": 20, "thickest_mm": 45},
        "knife_mm": 0, "marks_mm": [0, 10, 40, 70, 452],
    }));
    let first = season.write("2026-07-04T09:12:00+02:00", Kind::PortionWeighed, json!({
        "v": 1, "piece": piece, "n": 1, "mass_g": 384, "from_mm": 10, "to_mm": 40, "want": "guests", "twin": 2,
    }));
    let second = season.write("2026-07-04T09:13:00+02:00", Kind::PortionWeighed, json!({
        "v": 1, "piece": piece, "n": 2, "mass_g": 376, "from_mm": 40, "to_mm": 70, "thickness_mm": 30, "twin": 1,
    }));
    let trim = season.write("2026-07-04T09:40:00+02:00", Kind::PartWeighed, json!({
        "v": 1, "piece": piece, "part": "lean-trim", "mass_g": 438, "use": "keep", "value_per_kg": "11.80",
    }));
    let pair = season.write("2026-07-04T10:05:00+02:00", Kind::PackSealed, json!({
        "v": 1, "portions": [first, second], "with_bag_g": 776, "bag_g": 16, "wrap": "vacuum", "sealed": 2,
        "bag_lot": "B-12", "salted": false, "place": "fridge",
    }));
    let heap = season.write(
        "2026-07-04T10:09:00+02:00",
        Kind::PackSealed,
        json!({
            "v": 1, "part": trim, "mass_g": 438, "wrap": "vacuum", "sealed": 1,
        }),
    );
    season.write(
        "2026-07-05T20:30:00+02:00",
        Kind::Moved,
        json!({
            "v": 1, "what": pair, "place": "cellar chest", "where": "right basket", "frozen": true,
        }),
    );
    season.write(
        "2026-07-06T08:00:00+02:00",
        Kind::TemperatureRead,
        json!({
            "v": 1, "place": "cellar chest", "at_c": -19.4,
        }),
    );
    season.write(
        "2026-07-11T10:15:00+02:00",
        Kind::PriceNoted,
        json!({
            "v": 1, "cut": "beef-ribeye-roll", "price_per_kg": "38.50", "currency": "EUR", "where": "counter",
            "sale": false,
        }),
    );
    season.write(
        "2026-07-12T18:40:00+02:00",
        Kind::Counted,
        json!({
            "v": 1, "place": "cellar chest", "here": [pair], "missing": [heap],
        }),
    );
    season.write(
        "2026-07-12T18:44:00+02:00",
        Kind::LeakerFound,
        json!({
            "v": 1, "pack": pair, "note": "no vacuum at the corner",
        }),
    );
    season.write(
        "2026-07-12T19:00:00+02:00",
        Kind::Discarded,
        json!({
            "v": 1, "what": heap, "because": "found in the fridge after eight days", "mass_g": 438,
        }),
    );
    season.write(
        "2026-07-16T21:00:00+02:00",
        Kind::SettingChanged,
        json!({
            "v": 1, "key": "supper.chance", "value": 0.9,
        }),
    );
    let supper = season.write("2026-07-16T21:10:00+02:00", Kind::SupperPlanned, json!({
        "v": 1, "day": "2026-07-18", "serve": {"at": "2026-07-18T19:30:00+02:00", "within_min": 6},
        "seat": [{"name": "stroke", "doneness": "medium rare", "portion": first}, {"name": "cox", "core_c": 60}],
        "portions": [first, second],
        "equipment": [{"name": "oven", "kind": "oven", "medium": "fan-oven", "medium_c": 110, "places": 12},
                      {"name": "pan", "kind": "pan", "medium": "pan", "medium_c": 230, "area_cm2": 600}],
        "route": "low-then-sear", "chance": 0.9,
    }));
    season.write(
        "2026-07-17T19:50:00+02:00",
        Kind::TakenOut,
        json!({
            "v": 1, "packs": [pair], "place": "fridge", "method": "fridge", "place_c": 4,
        }),
    );
    season.write(
        "2026-07-18T13:00:00+02:00",
        Kind::Salted,
        json!({
            "v": 1, "portions": [first, second], "salt_g": 5.3, "crystal": "flake",
        }),
    );
    season.write(
        "2026-07-18T18:22:00+02:00",
        Kind::PutOn,
        json!({
            "v": 1, "portions": [first, second], "on": "oven", "medium": "fan-oven", "medium_c": 110,
        }),
    );
    season.write(
        "2026-07-18T18:58:00+02:00",
        Kind::ProbeRead,
        json!({
            "v": 1, "portion": first, "core_c": 43.5, "surface_c": 61,
        }),
    );
    season.write(
        "2026-07-18T19:11:00+02:00",
        Kind::Pulled,
        json!({
            "v": 1, "portions": [first, second], "core_c": 48.2,
        }),
    );
    let served = season.write(
        "2026-07-18T19:31:00+02:00",
        Kind::Served,
        json!({
            "v": 1, "portion": first, "supper": supper, "outcome": "eaten", "core_c": 53.5, "peak_c": 54,
            "doneness": "medium rare", "note": "even to the edge",
        }),
    );
    season.write(
        "2026-07-18T22:00:00+02:00",
        Kind::Corrected,
        json!({
            "v": 1, "entry": served, "because": "it was left over",
            "body": {"v": 1, "portion": first, "supper": supper, "outcome": "spare", "core_c": 53.5},
        }),
    );
    season.entries
}

/// Collects entries and gives out their ids.
struct Season {
    entries: Vec<Value>,
}

impl Season {
    fn write(&mut self, at: &str, kind: Kind, body: Value) -> String {
        let id = example_id(self.entries.len() as u64 + 1);
        self.entries.push(json!({"id": id, "at": at, "kind": kind.word(), "body": body}));
        id
    }
}

/// A UUIDv7 of a fixed moment whose random part is a count.
fn example_id(count: u64) -> String {
    const JULY_2026_MS: u64 = 1_783_094_400_000;
    let time = u128::from(JULY_2026_MS + count) << 80;
    let version_and_variant = (0x7_u128 << 76) | (0b10_u128 << 62);
    Uuid::from_u128(time | version_and_variant | u128::from(count)).hyphenated().to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{State, Stored};
    use std::collections::BTreeSet;
    use std::sync::Arc;

    #[test]
    fn every_kind_has_an_example_and_all_are_accepted_in_order() {
        let mut state = State::default();
        let mut kinds = BTreeSet::new();
        for (place, value) in values().iter().enumerate() {
            let entry = Entry::read(value).unwrap_or_else(|problems| panic!("{value}: {problems:?}"));
            kinds.insert(entry.kind());
            let number = place as u64 + 1;
            let stored = Stored {
                written: entry.at.timestamp(),
                writer: Arc::from("board"),
                hash: [0; 32],
                entry,
                number,
            };
            state.take(stored).unwrap_or_else(|refusal| panic!("{value}: {refusal}"));
        }
        assert!(kinds.iter().eq(Kind::ALL), "{kinds:?}");
        assert_eq!(state.contradictions(), []);
    }

    #[test]
    fn what_is_written_is_what_was_read() {
        for value in values() {
            let entry = Entry::read(&value).unwrap();
            assert_eq!(Entry::read(&entry.to_value()), Ok(entry));
        }
    }

    #[test]
    fn the_form_is_toml_of_the_same_entries() {
        let form: toml::Table = form().parse().unwrap_or_else(|error| panic!("{error}"));
        let entries = form["entry"].as_array().unwrap();
        assert_eq!(entries.len(), values().len());
        for (written, value) in entries.iter().zip(values()) {
            let read = Entry::read(&serde_json::to_value(written).unwrap());
            assert_eq!(read, Entry::read(&value));
        }
    }

    #[test]
    fn the_form_reads_so() {
        insta::assert_snapshot!(form());
    }
}
