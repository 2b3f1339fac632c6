//! P. R. Dittmer, J. D. Keefe, *Principles of Food, Beverage, and Labor Cost Controls*, ch. 6, pp. 180–181, butcher test of a
//! beef tenderloin (published: factors, prices); the card's own figures 54.99, 53.12, 1.87 and 0.25 lb from lecture slides
//! after the 9th edition (secondary); 9.0 lb = 54.99 / 6.11 (computed). Formula list: slides of the same book (published).
//! fabrication.toml, cost_case "beef tenderloin butcher test", formula butcher_test, reprice, cutting_loss.

use crate::{a_pound, cut_up, decimal, per_pound, pounds, printed};
use rust_decimal::Decimal;
use worth::{AfterCooking, Answer, Cooked, Grams, Use, Worth, worth};

fn tenderloin() -> Worth {
    // 0.25 lb of other parts are worth 1.87 in all, so 7.48 a pound; the rest of the 9 lb is fat and loss.
    let mut piece = cut_up(
        "USD",
        pounds("9.0"),
        a_pound("6.11"),
        &[
            ("usable", Use::Portion, pounds("4.25")),
            ("other parts", Use::Keep { value: Some(a_pound("7.48")) }, pounds("0.25")),
            ("fat and loss", Use::Waste, pounds("4.5")),
        ],
    );
    piece.portion = Some(Grams::from_oz(decimal("6")));
    piece
}

fn answer() -> Answer {
    worth(&tenderloin()).expect("an answer")
}

#[test]
fn the_card_comes_out_to_the_cent() {
    let answer = answer();
    assert_eq!(answer.purchase_cost.middle(), decimal("54.99"));
    assert_eq!(answer.credit.middle().normalize(), decimal("1.87"));
    assert_eq!(answer.net_cost.middle().normalize(), decimal("53.12"));
}

#[test]
fn cost_per_usable_pound_ounce_and_portion() {
    let answer = answer();
    let pound = per_pound(answer.cost_per_kg.middle());
    assert_eq!(printed(pound, 4), decimal("12.4988"));
    assert_eq!(printed(pound / Decimal::from(16), 4), decimal("0.7812"));
    let portion = answer.portion.expect("a portion size was given");
    // The book prints 4.6871; the slides 4.6872, which is the rounded 0.7812 times 6: shown not given.
    assert_eq!(printed(portion.each.middle(), 4), decimal("4.6871"));
    assert_ne!(printed(portion.each.middle(), 4), decimal("4.6872"));
    assert_eq!(portion.full.middle(), Decimal::from(11));
}

#[test]
fn factors_and_repricing() {
    let answer = answer();
    let factor = printed(answer.cost_factor.expect("the piece cost something").middle(), 4);
    assert_eq!(factor, decimal("2.0456"));
    let portion = answer.portion.expect("a portion size was given");
    // Our factor is over the price of a kilo, the book's over that of a pound.
    let of_a_pound = portion.factor.expect("the piece cost something").middle() / decimal("0.45359237");
    let portion_factor = printed(of_a_pound, 4);
    assert_eq!(portion_factor, decimal("0.7671"));
    // The printed factors are rounded to four places before use (formula, reprice).
    assert_eq!(printed(factor * decimal("6.37"), 2), decimal("13.03"));
    assert_eq!(printed(portion_factor * decimal("6.37"), 2), decimal("4.89"));
}

/// formula, loss_in_cutting_then_cooking (published): cost per salable pound = net value carried from the butcher test over
/// the salable weight. The weights here are ours (computed): 4.25 lb lose a quarter, 0.1875 lb are carved off, 3 lb stay.
#[test]
fn the_cooked_cost_carries_the_net_value() {
    let mut piece = tenderloin();
    piece.cooked = Some(Cooked { after: AfterCooking::Loss(decimal("0.25")), waste: pounds("0.1875") });
    let cooked = worth(&piece).expect("an answer").cooked.expect("cooking was given");
    assert_eq!(
        printed(per_pound(cooked.cost_per_kg.middle()), 4),
        printed(decimal("53.12") / decimal("3"), 4)
    );
    assert_ne!(
        printed(per_pound(cooked.cost_per_kg.middle()), 4),
        printed(decimal("54.99") / decimal("3"), 4)
    );
}
