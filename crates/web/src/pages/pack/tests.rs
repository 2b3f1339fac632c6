use crate::testing::{Visitor, filled};
use axum::http::StatusCode;
use serde_json::json;

/// KELP: four portions at known marks and a heap, nothing packed.
fn kelp() -> Visitor {
    let visitor = Visitor::new();
    let piece = visitor.put(
        "2026-07-05T09:00:00+02:00",
        "piece-received",
        json!({ "cut": "beef-strip-loin", "mass_g": 5900, "total": "126", "currency": "EUR", "word": "KELP" }),
    );
    for (n, from, to, grams) in [(1, 0, 31, 384), (2, 31, 62, 387), (3, 62, 100, 470), (4, 100, 138, 466)] {
        visitor.put(
            "2026-07-05T11:20:00+02:00",
            "portion-weighed",
            json!({ "piece": piece, "n": n, "mass_g": grams, "from_mm": from, "to_mm": to }),
        );
    }
    visitor.put(
        "2026-07-05T11:30:00+02:00",
        "part-weighed",
        json!({ "piece": piece, "part": "lean-trim", "mass_g": 310, "use": "keep" }),
    );
    visitor
}

#[tokio::test]
async fn pairs_come_one_after_the_other_until_all_is_packed() {
    let visitor = kelp();
    let seen = visitor.get("/piece/kelp/pack").await;
    assert_eq!(seen.answer(), "KELP 1 with 2: both 31 mm thick, 3 g apart. 771 g in one bag.");
    let bag = [
        ("with_bag", "787"),
        ("bag_lot", "C"),
        ("sealed", "2"),
        ("place", "freezer"),
        ("spot", "left basket"),
    ];
    let seen = visitor.fill("/piece/kelp/pack", "seal", &bag).await;
    assert!(seen.answer().starts_with("KELP 3 with 4"), "{}", seen.answer());
    assert!(seen.text().contains("The label of KELP 1+2, at its true size"));
    assert!(seen.text().contains("width=\"62mm\""));
    assert!(!seen.text().contains("leads to this machine only"), "opened by the house's address");
    let state = visitor.state();
    let pack = state.pack_of("kelp-1-2").unwrap();
    assert_eq!((pack.mass.g(), pack.sealed.sealed), (771.0, Some(2)));
    let lying = pack.lying.as_ref().unwrap();
    assert_eq!(
        (lying.place.as_str(), lying.spot.as_deref(), lying.freezes),
        ("freezer", Some("left basket"), Some(true))
    );
    assert!(pack.frozen.is_some(), "a place called freezer freezes though no setting says so");
    let seen = visitor.fill("/piece/kelp/pack", "seal", &[]).await;
    assert_eq!(seen.answer(), "All is packed: two bags sealed.");
    let seen = visitor.fill("/piece/kelp/pack", "seal-heap", &[]).await;
    assert_eq!(seen.answer(), "All is packed: three bags sealed.");
    assert!(visitor.state().pack_of("kelp-trim").is_some());
}

#[tokio::test]
async fn another_partner_or_none_can_be_asked_for() {
    let visitor = kelp();
    let seen = visitor.get("/piece/kelp/pack?first=1&with=4").await;
    assert!(seen.answer().starts_with("KELP 1 with 4: 31 mm and 38 mm thick"), "{}", seen.answer());
    let seen = visitor.get("/piece/kelp/pack?first=1&single=yes").await;
    assert_eq!(seen.answer(), "KELP 1 alone: 31 mm thick, 384 g in its bag.");
    let seen = visitor.get("/piece/kelp/pack?first=99&with=nonsense").await;
    assert!(seen.answer().starts_with("KELP 1 with 2"));
}

#[tokio::test]
async fn a_bag_lighter_than_its_meat_is_asked_about() {
    let visitor = kelp();
    for (grams, words) in
        [("700", "of meat went in"), ("1400", "Something else on the pan?"), ("x", "is not a number")]
    {
        let seen = visitor.fill("/piece/kelp/pack", "seal", &[("with_bag", grams)]).await;
        assert_eq!(seen.status, StatusCode::UNPROCESSABLE_ENTITY);
        assert!(seen.wrong().iter().any(|wrong| wrong.contains(words)), "{grams}: {:?}", seen.wrong());
    }
    assert_eq!(visitor.state().packs().count(), 0);
}

#[tokio::test]
async fn a_refused_bag_comes_back_with_what_was_in_it() {
    let visitor = kelp();
    let (to, fields) = visitor.get("/piece/kelp/pack?first=1&with=4").await.form("seal");
    let refused = visitor.post(&to, &filled(fields, &[("with_bag", "100")])).await;
    assert!(refused.answer().starts_with("KELP 1 with 4"), "{}", refused.answer());
    let (to, fields) = refused.form("seal");
    let sealed = visitor.post(&to, &filled(fields, &[("with_bag", "866")])).await;
    assert_eq!(sealed.location.as_deref(), Some("/piece/kelp/pack"));
    assert!(visitor.state().pack_of("kelp-1-4").is_some());
}

#[tokio::test]
async fn a_bag_sent_twice_is_one_bag() {
    let visitor = kelp();
    let (to, fields) = visitor.get("/piece/kelp/pack").await.form("seal");
    let fields = filled(fields, &[("place", "freezer"), ("spot", "floor")]);
    for _ in 0..2 {
        assert_eq!(visitor.post(&to, &fields).await.status, StatusCode::SEE_OTHER);
    }
    assert_eq!(visitor.state().packs().count(), 1);
}

#[tokio::test]
async fn labels_print_on_roll_and_sheet() {
    let visitor = kelp();
    visitor.fill("/piece/kelp/pack", "seal", &[]).await;
    for path in [
        "/pack/KELP-1-2/label.pdf",
        "/pack/kelp-1-2/label.pdf?on=sheet&from=4",
        "/piece/kelp/labels.pdf?on=sheet",
    ] {
        let pdf = visitor.get(path).await;
        assert_eq!((pdf.status, pdf.kind.as_str()), (StatusCode::OK, "application/pdf"), "{path}");
        assert!(pdf.bytes.starts_with(b"%PDF-1.7"));
    }
    assert_eq!(visitor.get("/pack/kelp-1-2/label.pdf?on=sheet&from=22").await.status, StatusCode::NOT_FOUND);
    assert_eq!(visitor.get("/pack/kelp-7/label.pdf").await.status, StatusCode::NOT_FOUND);
}
