use crate::pages::table::testing::{four_portions, sunday};
use axum::http::StatusCode;
use record::Outcome;

#[tokio::test]
async fn a_portion_says_what_it_is_and_where() {
    let visitor = four_portions();
    let seen = visitor.get("/piece/dusk/3").await;
    assert_eq!(seen.answer(), "391 g, 30 mm thick. In the chest.");
    assert!(seen.text().contains("DUSK 3, strip loin") && seen.text().contains("/pack/dusk-3-4"));
    assert_eq!(visitor.get("/piece/dusk/9").await.status, StatusCode::NOT_FOUND);
    assert_eq!(visitor.get("/piece/wolf/1").await.status, StatusCode::NOT_FOUND);
    assert_eq!(visitor.get("/piece/dusk/x").await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn what_came_of_it_is_a_short_form() {
    let visitor = four_portions();
    sunday(&visitor);
    let values =
        [("outcome", "eaten"), ("core_c", "131 F"), ("doneness", "medium rare"), ("note", "a little salty")];
    let seen = visitor.fill("/piece/DUSK/3", "came", &values).await;
    assert!(seen.status.is_success(), "{:?}", seen.wrong());
    assert_eq!(seen.answer(), "391 g, 30 mm thick. Eaten, core 55.0 °C, medium rare. A little salty.");
    assert!(!seen.has_form("came"), "what is eaten is eaten");
    let state = visitor.state();
    let supper = state.suppers().next().unwrap();
    assert_eq!(supper.served.len(), 1, "it counts for the supper it was set aside for");
    let portion = state.portion(supper.served[0]).unwrap();
    assert_eq!(portion.served[0].served.outcome, Outcome::Eaten);
}

#[tokio::test]
async fn a_core_that_cannot_be_is_asked_about() {
    let visitor = four_portions();
    let (to, fields) = visitor.get("/piece/dusk/1").await.form("came");
    let seen = visitor.post(&to, &crate::testing::filled(fields, &[("core_c", "545")])).await;
    assert_eq!(seen.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(seen.wrong()[0].contains("545"), "{:?}", seen.wrong());
}
