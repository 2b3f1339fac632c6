//! What must hold whatever the figures.

#![allow(clippy::unwrap_used, reason = "a check that cannot set up its case has failed")]

use band::Value;
use cold::{Pack, Way, freeze, thaw};

const DRAWS: usize = 128;

fn pack(grams: f64, mm: f64, side_by_side: u32) -> Pack {
    Pack {
        cut: "beef-ribeye-roll".into(),
        portion_kg: Value::Known(grams / 1000.0),
        thickness_m: Value::Known(mm / 1000.0),
        side_by_side,
        wrap: "vacuum".into(),
        start_c: Value::Unknown,
    }
}

fn soft(pack: &Pack, way: Way, place_c: f64) -> cold::Thawed {
    thaw(pack, way, Value::Known(place_c), DRAWS, 1).unwrap()
}

#[test]
fn thicker_takes_longer_and_warmer_is_faster() {
    let by_thickness = [20.0, 26.0, 32.0, 45.0].map(|mm| soft(&pack(380.0, mm, 1), Way::Fridge, 4.0).band());
    assert!(
        by_thickness.windows(2).all(|pair| pair[0].median < pair[1].median && pair[0].high < pair[1].high)
    );
    let by_place = [2.0, 4.0, 6.0].map(|c| soft(&pack(380.0, 30.0, 1), Way::Fridge, c).band().median);
    assert!(by_place.windows(2).all(|pair| pair[0] > pair[1]), "{by_place:?}");
    let water = soft(&pack(380.0, 30.0, 1), Way::ColdWater, 12.0).band();
    assert!(water.high < by_place[2] / 3.0, "water carries heat ten times as well as still air: {water:?}");
}

#[test]
fn a_pair_beside_each_other_is_slower_by_its_shared_rim_and_no_more() {
    let one = soft(&pack(380.0, 30.0, 1), Way::Fridge, 4.0).band().median;
    let two = soft(&pack(380.0, 30.0, 2), Way::Fridge, 4.0).band().median;
    assert!(two > one && two < 1.3 * one, "{one:.1} h alone, {two:.1} h as a pair");
}

#[test]
fn an_unread_fridge_widens_and_is_named_first() {
    let read = soft(&pack(380.0, 30.0, 2), Way::Fridge, 4.0);
    let unread = thaw(&pack(380.0, 30.0, 2), Way::Fridge, Value::Unknown, 256, 1).unwrap();
    assert!(unread.band().width() > 1.3 * read.band().width());
    assert_eq!(unread.narrow[0].input, "thaw: temperature");
    assert!(unread.assumed.iter().any(|input| input.name == "thaw: temperature"));
}

#[test]
fn the_surface_is_warm_in_water_and_not_in_a_cold_fridge() {
    let fridge = soft(&pack(380.0, 30.0, 1), Way::Fridge, 3.0);
    assert_eq!(fridge.warm().high, 0.0);
    let water = soft(&pack(380.0, 30.0, 1), Way::ColdWater, 18.0);
    let minutes = water.band().times(60.0);
    assert!(water.warm().low > 0.0 && water.warm().high < minutes.high);
}

#[test]
fn a_place_too_cold_never_thaws_it_and_says_so() {
    let never = soft(&pack(380.0, 30.0, 1), Way::Fridge, -3.0);
    assert_eq!(never.band().low, f64::INFINITY);
    assert_eq!(never.needed(0.9), f64::INFINITY);
    assert_eq!(never.chance_within(1000.0), 0.0);
}

#[test]
fn the_latest_hour_keeps_its_promise() {
    let thawed = thaw(&pack(380.0, 30.0, 2), Way::Fridge, Value::Unknown, 256, 1).unwrap();
    for wished in [0.5, 0.8, 0.9, 0.95, 0.99] {
        let needed = thawed.needed(wished);
        assert!(thawed.chance_within(needed) >= wished);
        assert!(thawed.chance_within(needed * 0.99) <= wished + 0.02);
    }
    assert_eq!(thawed, thaw(&pack(380.0, 30.0, 2), Way::Fridge, Value::Unknown, 256, 1).unwrap());
}

#[test]
fn a_colder_freezer_is_through_sooner_and_a_warm_one_never() {
    let through = |c: f64| freeze(&pack(380.0, 30.0, 2), Value::Known(c), DRAWS, 1).unwrap().band();
    assert!(through(-24.0).median < through(-18.0).median);
    assert_eq!(through(-6.0).median, f64::INFINITY);
}

#[test]
fn an_unknown_thickness_is_taken_from_the_mass() {
    let known = soft(&pack(380.0, 31.0, 1), Way::Fridge, 4.0).band();
    let unknown = Pack { thickness_m: Value::Unknown, ..pack(380.0, 0.0, 1) };
    let reckoned = soft(&unknown, Way::Fridge, 4.0).band();
    assert!(reckoned.width() > known.width());
    assert!((reckoned.median / known.median - 1.0).abs() < 0.15);
    assert!(thaw(&Pack { cut: "whale".into(), ..unknown }, Way::Fridge, Value::Unknown, 8, 1).is_err());
}
