use crate::pages::table::testing::{four_portions, sunday};
use crate::testing::Visitor;
use axum::http::StatusCode;
use record::Wish;
use serde_json::json;

const PAGE: &str = "/table/2026-07-05";

/// The supper, its packs taken out two days before.
fn supper() -> Visitor {
    let visitor = four_portions();
    let state = visitor.state();
    let packs: Vec<_> = state.packs().map(|pack| pack.id).collect();
    let body = json!({ "packs": packs, "place": "fridge", "method": "fridge" });
    visitor.put("2026-07-04T12:10:00+02:00", "taken-out", body);
    sunday(&visitor);
    visitor
}

#[tokio::test]
async fn the_answer_is_an_hour_a_chance_and_the_first_starts() {
    let visitor = supper();
    let seen = visitor.get(PAGE).await;
    let answer = seen.answer();
    assert!(answer.starts_with("All three on the plate at 19:30, 9"), "{answer}");
    assert!(answer.contains("Oven on at 1") && answer.contains("first in at 1"), "{answer}");
    let text = seen.text();
    // The wish that is a core is told as its word where the scale has one; the spare is the lightest.
    for words in
        ["Sunday supper, three at table", "Back from 19:30", "Medium", "Seat 2", "Spare: DUSK 4, 366 g"]
    {
        assert!(text.contains(words), "{words} in {text}");
    }
    assert!(text.contains("62.8 °C in the middle") && text.contains("US Department of Agriculture"));
    assert!(text.contains("never pierced") && text.contains("pregnant"));
    assert!(text.contains("Lay a probe on the empty rack of the oven"));
    assert!(!text.contains('±') && !text.contains("NaN") && !text.contains("inf"));
}

#[tokio::test]
async fn a_supper_asked_for_twice_is_reckoned_once() {
    let visitor = supper();
    let first = visitor.get(PAGE).await.text();
    let start = std::time::Instant::now();
    let again = visitor.get(PAGE).await.text();
    assert!(start.elapsed().as_millis() < 150, "from memory: {:?}", start.elapsed());
    let without_ids = |text: &str| text.split("name=\"id\"").map(|part| part.len()).sum::<usize>();
    assert_eq!(without_ids(&first), without_ids(&again));
}

