//! JSON in which a key stands once.

use serde_json::{Map, Number, Value, de::Deserializer};
use std::fmt;

use serde::de::{Deserialize, DeserializeSeed, Error as _, MapAccess, SeqAccess, Visitor};

/// Reads one JSON value and refuses a key given twice, which the usual reader silently overwrites.
///
/// # Errors
/// The reader's own message with line and column.
pub fn parse(text: &str) -> Result<Value, serde_json::Error> {
    let mut reader = Deserializer::from_str(text);
    let value = Once.deserialize(&mut reader)?;
    reader.end()?;
    Ok(value)
}

#[derive(Clone, Copy)]
struct Once;

impl<'de> DeserializeSeed<'de> for Once {
    type Value = Value;
    fn deserialize<D: serde::Deserializer<'de>>(self, reader: D) -> Result<Value, D::Error> {
        reader.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Once {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }
    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }
    fn visit_bool<E>(self, value: bool) -> Result<Value, E> {
        Ok(Value::Bool(value))
    }
    fn visit_i64<E>(self, value: i64) -> Result<Value, E> {
        Ok(value.into())
    }
    fn visit_u64<E>(self, value: u64) -> Result<Value, E> {
        Ok(value.into())
    }
    fn visit_f64<E>(self, value: f64) -> Result<Value, E> {
        Ok(Number::from_f64(value).map_or(Value::Null, Value::Number))
    }
    fn visit_str<E>(self, value: &str) -> Result<Value, E> {
        Ok(Value::String(value.to_owned()))
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Value, A::Error> {
        let mut values = Vec::new();
        while let Some(value) = list.next_element_seed(Once)? {
            values.push(value);
        }
        Ok(Value::Array(values))
    }
    fn visit_map<A: MapAccess<'de>>(self, mut pairs: A) -> Result<Value, A::Error> {
        let mut map = Map::new();
        while let Some(Key(key)) = pairs.next_key()? {
            if map.contains_key(&key) {
                return Err(A::Error::custom(format!("the key \"{key}\" stands here twice")));
            }
            let value = pairs.next_value_seed(Once)?;
            map.insert(key, value);
        }
        Ok(Value::Object(map))
    }
}

struct Key(String);

impl<'de> Deserialize<'de> for Key {
    fn deserialize<D: serde::Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        String::deserialize(reader).map(Key)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_what_the_usual_reader_reads() {
        let text = r#"{"a":[1,-2,3.5,null,true,"x\n"],"b":{"c":1e3}}"#;
        assert_eq!(parse(text).unwrap(), serde_json::from_str::<Value>(text).unwrap());
    }

    #[test]
    fn a_key_given_twice_is_refused() {
        let error = parse(r#"{"mass_g":380,"mass_g":308}"#).unwrap_err();
        assert!(error.to_string().contains("\"mass_g\" stands here twice"), "{error}");
        assert!(parse(r#"{"a":1} {"b":2}"#).is_err());
        assert!(parse(r#"{"a":1e999}"#).is_err());
    }
}
