//! Reading what people type: "6.4 kg", "1 1/2 in", "14.11 lb", "131 °F", or a bare number in the field's own unit.

use crate::{Length, LengthUnit, Mass, MassUnit, Temperature, TemperatureUnit};
use thiserror::Error;

/// Why a typed quantity could not be read.
#[derive(Debug, Error, PartialEq, Eq)]
pub enum ReadError {
    /// There is no number in it.
    #[error("\"{found}\" is not a number; write digits, as in {example}")]
    NotANumber {
        /// What was typed.
        found: String,
        /// A form that would be read.
        example: &'static str,
    },
    /// The number is followed by a unit this field does not take.
    #[error("\"{unit}\" is not a unit of this field; allowed: {allowed}")]
    UnknownUnit {
        /// What stood after the number.
        unit: String,
        /// The units that are read.
        allowed: &'static str,
    },
}

/// Reads a mass; a bare number is in `unit`.
///
/// # Errors
/// [`ReadError`] if there is no number or its unit is none of g, kg, oz, lb.
pub fn read_mass(text: &str, unit: MassUnit) -> Result<Mass, ReadError> {
    let (number, written) = split(text, "6.4 kg")?;
    Ok(match (written.as_str(), unit) {
        ("g" | "gram" | "grams", _) | ("", MassUnit::Gram) => Mass::from_g(number),
        ("kg" | "kilo" | "kilos", _) | ("", MassUnit::Kilogram) => Mass::from_kg(number),
        ("oz", _) | ("", MassUnit::Ounce) => Mass::from_oz(number),
        ("lb" | "lbs" | "pound" | "pounds" | "#", _) | ("", MassUnit::Pound) => Mass::from_lb(number),
        _ => return Err(ReadError::UnknownUnit { unit: written, allowed: "g, kg, oz, lb" }),
    })
}

/// Reads a length; a bare number is in `unit`.
///
/// # Errors
/// [`ReadError`] if there is no number or its unit is none of mm, cm, in.
pub fn read_length(text: &str, unit: LengthUnit) -> Result<Length, ReadError> {
    let (number, written) = split(text, "38 mm or 1 1/2 in")?;
    Ok(match (written.as_str(), unit) {
        ("mm", _) | ("", LengthUnit::Millimetre) => Length::from_mm(number),
        ("cm", _) => Length::from_cm(number),
        ("in" | "inch" | "inches" | "\"" | "″", _) | ("", LengthUnit::Inch) => Length::from_inch(number),
        _ => return Err(ReadError::UnknownUnit { unit: written, allowed: "mm, cm, in" }),
    })
}

/// Reads a temperature; a bare number is in `unit`.
///
/// # Errors
/// [`ReadError`] if there is no number or its unit is none of °C, °F.
pub fn read_temperature(text: &str, unit: TemperatureUnit) -> Result<Temperature, ReadError> {
    let (number, written) = split(text, "3.1 °C")?;
    Ok(match (written.trim_start_matches('°').trim(), unit) {
        ("c", _) | ("", TemperatureUnit::Celsius) => Temperature::from_c(number),
        ("f", _) | ("", TemperatureUnit::Fahrenheit) => Temperature::from_f(number),
        _ => return Err(ReadError::UnknownUnit { unit: written, allowed: "°C, °F" }),
    })
}

/// Reads a bare number as people write it: a comma for the point, spaces between thousands, a true minus, "1 1/2".
///
/// # Errors
/// [`ReadError`] if it is not a number or has a unit behind it.
pub fn read_number(text: &str) -> Result<f64, ReadError> {
    let (number, unit) = split(text, "2.5")?;
    if unit.is_empty() { Ok(number) } else { Err(ReadError::UnknownUnit { unit, allowed: "none" }) }
}

fn split(text: &str, example: &'static str) -> Result<(f64, String), ReadError> {
    let nothing = || ReadError::NotANumber { found: text.trim().to_owned(), example };
    let spaced = text.trim().replace('−', "-").replace(['\u{202f}', '\u{a0}'], " ").to_lowercase();
    let end = spaced.find(|c: char| !(c.is_ascii_digit() || " .,/-+".contains(c))).unwrap_or(spaced.len());
    let (digits, unit) = spaced.split_at(end);
    let number = mixed_number(digits.trim()).ok_or_else(nothing)?;
    Ok((number, unit.trim().to_owned()))
}

/// "1 1/2" is one and a half, "6 400" is six thousand four hundred, "1,5" is one and a half.
fn mixed_number(digits: &str) -> Option<f64> {
    if let Some((before, divisor)) = digits.split_once('/') {
        let divisor: f64 = divisor.trim().parse().ok()?;
        let (whole, numerator) = match before.trim().rsplit_once(' ') {
            Some((whole, numerator)) => (plain(whole)?, plain(numerator)?),
            None => (0.0, plain(before)?),
        };
        let value = whole + numerator / divisor;
        return value.is_finite().then_some(value);
    }
    plain(digits)
}

fn plain(digits: &str) -> Option<f64> {
    let mut groups = digits.split(' ').filter(|group| !group.is_empty());
    let first = groups.next()?;
    let rest: Vec<&str> = groups.collect();
    // A space parts thousands only where exactly three digits follow; "6 4" is a slip, not sixty-four.
    let thousands =
        rest.iter().all(|group| group.split(['.', ',']).next().is_some_and(|whole| whole.len() == 3));
    if !thousands {
        return None;
    }
    let joined = std::iter::once(first).chain(rest).collect::<String>();
    let dotted = match (joined.matches(',').count(), joined.contains('.')) {
        (0, _) => joined,
        (1, false) => joined.replace(',', "."),
        _ => return None,
    };
    dotted.parse::<f64>().ok().filter(|value| value.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn either_unit_is_read_in_any_field() {
        assert_eq!(read_mass("6.4 kg", MassUnit::Gram), Ok(Mass::from_kg(6.4)));
        assert_eq!(read_mass("6 400", MassUnit::Gram), Ok(Mass::from_g(6400.0)));
        assert_eq!(read_mass("5,9kg", MassUnit::Gram), Ok(Mass::from_kg(5.9)));
        assert_eq!(read_mass("14 lb", MassUnit::Gram), Ok(Mass::from_lb(14.0)));
        assert_eq!(read_length("1 1/2 in", LengthUnit::Millimetre), Ok(Length::from_inch(1.5)));
        assert_eq!(read_length("1.5\"", LengthUnit::Millimetre), Ok(Length::from_inch(1.5)));
        assert_eq!(read_temperature("−19,4", TemperatureUnit::Celsius), Ok(Temperature::from_c(-19.4)));
        assert_eq!(read_temperature("131°F", TemperatureUnit::Celsius), Ok(Temperature::from_f(131.0)));
    }

    #[test]
    fn a_slip_is_refused_not_guessed() {
        for slip in ["", "abc", "6 4", "1,234,5", "1/0", "--3", "nan", "inf", "1 2/"] {
            assert!(read_number(slip).is_err(), "{slip:?} was read");
        }
        assert!(read_mass("5 mm", MassUnit::Gram).is_err());
    }

    proptest! {
        #[test]
        fn no_text_panics(text in any::<String>()) {
            let _ = read_mass(&text, MassUnit::Gram);
            let _ = read_length(&text, LengthUnit::Inch);
            let _ = read_temperature(&text, TemperatureUnit::Celsius);
        }
    }
}
