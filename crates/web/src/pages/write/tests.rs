use axum::http::StatusCode;
use serde_json::json;

use crate::testing::Visitor;

#[tokio::test]
async fn a_temperature_of_a_new_place_is_written() {
    let house = Visitor::new();
    house.fill("/write/temperature", "temperature", &[("at_what", "-19,4"), ("place", "cellar chest")]).await;
    let state = house.state();
    let read = state.temperatures().next().unwrap();
    assert_eq!((read.note.place.as_str(), read.note.at.c()), ("cellar chest", -19.4));
}

#[tokio::test]
async fn a_core_of_an_uncut_piece_is_written_on_it() {
    let house = Visitor::new();
    let body = json!({ "cut": "beef-strip-loin", "mass_g": 5900, "total": "120", "currency": "EUR", "word": "DUSK" });
    let piece = house.put("2026-07-05T09:00:00+02:00", "piece-received", body);
    let fields = [("of", format!("piece {piece}")), ("at_what", "3.1".to_owned())];
    let fields: Vec<(&str, &str)> = fields.iter().map(|(name, value)| (*name, value.as_str())).collect();
    house.fill("/write/temperature", "temperature", &fields).await;
    let state = house.state();
    let (_, core) = state.piece_of("DUSK").unwrap().measured.core.unwrap();
    assert!((core.c() - 3.1).abs() < 1e-9);
}

#[tokio::test]
async fn a_temperature_of_nothing_asks_of_what() {
    let house = Visitor::new();
    let page = house.fill("/write/temperature", "temperature", &[("of", "other"), ("at_what", "3")]).await;
    assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(page.wrong()[0].starts_with("Of what?"));
}

#[tokio::test]
async fn a_weight_leads_to_what_of_the_piece_is_weighed_next() {
    let house = Visitor::new();
    assert!(house.get("/write/weight").await.text().contains("/case"));
    let body = json!({ "cut": "beef-strip-loin", "mass_g": 5900, "total": "120", "currency": "EUR", "word": "DUSK" });
    house.put("2026-07-05T09:00:00+02:00", "piece-received", body);
    let text = house.get("/write/weight").await.text();
    assert!(text.contains("/piece/dusk?open=bag#bag"), "{text}");
    let opened = house.get("/piece/dusk?open=heap").await.text();
    assert!(opened.contains("id=\"heap\" open"), "{opened}");
}
