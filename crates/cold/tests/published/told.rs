//! Cattlemen's Beef Board, At Home Storage: steaks thaw in a refrigerator in 12 to 24 h, by thickness (published; told to
//! households, not measured). safety.toml, thaw.fridge_thaw_times. USDA, safe defrosting: a package of about 1 lb in cold
//! water changed every 30 min, an hour or less; 3 to 4 lb, 2 to 3 h (secondary). safety.toml, thaw.usda_rules.

use band::{Band, Value};
use cold::{Pack, Way, thaw};

fn hours(mm: f64, grams: f64, side_by_side: u32, way: Way, place_c: Value) -> Band {
    let pack = Pack {
        cut: "beef-strip-loin".into(),
        portion_kg: Value::Known(grams / 1000.0),
        thickness_m: Value::Known(mm / 1000.0),
        side_by_side,
        wrap: "vacuum".into(),
        start_c: Value::Unknown,
    };
    thaw(&pack, way, place_c, 256, 1).unwrap().band()
}

#[test]
fn steaks_in_a_fridge_take_twelve_to_twenty_four_hours_by_thickness() {
    let thin = hours(15.0, 200.0, 1, Way::Fridge, Value::Unknown);
    let thick = hours(30.0, 400.0, 1, Way::Fridge, Value::Unknown);
    println!("15 mm: {thin:?}; 30 mm: {thick:?}");
    assert!(thin.holds(12.0), "the lower hours are a thin steak's: {thin:?}");
    assert!(thick.holds(24.0), "the upper hours are a thick steak's: {thick:?}");
}

/// A pound of steak an inch thick, water from the tap: an hour is the rule of thumb's upper end.
#[test]
fn a_pound_in_cold_water_takes_about_an_hour() {
    let pound = hours(25.4, 454.0, 1, Way::ColdWater, Value::Known(15.0));
    println!("a pound: {pound:?} h");
    assert!(pound.low <= 1.0, "{pound:?}");
    // 3 to 4 lb is a thicker thing, laid flat as two of 50 mm; 2 to 3 h are told.
    let four = hours(50.0, 800.0, 2, Way::ColdWater, Value::Known(15.0));
    println!("four pounds: {four:?} h");
    assert!(four.high >= 2.0 && four.low <= 3.5, "{four:?}");
}
