use axum::http::StatusCode;

use crate::testing::Visitor;

const A: &str = "beef-ribeye-roll~6400~kg24.90~kg38.50~to-6-mm~on~";
const B: &str = "beef-ribeye-roll~5860~kg26.90~kg38.50~to-6-mm~on~";

#[tokio::test]
async fn a_roll_typed_in_joins_the_address_and_nothing_is_written() {
    let house = Visitor::new();
    let page = house.get("/case").await;
    let (to, fields) = page.form("add");
    let typed = [("cut", "beef-strip-loin"), ("mass", "5.9"), ("price", "21,50"), ("counter", "30.20")];
    let query: Vec<String> = crate::testing::filled(fields, &typed)
        .iter()
        .map(|(name, value)| format!("{name}={value}"))
        .collect();
    let seen = house.get(&format!("{to}?{}", query.join("&"))).await;
    assert_eq!(seen.status, StatusCode::SEE_OTHER);
    assert_eq!(seen.location.as_deref(), Some("/case?roll=beef-strip-loin~5900~kg21.50~kg30.20~~~"));
    assert_eq!(house.state().pieces().count(), 0);
}

#[tokio::test]
async fn two_rolls_are_compared_with_each_other_and_the_counter() {
    let page = Visitor::new().get(&format!("/case?roll={A}&roll={B}")).await;
    let answer = page.answer();
    assert!(answer.starts_with("Take roll A: a trimmed kilo comes to "), "{answer}");
    assert!(answer.contains("four times in five; the counter asks 38.50 €."), "{answer}");
    let text = page.text();
    assert!(text.contains("A is the cheapest of the two") && text.contains("counter 38.50"));
    assert!(text.contains("How much goes on a plate is not set"));
}

#[tokio::test]
async fn what_was_not_seen_is_asked_for_with_its_share() {
    let page = Visitor::new().get("/case?roll=beef-ribeye-roll~6400~kg24.90~kg38.50~as-packed~~").await;
    let text = page.text();
    assert!(text.contains("Turn roll A and look for the lip. It makes "), "{text}");
    assert!(
        text.contains("/case?roll=beef-ribeye-roll~6400~kg24.90~kg38.50~as-packed~on~"),
        "one tap says it"
    );
}

#[tokio::test]
async fn bought_makes_the_record_once() {
    let house = Visitor::new();
    let page = house.get(&format!("/case?roll={A}")).await;
    let (to, fields) = page.form("bought");
    for _ in 0..2 {
        let sent = house.post(&to, &fields).await;
        assert_eq!(sent.location.as_deref(), Some("/piece/tarn"));
    }
    let state = house.state();
    let piece = state.pieces().next().unwrap();
    assert_eq!((state.pieces().count(), piece.received.mass.g()), (1, 6400.0));
    assert_eq!(
        piece.received.counter_price.map(|price| price.per_kg().to_string()).as_deref(),
        Some("38.50")
    );
}

#[tokio::test]
async fn a_slip_of_a_thousand_is_asked_about_and_the_rest_is_kept() {
    let house = Visitor::new();
    let page =
        house.get(&format!("/case?form=add&roll={A}&cut=beef-ribeye-roll&mass=6400&price=24.90")).await;
    assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(page.wrong()[0].ends_with("Did you mean 6.40 kg?"), "{:?}", page.wrong());
    assert!(page.text().contains("value=\"24.90\"") && page.text().contains(A), "the others stay");
}

#[tokio::test]
async fn prices_are_said_by_the_pound_where_pounds_are_set() {
    let house = Visitor::new();
    house.put(
        "2026-07-05T09:00:00+02:00",
        "setting-changed",
        serde_json::json!({ "key": "units.mass", "value": "lb" }),
    );
    house.put(
        "2026-07-05T09:00:00+02:00",
        "setting-changed",
        serde_json::json!({ "key": "money.currency", "value": "USD" }),
    );
    let page = house.get("/case?roll=beef-strip-loin~5900~lb9.99~lb15.99~to-6-mm~~").await;
    let answer = page.answer();
    assert!(answer.starts_with("Take it: a trimmed pound comes to $1"), "{answer}");
    assert!(answer.ends_with("the counter asks $15.99."), "{answer}");
}
