use axum::http::StatusCode;
use serde_json::json;

use crate::testing::Visitor;

/// A piece and a portion of it; the number of the portion's entry.
fn house() -> (Visitor, u64) {
    let house = Visitor::new();
    let piece = house.put(
        "2026-07-05T09:00:00+02:00",
        "piece-received",
        json!({ "cut": "beef-strip-loin", "mass_g": 1000, "total": "20.00", "currency": "EUR", "word": "DUSK" }),
    );
    house.put(
        "2026-07-05T10:00:00+02:00",
        "portion-weighed",
        json!({ "piece": piece, "n": 1, "mass_g": 612 }),
    );
    let number = house.state().number();
    (house, number)
}

#[tokio::test]
async fn an_entry_taken_back_stays_readable_struck_with_its_reason() {
    let (house, number) = house();
    let page = house.fill(&format!("/entry/{number}"), "back", &[("because", "two on the pan")]).await;
    assert!(house.state().portions().next().is_none());
    let text = page.text();
    assert!(text.contains("<del>Portion 1, 612 g</del> taken back 11:42: two on the pan"), "{text}");
}

#[tokio::test]
async fn another_weight_is_written_in_its_place() {
    let (house, number) = house();
    let page = house
        .fill(&format!("/entry/{number}"), "weight", &[("mass", "312"), ("because", "read again")])
        .await;
    assert!(page.text().contains("<del>Portion 1, 612 g</del> <b>Portion 1, 312 g</b>"));
    assert_eq!(house.state().portions().next().unwrap().weighed.mass.g(), 312.0);
}

#[tokio::test]
async fn a_correction_wants_its_reason() {
    let (house, number) = house();
    let page = house.fill(&format!("/entry/{number}"), "weight", &[("mass", "312")]).await;
    assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(page.wrong()[0].starts_with("Nothing stands here. Why?"));
    assert!(page.text().contains("value=\"312\""), "what was typed is kept");
}

#[tokio::test]
async fn a_piece_with_portions_cannot_be_taken_back() {
    let (house, number) = house();
    let page = house.fill(&format!("/entry/{}", number - 1), "back", &[("because", "wrong shop")]).await;
    assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(page.wrong()[0].contains("A later entry, of 10:00, could not stand then"), "{:?}", page.wrong());
}

#[tokio::test]
async fn a_number_beyond_the_record_is_not_here() {
    let (house, number) = house();
    assert_eq!(house.get(&format!("/entry/{}", number + 1)).await.status, StatusCode::NOT_FOUND);
}
