//! A culinary student's notes, "The butchers yield test", rib 103 to 109 (published page). Trap: 36.40 − 8.00 is printed as
//! 22.40; it is 28.40, and 1.775 a pound (computed). fabrication.toml, cost_case "rib 103 to 109, all parts valued".

use crate::{a_pound, cut_up, decimal, per_pound, pounds};
use worth::{Use, worth};

#[test]
fn the_slip_in_the_subtraction_is_not_repeated() {
    let keep = |value| Use::Keep { value: Some(a_pound(value)) };
    let answer = worth(&cut_up(
        "USD",
        pounds("28.0"),
        a_pound("1.30"),
        &[
            ("rib 109", Use::Portion, pounds("16.0")),
            ("fat", keep("0.10"), pounds("3.0")),
            ("bone", keep("0.30"), pounds("4.0")),
            ("usable trim", keep("1.30"), pounds("5.0")),
        ],
    ))
    .expect("an answer");
    assert_eq!(answer.purchase_cost.middle().normalize(), decimal("36.4"));
    assert_eq!(answer.credit.middle().normalize(), decimal("8"));
    assert_eq!(answer.net_cost.middle().normalize(), decimal("28.4"));
    assert_ne!(answer.net_cost.middle().normalize(), decimal("22.4"));
    let pound = per_pound(answer.cost_per_kg.middle());
    assert!((pound - decimal("1.775")).abs() < decimal("0.000000000001"), "{pound}");
}
