//! Sums of the same trade: how much to buy, and what mince is mixed from.

use crate::Grams;
use rust_decimal::Decimal;
use thiserror::Error;

/// How much to buy for `portions` of this size, from a piece that yields this share; `None` unless the share is above 0.
#[must_use]
pub fn quantity_to_buy(portions: u32, size: Grams, yield_share: Decimal) -> Option<Grams> {
    if yield_share <= Decimal::ZERO {
        return None;
    }
    size.g().checked_mul(Decimal::from(portions))?.checked_div(yield_share).map(Grams::new)
}

/// How many full portions of this size a bought mass gives at this yield; `None` unless the size is above 0.
#[must_use]
pub fn portions_from(bought: Grams, size: Grams, yield_share: Decimal) -> Option<Decimal> {
    if size <= Grams::ZERO {
        return None;
    }
    bought.g().checked_mul(yield_share)?.checked_div(size.g()).map(|portions| portions.floor())
}

/// Two meats mixed to a fat share.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Square {
    /// Share of the first meat in the mix, 0 to 1.
    pub first: Decimal,
    /// Share of the second.
    pub second: Decimal,
}

/// Why two meats cannot be mixed to a target.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum MinceError {
    /// The target lies outside the two.
    #[error("{target} lies outside {low} to {high}, the fat of the two meats, so no mix of them reaches it")]
    OutOfReach {
        /// The fat wanted.
        target: Decimal,
        /// The leaner meat's.
        low: Decimal,
        /// The fatter meat's.
        high: Decimal,
    },
}

/// Pearson's square: the shares of two meats that mix to the target; all three fats in one unit, shares or per cent.
///
/// # Errors
/// [`MinceError::OutOfReach`] unless the target lies between the two; two meats of one fat reach only that.
pub fn pearson_square(
    first_fat: Decimal,
    second_fat: Decimal,
    target: Decimal,
) -> Result<Square, MinceError> {
    let (low, high) = (first_fat.min(second_fat), first_fat.max(second_fat));
    if target < low || target > high {
        return Err(MinceError::OutOfReach { target, low, high });
    }
    let first_parts = target.saturating_sub(second_fat).abs();
    let second_parts = target.saturating_sub(first_fat).abs();
    let first = first_parts.checked_div(first_parts.saturating_add(second_parts)).unwrap_or(Decimal::ONE);
    Ok(Square { first, second: Decimal::ONE - first })
}
