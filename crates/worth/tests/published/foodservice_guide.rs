//! Australian foodservice *Portion cutting – preparation and yield guide*, beef page (published), two cutting tests in kg.
//! Trap: waste of the rump is printed as 10.0 %; 0.035 of 3.44 kg is 1.0 % (computed). Known misprint of another kind: the
//! rump's steaks are printed as 63.9 %, and 2.20 of 3.44 kg is 63.95, so the print was cut, not rounded.
//! fabrication.toml, cutting_test.

use crate::{cut_up, decimal, kilos, printed};
use rust_decimal::{Decimal, RoundingStrategy};
use worth::{Answer, Grams, PerMass, Use, worth};

fn percent(answer: &Answer, line: usize) -> Decimal {
    answer.ledger[line].share.middle() * Decimal::ONE_HUNDRED
}

fn cut(mass: &str, parts: &[(&str, Use, &str)]) -> Answer {
    let parts: Vec<_> = parts.iter().map(|&(name, used, mass)| (name, used, kilos(mass))).collect();
    // The guide has no prices; a price of nothing tests the weights alone.
    let mut piece = cut_up("AUD", kilos(mass), PerMass::per_kg(Decimal::ZERO), &parts);
    piece.portion = Some(Grams::new(decimal("250")));
    worth(&piece).expect("an answer")
}

const KEEP: Use = Use::Keep { value: None };

#[test]
fn rump() {
    let answer = cut(
        "3.44",
        &[
            ("steaks", Use::Portion, "2.2"),
            ("thin steak", KEEP, "0.34"),
            ("diced", KEEP, "0.605"),
            ("trim", KEEP, "0.26"),
            ("waste", Use::Waste, "0.035"),
        ],
    );
    let steaks = percent(&answer, 0);
    assert_eq!(steaks.round_dp_with_strategy(1, RoundingStrategy::ToZero), decimal("63.9"));
    assert_eq!(printed(percent(&answer, 4), 1), decimal("1.0"));
    assert_ne!(printed(percent(&answer, 4), 1), decimal("10.0"));
    assert_eq!(answer.portion.expect("a portion").full.middle(), Decimal::from(8));
    assert_eq!(answer.unexplained.expect("weighed").grams.middle(), Decimal::ZERO);
}

#[test]
fn striploin() {
    let answer = cut(
        "4.19",
        &[
            ("steaks", Use::Portion, "2.35"),
            ("cube steak", KEEP, "0.535"),
            ("diced", KEEP, "0.575"),
            ("trim", KEEP, "0.0"),
            ("waste", Use::Waste, "0.73"),
        ],
    );
    assert_eq!(printed(percent(&answer, 0), 1), decimal("56.1"));
    assert_eq!(printed(percent(&answer, 4), 1), decimal("17.4"));
    assert_eq!(answer.portion.expect("a portion").full.middle(), Decimal::from(9));
    assert_eq!(answer.unexplained.expect("weighed").grams.middle(), Decimal::ZERO);
}
