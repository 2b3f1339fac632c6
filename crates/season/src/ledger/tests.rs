use super::*;
use crate::testing::{saturday, tarn};

fn row(ledger: &PieceLedger, wanted: impl Fn(&Heap) -> bool) -> &LedgerRow {
    ledger.rows.iter().find(|row| wanted(&row.heap)).unwrap()
}

/// An invented piece whose figures were added by hand: 159.36 less 438 g at 11.80 and 489 g at 3.20 is 152.63, over
/// 5.318 kg it is 28.70 a kilo; 5.318 kg at 38.50 is 204.74.
#[test]
fn grams_and_money_of_a_piece_balance() {
    let (record, piece, _) = tarn();
    let piece = record.state.piece(piece).unwrap();
    let ledger = piece_ledger(&record.state, piece, saturday());
    let plates = ledger.plates.as_ref().unwrap();
    assert_eq!(ledger.paid.to_string(), "159.36\u{202f}€");
    assert_eq!(plates.carry.to_string(), "152.63\u{202f}€");
    assert_eq!(plates.per_kg.to_string(), "28.70\u{202f}€");
    assert_eq!(plates.counter.unwrap().to_string(), "204.74\u{202f}€");
    assert_eq!(plates.count, 14);
    let grams: f64 = ledger.rows.iter().map(|row| row.mass.g()).sum();
    assert!((grams - 6400.0).abs() < 1e-6, "{grams}");
    let money: Decimal = ledger.rows.iter().map(|row| row.value.amount).sum();
    assert_eq!(money, ledger.paid.amount);
    assert!(matches!(ledger.standing, Standing::Balances { grams, .. } if (grams.g() - 7.0).abs() < 1e-6));
}

#[test]
fn portions_are_grouped_by_where_they_are() {
    let (record, piece, _) = tarn();
    let ledger = piece_ledger(&record.state, record.state.piece(piece).unwrap(), saturday());
    let out = row(
        &ledger,
        |heap| matches!(heap, Heap::Portions { whereabouts: Whereabouts::Out(place), .. } if place == "fridge"),
    );
    let store = row(&ledger, |heap| {
        matches!(heap, Heap::Portions { whereabouts: Whereabouts::Store(Some(place)), packs: 2, .. }
            if place == "cellar chest")
    });
    assert!((out.mass.g() - 3800.0).abs() < 1e-6 && (store.mass.g() - 1518.0).abs() < 1e-6);
    assert_eq!(out.value.to_string(), "109.06\u{202f}€");
    assert_eq!(store.value.to_string(), "43.57\u{202f}€");
}

#[test]
fn a_missing_heap_is_asked_about() {
    let (mut record, _, _) = tarn();
    let piece = record.put(
        "2026-07-18T12:00:00+02:00",
        "piece-received",
        serde_json::json!({ "cut": "beef-strip-loin", "mass_g": 1000, "total": "20", "currency": "EUR" }),
    );
    let body = serde_json::json!({ "piece": piece, "n": 1, "mass_g": 900 });
    record.put("2026-07-18T12:30:00+02:00", "portion-weighed", body);
    let ledger = piece_ledger(&record.state, record.state.piece(piece).unwrap(), saturday());
    let Standing::Missing { grams, purge_weighed, on_the_board, .. } = ledger.standing else {
        panic!("{:?}", ledger.standing)
    };
    assert!((grams.g() - 100.0).abs() < 1e-6 && !purge_weighed && !on_the_board);
}

#[test]
fn own_pieces_teach_their_yield() {
    let (record, piece, _) = tarn();
    let own = own_yield(&record.state, record.state.piece(piece).unwrap()).unwrap();
    assert!((own.portions - 5318.0 / 6400.0).abs() < 1e-9);
    assert_eq!(own.trim, Some(Trim::To6Mm));
}
