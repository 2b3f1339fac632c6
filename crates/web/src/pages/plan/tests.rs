use crate::testing::Visitor;
use axum::http::StatusCode;
use record::{Aim, Count};
use serde_json::json;

/// A strip loin as it comes out of the boot of the car: a label and a price.
fn dusk() -> Visitor {
    let visitor = Visitor::new();
    visitor.put(
        "2026-07-05T09:00:00+02:00",
        "piece-received",
        json!({ "cut": "beef-strip-loin", "mass_g": 5900, "total": "126", "currency": "EUR", "word": "DUSK" }),
    );
    visitor
}

#[tokio::test]
async fn a_label_alone_gives_a_plan_and_the_length_narrows_it() {
    let visitor = dusk();
    let seen = visitor.get("/piece/dusk/plan").await;
    assert_eq!(seen.status, StatusCode::OK);
    assert!(seen.answer().contains("portions 38 mm thick"), "{}", seen.answer());
    assert!(seen.text().contains("Measure its length."));
    assert!(seen.text().contains("Nothing is settled yet"));
    let measured = [("length", "468"), ("bag_off", "5.85"), ("slant_first", "12"), ("slant_last", "1 in")];
    let seen = visitor.fill("/piece/dusk/plan", "measure", &measured).await;
    assert!(seen.text().contains("Measure width and height at 47 mm, 234 mm and 421 mm."), "{}", seen.text());
    let state = visitor.state();
    let measured = &state.piece_of("dusk").unwrap().measured;
    assert_eq!(measured.bag_off.map(|mass| mass.kg()), Some(5.85));
    assert!((measured.slant_last.unwrap().mm() - 25.4).abs() < 1e-9, "either unit is read");
}

#[tokio::test]
async fn wants_are_settled_and_the_other_way_is_one_button_away() {
    let visitor = dusk();
    visitor.fill("/piece/dusk/plan", "measure", &[("length", "468")]).await;
    let wants = [("by_0", "weight"), ("size_0", "480"), ("within_0", "25"), ("name_0", "the crew")];
    let seen = visitor.fill("/piece/dusk/plan", "want", &wants).await;
    assert!(seen.text().contains("As many as sensible, 480 g, for the crew"));
    assert!(seen.text().contains("give or take 25 g"));
    let plan = |visitor: &Visitor| visitor.state().piece_of("dusk").unwrap().plan.clone().unwrap().plan;
    assert_eq!(plan(&visitor).want[0].count, Some(Count::Max));
    assert!(plan(&visitor).marks.is_some_and(|marks| marks.0.len() > 10));
    let seen = visitor.fill("/piece/dusk/plan", "other", &[]).await;
    assert!(matches!(plan(&visitor).want[0].aim, Aim::Thickness(_)), "{}", seen.answer());
    assert!(seen.answer().contains("mm thick"));
    assert!(seen.text().contains("instead"), "and back again");
}

#[tokio::test]
async fn a_second_want_in_twins_and_a_roast() {
    let visitor = dusk();
    visitor.fill("/piece/dusk/plan", "want", &[("by_0", "weight"), ("size_0", "480")]).await;
    let twins = [
        ("by_1", "thickness"),
        ("size_1", "1 1/2 in"),
        ("count_1", "4"),
        ("twins_1", "yes"),
        ("from_1", "first"),
    ];
    let seen = visitor.fill("/piece/dusk/plan", "want", &twins).await;
    assert!(seen.text().contains("from the rib end; in twins"), "{}", seen.text());
    let state = visitor.state();
    let want = &state.piece_of("dusk").unwrap().plan.as_ref().unwrap().plan.want[1];
    assert_eq!((want.count, want.twins), (Some(Count::Number(4)), Some(true)));
    assert!(matches!(want.aim, Aim::Thickness(length) if (length.mm() - 38.1).abs() < 1e-9));
}

#[tokio::test]
async fn what_cannot_be_cut_is_refused_under_its_field_and_kept() {
    let visitor = dusk();
    let rows: [(&[(&str, &str)], &str); 4] = [
        (&[("thinnest", "40"), ("thickest", "20")], "The thickest is thinner than the thinnest."),
        (&[("size_0", "abc")], "is not a number"),
        (&[("size_0", "90"), ("by_0", "thickness")], "allowed by the limits"),
        (&[("size_0", "")], "Nothing is wanted."),
    ];
    for (values, words) in rows {
        let seen = visitor.fill("/piece/dusk/plan", "want", values).await;
        assert_eq!(seen.status, StatusCode::UNPROCESSABLE_ENTITY, "{values:?}");
        assert!(seen.wrong().iter().any(|wrong| wrong.contains(words)), "{values:?}: {:?}", seen.wrong());
        let (_, fields) = seen.form("want");
        for (name, value) in values {
            assert!(fields.contains(&((*name).to_owned(), (*value).to_owned())), "{name} is not kept");
        }
    }
    assert!(visitor.state().piece_of("dusk").unwrap().plan.is_none(), "nothing was written");
}

#[tokio::test]
async fn what_does_not_fit_offers_the_two_nearest() {
    let visitor = dusk();
    visitor.fill("/piece/dusk/plan", "measure", &[("length", "468"), ("bag_off", "5.85")]).await;
    let seen = visitor
        .fill("/piece/dusk/plan", "want", &[("by_0", "weight"), ("size_0", "480"), ("count_0", "16")])
        .await;
    assert!(seen.text().contains("The nearest that fit:"), "{}", seen.text());
    let seen = visitor.fill("/piece/dusk/plan", "nearest", &[("which", "1")]).await;
    assert!(!seen.text().contains("The nearest that fit:"), "{}", seen.answer());
}

#[tokio::test]
async fn the_strip_is_a_pdf_and_the_plan_is_taken_to_the_board() {
    let visitor = dusk();
    let strip = visitor.get("/piece/DUSK/strip.pdf").await;
    assert_eq!((strip.status, strip.kind.as_str()), (StatusCode::OK, "application/pdf"));
    assert!(strip.bytes.starts_with(b"%PDF-1.7"));
    let (to, fields) = visitor.get("/piece/dusk/plan").await.form("take");
    let taken = visitor.post(&to, &fields).await;
    assert_eq!(taken.location.as_deref(), Some("/piece/dusk/board"));
    let again = visitor.post(&to, &fields).await;
    assert_eq!(again.location.as_deref(), Some("/piece/dusk/board"));
    assert_eq!(visitor.state().number(), 3, "sent twice, written once");
}

#[tokio::test]
async fn a_cut_that_is_no_roll_says_so_and_an_unknown_word_is_not_here() {
    let visitor = Visitor::new();
    visitor.put(
        "2026-07-05T09:00:00+02:00",
        "piece-received",
        json!({ "cut": "beef-round", "mass_g": 9000, "total": "90", "currency": "EUR", "word": "MOOR" }),
    );
    let seen = visitor.get("/piece/moor/plan").await;
    assert!(seen.answer().starts_with("No plan yet:"), "{}", seen.answer());
    assert_eq!(visitor.get("/piece/kelp/plan").await.status, StatusCode::NOT_FOUND);
}
