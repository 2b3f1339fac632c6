//! The kitchen around the meat: temperatures, prices, settings; what is thrown away; what was written wrong.

use crate::read::{Field, Note, Price, Reader, Scalar, Writer, choice, object};
use quantity::{Currency, Mass, Temperature};
use serde_json::{Value, json};
use uuid::Uuid;

object! {
    /// Something was thrown away.
    Discarded {
        /// The pack, portion, heap or piece.
        what: "what" Uuid = ();
        /// Why.
        because: "because" String = 400;
        /// How much, if weighed.
        mass: "mass" Option<Mass> = (0.1, 200_000.0);
    }
}

object! {
    /// The temperature of a place was read.
    TemperatureRead {
        /// The place.
        place: "place" String = 60;
        /// What the thermometer showed.
        at: "at" Temperature = (-90.0, 400.0);
    }
}

choice! {
    /// In which form a price was asked.
    Where {
        /// The whole piece.
        Whole = "whole",
        /// Cut, at the counter.
        Counter = "counter",
    }
}

object! {
    /// A price was seen.
    PriceNoted {
        /// The cut, by its catalogue name.
        cut: "cut" String = 60;
        /// The price.
        price: "price" Price = ();
        /// Its currency.
        currency: "currency" Currency = ();
        /// Whole or cut.
        form: "where" Where = ();
        /// Whether it was a sale price.
        sale: "sale" Option<bool> = ();
    }
}

/// The value of a setting; [`SettingValue::Unset`] puts it back to what it was before anybody set it.
#[derive(Clone, Debug, PartialEq)]
pub enum SettingValue {
    /// A word or a sentence.
    Text(String),
    /// A number.
    Number(f64),
    /// Yes or no.
    Flag(bool),
    /// No longer set.
    Unset,
}

impl SettingValue {
    /// The value as JSON.
    #[must_use]
    pub fn to_value(&self) -> Value {
        match self {
            Self::Text(text) => text.json(),
            Self::Number(number) => number.json(),
            Self::Flag(flag) => flag.json(),
            Self::Unset => Value::Null,
        }
    }
}

impl Field for SettingValue {
    type Limits = ();
    fn read(reader: &mut Reader<'_>, stem: &str, (): &()) -> Option<Self> {
        let allowed = "text of 1 to 120 characters | a number | true | false | null";
        let value = match reader.take_even_null(stem) {
            Some(Value::Null) => return Some(Self::Unset),
            Some(value) => value,
            None => {
                reader.problem(stem, "nothing", allowed);
                return None;
            }
        };
        let read = String::parse(value, &120)
            .map(Self::Text)
            .or_else(|| f64::parse(value, &(-1e9, 1e9)).map(Self::Number))
            .or_else(|| value.as_bool().map(Self::Flag));
        if read.is_none() {
            reader.problem(stem, crate::read::shown(value), allowed);
        }
        read
    }
    fn write(&self, writer: &mut Writer, stem: &str) {
        writer.put(stem, self.to_value());
    }
    fn note(notes: &mut Vec<Note>, stem: &str, meaning: &'static str, (): &()) {
        let allowed = "text | a number | true | false | null, which unsets it".to_owned();
        let value = json!({ "type": ["string", "number", "boolean", "null"] });
        notes.push(Note::one_of(vec![stem.to_owned()], value, meaning, allowed));
    }
}

object! {
    /// A setting of the kitchen was changed.
    SettingChanged {
        /// Which setting, a dotted key.
        key: "key" String = 100;
        /// Its value.
        value: "value" SettingValue = ();
    }
}

/// A replacement body: read once the entry it corrects is known, since its kind is that entry's.
#[derive(Clone, Debug, PartialEq)]
pub struct Replacement(pub(crate) Value);

impl Replacement {
    /// A body to put in the place of the wrong one.
    #[must_use]
    pub fn new(body: &crate::Body) -> Self {
        Self(body.to_value())
    }

    /// The body as JSON.
    #[must_use]
    pub const fn value(&self) -> &Value {
        &self.0
    }
}

impl Scalar for Replacement {
    type Limits = ();
    fn parse(value: &Value, (): &()) -> Option<Self> {
        value.get("v").is_some().then(|| Self(value.clone()))
    }
    fn allowed((): &()) -> String {
        "a whole body of the kind that is corrected, with its \"v\"; left out, the entry is taken back"
            .to_owned()
    }
    fn schema((): &()) -> Value {
        json!({ "type": "object", "required": ["v"] })
    }
    fn json(&self) -> Value {
        self.0.clone()
    }
}

object! {
    /// An earlier entry was wrong. With a body it counts as if that body had stood there from the start; without one, as
    /// if it had never been written. The latest correction of an entry holds.
    Corrected {
        /// The entry that was wrong.
        entry: "entry" Uuid = ();
        /// Why.
        because: "because" String = 400;
        /// What should have stood there.
        body: "body" Option<Replacement> = ();
    }
}
