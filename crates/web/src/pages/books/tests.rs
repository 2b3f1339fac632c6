use serde_json::json;

use crate::testing::Visitor;

/// Two invented pieces: one cut whole into two plates, one not cut.
fn house() -> Visitor {
    let house = Visitor::new();
    let piece = house.put(
        "2026-07-01T09:00:00+02:00",
        "piece-received",
        json!({ "cut": "beef-strip-loin", "mass_g": 1000, "total": "20.00", "currency": "EUR", "word": "MOOR",
            "counter_price_per_kg": "30.00" }),
    );
    for (n, grams) in [(1, 500), (2, 500)] {
        house.put(
            "2026-07-01T10:00:00+02:00",
            "portion-weighed",
            json!({ "piece": piece, "n": n, "mass_g": grams }),
        );
    }
    house.put(
        "2026-07-02T09:00:00+02:00",
        "piece-received",
        json!({ "cut": "beef-tenderloin", "mass_g": 2000, "total": "60.00", "currency": "EUR", "word": "KELP" }),
    );
    house
}

#[tokio::test]
async fn plates_are_held_against_the_counter_to_the_cent() {
    let page = house().get("/books").await;
    assert_eq!(page.answer(), "2 plates at 10.00 €; the counter would have asked 15.00 €.");
    let text = page.text();
    assert!(text.contains("10.00 € under the counter so far, on 3.00 kg bought."), "{text}");
    assert!(text.contains("not cut") && text.contains("balances"));
}

#[tokio::test]
async fn the_table_sorts_by_its_headings() {
    let text = house().get("/books?by=bought").await.text();
    let (kelp, moor) = (text.find(">KELP</a>").unwrap(), text.find(">MOOR</a>").unwrap());
    assert!(kelp < moor && text.contains("aria-sort=\"descending\""));
}

#[tokio::test]
async fn the_csv_has_a_row_a_piece() {
    let seen = house().get("/books/pieces.csv").await;
    assert_eq!(seen.kind, "text/csv; charset=utf-8");
    let table = seen.text();
    let rows: Vec<&str> = table.split("\r\n").collect();
    assert_eq!(
        rows[1],
        "MOOR,beef-strip-loin,2026-07-01,1000,20.00,EUR,2,1000.0,20.00,10.00,20.00,30.00,10.00"
    );
    assert_eq!(rows[2], "KELP,beef-tenderloin,2026-07-02,2000,60.00,EUR,,,,,,,");
}

#[tokio::test]
async fn nothing_bought_is_a_sentence_and_a_button() {
    let page = Visitor::new().get("/books").await;
    assert!(page.answer().starts_with("Every piece will stand here"));
    assert!(page.text().contains("href=\"/case\""));
}
