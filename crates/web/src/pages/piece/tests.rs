use axum::http::StatusCode;
use serde_json::json;

use crate::testing::Visitor;

/// An invented strip loin of 1 000 g for 20 €.
fn house() -> Visitor {
    let house = Visitor::new();
    house.put(
        "2026-07-05T09:00:00+02:00",
        "piece-received",
        json!({ "cut": "beef-strip-loin", "mass_g": 1000, "total": "20.00", "currency": "EUR", "word": "DUSK",
            "counter_price_per_kg": "30.00", "trim": "to-6-mm" }),
    );
    house
}

#[tokio::test]
async fn an_uncut_piece_forecasts_its_trimmed_kilo_and_leads_to_the_knife() {
    let page = house().get("/piece/DUSK").await;
    assert_eq!(page.answer(), "1 000 g for 20.00 €, bought today; nothing is cut yet.");
    let text = page.text();
    assert!(text.contains("Trimmed to 6 mm, a trimmed kilo comes to between "), "{text}");
    assert!(text.contains("/piece/dusk/plan"));
}

#[tokio::test]
async fn bag_off_and_heaps_are_written_and_the_ledger_balances() {
    let house = house();
    house.fill("/piece/dusk", "bag", &[("bag_off", "0.990"), ("purge", "10"), ("core", "3.1")]).await;
    let piece = house.state().piece_of("DUSK").unwrap().id;
    house.put(
        "2026-07-05T11:00:00+02:00",
        "portion-weighed",
        json!({ "piece": piece, "n": 1, "mass_g": 800 }),
    );
    house.fill("/piece/dusk", "heap", &[("part", "lean-trim"), ("mass", "100"), ("value", "11.80")]).await;
    let page =
        house.fill("/piece/dusk", "heap", &[("part", "silver-skin"), ("mass", "88"), ("use", "waste")]).await;
    assert_eq!(
        page.answer(),
        "Of 1 000 g, 800 g are in no pack; 2 g are not explained, inside the scales’ error."
    );
    let text = page.text();
    // 20.00 less 100 g at 11.80 a kilo.
    assert!(text.contains("18.82 €") && text.contains("1.18 €") && text.contains("balances"), "{text}");
    assert!(text.contains("Silver skin, kernel 88 g"), "the log has it");
}

#[tokio::test]
async fn a_refused_weight_keeps_what_was_typed_with_the_reason_under_it() {
    let house = house();
    let page = house
        .fill("/piece/dusk", "heap", &[("part", "clean-fat"), ("mass", "6 400 kg"), ("value", "3.20")])
        .await;
    assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
    let text = page.text();
    assert!(text.contains("value=\"6 400 kg\"") && text.contains("value=\"3.20\""));
    assert_eq!(page.wrong().len(), 1);
    assert!(page.wrong()[0].contains("Did you mean 6 400 g?"), "{:?}", page.wrong());
    assert_eq!(house.state().parts().count(), 0, "nothing was written");
}

#[tokio::test]
async fn grams_from_nowhere_are_refused_under_the_weight() {
    let house = house();
    let page =
        house.fill("/piece/dusk", "heap", &[("part", "clean-fat"), ("mass", "1500"), ("use", "keep")]).await;
    assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(page.wrong()[0].contains("1 500 g more would make 1 500 g out of DUSK"), "{:?}", page.wrong());
}

#[tokio::test]
async fn a_form_sent_twice_counts_once() {
    let house = house();
    let seen = house.get("/piece/dusk").await;
    let (to, fields) = seen.form("heap");
    let sent = crate::testing::filled(fields, &[("part", "lean-trim"), ("mass", "100")]);
    for _ in 0..2 {
        assert_eq!(house.post(&to, &sent).await.status, StatusCode::SEE_OTHER);
    }
    assert_eq!(house.state().parts().count(), 1);
}

#[tokio::test]
async fn what_the_label_says_can_be_said_later() {
    let house = house();
    let page = house.fill("/piece/dusk", "label", &[("date_day", "2026-07-12")]).await;
    assert!(page.wrong()[0].contains("four different dates"), "{:?}", page.wrong());
    let fields = [
        ("date_kind", "use-by"),
        ("date_day", "2026-07-12"),
        ("trim", "bare"),
        ("shared_with", "the other boat"),
    ];
    let page = house.fill("/piece/dusk", "label", &fields).await;
    assert!(page.text().contains("Use by 12 July, says its bag."));
    let state = house.state();
    let received = &state.piece_of("dusk").unwrap().received;
    assert_eq!(received.shared_with.as_deref(), Some("the other boat"));
    assert_eq!(received.mass.g(), 1000.0, "the rest stands as it was written");
}

#[tokio::test]
async fn a_core_above_the_limit_puts_the_rule_first() {
    let house = house();
    let page = house.fill("/piece/dusk", "bag", &[("core", "9.2")]).await;
    let text = page.text();
    assert!(text.contains("US Department of Agriculture, leaving-out limit"));
    assert!(text.contains("Its core read 9.2 °C at 11:42, above 4.4 °C."), "{text}");
}

#[tokio::test]
async fn a_word_nobody_has_is_a_page_that_says_so() {
    let page = house().get("/piece/nope").await;
    assert_eq!(page.status, StatusCode::NOT_FOUND);
    assert_eq!(
        page.answer(),
        "A piece called NOPE is not here. Every piece that was written down stands under Pieces."
    );
}
