use crate::testing::Visitor;
use axum::http::StatusCode;
use serde_json::json;

/// Three packs in the chest, one of them loose.
fn store() -> Visitor {
    let visitor = Visitor::new();
    visitor.put(
        "2026-02-01T08:00:00+01:00",
        "setting-changed",
        json!({ "key": "place.cellar-chest.kind", "value": "freezer" }),
    );
    visitor.put("2026-02-01T08:00:00+01:00", "setting-changed", json!({ "key": "bag.mass_g", "value": 16 }));
    let piece = visitor.put(
        "2026-02-07T09:00:00+01:00",
        "piece-received",
        json!({ "cut": "beef-strip-loin", "mass_g": 4200, "total": "80", "currency": "EUR", "word": "MOOR" }),
    );
    for (n, grams, day) in [(1, 310, "08"), (2, 340, "09"), (3, 296, "10")] {
        let at = format!("2026-02-{day}T11:00:00+01:00");
        let body = json!({ "piece": piece, "n": n, "mass_g": grams, "thickness_mm": 30 });
        let portion = visitor.put(&at, "portion-weighed", body);
        let body = json!({ "portions": [portion], "wrap": "vacuum", "place": "cellar chest" });
        let pack = visitor.put(&format!("2026-02-{day}T19:00:00+01:00"), "pack-sealed", body);
        if n == 3 {
            visitor.put("2026-03-01T10:00:00+01:00", "leaker-found", json!({ "pack": pack }));
        }
    }
    visitor
}

#[tokio::test]
async fn the_loose_one_is_next_and_goes_to_the_fridge_with_one_button() {
    let visitor = store();
    let seen = visitor.get("/store").await;
    assert_eq!(seen.answer(), "Use MOOR 3 next: its bag is loose.");
    assert!(seen.text().contains("Cellar chest: three packs, 946 g"));
    let order: Vec<usize> =
        ["MOOR 3</b>", "MOOR 1</b>", "MOOR 2</b>"].iter().map(|n| seen.text().find(n).unwrap()).collect();
    assert!(order.is_sorted(), "loose first, then the oldest");
    assert!(!seen.text().to_lowercase().contains("good until"));
    let seen = visitor.fill("/store", "out", &[]).await;
    assert_eq!(seen.answer(), "Use MOOR 1 next: it has lain longest, since 8 Feb.");
    assert!(seen.text().contains("in the fridge, since 11:42"));
}

#[tokio::test]
async fn a_count_repairs_the_list_with_one_tap_a_pack() {
    let visitor = store();
    let (to, mut fields) = visitor.get("/store").await.form("count");
    let gone = visitor.state().pack_of("moor-2").unwrap().id.to_string();
    fields.push(("missing".into(), gone));
    assert_eq!(visitor.post(&to, &fields).await.status, StatusCode::SEE_OTHER);
    let seen = visitor.get("/store").await;
    assert!(seen.text().contains("Last counted 5 Jul: two of three there, one missing."), "{}", seen.text());
    assert!(seen.text().contains("Missed by the last count"));
    let also = visitor.fill("/store", "count", &[("also", "Moor 2")]).await;
    assert!(also.text().contains("three packs"), "found again by its name");
    let wrong = visitor.fill("/store", "count", &[("also", "KELP 9")]).await;
    assert_eq!(wrong.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(wrong.wrong()[0].contains("is no pack"), "{:?}", wrong.wrong());
}

#[tokio::test]
async fn a_pack_without_its_label_is_found_by_its_weight() {
    let visitor = store();
    let found = |seen: crate::testing::Seen| seen.inside("<p class=\"said\" role=\"status\">", "</p>");
    let seen = visitor.get("/store?weight=326").await;
    assert_eq!(found(seen), "310 g + 16 g of bag: MOOR 1. The nearest other, MOOR 3, would read 312 g.");
    let seen = visitor.get("/store?weight=900").await;
    assert!(found(seen).starts_with("Nothing in the store weighs 900 g."));
    let seen = visitor.get("/store?weight=heavy").await;
    assert!(found(seen).contains("is no weight"));
}

#[tokio::test]
async fn its_temperature_is_read_and_an_empty_store_says_what_will_stand_there() {
    let visitor = store();
    let seen = visitor.fill("/store", "read", &[("at_c", "-19.4")]).await;
    assert!(seen.text().contains("−19.4 °C at 11:42."), "{}", seen.text());
    let seen = visitor.fill("/store", "read", &[("at_c", "hot")]).await;
    assert_eq!(seen.status, StatusCode::UNPROCESSABLE_ENTITY);
    let empty = Visitor::new().get("/store").await;
    assert!(empty.answer().starts_with("Packs will stand here"));
    assert!(empty.text().contains("class=\"cellar\""));
}
