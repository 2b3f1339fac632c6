//! Fields that may stand under one of several keys: a price per kilo or per pound, one of two ways to say a thing.

use super::field::Field;
use super::reader::{Note, Reader, Writer, shown};
use super::scalar::Scalar;
use quantity::Length;
use rust_decimal::Decimal;
use serde_json::{Value, json};

/// A price of one kilogram, exact; read as `price_per_kg` or `price_per_lb`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Price(Decimal);

impl Price {
    /// Kilograms in a pound, exact by definition (international yard and pound, 1959).
    const KG_PER_LB: Decimal = Decimal::from_parts(45_359_237, 0, 0, false, 8);

    /// A price by the kilogram.
    #[must_use]
    pub const fn from_per_kg(amount: Decimal) -> Self {
        Self(amount)
    }

    /// A price by the pound.
    #[must_use]
    pub fn from_per_lb(amount: Decimal) -> Self {
        Self(amount / Self::KG_PER_LB)
    }

    /// What a kilogram costs.
    #[must_use]
    pub const fn per_kg(self) -> Decimal {
        self.0
    }

    /// What a pound costs.
    #[must_use]
    pub fn per_lb(self) -> Decimal {
        self.0 * Self::KG_PER_LB
    }
}

impl Field for Price {
    type Limits = ();
    fn read(reader: &mut Reader<'_>, stem: &str, (): &()) -> Option<Self> {
        let [kilo, pound] = [format!("{stem}_per_kg"), format!("{stem}_per_lb")];
        match one_of(reader, [&kilo, &pound])? {
            (0, value) => amount(reader, &kilo, value).map(Self::from_per_kg),
            (_, value) => amount(reader, &pound, value).map(Self::from_per_lb),
        }
    }
    fn write(&self, writer: &mut Writer, stem: &str) {
        writer.put(&format!("{stem}_per_kg"), self.0.json());
    }
    fn note(notes: &mut Vec<Note>, stem: &str, meaning: &'static str, (): &()) {
        notes.push(Note::one_of(Self::keys(stem), Decimal::schema(&()), meaning, Decimal::allowed(&())));
    }
    fn keys(stem: &str) -> Vec<String> {
        vec![format!("{stem}_per_kg"), format!("{stem}_per_lb")]
    }
}

/// Millimetres along a piece, read as `marks_mm` or `marks_in`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Marks(pub Vec<Length>);

impl Field for Marks {
    /// The farthest mark, in mm.
    type Limits = f64;
    fn read(reader: &mut Reader<'_>, stem: &str, farthest: &f64) -> Option<Self> {
        let [millimetres, inches] = [format!("{stem}_mm"), format!("{stem}_in")];
        let allowed = format!("a list of 2 to 500 numbers from 0 to {farthest} mm, rising");
        let (place, value) = one_of(reader, [&millimetres, &inches])?;
        let (key, unit): (_, fn(f64) -> Length) =
            if place == 0 { (millimetres, Length::from_mm) } else { (inches, Length::from_inch) };
        let marks: Option<Vec<Length>> = value
            .as_array()
            .filter(|list| (2..=500).contains(&list.len()))
            .and_then(|list| list.iter().map(|mark| mark.as_f64().map(unit)).collect());
        let sound = marks.filter(|marks| {
            marks.iter().all(|mark| (0.0..=*farthest).contains(&mark.mm())) && marks.is_sorted()
        });
        if sound.is_none() {
            reader.problem(&key, shown(value), allowed);
        }
        sound.map(Self)
    }
    fn write(&self, writer: &mut Writer, stem: &str) {
        let numbers = self.0.iter().map(|mark| super::field::nine(mark.mm())).collect();
        writer.put(&format!("{stem}_mm"), Value::Array(numbers));
    }
    fn note(notes: &mut Vec<Note>, stem: &str, meaning: &'static str, farthest: &f64) {
        let allowed = format!("numbers from 0 to {farthest} mm, rising");
        let number = json!({ "type": "number", "minimum": 0 });
        let value = json!({ "type": "array", "minItems": 2, "maxItems": 500, "items": number });
        notes.push(Note { list: true, ..Note::one_of(Self::keys(stem), value, meaning, allowed) });
    }
    fn keys(stem: &str) -> Vec<String> {
        vec![format!("{stem}_mm"), format!("{stem}_in")]
    }
}

/// The value of the one key that is there, with its place; a problem where none is or more than one.
pub(crate) fn one_of<'a, const N: usize>(
    reader: &mut Reader<'a>,
    keys: [&str; N],
) -> Option<(usize, &'a Value)> {
    let mut there = keys.iter().enumerate().filter_map(|(place, key)| Some((place, reader.take(key)?)));
    let (first, second) = (there.next(), there.next());
    // The rest are asked for too, so that none of them counts as unknown.
    there.for_each(drop);
    let allowed = || format!("one of {}", keys.join(", "));
    match (first, second) {
        (Some(found), None) => Some(found),
        (Some((one, _)), Some((other, _))) => {
            reader.problem(keys[other], format!("it beside {}", keys[one]), allowed());
            None
        }
        (None, _) => {
            reader.problem(keys[0], "nothing", allowed());
            None
        }
    }
}

/// A decimal amount at a key.
pub(crate) fn amount(reader: &mut Reader<'_>, key: &str, value: &Value) -> Option<Decimal> {
    let amount = Decimal::parse(value, &());
    if amount.is_none() {
        reader.problem(key, shown(value), Decimal::allowed(&()));
    }
    amount
}
