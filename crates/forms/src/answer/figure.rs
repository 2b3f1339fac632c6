//! Numbers as JSON writes them.

use band::{Band, Narrow};
use rust_decimal::{Decimal, RoundingStrategy};
use serde_json::{Value, json};

/// A float rounded to so many places; `null` where it is not finite.
pub(crate) fn number(value: f64, places: i32) -> Value {
    let scale = 10f64.powi(places);
    let rounded = (value * scale).round() / scale;
    // A rounded nothing has no sign.
    json!(if rounded == 0.0 { 0.0 } else { rounded })
}

/// What an ensemble says of a number: itself where all members agree, else median and 80 % band, the ends outward.
/// What never happens in half of the members has no median.
pub(crate) fn spread(members: &[f64], places: i32) -> Value {
    let all_same = members.windows(2).all(|pair| pair[0].to_bits() == pair[1].to_bits());
    match members.first() {
        None => Value::Null,
        Some(&only) if all_same => number(only, places),
        Some(_) => banded(&Band::of(members), places, false),
    }
}

/// A band, its ends outward; its middle alone where inputs are taken as true or it has no width.
pub(crate) fn banded(band: &Band, places: i32, plain: bool) -> Value {
    if plain || band.low == band.high {
        return number(band.median, places);
    }
    let scale = 10f64.powi(places);
    json!({
        "median": number(band.median, places),
        "low": number((band.low * scale).floor() / scale, places),
        "high": number((band.high * scale).ceil() / scale, places),
    })
}

/// What would narrow an answer.
pub(crate) fn narrow_json(named: &[Narrow]) -> Value {
    named.iter().map(|narrow| json!({ "input": narrow.input, "share": number(narrow.share, 3) })).collect()
}

/// An exact decimal as a JSON number, to the digit where a double can hold it.
pub(crate) fn exact_number(value: Decimal) -> Value {
    json!(f64::try_from(value.normalize()).unwrap_or(f64::NAN))
}

/// Money as a decimal string, half to even, with at least the digits of the coin.
pub(crate) fn money_text(value: Decimal, places: u32, coin: u32) -> String {
    let rounded = value.round_dp_with_strategy(places, RoundingStrategy::MidpointNearestEven).normalize();
    let shown = rounded.scale().max(coin) as usize;
    let text = format!("{rounded:.shown$}");
    // A rounded nothing has no sign.
    if rounded.is_zero() { text.trim_start_matches('-').to_owned() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn money_keeps_the_digits_of_the_coin() {
        let text = |digits: &str, places| money_text(digits.parse().expect("a decimal"), places, 2);
        assert_eq!(text("13.5", 4), "13.50");
        assert_eq!(text("12.498823529", 4), "12.4988");
        assert_eq!(text("-0.001", 2), "0.00");
        assert_eq!(text("2.675", 2), "2.68");
        assert_eq!(text("2.665", 2), "2.66");
    }
}
