//! Fields: a value under one name or under the names its units give it, there or left out, one or many.

use super::reader::{Note, Problem, Reader, Writer, nearest};
use super::scalar::{Scalar, number};
use quantity::{Length, Mass, Temperature};
use serde_json::{Value, json};

/// Something a body holds under a key stem.
pub(crate) trait Field: Sized {
    type Limits;
    /// Reads it; nothing if it is wrong or missing, and then a problem says so.
    fn read(reader: &mut Reader<'_>, stem: &str, limits: &Self::Limits) -> Option<Self>;
    fn write(&self, writer: &mut Writer, stem: &str);
    fn note(notes: &mut Vec<Note>, stem: &str, meaning: &'static str, limits: &Self::Limits);
    /// Every key it may stand under.
    fn keys(stem: &str) -> Vec<String> {
        vec![stem.to_owned()]
    }
}

/// Something a list holds.
pub(crate) trait Item: Sized {
    type Limits;
    fn item(value: &Value, path: &str, limits: &Self::Limits, problems: &mut Vec<Problem>) -> Option<Self>;
    fn json(&self) -> Value;
    fn allowed(limits: &Self::Limits) -> String;
    fn item_notes(_notes: &mut Vec<Note>) {}
    fn item_schema(limits: &Self::Limits) -> Value;
}

impl<T: Scalar> Item for T {
    type Limits = T::Limits;
    fn item(value: &Value, path: &str, limits: &T::Limits, problems: &mut Vec<Problem>) -> Option<Self> {
        let parsed = T::parse(value, limits);
        if parsed.is_none() {
            let near = value.as_str().and_then(|word| nearest(word, T::words().iter().copied()));
            problems.push(Problem {
                key: path.to_owned(),
                found: T::found(value),
                allowed: T::allowed(limits),
                nearest: near.map(str::to_owned),
            });
        }
        parsed
    }
    fn json(&self) -> Value {
        Scalar::json(self)
    }
    fn allowed(limits: &T::Limits) -> String {
        <T as Scalar>::allowed(limits)
    }
    fn item_schema(limits: &T::Limits) -> Value {
        T::schema(limits)
    }
}

impl<T: Item> Field for T {
    type Limits = T::Limits;
    fn read(reader: &mut Reader<'_>, stem: &str, limits: &T::Limits) -> Option<Self> {
        let path = reader.path(stem);
        match reader.take(stem) {
            Some(value) => T::item(value, &path, limits, reader.problems()),
            None => {
                reader.problem(stem, "nothing", T::allowed(limits));
                None
            }
        }
    }
    fn write(&self, writer: &mut Writer, stem: &str) {
        writer.put(stem, self.json());
    }
    fn note(notes: &mut Vec<Note>, stem: &str, meaning: &'static str, limits: &T::Limits) {
        let mut inside = Vec::new();
        T::item_notes(&mut inside);
        let allowed = T::allowed(limits);
        let keys = vec![stem.to_owned()];
        notes.push(Note { inside, ..Note::one_of(keys, T::item_schema(limits), meaning, allowed) });
    }
}

impl<T: Field> Field for Option<T> {
    type Limits = T::Limits;
    fn read(reader: &mut Reader<'_>, stem: &str, limits: &T::Limits) -> Option<Self> {
        let keys = T::keys(stem);
        if reader.has_any(keys.iter().map(String::as_str)) {
            return T::read(reader, stem, limits).map(Some);
        }
        for key in keys {
            reader.take(&key);
        }
        Some(None)
    }
    fn write(&self, writer: &mut Writer, stem: &str) {
        if let Some(value) = self {
            value.write(writer, stem);
        }
    }
    fn note(notes: &mut Vec<Note>, stem: &str, meaning: &'static str, limits: &T::Limits) {
        let from = notes.len();
        T::note(notes, stem, meaning, limits);
        for note in notes.iter_mut().skip(from) {
            note.optional = true;
        }
    }
    fn keys(stem: &str) -> Vec<String> {
        T::keys(stem)
    }
}

impl<T: Item> Field for Vec<T> {
    /// Fewest, most, and what narrows each.
    type Limits = (usize, usize, T::Limits);
    fn read(reader: &mut Reader<'_>, stem: &str, (least, most, limits): &Self::Limits) -> Option<Self> {
        let path = reader.path(stem);
        let allowed = || format!("a list of {least} to {most}, each {}", T::allowed(limits));
        let list = match reader.take(stem) {
            Some(Value::Array(list)) => list,
            Some(other) => {
                let found = super::reader::shown(other);
                reader.problem(stem, found, allowed());
                return None;
            }
            None if *least == 0 => return Some(Vec::new()),
            None => {
                reader.problem(stem, "nothing", allowed());
                return None;
            }
        };
        if !(*least..=*most).contains(&list.len()) {
            reader.problem(stem, format!("a list of {}", list.len()), allowed());
            return None;
        }
        let items: Vec<Option<T>> = list
            .iter()
            .enumerate()
            .map(|(place, value)| T::item(value, &format!("{path}[{place}]"), limits, reader.problems()))
            .collect();
        items.into_iter().collect()
    }
    fn write(&self, writer: &mut Writer, stem: &str) {
        if !self.is_empty() {
            writer.put(stem, Value::Array(self.iter().map(Item::json).collect()));
        }
    }
    fn note(notes: &mut Vec<Note>, stem: &str, meaning: &'static str, (least, most, limits): &Self::Limits) {
        let mut inside = Vec::new();
        T::item_notes(&mut inside);
        let value = json!({
            "type": "array", "minItems": least, "maxItems": most, "items": T::item_schema(limits),
        });
        let one = Note::one_of(vec![stem.to_owned()], value, meaning, T::allowed(limits));
        notes.push(Note { optional: *least == 0, list: true, inside, ..one });
    }
}

/// A quantity: one number under the name of one of its units.
macro_rules! in_units {
    ($type:ty, $first:literal, $get:ident, $make:ident, [$(($suffix:literal, $from:ident, $in:ident)),+]) => {
        impl Field for $type {
            /// Smallest and largest, in the first unit.
            type Limits = (f64, f64);
            fn read(reader: &mut Reader<'_>, stem: &str, limits: &(f64, f64)) -> Option<Self> {
                let mut found: Option<(String, Self)> = None;
                let mut sound = true;
                let first_key = format!("{stem}{}", $first);
                let allowed = format!("{} to {}{}", limits.0, limits.1, $first.replace('_', " "));
                $({
                    let key = format!("{stem}{}", $suffix);
                    if let Some(value) = reader.take(&key) {
                        let read = value.as_f64().map(<$type>::$from);
                        // The limit is rounded a little outward, so that 1000 mm may be written 39.37 in.
                        let fits = read.filter(|q| {
                            let number = q.$get();
                            number.is_finite() && number >= limits.0 - 1e-3 * limits.0.abs()
                                && number <= limits.1 + 1e-3 * limits.1.abs()
                        });
                        match (fits, &found) {
                            (None, _) => {
                                reader.problem(&key, super::reader::shown(value), allowed.as_str());
                                sound = false;
                            }
                            (Some(_), Some((other, _))) => {
                                let said = format!("the same quantity as {other}");
                                reader.problem(&key, said, format!("one of {other}, {key}"));
                                sound = false;
                            }
                            (Some(quantity), None) => found = Some((key, quantity)),
                        }
                    }
                })+
                if sound && found.is_none() {
                    reader.problem(&first_key, "nothing", allowed);
                }
                found.filter(|_| sound).map(|(_, quantity)| quantity)
            }
            fn write(&self, writer: &mut Writer, stem: &str) {
                writer.put(&format!("{stem}{}", $first), nine(self.$get()));
            }
            fn note(notes: &mut Vec<Note>, stem: &str, meaning: &'static str, limits: &(f64, f64)) {
                let allowed = format!("{} to {}{}", limits.0, limits.1, $first.replace('_', " "));
                // Rounded a little outward, as by the reader.
                let least = <$type>::$make(limits.0 - 1e-3 * limits.0.abs());
                let most = <$type>::$make(limits.1 + 1e-3 * limits.1.abs());
                let values = vec![$(json!({
                    "type": "number", "minimum": nine(least.$in()), "maximum": nine(most.$in()),
                })),+];
                notes.push(Note { values, ..Note::one_of(Self::keys(stem), Value::Null, meaning, allowed) });
            }
            fn keys(stem: &str) -> Vec<String> {
                vec![$(format!("{stem}{}", $suffix)),+]
            }
        }
    };
}

in_units!(
    Mass,
    "_g",
    g,
    from_g,
    [("_g", from_g, g), ("_kg", from_kg, kg), ("_oz", from_oz, oz), ("_lb", from_lb, lb)]
);
in_units!(Length, "_mm", mm, from_mm, [("_mm", from_mm, mm), ("_cm", from_cm, cm), ("_in", from_inch, inch)]);
in_units!(Temperature, "_c", c, from_c, [("_c", from_c, c), ("_f", from_f, f)]);

/// Nine digits after the point: below any instrument, above the rounding of a conversion.
pub(super) fn nine(value: f64) -> Value {
    number((value * 1e9).round() / 1e9)
}
