use crate::pages::table::testing::{four_portions, sunday};
use crate::testing::Visitor;
use axum::http::StatusCode;

fn supper() -> Visitor {
    let visitor = four_portions();
    sunday(&visitor);
    visitor
}

#[tokio::test]
async fn ways_stand_side_by_side_back_from_the_hour() {
    let seen = supper().get("/table/2026-07-05/ways/dusk-2").await;
    assert_eq!(seen.status, StatusCode::OK);
    let text = seen.text();
    for words in [
        "DUSK 2",
        "at 19:30: which way?",
        "Low, then sear",
        "From frozen, low, sear",
        "Ready",
        "5 min late",
        "grey",
    ] {
        assert!(text.contains(words), "{words} in {text}");
    }
    assert!(text.contains("62.8 °C in the middle") && text.contains("never pierced"), "{text}");
    assert!(!text.contains("NaN") && !text.contains("inf") && !text.contains('±'), "{text}");
    assert!(seen.answer().contains("five minutes late cost"), "{}", seen.answer());
}

#[tokio::test]
async fn without_a_supper_hours_are_minutes_before_the_plate() {
    let seen =
        four_portions().get("/piece/dusk/1/ways?form=ask&wish=medium&way=sear-last&way=hot-alone").await;
    let text = seen.text();
    assert!(text.contains("DUSK 1, medium: which way?") && text.contains("min before"), "{text}");
    assert!(text.contains("Pan alone") && !text.contains("loses in the bath"), "{text}");
}

#[tokio::test]
async fn what_cannot_be_asked_is_said_under_its_field() {
    let seen = four_portions().get("/piece/dusk/1/ways?form=ask&core_c=95&way=sear-last").await;
    assert_eq!(seen.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(seen.wrong().iter().any(|words| words.contains("95")), "{:?}", seen.wrong());
    let gone = four_portions().get("/piece/dusk/99/ways").await;
    assert_eq!(gone.status, StatusCode::NOT_FOUND);
}
