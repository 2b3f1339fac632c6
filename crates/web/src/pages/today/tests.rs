use axum::http::StatusCode;
use serde_json::json;

use crate::testing::Visitor;

#[tokio::test]
async fn a_first_run_says_what_to_do_and_shows_the_empty_hours() {
    let house = Visitor::new();
    let page = house.get("/").await;
    assert_eq!(page.status, StatusCode::OK);
    assert_eq!(
        page.answer(),
        "Nothing is due. Write down one piece of beef, and this page says what comes next, and when."
    );
    let text = page.text();
    assert!(text.contains("href=\"/case\"") && text.contains("A first piece"));
    assert!(text.contains("Now 11:42. Nothing to come today."), "the rule is drawn all the same");
    assert_eq!(text.matches("class=\"ahead\"").count(), 6);
}

#[tokio::test]
async fn the_day_on_a_bag_is_what_comes_next() {
    let house = Visitor::new();
    house.put(
        "2026-07-05T09:00:00+02:00",
        "piece-received",
        json!({ "cut": "beef-strip-loin", "mass_g": 5900, "price_per_kg": "21.50", "currency": "EUR",
            "word": "DUSK", "date": { "kind": "use-by", "day": "2026-07-09" } }),
    );
    let page = house.get("/").await;
    assert_eq!(page.answer(), "Nothing until Thursday: DUSK cut or in the freezer: its use-by day by 22:00.");
    assert!(page.text().contains("waits for the knife since today, its bag says 9 Jul."));
}

#[tokio::test]
async fn a_supper_to_come_stands_on_the_rule() {
    let house = Visitor::new();
    house.put(
        "2026-07-05T09:00:00+02:00",
        "supper-planned",
        json!({ "day": "2026-07-05", "serve": { "at": "2026-07-05T19:30:00+02:00", "within_min": 10 },
            "route": "low-then-sear" }),
    );
    let text = house.get("/").await.text();
    assert!(text.contains("eat 19:30"), "{text}");
}
