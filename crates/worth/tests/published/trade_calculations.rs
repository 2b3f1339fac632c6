//! G. Wall, *Trade Calculations*, objective 4: yield and cost of edible product, striploin trim (Canadian cook training, May
//! 2007; published). 13.51, 13.50, 14.45 kg and 16.33 kg are worked out from the printed figures (computed).
//! fabrication.toml, cost_case "striploin trim", formula yield, quantity_to_buy.

use crate::{cut_up, decimal, kilos, printed};
use rust_decimal::Decimal;
use worth::{Grams, PerMass, Use, portions_from, quantity_to_buy, worth};

fn striploin() -> worth::Worth {
    cut_up(
        "CAD",
        kilos("5.2"),
        PerMass::per_kg(decimal("11.95")),
        &[("usable", Use::Portion, kilos("4.6")), ("trim", Use::Waste, kilos("0.6"))],
    )
}

#[test]
fn yield_and_cost() {
    let answer = worth(&striploin()).expect("an answer");
    let yield_percent = answer.yield_share.middle() * Decimal::ONE_HUNDRED;
    assert_eq!(printed(yield_percent, 1), decimal("88.5"));
    // From weights 13.51; dividing by the rounded yield gives 13.50. Nothing is rounded on the way here.
    assert_eq!(printed(answer.cost_per_kg.middle(), 2), decimal("13.51"));
    assert_eq!(printed(decimal("11.95") / decimal("0.885"), 2), decimal("13.50"));
}

#[test]
fn how_much_to_buy_for_eighty_five() {
    let yield_share = worth(&striploin()).expect("an answer").yield_share.middle();
    let portion = Grams::new(decimal("170"));
    let to_buy = quantity_to_buy(85, portion, yield_share).expect("a yield above zero");
    assert_eq!(printed(to_buy.kg(), 2), decimal("16.33"));
    assert_eq!(
        portions_from(to_buy + Grams::new(Decimal::ONE), portion, yield_share),
        Some(Decimal::from(85))
    );
    assert_eq!(portion.kg() * Decimal::from(85), decimal("14.45"));
}
