//! Worked yield and cost tests, cutting tests and limits of scales, one file per source.

#![allow(clippy::expect_used, reason = "a figure of this file that cannot be read is a broken test")]

mod dittmer;
mod foodservice_guide;
mod gisslen;
mod pearson_slides;
mod rib_notes;
mod scales;
mod trade_calculations;

use quantity::Currency;
use rust_decimal::Decimal;
use worth::{Bought, Costs, Grams, Part, PerMass, Price, Scales, Use, Worth};

/// An exact decimal from its digits.
fn decimal(digits: &str) -> Decimal {
    digits.parse().expect("a decimal")
}

fn pounds(digits: &str) -> Grams {
    Grams::from_lb(decimal(digits))
}

fn kilos(digits: &str) -> Grams {
    Grams::from_kg(decimal(digits))
}

fn a_pound(digits: &str) -> PerMass {
    PerMass::per_lb(decimal(digits))
}

/// A piece with its parts and nothing else.
fn cut_up(currency: &str, mass: Grams, price: PerMass, parts: &[(&str, Use, Grams)]) -> Worth {
    Worth {
        currency: Currency::new(currency).expect("a currency"),
        piece: Bought { mass, price: Price::Per(price), purge: None },
        parts: parts.iter().map(|&(name, used, mass)| Part { name: name.to_owned(), used, mass }).collect(),
        counter: None,
        costs: Costs::default(),
        cooked: None,
        portion: None,
        scales: Scales::default(),
    }
}

/// A cost per kilo as a cost per pound.
fn per_pound(per_kg: Decimal) -> Decimal {
    per_kg * decimal("0.45359237")
}

/// Rounded as the source prints it, half away from zero as schoolbooks round.
fn printed(value: Decimal, places: u32) -> Decimal {
    value.round_dp_with_strategy(places, rust_decimal::RoundingStrategy::MidpointAwayFromZero)
}
