//! What holds for any piece: the ledger closes, a saving is the counter less everything paid, and no number panics.

use proptest::prelude::*;
use quantity::Currency;
use rust_decimal::Decimal;
use worth::{
    AfterCooking, Bought, Cooked, Costs, Grams, Part, PerMass, Price, Scales, Use, Worth, WorthError, worth,
};

fn piece(mass: Decimal, price: Decimal, parts: Vec<(u8, Decimal, Decimal)>) -> Worth {
    Worth {
        currency: Currency::EUR,
        piece: Bought { mass: Grams::new(mass), price: Price::Per(PerMass::per_kg(price)), purge: None },
        parts: parts
            .into_iter()
            .map(|(used, mass, value)| Part {
                name: String::new(),
                used: match used % 3 {
                    0 => Use::Portion,
                    1 => Use::Keep { value: Some(PerMass::per_kg(value)) },
                    _ => Use::Waste,
                },
                mass: Grams::new(mass),
            })
            .collect(),
        counter: Some(PerMass::per_kg(price)),
        costs: Costs::default(),
        cooked: None,
        portion: None,
        scales: Scales::default(),
    }
}

/// Any decimal a form could hold, from the smallest to the largest.
fn any_decimal() -> impl Strategy<Value = Decimal> {
    (any::<u32>(), any::<u32>(), any::<u32>(), any::<bool>(), 0u32..=28).prop_map(
        |(low, middle, high, negative, scale)| Decimal::from_parts(low, middle, high, negative, scale),
    )
}

fn weighed() -> impl Strategy<Value = (Decimal, Vec<(u8, Decimal, Decimal)>)> {
    let part = (any::<u8>(), 1i64..2_000_000, 0i64..10_000)
        .prop_map(|(used, mass, value)| (used, Decimal::new(mass, 3), Decimal::new(value, 2)));
    (prop::collection::vec(part, 0..12), 1i64..900_000, 0i64..20_000).prop_map(|(mut parts, first, lost)| {
        parts.insert(0, (0, Decimal::new(first, 3), Decimal::ZERO));
        let out: Decimal = parts.iter().map(|part| part.1).sum();
        (out + Decimal::new(lost, 3), parts)
    })
}

proptest! {
    #[test]
    fn grams_and_money_close((mass, parts) in weighed(), price in 1i64..20_000) {
        let asked = piece(mass, Decimal::new(price, 2), parts);
        let answer = worth(&asked).expect("all of it weighed");
        let grams: Decimal = answer.ledger.iter().map(|line| line.mass_g.middle()).sum();
        prop_assert_eq!(grams, mass);
        let money: Decimal = answer.ledger.iter().map(|line| line.value.middle()).sum();
        prop_assert!((money - answer.purchase_cost.middle()).abs() < Decimal::new(1, 15));
        prop_assert_eq!(answer.purchase_cost.middle() - answer.credit.middle(), answer.net_cost.middle());
        let saving = answer.saving.expect("a counter price").middle();
        let counter = Decimal::new(price, 2) * answer.usable_kg.middle();
        prop_assert_eq!(saving, counter - answer.costs.all_in.middle());
    }

    #[test]
    fn more_out_than_in_is_refused((_, parts) in weighed(), price in 1i64..20_000) {
        let out: Decimal = parts.iter().map(|part| part.1).sum();
        let asked = piece((out - Decimal::from(100)).max(Decimal::new(1, 3)), Decimal::new(price, 2), parts);
        let beyond = out > Decimal::from(200);
        prop_assume!(beyond);
        let refused = worth(&asked);
        let named = matches!(refused, Err(WorthError::MoreOutThanIn { .. }));
        prop_assert!(named);
    }

    #[test]
    fn no_number_panics(
        numbers in prop::collection::vec(any_decimal(), 12),
        parts in prop::collection::vec((any::<u8>(), any_decimal(), any_decimal()), 0..4),
        loss in any::<bool>(),
    ) {
        let [mass, price, counter, bag, energy, months, labour, cooked, waste, portion, purge, division] =
            <[Decimal; 12]>::try_from(numbers).expect("twelve");
        let mut asked = piece(mass, price, parts);
        asked.counter = Some(PerMass::per_lb(counter));
        asked.piece.purge = Some(Grams::new(purge));
        asked.costs = Costs { bag, bags: Some(3), energy_month: Some(PerMass::per_kg(energy)), months, labour };
        let after = if loss { AfterCooking::Loss(cooked) } else { AfterCooking::Mass(Grams::new(cooked)) };
        asked.cooked = Some(Cooked { after, waste: Grams::new(waste) });
        asked.portion = Some(Grams::new(portion));
        asked.scales.board.division = Grams::new(division);
        let _ = worth(&asked);
    }

    /// The same with every number in the range a form lets through, so that the sums themselves run.
    #[test]
    fn no_number_in_range_panics(
        numbers in prop::collection::vec((1i64..1_000_000_000, 0u32..6), 12),
        parts in prop::collection::vec((any::<u8>(), 1i64..1_000_000, 1i64..1_000_000_000), 1..4),
    ) {
        let decimals: Vec<Decimal> = numbers.iter().map(|&(digits, scale)| Decimal::new(digits, scale)).collect();
        let parts: Vec<_> = parts.iter().map(|&(used, mass, value)| (used, Decimal::new(mass, 6), Decimal::new(value, 0))).collect();
        let mut asked = piece(decimals[0].min(Decimal::from(1_000_000)), decimals[1], parts);
        asked.counter = Some(PerMass::per_lb(decimals[2]));
        asked.costs = Costs {
            bag: decimals[3],
            bags: None,
            energy_month: Some(PerMass::per_lb(decimals[4])),
            months: decimals[5],
            labour: decimals[6],
        };
        asked.portion = Some(Grams::new(Decimal::new(1, 6)));
        asked.cooked = Some(Cooked { after: AfterCooking::Loss(Decimal::new(999_999, 6)), waste: Grams::ZERO });
        let _ = worth(&asked);
    }
}
