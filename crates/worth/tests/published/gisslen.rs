//! W. Gisslen, *Professional Cooking*, raw yield test (Table 5.6), veal leg to scaloppine, reproduced on a reference page
//! (secondary). 27.82, 122.18, 6.788 and 1.358 are worked out from the printed parts (computed).
//! fabrication.toml, cost_case "veal leg to scaloppine, raw yield test".

use crate::{a_pound, cut_up, decimal, per_pound, pounds, printed};
use rust_decimal::Decimal;
use worth::{Answer, Ask, Use, coins, worth};

fn keep(value: &str) -> Use {
    Use::Keep { value: Some(a_pound(value)) }
}

fn answer() -> Answer {
    worth(&cut_up(
        "USD",
        pounds("30.0"),
        a_pound("5.00"),
        &[
            ("scaloppine", Use::Portion, pounds("18.0")),
            ("fat", keep("0.12"), pounds("2.5")),
            ("bone", keep("0.38"), pounds("3.3125")),
            ("ground", keep("4.89"), pounds("2.125")),
            ("stew", keep("5.29"), pounds("3.0")),
            ("unusable trim", Use::Waste, pounds("0.875")),
        ],
    ))
    .expect("an answer")
}

#[test]
fn each_part_is_credited_at_what_it_replaces() {
    let answer = answer();
    let values: Vec<Decimal> =
        answer.ledger[1..=4].iter().map(|line| printed(line.value.middle(), 2)).collect();
    assert_eq!(values, ["0.30", "1.26", "10.39", "15.87"].map(decimal));
    assert_eq!(answer.credit.middle().normalize(), decimal("27.82"));
    assert_eq!(answer.net_cost.middle().normalize(), decimal("122.18"));
}

#[test]
fn the_credit_method_not_the_whole_invoice() {
    let answer = answer();
    let pound = per_pound(answer.cost_per_kg.middle());
    assert_eq!(printed(pound, 3), decimal("6.788"));
    assert_eq!(printed(answer.cost_factor.expect("a price").middle(), 3), decimal("1.358"));
    // 8.33 is printed for the simple way that throws all trim away; a different question, shown not given.
    assert_ne!(printed(pound, 2), decimal("8.33"));
    assert_eq!(printed(answer.purchase_cost.middle() / decimal("18"), 2), decimal("8.33"));
}

/// The cutting loss, 0.1875 lb, is always derived and never weighed: here it is what nobody explained, and 85 g is more than
/// the scales can be wrong by, so it is asked about.
#[test]
fn the_cutting_loss_is_asked_about() {
    let answer = answer();
    let unexplained = answer.unexplained.expect("parts were weighed");
    assert_eq!(unexplained.grams.middle(), pounds("0.1875").g());
    assert!(unexplained.beyond);
    assert!(matches!(answer.asks.as_slice(), [Ask::Missing { purge_weighed: false, .. }]));
}

#[test]
fn the_ledger_closes_to_the_digit_and_to_the_cent() {
    let answer = answer();
    let grams: Decimal = answer.ledger.iter().map(|line| line.mass_g.middle()).sum();
    assert_eq!(grams, pounds("30.0").g());
    let money: Vec<Decimal> = answer.ledger.iter().map(|line| line.value.middle()).collect();
    assert_eq!(coins(&money, answer.currency).iter().sum::<Decimal>(), decimal("150.00"));
}
