use crate::pages::table::testing::{four_portions, sunday};
use axum::http::StatusCode;
use serde_json::json;

const PAGE: &str = "/table/2026-07-05/thaw";

#[tokio::test]
async fn too_late_for_the_fridge_there_is_cold_water_and_never_the_counter() {
    let visitor = four_portions();
    sunday(&visitor);
    let seen = visitor.get(PAGE).await;
    let answer = seen.answer();
    assert!(
        answer.starts_with("Too late for the fridge: ") && answer.contains("Into cold water by 1"),
        "{answer}"
    );
    let text = seen.text();
    assert!(text.contains("Thaw in the fridge, in cold water changed every 30 minutes, or not at all"));
    assert!(!text.contains("value=\"counter\"") && text.contains("If the fridge is too slow"));
    assert!(text.contains("Read the fridge. Its own degree makes"));
}

#[tokio::test]
async fn all_packs_are_out_with_one_tap_and_then_have_their_hours() {
    let visitor = four_portions();
    sunday(&visitor);
    let seen = visitor.fill(PAGE, "out", &[("method", "cold-water")]).await;
    assert!(seen.status.is_success(), "{:?}", seen.wrong());
    let state = visitor.state();
    assert!(state.packs().all(|pack| pack.out.is_some()));
    assert!(seen.answer().starts_with("Both packs soft by "), "{}", seen.answer());
    assert!(seen.text().contains("Out since 11:42, the slowest is soft between 13:"), "{}", seen.text());
    assert!(!seen.has_form("out"));
    // Soft long before the heat: the rule wants what thawed in water cooked at once.
    assert!(seen.text().contains("wants what thawed in water cooked at once"), "{}", seen.text());
    assert!(seen.text().contains("Read the sink.") && seen.text().contains("its surface is above 5 °C"));
}

#[tokio::test]
async fn a_supper_days_ahead_has_a_latest_hour_out() {
    let visitor = four_portions();
    let portions: Vec<_> = visitor.state().portions().map(|portion| portion.id).collect();
    let body = json!({ "day": "2026-07-18", "serve": { "at": "2026-07-18T19:30:00+02:00", "within_min": 10 },
        "portions": portions, "route": "low-then-sear", "seat": [{ "doneness": "rare" }],
        "equipment": [{ "name": "oven", "kind": "oven", "medium_c": 110 }, { "name": "pan", "kind": "pan" }] });
    visitor.put("2026-07-05T10:00:00+02:00", "supper-planned", body);
    let seen = visitor.get("/table/2026-07-18/thaw").await;
    let answer = seen.answer();
    assert!(answer.starts_with("Both packs out of the freezer by Fri "), "{answer}");
    assert!(answer.ends_with("90 times in 100."), "{answer}");
    assert!(seen.text().contains("Thaw and salt for Saturday 18 July"));
    let read = visitor.fill("/table/2026-07-18/thaw", "read", &[("at_c", "5.5")]).await;
    assert_ne!(read.answer(), answer, "a warmer fridge is later");
    assert!(read.text().contains("5.5 °C"));
}

#[tokio::test]
async fn salt_is_a_dose_times_the_mass_and_the_hour_is_the_cooks() {
    let visitor = four_portions();
    sunday(&visitor);
    let seen = visitor.get(PAGE).await;
    assert!(
        seen.text().contains("People give 0.5 to 0.8 % of the meat: 7.5 g to 12.1 g on four portions."),
        "{}",
        seen.text()
    );
    visitor.put(
        "2026-07-05T10:00:00+02:00",
        "setting-changed",
        json!({ "key": "salt.dose_percent", "value": 0.7 }),
    );
    let seen = visitor.get(PAGE).await;
    // 0.7 % of 380 g is 2.66, of 1 509 g 10.56.
    assert!(seen.text().contains("Your dose of 0.7 % comes to 10.6 g on four portions."));
    assert!(seen.text().contains(">2.7 g<"));
    let seen = visitor.fill(PAGE, "salt", &[("when", "2026-07-05T10:30")]).await;
    assert!(
        seen.text().contains("Salted at 10:30: four, 10.6 g in all, 0.7 % of the meat."),
        "{}",
        seen.text()
    );
    let state = visitor.state();
    assert!(state.portions().all(|portion| portion.salted.len() == 1));
    assert!(!seen.has_form("salt"));
}

#[tokio::test]
async fn what_was_salted_since_it_came_out_is_opened() {
    let visitor = four_portions();
    sunday(&visitor);
    visitor.fill(PAGE, "out", &[]).await;
    let seen = visitor.fill(PAGE, "salt", &[("percent", "0.7")]).await;
    assert_eq!(seen.answer(), "Both packs opened and salted by 11:42.");
    let (to, mut fields) = four_portions().get("/table").await.form("plan");
    fields.push(("form".into(), "nonsense".into()));
    assert_eq!(to, "/table");
}

#[tokio::test]
async fn a_fridge_that_is_an_oven_is_refused() {
    let visitor = four_portions();
    sunday(&visitor);
    let (to, fields) = visitor.get(PAGE).await.form("read");
    let seen = visitor.post(&to, &crate::testing::filled(fields, &[("at_c", "110")])).await;
    assert_eq!(seen.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(!seen.wrong().is_empty());
}
