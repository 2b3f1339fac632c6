use crate::testing::Visitor;
use axum::http::StatusCode;
use serde_json::json;

/// MOOR 5 in the cellar chest since February, MOOR 6 in the fridge since yesterday.
fn moor() -> Visitor {
    let visitor = Visitor::new();
    visitor.put(
        "2026-02-01T08:00:00+01:00",
        "setting-changed",
        json!({ "key": "place.cellar-chest.kind", "value": "freezer" }),
    );
    let piece = visitor.put(
        "2026-02-07T09:00:00+01:00",
        "piece-received",
        json!({ "cut": "beef-strip-loin", "mass_g": 4200, "total": "80", "currency": "EUR", "word": "MOOR" }),
    );
    let cut = |n: u32, at: &str| {
        visitor.put(
            at,
            "portion-weighed",
            json!({ "piece": piece, "n": n, "mass_g": 296, "thickness_mm": 30 }),
        )
    };
    let five = cut(5, "2026-02-08T11:00:00+01:00");
    let six = cut(6, "2026-07-04T11:00:00+02:00");
    let seal = |portion, place: &str, at: &str| {
        visitor.put(at, "pack-sealed", json!({ "portions": [portion], "wrap": "vacuum", "place": place }))
    };
    seal(five, "cellar chest", "2026-02-08T19:00:00+01:00");
    seal(six, "fridge", "2026-07-04T12:00:00+02:00");
    visitor
}

#[tokio::test]
async fn the_code_of_a_label_opens_it_in_either_case() {
    let visitor = moor();
    let code = visitor.get("/PACK/MOOR-5").await;
    assert_eq!(
        (code.status, code.location.as_deref()),
        (StatusCode::PERMANENT_REDIRECT, Some("/pack/moor-5"))
    );
    for path in ["/pack/moor-5", "/pack/MOOR-5"] {
        let seen = visitor.get(path).await;
        assert_eq!(seen.answer(), "In the cellar chest, since 8 Feb.", "{path}");
        assert!(seen.text().contains("<html lang=\"en\" class=\"cellar\">"));
    }
    assert_eq!(visitor.get("/pack/moor-99").await.status, StatusCode::NOT_FOUND);
}

/// US cold food storage chart: steaks 4 to 12 months frozen, 3 to 5 days in the fridge (secondary).
#[tokio::test]
async fn the_rule_stands_apart_from_what_it_means_here() {
    let visitor = moor();
    let text = visitor.get("/pack/moor-5").await.text();
    assert!(text.contains("Raw steaks and roasts keep 4 to 12 months frozen"));
    assert!(
        text.contains("Frozen since 8 Feb: it is inside that span, which began 8 Jun and ends 8 Feb 2027."),
        "{text}"
    );
    let text = visitor.get("/pack/moor-6").await.text();
    assert!(text.contains("Raw steaks and roasts keep 3 to 5 days in the fridge."));
    assert!(text.contains("Cut 4 Jul, not frozen: that span runs from 7 Jul to 9 Jul."), "{text}");
    assert!(!text.to_lowercase().contains("good until"));
}

#[tokio::test]
async fn it_is_taken_out_and_put_back() {
    let visitor = moor();
    let seen = visitor.fill("/pack/moor-5", "out", &[("method", "counter")]).await;
    assert_eq!(seen.answer(), "Out since 11:42, on the counter.");
    assert!(seen.text().contains("US Department of Agriculture"), "the rule on thawing stands there");
    assert!(!seen.has_form("out"));
    let seen = visitor
        .fill("/pack/moor-5", "move", &[("other", "garage freezer"), ("frozen", "yes"), ("spot", "top")])
        .await;
    assert_eq!(seen.answer(), "In the garage freezer, top, since 5 Jul.");
    assert!(visitor.state().pack_of("moor-5").unwrap().frozen.is_some());
}

#[tokio::test]
async fn a_loose_bag_is_used_first_or_sealed_anew_and_what_is_thrown_away_is_gone() {
    let visitor = moor();
    let seen = visitor.fill("/pack/moor-5", "loose", &[("note", "air at one corner")]).await;
    assert!(seen.text().contains("Its bag is loose since 5 Jul (air at one corner). Use it first."));
    assert!(seen.text().contains("/piece/moor/pack?first=5&amp;single=yes"), "{}", seen.text());
    let seen = visitor.fill("/pack/moor-5", "bin", &[("because", "")]).await;
    assert_eq!(seen.status, StatusCode::UNPROCESSABLE_ENTITY);
    let seen = visitor.fill("/pack/moor-5", "bin", &[("because", "freezer burn")]).await;
    assert_eq!(seen.answer(), "Discarded 5 Jul.");
    assert!(!seen.has_form("move"));
}
