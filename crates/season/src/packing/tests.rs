use super::*;
use crate::testing::Writing;
use serde_json::json;
use uuid::Uuid;

/// A strip loin cut into five at known marks, nothing packed yet.
fn five() -> (Writing, Uuid, Vec<Uuid>) {
    let mut record = Writing::default();
    let piece = record.put(
        "2026-07-04T10:24:00+02:00",
        "piece-received",
        json!({ "cut": "beef-strip-loin", "mass_g": 5900, "price_per_kg": "21.40", "currency": "EUR", "word": "KELP" }),
    );
    let marks = [0.0, 30.0, 60.0, 98.0, 128.0, 158.0];
    let portions = (0..5)
        .map(|place| {
            let body = json!({ "piece": piece, "n": place + 1, "mass_g": 380 + place,
                "from_mm": marks[place], "to_mm": marks[place + 1] });
            record.put("2026-07-05T11:20:00+02:00", "portion-weighed", body)
        })
        .collect();
    (record, piece, portions)
}

fn at<'s>(record: &'s Writing, piece: Uuid, instead: Instead) -> Packing<'s> {
    packing(&record.state, record.state.piece(piece).unwrap(), instead)
}

fn places(packing: &Packing<'_>) -> Vec<Vec<u32>> {
    packing.ahead.iter().map(|bag| bag.portions.iter().map(|member| member.portion.n).collect()).collect()
}

#[test]
fn the_thick_one_goes_alone_and_the_next_bag_is_the_first_pair() {
    let (record, piece, _) = five();
    let packing = at(&record, piece, Instead::default());
    assert_eq!(places(&packing), [vec![1, 2], vec![3], vec![4, 5]]);
    let next = packing.next.unwrap();
    assert_eq!((next.mass.g(), next.apart.map(Length::mm)), (761.0, Some(0.0)));
}

#[test]
fn what_is_asked_for_comes_first_and_the_rest_is_paired_anew() {
    let (record, piece, _) = five();
    let asked = |instead| places(&at(&record, piece, instead));
    assert_eq!(asked(Instead { with: Some(4), ..Instead::default() })[0], [1, 4]);
    assert_eq!(asked(Instead { singly: true, ..Instead::default() })[0], [1]);
    assert_eq!(asked(Instead { first: Some(4), ..Instead::default() })[0], [4, 5]);
    let gone = Instead { first: Some(9), with: Some(8), singly: false };
    assert_eq!(asked(gone), asked(Instead::default()), "what does not wait is passed over");
}

#[test]
fn a_sealed_bag_waits_no_longer_and_a_kept_heap_does() {
    let (mut record, piece, portions) = five();
    let heap = json!({ "piece": piece, "part": "lean-trim", "mass_g": 300, "use": "keep" });
    record.put("2026-07-05T12:00:00+02:00", "part-weighed", heap);
    let bin = json!({ "piece": piece, "part": "silver-skin", "mass_g": 90, "use": "waste" });
    record.put("2026-07-05T12:00:00+02:00", "part-weighed", bin);
    let bag = json!({ "portions": portions[..2], "wrap": "vacuum", "with_bag_g": 777, "bag_g": 16, "bag_lot": "C" });
    record.put("2026-07-05T19:00:00+02:00", "pack-sealed", bag);
    let packing = at(&record, piece, Instead::default());
    assert_eq!(places(&packing), [vec![3], vec![4, 5]]);
    assert_eq!(packing.sealed.iter().map(|bag| bag.pack.name.as_str()).collect::<Vec<_>>(), ["KELP 1+2"]);
    assert_eq!(packing.heaps.len(), 1);
    assert_eq!(packing.bag.map(Mass::g), Some(16.0));
    assert_eq!((packing.lot.name.as_deref(), packing.lot.sealed, packing.lot.loose), (Some("C"), 1, 0));
}

#[test]
fn a_loose_bag_is_sealed_anew_only_if_asked() {
    let (mut record, piece, portions) = five();
    let bag = json!({ "portions": portions[..2], "wrap": "vacuum", "place": "chest" });
    let pack = record.put("2026-07-05T19:00:00+02:00", "pack-sealed", bag);
    record.put("2026-07-12T19:00:00+02:00", "leaker-found", json!({ "pack": pack }));
    assert_eq!(places(&at(&record, piece, Instead::default()))[0], [3]);
    let asked = Instead { first: Some(1), with: Some(2), singly: false };
    assert_eq!(places(&at(&record, piece, asked))[0], [1, 2]);
}

/// Without marks the thickness is reckoned from the grams: 380 g of a 5 900 g piece 470 mm long are about 30 mm.
#[test]
fn a_portion_without_marks_gets_a_thickness_from_its_grams() {
    let (mut record, piece, _) = five();
    let body = json!({ "piece": piece, "n": 6, "mass_g": 380 });
    let portion = record.put("2026-07-05T11:30:00+02:00", "portion-weighed", body);
    let state = &record.state;
    let found = thickness_of(state, state.piece(piece).unwrap(), state.portion(portion).unwrap());
    let Some(Thickness::Reckoned(length)) = found else { panic!("{found:?}") };
    assert!((28.0..36.0).contains(&length.mm()), "{} mm", length.mm());
}