#[tokio::test]
async fn an_hour_moves_every_start_with_it() {
    let visitor = supper();
    let before = visitor.get(PAGE).await.answer();
    let seen = visitor.fill(PAGE, "later", &[("serve", "2026-07-05T20:30")]).await;
    let minutes = |answer: &str| {
        let at = answer.rsplit("first in at ").next().unwrap().trim_end_matches('.').to_owned();
        let (hour, minute) = at.split_once(':').unwrap();
        hour.parse::<i32>().unwrap() * 60 + minute.parse::<i32>().unwrap()
    };
    assert_eq!(minutes(&seen.answer()) - minutes(&before), 60);
    assert_eq!(visitor.state().suppers().count(), 1, "the same supper at another hour");
    // Another day is another address, and the form leads there.
    let seen = visitor.fill(PAGE, "later", &[("serve", "2026-07-06T19:30")]).await;
    assert!(seen.text().contains("Monday supper"));
    assert_eq!(visitor.get(PAGE).await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn a_reading_of_the_oven_narrows_and_is_not_asked_again() {
    let visitor = supper();
    let seen = visitor.fill(PAGE, "read", &[("at_c", "104")]).await;
    assert!(seen.status.is_success(), "{:?}", seen.wrong());
    assert!(!seen.has_form("read"));
    let (to, fields) = supper().get(PAGE).await.form("read");
    let wrong = visitor.post(&to, &crate::testing::filled(fields, &[("at_c", "cold")])).await;
    assert_eq!(wrong.status, StatusCode::UNPROCESSABLE_ENTITY);
}

#[tokio::test]
async fn seats_are_named_swapped_and_added() {
    let visitor = supper();
    let own = visitor.state().portions().next().unwrap().id.to_string();
    let values = [
        ("seat_1_name", "Stroke"),
        ("seat_1_portion", own.as_str()),
        ("seat_3_name", "Four"),
        ("seat_3_wish", "?"),
    ];
    let seen = visitor.fill(PAGE, "plan", &values).await;
    assert!(seen.status.is_success(), "{:?}", seen.wrong());
    let state = visitor.state();
    let planned = &state.suppers().next().unwrap().planned;
    assert_eq!(planned.seat.len(), 4);
    assert_eq!(planned.seat[1].name.as_deref(), Some("Stroke"));
    assert_eq!(planned.seat[3].wish, Wish::Unknown);
    assert_eq!(planned.equipment[0].places, Some(12), "what the form does not ask stays as it was");
    assert!(seen.text().contains("One wish not asked yet is reckoned as medium rare."), "{}", seen.text());
    let twice = [("seat_0_portion", own.as_str()), ("seat_1_portion", own.as_str())];
    let (to, fields) = visitor.get(PAGE).await.form("plan");
    let seen = visitor.post(&to, &crate::testing::filled(fields, &twice)).await;
    assert_eq!(seen.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(
        seen.wrong().iter().any(|words| words.contains("DUSK 1 is meant for two seats")),
        "{:?}",
        seen.wrong()
    );
}

#[tokio::test]
async fn too_few_portions_and_no_oven_are_said() {
    let visitor = four_portions();
    let portions: Vec<_> = visitor.state().portions().take(1).map(|portion| portion.id).collect();
    let plan = |equipment: serde_json::Value| {
        json!({ "day": "2026-07-05", "serve": { "at": "2026-07-05T19:30:00+02:00", "within_min": 10 },
            "portions": portions, "route": "low-then-sear", "seat": [{ "doneness": "rare" }, { "doneness": "rare" }],
            "equipment": equipment })
    };
    let both = json!([{ "name": "oven", "kind": "oven", "medium_c": 110 }, { "name": "pan", "kind": "pan" }]);
    visitor.put("2026-07-05T10:00:00+02:00", "supper-planned", plan(both));
    let answer = visitor.get(PAGE).await.answer();
    assert!(answer.starts_with("2 at table and 1 portion"), "{answer}");
    visitor.put("2026-07-05T10:00:00+02:00", "supper-planned", plan(json!([])));
    let answer = visitor.get("/table/2026-07-05-2").await.answer();
    assert_eq!(
        answer,
        "No oven or bath is named for this supper. Change the plan below, and the hours follow."
    );
}

#[tokio::test]
async fn what_came_of_it_is_written_plate_by_plate() {
    let visitor = supper();
    let state = visitor.state();
    let ids: Vec<String> = state.portions().map(|portion| portion.id.to_string()).collect();
    let fields = [
        (format!("{}_outcome", ids[0]), "eaten".to_owned()),
        (format!("{}_core", ids[0]), "54.5".to_owned()),
        (format!("{}_doneness", ids[0]), "medium rare".to_owned()),
        (format!("{}_outcome", ids[3]), "spare".to_owned()),
        ("note".to_owned(), "the best so far".to_owned()),
    ];
    let (to, mut all) = visitor.get(PAGE).await.form("came");
    all.retain(|(name, _)| name != "note" && !fields.iter().any(|(other, _)| other == name));
    all.extend(fields.iter().cloned());
    assert_eq!(visitor.post(&to, &all).await.status, StatusCode::SEE_OTHER);
    assert_eq!(visitor.post(&to, &all).await.status, StatusCode::SEE_OTHER, "sent twice counts once");
    let seen = visitor.get(PAGE).await;
    assert_eq!(seen.answer(), "One eaten, one left over. Nothing is written of two portions.");
    assert!(seen.text().contains("eaten, core 54.5 °C, medium rare. The best so far"), "{}", seen.text());
    let (to, all) = visitor.get(PAGE).await.form("came");
    let nothing = visitor.post(&to, &all).await;
    assert_eq!(nothing.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(nothing.wrong().iter().any(|words| words.contains("Nothing is said")), "{:?}", nothing.wrong());
}

#[tokio::test]
async fn no_supper_of_that_day_says_where_they_are() {
    let seen = Visitor::new().get("/table/2026-01-01").await;
    assert_eq!(seen.status, StatusCode::NOT_FOUND);
    assert!(seen.text().contains("/table"));
}
