//! Values that stand at one key of one name.

use super::reader::shown;
use crate::At;
use jiff::civil::Date;
use quantity::Currency;
use rust_decimal::Decimal;
use serde_json::{Value, json};
use uuid::Uuid;

/// A value of one key, with what is allowed there.
pub(crate) trait Scalar: Sized {
    /// What narrows it: a range, a length, nothing.
    type Limits;
    fn parse(value: &Value, limits: &Self::Limits) -> Option<Self>;
    fn allowed(limits: &Self::Limits) -> String;
    fn json(&self) -> Value;
    /// The value as JSON Schema has it.
    fn schema(limits: &Self::Limits) -> Value;
    /// The fixed words it may be, for the nearest one.
    fn words() -> &'static [&'static str] {
        &[]
    }
    /// What to call what was found.
    fn found(value: &Value) -> String {
        shown(value)
    }
}

impl Scalar for String {
    /// The most characters it may have.
    type Limits = usize;
    fn parse(value: &Value, most: &usize) -> Option<Self> {
        let text = value.as_str()?.trim();
        let fits = !text.is_empty() && text.chars().count() <= *most && !text.chars().any(char::is_control);
        fits.then(|| text.to_owned())
    }
    fn allowed(most: &usize) -> String {
        format!("1 to {most} characters on one line")
    }
    fn schema(_most: &usize) -> Value {
        // Text is read without the spaces around it: of those there may be more.
        json!({ "type": "string", "minLength": 1 })
    }
    fn json(&self) -> Value {
        self.as_str().into()
    }
}

impl Scalar for bool {
    type Limits = ();
    fn parse(value: &Value, (): &()) -> Option<Self> {
        value.as_bool()
    }
    fn allowed((): &()) -> String {
        "true | false".to_owned()
    }
    fn schema((): &()) -> Value {
        json!({ "type": "boolean" })
    }
    fn json(&self) -> Value {
        (*self).into()
    }
}

impl Scalar for u32 {
    /// Smallest and largest.
    type Limits = (u32, u32);
    fn parse(value: &Value, (least, most): &(u32, u32)) -> Option<Self> {
        // 3.0 is three: some writers have only one kind of number.
        let whole = value.as_u64().or_else(|| {
            let number = value.as_f64()?;
            (number.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(&number)).then_some(number as u64)
        })?;
        u32::try_from(whole).ok().filter(|number| (least..=most).contains(&number))
    }
    fn allowed((least, most): &(u32, u32)) -> String {
        format!("a whole number from {least} to {most}")
    }
    fn schema((least, most): &(u32, u32)) -> Value {
        json!({ "type": "integer", "minimum": least, "maximum": most })
    }
    fn json(&self) -> Value {
        (*self).into()
    }
}

impl Scalar for f64 {
    /// Smallest and largest.
    type Limits = (f64, f64);
    fn parse(value: &Value, (least, most): &(f64, f64)) -> Option<Self> {
        value.as_f64().filter(|number| (least..=most).contains(&number))
    }
    fn allowed((least, most): &(f64, f64)) -> String {
        format!("a number from {least} to {most}")
    }
    fn schema((least, most): &(f64, f64)) -> Value {
        json!({ "type": "number", "minimum": number(*least), "maximum": number(*most) })
    }
    fn json(&self) -> Value {
        number(*self)
    }
}

impl Scalar for Uuid {
    type Limits = ();
    fn parse(value: &Value, (): &()) -> Option<Self> {
        value.as_str().and_then(|text| Uuid::try_parse(text).ok())
    }
    fn allowed((): &()) -> String {
        "the id of an entry (a UUID)".to_owned()
    }
    fn schema((): &()) -> Value {
        json!({ "type": "string", "format": "uuid" })
    }
    fn json(&self) -> Value {
        self.hyphenated().to_string().into()
    }
}

impl Scalar for Date {
    type Limits = ();
    fn parse(value: &Value, (): &()) -> Option<Self> {
        let text = value.as_str()?;
        text.parse::<Date>().ok().filter(|day| text.len() == 10 && day.year() >= 1900)
    }
    fn allowed((): &()) -> String {
        "a day, as \"2026-07-18\"".to_owned()
    }
    fn schema((): &()) -> Value {
        json!({ "type": "string", "format": "date" })
    }
    fn json(&self) -> Value {
        self.to_string().into()
    }
}

impl Scalar for At {
    type Limits = ();
    fn parse(value: &Value, (): &()) -> Option<Self> {
        value.as_str().and_then(At::read)
    }
    fn allowed((): &()) -> String {
        "a moment with its offset (RFC 3339), as \"2026-07-18T19:30:00+02:00\"".to_owned()
    }
    fn schema((): &()) -> Value {
        json!({ "type": "string", "format": "date-time" })
    }
    fn json(&self) -> Value {
        self.to_string().into()
    }
}

impl Scalar for Decimal {
    type Limits = ();
    fn parse(value: &Value, (): &()) -> Option<Self> {
        let amount = Decimal::from_str_exact(value.as_str()?).ok()?;
        let fits = amount >= Decimal::ZERO && amount <= Decimal::from(1_000_000);
        fits.then_some(amount)
    }
    fn allowed((): &()) -> String {
        "an amount as a decimal string from 0 to 1000000, as \"24.90\"".to_owned()
    }
    fn schema((): &()) -> Value {
        json!({ "type": "string", "pattern": "^[0-9]+([.][0-9]+)?$" })
    }
    fn json(&self) -> Value {
        self.to_string().into()
    }
}

impl Scalar for Currency {
    type Limits = ();
    fn parse(value: &Value, (): &()) -> Option<Self> {
        value.as_str().and_then(|code| Currency::new(code).ok())
    }
    fn allowed((): &()) -> String {
        "a three-letter currency code (ISO 4217), as \"EUR\"".to_owned()
    }
    fn schema((): &()) -> Value {
        json!({ "type": "string", "pattern": "^[A-Za-z]{3}$" })
    }
    fn json(&self) -> Value {
        self.code().into()
    }
}

/// A number as JSON; whole numbers without a point, as people write grams.
pub(crate) fn number(value: f64) -> Value {
    // 2^53: above it neighbouring f64 are more than one apart.
    if value.fract() == 0.0 && value.abs() < 9_007_199_254_740_992.0 {
        (value as i64).into()
    } else {
        serde_json::Number::from_f64(value).map_or(Value::Null, Value::Number)
    }
}
