//! Rounding amounts so that what is printed adds up.

use quantity::{Currency, Money};
use rust_decimal::Decimal;

/// Rounds `amounts` to the currency's coin so that they add up to their rounded sum.
///
/// Each is rounded down, and the coins still missing go one each to the amounts that lost most by it, the earlier first.
/// No amount moves by a whole coin.
#[must_use]
pub fn coins(amounts: &[Decimal], currency: Currency) -> Vec<Decimal> {
    let places = currency.decimals();
    let coin = Decimal::new(1, places);
    let sum = amounts.iter().fold(Decimal::ZERO, |sum, amount| sum.saturating_add(*amount));
    let target = Money::new(sum, currency).to_coin().amount;
    let down = |amount: &Decimal| {
        amount.round_dp_with_strategy(places, rust_decimal::RoundingStrategy::ToNegativeInfinity)
    };
    let mut rounded: Vec<Decimal> = amounts.iter().map(down).collect();
    let mut missing = rounded.iter().fold(target, |left, amount| left.saturating_sub(*amount));
    let mut order: Vec<usize> = (0..amounts.len()).collect();
    order.sort_by_key(|&at| (rounded[at] - amounts[at], at));
    for at in order {
        if missing < coin {
            break;
        }
        rounded[at] += coin;
        missing -= coin;
    }
    rounded
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn three_thirds_make_a_euro() {
        let third = Decimal::ONE / Decimal::from(3);
        let shown = coins(&[third, third, third], Currency::EUR);
        assert_eq!(shown, ["0.34", "0.33", "0.33"].map(|amount| amount.parse().expect("a decimal")));
    }

    proptest! {
        #[test]
        fn what_is_printed_adds_up(units in prop::collection::vec(-10_000_000i64..10_000_000, 0..20)) {
            let amounts: Vec<Decimal> = units.iter().map(|&unit| Decimal::new(unit, 5)).collect();
            let shown = coins(&amounts, Currency::EUR);
            let sum: Decimal = amounts.iter().sum();
            prop_assert_eq!(shown.iter().sum::<Decimal>(), Money::new(sum, Currency::EUR).to_coin().amount);
            for (shown, amount) in shown.iter().zip(&amounts) {
                prop_assert!((shown - amount).abs() < Decimal::new(1, 2));
            }
        }
    }
}
