use super::*;
use crate::testing::{Writing, saturday, tarn};
use serde_json::json;

fn now() -> ZonedDateTime {
    saturday().in_zone(&jiff::tz::TimeZone::get("Europe/Vienna").unwrap())
}

fn names<'s>(packs: impl IntoIterator<Item = &'s Lain<'s>>) -> Vec<&'s str> {
    packs.into_iter().map(|lain| lain.pack.name.as_str()).collect()
}

#[test]
fn a_loose_bag_comes_first_then_the_oldest() {
    let (mut record, _, _) = tarn();
    let pack = record.state.pack_of("TARN-13-14").unwrap().id;
    let order = |record: &Writing| {
        let shelf = shelf(&record.state, &now());
        assert_eq!(shelf.places.len(), 1);
        assert_eq!(shelf.places[0].freezes, Some(true));
        names(&shelf.places[0].packs).into_iter().map(str::to_owned).collect::<Vec<_>>()
    };
    assert_eq!(order(&record), ["TARN 11+12", "TARN 13+14", "TARN trim"]);
    record.put("2026-07-12T19:00:00+02:00", "leaker-found", json!({ "pack": pack }));
    assert_eq!(order(&record), ["TARN 13+14", "TARN 11+12", "TARN trim"]);
    let found = shelf(&record.state, &now());
    assert_eq!(found.next.unwrap().pack.name, "TARN 13+14");
    assert_eq!(found.out.len(), 5);
}

#[test]
fn what_a_supper_waits_for_is_not_used_next() {
    let (mut record, _, portions) = tarn();
    record.put(
        "2026-07-18T12:00:00+02:00",
        "supper-planned",
        json!({ "day": "2026-08-01", "serve": { "at": "2026-08-01T19:30:00+02:00", "within_min": 5 },
            "portions": portions[10..12], "route": "low-then-sear" }),
    );
    let shelf = shelf(&record.state, &now());
    assert_eq!(shelf.places[0].packs[0].supper.map(|supper| supper.slug.as_str()), Some("2026-08-01"));
    assert_eq!(shelf.next.unwrap().pack.name, "TARN 13+14");
}

/// US cold food storage chart: steaks 4 to 12 months frozen, 3 to 5 days in the fridge (secondary; safety, `us_chart`).
#[test]
fn the_chart_is_laid_on_the_days_of_the_pack() {
    let (mut record, piece, _) = tarn();
    let lain = |record: &Writing, slug: &str| {
        let pack = record.state.pack_of(slug).unwrap();
        Lain::of(&record.state, pack, &now()).chart
    };
    let pair = lain(&record, "tarn-11-12");
    assert_eq!(
        (pair.since.to_string(), pair.from.to_string(), pair.until.to_string()),
        ("2026-07-05".into(), "2026-11-05".into(), "2027-07-05".into())
    );
    assert_eq!(lain(&record, "tarn-trim").row.freezer_months, (3, 4));
    let body = json!({ "piece": piece, "n": 15, "mass_g": 20 });
    let portion = record.put("2026-07-16T11:00:00+02:00", "portion-weighed", body);
    let body = json!({ "portions": [portion], "wrap": "vacuum", "place": "fridge" });
    record.put("2026-07-17T11:00:00+02:00", "pack-sealed", body);
    let chilled = lain(&record, "tarn-15");
    assert!(!chilled.frozen);
    assert_eq!(
        (chilled.from.to_string(), chilled.until.to_string()),
        ("2026-07-19".into(), "2026-07-21".into())
    );
    let shelf = shelf(&record.state, &now());
    assert_eq!(shelf.next.unwrap().pack.name, "TARN 15", "what is not frozen is used before what is");
}

#[test]
fn a_pack_without_its_label_is_found_by_its_weight() {
    let (mut record, piece, _) = tarn();
    record.put("2026-07-05T19:00:00+02:00", "setting-changed", json!({ "key": "bag.mass_g", "value": 16 }));
    // 377 + 378 + 16 = 771; 383 + 380 + 16 = 779; trim 438 + 16 = 454.
    let found = |record: &Writing, g: f64| match by_weight(&record.state, Mass::from_g(g)) {
        ByWeight::It(it, next) => {
            format!("{}, not {}", it.pack.name, next.map_or("", |next| &next.pack.name))
        }
        ByWeight::OneOf(near) => {
            near.iter().map(|one| one.pack.name.as_str()).collect::<Vec<_>>().join(" or ")
        }
        ByWeight::None(nearest) => format!("none, nearest {}", nearest.map_or("", |one| &one.pack.name)),
    };
    assert_eq!(found(&record, 453.0), "TARN trim, not TARN 13+14");
    assert_eq!(found(&record, 775.0), "TARN 11+12 or TARN 13+14");
    assert_eq!(found(&record, 900.0), "none, nearest TARN 11+12");
    let _ = piece;
    record.put(
        "2026-07-18T12:00:00+02:00",
        "setting-changed",
        json!({ "key": "scale.division_g", "value": 0.1 }),
    );
    assert_eq!(found(&record, 779.0), "TARN 11+12, not TARN 13+14");
}

#[test]
fn a_count_is_remembered_with_its_place_and_what_it_missed() {
    let (mut record, _, _) = tarn();
    let id = |slug: &str, record: &Writing| record.state.pack_of(slug).unwrap().id;
    let here = [id("tarn-11-12", &record), id("tarn-13-14", &record)];
    let missing = [id("tarn-trim", &record)];
    let body = json!({ "place": "cellar chest", "here": here, "missing": missing });
    record.put("2026-07-18T13:00:00+02:00", "counted", body);
    let shelf = shelf(&record.state, &now());
    let count = shelf.places[0].count.clone().unwrap();
    assert_eq!((count.here, count.missing), (2, 1));
    assert_eq!(shelf.missing.iter().map(|pack| pack.name.as_str()).collect::<Vec<_>>(), ["TARN trim"]);
    assert_eq!(names(&shelf.places[0].packs), ["TARN 11+12", "TARN 13+14"]);
}
