//! Non-automatic Weighing Instruments (EEC Requirements) Regulations 1995 (UK), SI 1995/1907, schedule 2 paragraph 4, Table 3
//! (published). The class II row of that page is misprinted and not used. The 15 kg scale with its 340 g steak: OIML R 76-1,
//! teaching extract (secondary). fabrication.toml, scale_mpe, scale_class.

use crate::decimal;
use rust_decimal::Decimal;
use worth::{Class, Grams, Scale};

/// Class, load at the upper end of the row in divisions, limit initially and in service in divisions.
const ROWS: [(Class, u32, &str, &str); 6] = [
    (Class::Three, 500, "0.5", "1.0"),
    (Class::Three, 2_000, "1.0", "2.0"),
    (Class::Three, 10_000, "1.5", "3.0"),
    (Class::Four, 50, "0.5", "1.0"),
    (Class::Four, 200, "1.0", "2.0"),
    (Class::Four, 1_000, "1.5", "3.0"),
];

#[test]
fn every_row_in_divisions() {
    for division in ["1", "2", "5", "0.1"].map(decimal) {
        for (class, load_to, initially, in_service) in ROWS {
            let scale = Scale { class, division: Grams::new(division) };
            let load = Grams::new(Decimal::from(load_to) * division);
            assert_eq!(scale.error_initially(load).g(), decimal(initially) * division);
            assert_eq!(scale.error_in_service(load).g(), decimal(in_service) * division);
        }
    }
}

#[test]
fn a_row_ends_at_its_upper_load() {
    let scale = Scale { class: Class::Three, division: Grams::new(Decimal::ONE) };
    for (load, divisions) in [("0", 1), ("500", 1), ("500.1", 2), ("2000", 2), ("2000.1", 3)] {
        assert_eq!(scale.error_in_service(Grams::new(decimal(load))).g(), Decimal::from(divisions));
    }
}

#[test]
fn a_steak_on_a_shop_scale() {
    let steak = Grams::new(decimal("340"));
    assert_eq!(Scale::SHOP.error_initially(steak).g(), decimal("2.5"));
    assert_eq!(Scale::SHOP.error_in_service(steak).g(), decimal("5"));
}
