//! Numbers as they were written, exact.

use crate::field::{Amount, Kind, Unit};
use crate::tree::{Node, Tree};
use rust_decimal::Decimal;

/// What somebody gave for a number, as exact decimals.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Given {
    Known(Decimal),
    Range { low: Decimal, high: Decimal },
    Unknown,
}

/// A number in the unit it was written in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Taken {
    pub(crate) given: Given,
    pub(crate) unit: Unit,
}

impl Taken {
    /// In the unit all of its family are reckoned in.
    pub(crate) fn base(self) -> Given {
        // The check has put every number inside its bounds, where the conversion always fits.
        let base = |value: Decimal| self.unit.to_base(value).unwrap_or(value);
        match self.given {
            Given::Known(value) => Given::Known(base(value)),
            Given::Range { low, high } => Given::Range { low: base(low), high: base(high) },
            Given::Unknown => Given::Unknown,
        }
    }
}

impl Given {
    /// The number, where one was given.
    pub(crate) const fn known(self) -> Option<Decimal> {
        match self {
            Self::Known(value) => Some(value),
            _ => None,
        }
    }
    /// The number, or the middle of its range.
    pub(crate) fn middle(self) -> Option<Decimal> {
        match self {
            Self::Known(value) => Some(value),
            Self::Range { low, high } => Some(low + (high - low) / Decimal::TWO),
            Self::Unknown => None,
        }
    }
    /// As an uncertain value in SI: `scale` is what one base unit is in SI.
    pub(crate) fn value(self, scale: f64) -> band::Value {
        let si = |value: Decimal| f64::try_from(value).map_or(f64::NAN, |value| value * scale);
        match self {
            Self::Known(value) => band::Value::Known(si(value)),
            Self::Range { low, high } => band::Value::Range { low: si(low), high: si(high) },
            Self::Unknown => band::Value::Unknown,
        }
    }
}

/// Why digits are no number a form takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum NotANumber {
    /// `nan` or an infinity, which TOML can write.
    NotFinite,
    /// More digits than anything on a scale has.
    TooLong,
}

/// The exact number these digits write.
pub(crate) fn decimal(digits: &str) -> Result<Decimal, NotANumber> {
    let bare = digits.trim_start_matches(['+', '-']);
    if bare.eq_ignore_ascii_case("inf") || bare.eq_ignore_ascii_case("nan") {
        return Err(NotANumber::NotFinite);
    }
    let digits = digits.trim_start_matches('+');
    digits.parse().or_else(|_| Decimal::from_scientific(digits)).map_err(|_| NotANumber::TooLong)
}

/// The one number of a node; money may be written as text.
pub(crate) fn single(node: &Node, unit: Unit) -> Option<Result<Decimal, NotANumber>> {
    match &node.value {
        Tree::Number(digits) => Some(decimal(digits)),
        Tree::Text(text) if unit.is_money() && is_digits(text) => Some(decimal(text)),
        _ => None,
    }
}

/// A plain decimal as text: digits, a point, digits.
fn is_digits(text: &str) -> bool {
    let unsigned = text.strip_prefix('-').unwrap_or(text);
    let (whole, fraction) = unsigned.split_once('.').unwrap_or((unsigned, "0"));
    let digits = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    digits(whole) && digits(fraction)
}

/// A value or a range that fits its field; `None` where the check has found it does not.
pub(crate) fn given(node: &Node, amount: &Amount, unit: Unit) -> Option<Given> {
    let inside = |node: &Node| single(node, unit)?.ok().filter(|&value| amount.holds(value, unit));
    match &node.value {
        Tree::Table(_) if amount.range => {
            let low = inside(&node.entry("low")?.node)?;
            let high = inside(&node.entry("high")?.node)?;
            (low <= high).then_some(if low == high { Given::Known(low) } else { Given::Range { low, high } })
        }
        _ => inside(node).map(Given::Known),
    }
}

/// A number that takes no range, as a float in its base unit.
pub(crate) fn plain(node: &Node, amount: &Amount, unit: Unit) -> Option<f64> {
    let taken = Taken { given: given(node, &amount.plain(), unit)?, unit };
    f64::try_from(taken.base().known()?).ok()
}

/// The two kinds of number in a list of pairs.
pub(crate) fn pair_kinds(kind: &Kind) -> Option<(Amount, Amount)> {
    match kind {
        Kind::Pairs(first, second) => Some((*first, *second)),
        Kind::Either(kinds) => kinds.iter().find_map(pair_kinds),
        _ => None,
    }
}

/// The whole number of a node.
pub(crate) fn count(node: &Node) -> Option<u32> {
    let Tree::Number(digits) = &node.value else { return None };
    let value = decimal(digits).ok()?;
    if value.fract().is_zero() { u32::try_from(value).ok() } else { None }
}

impl Amount {
    /// The bounds in another unit of the family, rounded inward enough to read.
    pub(crate) fn bounds_in(&self, unit: Unit) -> (f64, f64) {
        let there = |bound: f64| {
            if unit == self.unit {
                return bound;
            }
            let base = Decimal::try_from(bound).ok().and_then(|bound| self.unit.to_base(bound));
            let base = base.and_then(|base| f64::try_from(base).ok()).unwrap_or(bound);
            significant(unit.out_of_base(base))
        };
        (there(self.low), there(self.high))
    }

    /// Whether a number in this unit lies inside the bounds, which belong to the shown unit.
    pub(crate) fn holds(&self, value: Decimal, unit: Unit) -> bool {
        let bound = |bound: f64| Decimal::try_from(bound).ok().and_then(|bound| self.unit.to_base(bound));
        match (unit.to_base(value), bound(self.low), bound(self.high)) {
            (Some(value), Some(low), Some(high)) => low <= value && value <= high,
            _ => false,
        }
    }
}

/// Four significant digits, for bounds converted from another unit.
fn significant(value: f64) -> f64 {
    if value == 0.0 {
        return 0.0;
    }
    let scale = 10f64.powi(3 - value.abs().log10().floor() as i32);
    (value * scale).round() / scale
}
