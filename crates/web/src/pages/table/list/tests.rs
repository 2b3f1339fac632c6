use crate::pages::table::testing::{four_portions, sunday};
use crate::testing::Visitor;
use axum::http::StatusCode;

#[tokio::test]
async fn an_empty_table_says_what_will_stand_there() {
    let seen = Visitor::new().get("/table").await;
    assert!(seen.answer().starts_with("No supper is planned."));
    assert!(seen.text().contains("a piece is bought and cut first") && !seen.has_form("plan"));
}

#[tokio::test]
async fn a_supper_is_planned_with_counts_and_packs() {
    let visitor = four_portions();
    let pack = visitor.state().pack_of("dusk-1-2").unwrap().id.to_string();
    let values = [
        ("serve", "2026-07-11T19:30"),
        ("count_0", "1"),
        ("count_1", "1"),
        ("pack", pack.as_str()),
        ("low_c", "110"),
    ];
    let seen = visitor.fill("/table", "plan", &values).await;
    assert_eq!(seen.status, StatusCode::OK, "{:?}", seen.wrong());
    let state = visitor.state();
    let supper = state.supper_of("2026-07-11").unwrap();
    assert_eq!((supper.planned.seat.len(), supper.planned.portions.len()), (2, 2));
    assert!(seen.answer().starts_with("Both on the plate at 19:30, 9"), "{}", seen.answer());
    let list = visitor.get("/table").await;
    assert_eq!(list.answer(), "Two eat Saturday at 19:30.");
    // The Saturday is taken: the form proposes the next one.
    assert!(list.text().contains("value=\"2026-07-18T19:30\""));
}

#[tokio::test]
async fn what_is_wrong_stands_under_its_field_and_the_rest_is_kept() {
    let visitor = four_portions();
    let values = [("serve", "2026-07-11T19:30"), ("low_c", "1100"), ("count_0", "many")];
    let (to, fields) = visitor.get("/table").await.form("plan");
    let seen = visitor.post(&to, &crate::testing::filled(fields, &values)).await;
    assert_eq!(seen.status, StatusCode::UNPROCESSABLE_ENTITY);
    let wrong = seen.wrong();
    assert!(wrong.iter().any(|words| words.contains("1 100") && words.contains("40")), "{wrong:?}");
    assert!(wrong.iter().any(|words| words.contains("Nobody sits there yet")), "{wrong:?}");
    assert!(seen.text().contains("value=\"2026-07-11T19:30\""));
    assert!(visitor.state().suppers().next().is_none());
}

#[tokio::test]
async fn a_second_supper_of_a_day_has_its_own_address() {
    let visitor = four_portions();
    sunday(&visitor);
    let values = [("serve", "2026-07-05T12:30"), ("count_0", "1"), ("low_c", "230 F")];
    let seen = visitor.fill("/table", "plan", &values).await;
    assert!(seen.status.is_success(), "{:?}", seen.wrong());
    assert!(visitor.state().supper_of("2026-07-05-2").is_some());
    assert!(visitor.get("/table/2026-07-05-2").await.answer().contains("Nothing is set aside"));
}
