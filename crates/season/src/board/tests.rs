use super::*;
use crate::testing::Writing;
use serde_json::json;

fn now() -> ZonedDateTime {
    "2026-07-05T11:42:00+02:00[Europe/Vienna]".parse().unwrap()
}

/// A strip loin of 5 900 g and 470 mm, to be cut into portions of 480 g.
fn strip_loin(want: serde_json::Value) -> (Writing, Uuid) {
    let mut record = Writing::default();
    let piece = record.put(
        "2026-07-05T10:00:00+02:00",
        "piece-received",
        json!({ "cut": "beef-strip-loin", "mass_g": 5900, "total": "118", "currency": "EUR", "word": "DUSK" }),
    );
    record.put(
        "2026-07-05T10:05:00+02:00",
        "piece-measured",
        json!({ "piece": piece, "bag_off_g": 5850, "length_mm": 470, "slant_first_mm": 10, "slant_last_mm": 30 }),
    );
    record.put("2026-07-05T10:10:00+02:00", "knife-planned", json!({ "piece": piece, "want": want }));
    (record, piece)
}

fn at<'s>(record: &'s Writing, piece: Uuid, made: &[(Length, Length)]) -> Board<'s> {
    board(&record.state, record.state.piece(piece).unwrap(), made, &now())
}

/// Cuts at the mark the board shows and weighs `times` what it expects.
fn weigh(record: &mut Writing, piece: Uuid, times: f64) {
    let next = at(record, piece, &[]).next.expect("something to cut");
    let mut body = json!({ "piece": piece, "n": next.made.n, "mass_g": (next.mass.median * 1000.0 * times).round(),
        "from_mm": next.made.from.mm(), "to_mm": next.made.to.mm() });
    if let Some(twin) = next.twin {
        body["twin"] = json!(twin);
    }
    record.put("2026-07-05T11:20:00+02:00", "portion-weighed", body);
}

#[test]
fn each_weighing_moves_the_next_mark_and_narrows_its_band() {
    let (mut record, piece) = strip_loin(json!([{ "count": "max", "portion_g": 480 }]));
    let before = at(&record, piece, &[]);
    let first = before.next.clone().unwrap();
    assert_eq!(first.made.n, 1);
    assert!(
        (first.mark - first.from_fresh_face).mm().abs() < 1e-9,
        "the first portion starts at the squared face"
    );
    let band = |next: &NextCut| (next.mass.high - next.mass.low) / next.mass.median;
    let width = band(&first);
    for _ in 0..3 {
        weigh(&mut record, piece, 1.06);
    }
    let after = at(&record, piece, &[]);
    let next = after.next.clone().unwrap();
    assert_eq!((next.made.n, after.cut.len()), (4, 3));
    assert!(band(&next) < width, "{} is not narrower than {width}", band(&next));
    assert!(
        next.from_fresh_face < first.from_fresh_face,
        "heavier than thought: the next ones are cut thinner"
    );
    assert!(matches!(after.cut[0].off, Some(Off::Mass(over)) if over.g() > 0.0));
    assert!(
        (after.left.g() - (5850.0 - after.cut.iter().map(|cut| cut.portion.weighed.mass.g()).sum::<f64>()))
            .abs()
            < 1e-6
    );
}

#[test]
fn what_is_cut_and_not_weighed_stands_where_the_knife_made_it() {
    let (mut record, piece) = strip_loin(json!([{ "count": "max", "portion_g": 480 }]));
    weigh(&mut record, piece, 1.0);
    let sure = at(&record, piece, &[]).next.unwrap();
    let made = [(sure.made.from, sure.made.to)];
    let board = at(&record, piece, &made);
    let next = board.next.clone().unwrap();
    assert_eq!((board.unweighed[0].n, next.made.n), (2, 3));
    assert_eq!(next.made.from, sure.made.to);
    assert!(next.passed_over.is_none());
    let width = |next: &NextCut| (next.mass.high - next.mass.low) / next.mass.median;
    assert!(width(&next) >= width(&sure) * 0.98, "not weighed, not narrower");
    assert_eq!(board.of, at(&record, piece, &[]).of);
}

#[test]
fn twins_know_each_other() {
    let (mut record, piece) = strip_loin(json!([
        { "name": "trial", "count": 4, "thickness_mm": 35, "from": "first", "twins": true },
        { "name": "crew", "count": "max", "portion_g": 480 }
    ]));
    assert_eq!(at(&record, piece, &[]).next.unwrap().twin, None);
    weigh(&mut record, piece, 1.0);
    assert_eq!(at(&record, piece, &[]).next.unwrap().twin, Some(1));
    weigh(&mut record, piece, 1.0);
    assert_eq!(at(&record, piece, &[]).next.unwrap().twin, None);
}

#[test]
fn a_weight_that_cannot_be_does_not_end_the_plan() {
    let (mut record, piece) = strip_loin(json!([{ "count": "max", "portion_g": 480 }]));
    weigh(&mut record, piece, 1.0);
    weigh(&mut record, piece, 2.1);
    let board = at(&record, piece, &[]);
    assert_eq!(board.plan.unwrap().unlikely, [2]);
    assert_eq!(board.next.unwrap().made.n, 3);
}

#[test]
fn the_whole_piece_is_cut_and_nothing_is_next() {
    let (mut record, piece) = strip_loin(json!([{ "count": 9, "portion_g": 480 }]));
    let mut cut = 0;
    while at(&record, piece, &[]).next.is_some() {
        weigh(&mut record, piece, if cut % 2 == 0 { 1.02 } else { 0.98 });
        cut += 1;
        assert!(cut <= 9);
    }
    assert_eq!(cut, 9);
    assert_eq!(
        last_weighed(&record.state, record.state.piece(piece).unwrap()),
        record.state.portions().last().map(|p| p.id)
    );
}

#[test]
fn the_board_has_its_hour() {
    let (mut record, piece) = strip_loin(json!([{ "count": "max", "portion_g": 480 }]));
    assert_eq!(at(&record, piece, &[]).warm, None, "nothing says that it is out");
    record.put("2026-07-05T11:10:00+02:00", "moved", json!({ "what": piece, "place": BOARD }));
    let warm = at(&record, piece, &[]).warm.unwrap();
    assert_eq!(
        (warm.back_by.to_string().as_str(), warm.own),
        ("2026-07-05T13:10:00+02:00[Europe/Vienna]", false)
    );
    let mine = json!({ "key": "board.warm_min", "value": 25 });
    record.put("2026-07-05T11:11:00+02:00", "setting-changed", mine);
    let warm = at(&record, piece, &[]).warm.unwrap();
    assert!(warm.own && warm.over);
    record.put("2026-07-05T11:30:00+02:00", "moved", json!({ "what": piece, "place": "fridge" }));
    assert_eq!(at(&record, piece, &[]).warm, None);
}
