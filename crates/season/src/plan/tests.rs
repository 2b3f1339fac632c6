use super::*;
use crate::testing::Writing;
use serde_json::{Value, json};
use uuid::Uuid;

fn received(record: &mut Writing, at: &str, cut: &str, grams: f64) -> Uuid {
    let body = json!({ "cut": cut, "mass_g": grams, "total": "100", "currency": "EUR" });
    record.put(at, "piece-received", body)
}

fn planned(record: &Writing, piece: Uuid) -> Plan {
    let piece = record.state.piece(piece).unwrap();
    plan(&record.state, piece, asked(&record.state, piece)).unwrap()
}

fn ribeye(measures: Value) -> (Writing, Uuid) {
    let mut record = Writing::default();
    let piece = received(&mut record, "2026-07-05T10:00:00+02:00", "beef-ribeye-roll", 6400.0);
    let mut body = measures;
    body["piece"] = json!(piece);
    record.put("2026-07-05T10:05:00+02:00", "piece-measured", body);
    (record, piece)
}

#[test]
fn nothing_but_a_label_gives_a_plan_and_says_to_measure_the_length() {
    let mut record = Writing::default();
    let piece = received(&mut record, "2026-07-05T10:00:00+02:00", "beef-strip-loin", 5900.0);
    let plan = planned(&record, piece);
    assert_eq!(plan.asked.from, AskedFrom::Usual);
    assert!(plan.plan.portions.len() >= 9, "{} portions of 38 mm", plan.plan.portions.len());
    let narrowing = plan.narrowing.unwrap();
    assert_eq!(narrowing.measure, Measure::Length);
    assert!((0.1..0.95).contains(&narrowing.share), "{}", narrowing.share);
}

/// Three stations bring a portion's error from 6.9 to 4.7 % (computed, posterior of a ribeye roll, 38 mm): half its variance.
#[test]
fn with_a_length_three_stations_narrow_most() {
    let (record, piece) = ribeye(json!({ "bag_off_g": 6354, "length_mm": 442 }));
    let narrowing = planned(&record, piece).narrowing.unwrap();
    assert!(matches!(&narrowing.measure, Measure::Stations(places) if places.len() == 3));
    assert!((0.40..0.65).contains(&narrowing.share), "{}", narrowing.share);
}

#[test]
fn marks_are_counted_from_the_squared_face() {
    let (record, piece) =
        ribeye(json!({ "bag_off_g": 6354, "length_mm": 442, "slant_first_mm": 10, "slant_last_mm": 22 }));
    let plan = planned(&record, piece);
    assert!((plan.zero.mm() - 10.0).abs() < 1e-9);
    assert!((plan.plan.portions[0].from.mm() - 10.0).abs() < 1e-9);
    assert_eq!(plan.ends, ("chuck end".to_owned(), "loin end".to_owned()));
    assert!(plan.outline[0].cap_share > plan.outline[KNOTS - 1].cap_share);
}

#[test]
fn measured_from_the_loin_end_it_is_looked_at_from_there() {
    let (record, piece) = ribeye(json!({ "bag_off_g": 6354, "length_mm": 442, "from_end": "loin end" }));
    let plan = planned(&record, piece);
    assert_eq!(plan.ends, ("loin end".to_owned(), "chuck end".to_owned()));
    assert!(plan.outline[0].height < plan.outline[KNOTS - 1].height, "thin at the loin end");
    assert!(plan.outline[0].cap_share < plan.outline[KNOTS - 1].cap_share);
}

#[test]
fn weight_for_thickness_and_thickness_for_weight() {
    let (mut record, piece) = ribeye(json!({ "bag_off_g": 6354, "length_mm": 442 }));
    let want = json!([{ "count": "max", "portion_g": 380 }]);
    record.put("2026-07-05T10:10:00+02:00", "knife-planned", json!({ "piece": piece, "want": want }));
    let plan = planned(&record, piece);
    let other = plan.other.unwrap();
    assert!(matches!(other.want[0].aim, Aim::Thickness(mm) if (25.0..35.0).contains(&mm.mm())));
    let spread = |plan: &KnifePlan, of: &dyn Fn(&roll::Portion) -> f64| {
        let all: Vec<f64> = plan.portions.iter().map(of).collect();
        all.iter().copied().fold(f64::MIN, f64::max) - all.iter().copied().fold(f64::MAX, f64::min)
    };
    let grams = |portion: &roll::Portion| portion.mass.median * 1000.0;
    assert!(
        spread(&other.plan, &grams) > 3.0 * spread(&plan.plan, &grams),
        "kept thickness lets the weight run"
    );
}

#[test]
fn more_than_fits_is_offered_smaller_or_fewer() {
    let (mut record, piece) = ribeye(json!({ "bag_off_g": 6354, "length_mm": 442 }));
    let want = json!([{ "count": 16, "portion_g": 450 }]);
    record.put("2026-07-05T10:10:00+02:00", "knife-planned", json!({ "piece": piece, "want": want }));
    let plan = planned(&record, piece);
    assert!(!plan.plan.given_up.is_empty());
    let [smaller, fewer] = plan.nearest.as_slice() else { panic!("{} other ways", plan.nearest.len()) };
    assert_eq!(smaller.plan.portions.len(), 16);
    assert!(matches!(smaller.want[0].aim, Aim::Portion(grams) if (330.0..400.0).contains(&grams.g())));
    assert!((11..16).contains(&fewer.plan.portions.len()), "{}", fewer.plan.portions.len());
}

#[test]
fn the_next_piece_starts_from_the_last_ones_wishes_and_learns_from_it() {
    let (mut record, first) =
        ribeye(json!({ "bag_off_g": 6354, "length_mm": 442, "slant_first_mm": 10, "slant_last_mm": 22 }));
    let want = json!([{ "name": "crew", "count": "max", "portion_g": 380 }]);
    record.put("2026-07-05T10:10:00+02:00", "knife-planned", json!({ "piece": first, "want": want }));
    for portion in planned(&record, first).plan.portions {
        let body = json!({ "piece": first, "n": portion.number, "mass_g": (portion.mass.median * 1050.0).round().min(395.0),
            "from_mm": portion.from.mm(), "to_mm": portion.to.mm() });
        record.put("2026-07-05T11:00:00+02:00", "portion-weighed", body);
    }
    let next = received(&mut record, "2026-07-12T10:00:00+02:00", "beef-ribeye-roll", 6600.0);
    let plan = planned(&record, next);
    let word = record.state.piece(first).unwrap().word;
    assert_eq!(plan.asked.from, AskedFrom::LastTime(word));
    assert_eq!(plan.own_pieces, 1);
    assert_eq!(planned(&record, first).own_pieces, 0, "a piece does not learn from one cut after it");
}

#[test]
fn a_cut_that_is_no_roll_says_so() {
    let mut record = Writing::default();
    let piece = received(&mut record, "2026-07-05T10:00:00+02:00", "beef-round", 9000.0);
    let piece = record.state.piece(piece).unwrap();
    let found = plan(&record.state, piece, asked(&record.state, piece));
    assert!(matches!(found, Err(RollError::NotSliced { .. })));
}

#[test]
fn an_end_is_named_without_its_anatomy() {
    assert_eq!(end_name("chuck (blade) end, rib 6"), "chuck end");
    assert_eq!(end_name("loin end, rib 12"), "loin end");
}
