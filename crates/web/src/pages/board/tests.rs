use crate::testing::{Seen, Visitor, filled};
use axum::http::StatusCode;
use serde_json::json;

/// TARN on the board, measured and planned, nothing cut.
fn tarn() -> Visitor {
    let visitor = Visitor::new();
    let piece = visitor.put(
        "2026-07-04T10:24:00+02:00",
        "piece-received",
        json!({ "cut": "beef-ribeye-roll", "mass_g": 6400, "price_per_kg": "24.90", "currency": "EUR", "word": "TARN" }),
    );
    visitor.put(
        "2026-07-05T10:45:00+02:00",
        "piece-measured",
        json!({ "piece": piece, "bag_off_g": 6354, "length_mm": 452, "slant_first_mm": 10, "slant_last_mm": 22 }),
    );
    visitor.put(
        "2026-07-05T10:50:00+02:00",
        "knife-planned",
        json!({ "piece": piece, "want": [{ "name": "crew", "count": "max", "portion_g": 380 }] }),
    );
    visitor
}

fn mark(seen: &Seen) -> f64 {
    seen.inside("<p class=\"big\" role=\"status\">", "<small>").parse().unwrap_or(f64::NAN)
}

#[tokio::test]
async fn a_weight_is_taken_and_the_next_mark_follows() {
    let visitor = tarn();
    let seen = visitor.get("/piece/tarn/board").await;
    let first = mark(&seen);
    assert!((20.0..35.0).contains(&first), "{first}");
    assert!(seen.text().contains("from the squared chuck end"));
    let seen = visitor.fill("/piece/tarn/board", "weigh", &[("mass", "386")]).await;
    assert_eq!(seen.status, StatusCode::OK);
    assert!(mark(&seen) > first + 15.0);
    assert!(seen.text().contains("386 g, taken as portion 1: 6 g over."));
    let state = visitor.state();
    let portion = state.portions().next().unwrap();
    assert_eq!(portion.weighed.want.as_deref(), Some("crew"));
    assert!((portion.weighed.from.unwrap().mm() - 10.0).abs() < 1e-6, "marks run from the tip");
    assert!((portion.weighed.to.unwrap().mm() - 10.0 - first).abs() < 0.51);
}

