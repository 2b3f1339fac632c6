//! FFA *Meat Calculations* slides, Pearson square for ground beef (published). The slide leaves the answers blank: 333.33 and
//! 666.67 lb and 0.8567 a pound are worked out (computed). fabrication.toml, cost_case "ground beef 20 % fat", formula
//! pearson_square.

use crate::{decimal, printed};
use rust_decimal::Decimal;
use worth::{MinceError, pearson_square};

#[test]
fn a_thousand_pounds_of_eighty_twenty() {
    let square = pearson_square(decimal("10"), decimal("25"), decimal("20")).expect("between the two");
    let batch = decimal("1000");
    assert_eq!(printed(square.first * batch, 2), decimal("333.33"));
    assert_eq!(printed(square.second * batch, 2), decimal("666.67"));
    let cost = square.first * decimal("0.99") + square.second * decimal("0.79");
    assert_eq!(printed(cost, 4), decimal("0.8567"));
    let fat = square.first * decimal("10") + square.second * decimal("25");
    assert_eq!(printed(fat, 12), Decimal::from(20));
}

#[test]
fn no_mix_reaches_beyond_its_meats() {
    let refused = pearson_square(decimal("10"), decimal("25"), decimal("30"));
    assert!(matches!(refused, Err(MinceError::OutOfReach { .. })));
    let alike = pearson_square(decimal("20"), decimal("20"), decimal("20")).expect("already there");
    assert_eq!(alike.first + alike.second, Decimal::ONE);
}