#[tokio::test]
async fn a_weight_that_cannot_be_is_asked_about_and_taken_if_it_is_right() {
    let visitor = tarn();
    let seen = visitor.fill("/piece/tarn/board", "weigh", &[("mass", "812")]).await;
    assert_eq!(seen.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(seen.wrong()[0].ends_with("Two pieces on the pan?"), "{:?}", seen.wrong());
    assert_eq!(visitor.state().portions().count(), 0);
    let (to, fields) = seen.form("weigh");
    let sure = visitor.post(&to, &filled(fields, &[("sure", "yes")])).await;
    assert_eq!(sure.status, StatusCode::SEE_OTHER);
    assert_eq!(visitor.state().portions().next().map(|p| p.weighed.mass.g()), Some(812.0));
    let seen = visitor.get("/piece/tarn/board").await;
    assert!(seen.text().contains("Portion 1 does not fit its marks"), "the plan goes on");
    assert!(mark(&seen) > 0.0);
}

#[tokio::test]
async fn sent_twice_it_counts_once() {
    let visitor = tarn();
    let (to, fields) = visitor.get("/piece/tarn/board").await.form("weigh");
    let fields = filled(fields, &[("mass", "379")]);
    assert_eq!(visitor.post(&to, &fields).await.status, StatusCode::SEE_OTHER);
    assert_eq!(visitor.post(&to, &fields).await.status, StatusCode::SEE_OTHER);
    assert_eq!(visitor.state().portions().count(), 1);
}

#[tokio::test]
async fn cut_without_a_weight_the_next_mark_is_shown_and_the_weight_comes_later() {
    let visitor = tarn();
    let (to, fields) = visitor.get("/piece/tarn/board").await.form("weigh");
    let cut = visitor.post(&to, &fields).await;
    let there = cut.location.unwrap();
    assert!(there.starts_with("/piece/tarn/board?made=10.0-"), "{there}");
    assert_eq!(visitor.state().portions().count(), 0, "nothing is written of a cut without a weight");
    let seen = visitor.get(&there).await;
    assert!(seen.text().contains("portion 2 of"));
    assert!(seen.text().contains("On the scale is portion"));
    assert!(seen.text().contains("Undo\u{a0}1"));
    let (to, fields) = seen.form("weigh");
    let weighed = visitor.post(&to, &filled(fields, &[("n", "1"), ("mass", "380")])).await;
    assert_eq!(weighed.location.as_deref(), Some("/piece/tarn/board"));
    assert_eq!(visitor.state().portions().next().map(|p| p.n), Some(1));
}

#[tokio::test]
async fn undo_is_a_correction_and_only_of_the_last() {
    let visitor = tarn();
    visitor.fill("/piece/tarn/board", "weigh", &[("mass", "386")]).await;
    let (to, stale) = visitor.get("/piece/tarn/board").await.form("undo");
    visitor.fill("/piece/tarn/board", "weigh", &[("mass", "372")]).await;
    let refused = visitor.post(&to, &stale).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(refused.wrong()[0].contains("Something was weighed since"), "{:?}", refused.wrong());
    let seen = visitor.fill("/piece/tarn/board", "undo", &[]).await;
    assert!(seen.text().contains("portion 2 of"));
    assert_eq!(visitor.state().portions_of(visitor.state().piece_of("tarn").unwrap()).count(), 1);
    let state = visitor.state();
    let struck = state.log().find(|row| row.is_struck()).unwrap();
    assert_eq!(struck.correction.as_ref().unwrap().because, "undone at the board");
}

#[tokio::test]
async fn a_cut_beside_its_mark_moves_the_face() {
    let visitor = tarn();
    let seen = visitor
        .fill("/piece/tarn/board", "weigh", &[("mass", "430"), ("cut_at", "29"), ("sure", "yes")])
        .await;
    assert_eq!(seen.status, StatusCode::OK, "{:?}", seen.wrong());
    let state = visitor.state();
    assert!((state.portions().next().unwrap().weighed.to.unwrap().mm() - 39.0).abs() < 1e-9);
    assert!(mark(&seen) > 50.0);
    let seen = visitor.fill("/piece/tarn/board", "weigh", &[("mass", "380"), ("cut_at", "20")]).await;
    assert!(seen.wrong().iter().any(|words| words.contains("before the last cut")), "{:?}", seen.wrong());
}

#[tokio::test]
async fn the_clock_of_the_board_runs_from_the_cold_and_back() {
    let visitor = tarn();
    visitor.put(
        "2026-07-05T11:00:00+02:00",
        "setting-changed",
        json!({ "key": "board.warm_min", "value": 60 }),
    );
    let seen = visitor.fill("/piece/tarn/board", "out", &[]).await;
    assert!(seen.text().contains("Back in the cold by 12:42"), "{}", seen.text());
    assert!(seen.text().contains("your own limit is 60 min"));
    let seen = visitor.fill("/piece/tarn/board", "cold", &[]).await;
    assert!(seen.text().contains("Not on the board yet"));
    assert_eq!(visitor.state().piece_of("tarn").unwrap().lying.as_ref().unwrap().place, "fridge");
}

#[tokio::test]
async fn the_end_weighs_heaps_and_leads_to_the_sealer() {
    let visitor = tarn();
    visitor.fill("/piece/tarn/board", "weigh", &[("mass", "386")]).await;
    let seen = visitor.get("/piece/tarn/board?end=yes").await;
    assert!(seen.answer().contains("lie on the board still"), "{}", seen.answer());
    assert!(seen.text().contains("href=\"/piece/tarn/pack\""));
    let (to, fields) = seen.form("heap");
    let there = visitor.post(&to, &filled(fields, &[("part", "silver-skin"), ("mass", "102")])).await;
    assert_eq!(there.location.as_deref(), Some("/piece/tarn/board?end=yes"));
    let state = visitor.state();
    let heap = state.parts().next().unwrap();
    assert_eq!(
        heap.weighed.keep,
        record::Use::Waste,
        "silver skin goes in the bin unless somebody says otherwise"
    );
    let (to, fields) = visitor.get("/piece/tarn/board?end=yes").await.form("heap");
    let refused = visitor.post(&to, &filled(fields, &[("part", "lean-trim"), ("mass", "9000")])).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
}

#[tokio::test]
async fn the_page_is_held_at_arms_length_and_has_two_foot_buttons() {
    let visitor = tarn();
    let text = visitor.get("/piece/tarn/board").await.text();
    assert!(text.contains("<body class=\"far\"") && text.contains("class=\"hands\""));
    assert_eq!(text.matches("data-key=\"next\"").count(), 1);
    assert!(text.contains("data-typed"), "a scale that types finds its field");
    assert!(text.contains("<template data-ahead>"), "without network the plan's next portions are at hand");
    assert!(text.contains("‹ TARN"));
}

#[tokio::test]
async fn a_cut_without_a_plan_is_weighed_all_the_same_and_so_is_one_more_than_planned() {
    let visitor = Visitor::new();
    visitor.put(
        "2026-07-05T09:00:00+02:00",
        "piece-received",
        json!({ "cut": "beef-round", "mass_g": 9000, "total": "90", "currency": "EUR", "word": "MOOR" }),
    );
    for grams in ["500", "480"] {
        let seen = visitor.fill("/piece/moor/board", "weigh", &[("mass", grams)]).await;
        assert_eq!(seen.status, StatusCode::OK, "{:?}", seen.wrong());
        assert!(seen.has_form("weigh"), "{}", seen.answer());
    }
    assert_eq!(visitor.state().portions().map(|portion| portion.n).collect::<Vec<_>>(), [1, 2]);
    assert!(visitor.get("/piece/moor/board?end=yes").await.has_form("heap"));
    let visitor = tarn();
    visitor.fill("/piece/tarn/board", "weigh", &[("mass", "386")]).await;
    let piece = visitor.state().piece_of("tarn").unwrap().id;
    let one = json!({ "piece": piece, "want": [{ "count": 1, "portion_g": 380 }] });
    visitor.put("2026-07-05T11:41:00+02:00", "knife-planned", one);
    assert!(visitor.get("/piece/tarn/board").await.has_form("heap"), "the plan is cut");
    let seen = visitor.fill("/piece/tarn/board?more=yes", "weigh", &[("mass", "370")]).await;
    assert_eq!(seen.status, StatusCode::OK, "{:?}", seen.wrong());
    assert_eq!(visitor.state().portions().count(), 2);
}
