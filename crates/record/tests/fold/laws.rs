//! Laws of the fold, on sequences nobody thought of: whatever was accepted balances, counts once, replays to the same
//! state, and reads after a correction as if it had been written right.

use crate::book::{Book, minutes, stored};
use proptest::prelude::*;
use record::{Body, Contents, Entry, Kind, Outcome, PartName, Piece, Stage, State, Stored};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use uuid::Uuid;

/// What somebody tries next: an act and three numbers that choose its things and its measures.
type Try = (u8, u16, u16, u16);

fn tries() -> impl Strategy<Value = Vec<Try>> {
    prop::collection::vec((0..24_u8, any::<u16>(), any::<u16>(), any::<u16>()), 1..120)
}

/// Plays the tries; what is refused is dropped, as a person would.
fn play(tries: &[Try]) -> Book {
    let mut book = Book::default();
    for (step, attempt) in tries.iter().enumerate() {
        if let Some((kind, body)) = act(&book.state, *attempt) {
            // Some news comes late: up to twelve minutes before its turn.
            let at = minutes(step as i64 * 2 - i64::from(attempt.3 % 7) * 2);
            let _ = book.write_at(kind, at, body);
        }
    }
    book
}

fn act(state: &State, (act, a, b, c): Try) -> Option<(Kind, Value)> {
    fn pick(ids: Vec<Uuid>, n: u16) -> Option<Uuid> {
        (!ids.is_empty()).then(|| ids[usize::from(n) % ids.len()])
    }
    let piece = |n| pick(state.pieces().map(|piece| piece.id).collect(), n);
    let portion = |n| pick(state.portions().map(|portion| portion.id).collect(), n);
    let part = |n| pick(state.parts().map(|part| part.id).collect(), n);
    let pack = |n| pick(state.packs().map(|pack| pack.id).collect(), n);
    let supper = |n| pick(state.suppers().map(|supper| supper.id).collect(), n);
    let any = |n| pick(state.log().map(|row| row.stored.entry.id).collect(), n);
    let grams = f64::from(b % 900 + 50);
    Some(match act {
        0 | 1 => (
            Kind::PieceReceived,
            json!({"cut": "beef-strip-loin", "mass_g": f64::from(c % 6000 + 200),
            "price_per_kg": "21.50", "currency": "EUR"}),
        ),
        2..=6 => (Kind::PortionWeighed, json!({"piece": piece(a)?, "n": c % 9 + 1, "mass_g": grams})),
        7 | 8 => (
            Kind::PartWeighed,
            json!({"piece": piece(a)?, "mass_g": grams / 2.0,
            "part": PartName::ALL[usize::from(c) % 8].word(), "use": if c % 2 == 0 { "keep" } else { "waste" }}),
        ),
        9 => (
            Kind::PieceMeasured,
            json!({"piece": piece(a)?, "purge_g": grams / 10.0, "bag_off_g": f64::from(c % 6000 + 60)}),
        ),
        10 | 11 => {
            let mut inside = vec![portion(a)?, portion(b)?];
            inside.dedup();
            (Kind::PackSealed, json!({"portions": inside, "wrap": "vacuum", "place": "fridge"}))
        }
        12 => (Kind::PackSealed, json!({"part": part(a)?, "wrap": "film"})),
        13 => (
            Kind::Moved,
            json!({"what": pack(a)?, "place": (if b % 2 == 0 { "chest" } else { "fridge" }), "frozen": b % 2 == 0}),
        ),
        14 => (Kind::TakenOut, json!({"packs": [pack(a)?], "place": "fridge", "method": "fridge"})),
        15 => (Kind::Salted, json!({"portions": [portion(a)?], "dose_percent": 0.7})),
        16 => (Kind::PutOn, json!({"portions": [portion(a)?], "on": "oven"})),
        17 => (Kind::Pulled, json!({"portions": [portion(a)?], "core_c": 48})),
        18 => (
            Kind::Served,
            json!({"portion": portion(a)?, "supper": supper(b),
            "outcome": Outcome::ALL[usize::from(c % 3)].word()}),
        ),
        19 => (
            Kind::Discarded,
            json!({"because": "smell", "what": match b % 4 {
                0 => piece(a)?, 1 => portion(a)?, 2 => part(a)?, _ => pack(a)?,
            }}),
        ),
        20 => (
            Kind::Counted,
            json!({"place": "chest", "here": [pack(a)?], "missing": pack(b).filter(|id| Some(*id) != pack(a)).into_iter().collect::<Vec<_>>()}),
        ),
        21 => (
            Kind::SupperPlanned,
            json!({"day": "2026-07-04", "route": "low-then-sear", "portions": portion(a).into_iter().collect::<Vec<_>>(),
            "serve": {"at": "2026-07-04T19:30:00+02:00", "within_min": 6}, "supper": supper(b).filter(|_| c % 2 == 0)}),
        ),
        22 => (Kind::Corrected, json!({"entry": any(a)?, "because": "slip"})),
        _ => {
            let wrong = state.entry_of(any(a)?)?.stored.entry.clone();
            let mut body = wrong.body.to_value();
            if body.get("mass_g").is_some() {
                body["mass_g"] = json!(grams);
            }
            (Kind::Corrected, json!({"entry": wrong.id, "because": "misread", "body": body}))
        }
    })
}

/// The laws would hold of nothing at all; these tries get somewhere.
#[test]
fn the_tries_reach_every_kind() {
    let mut seed = 1_u64;
    let mut next = || {
        // Numerical Recipes' linear congruence: any spread of numbers will do.
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (seed >> 33) as u16
    };
    let mut taken: BTreeMap<Kind, usize> = BTreeMap::new();
    for _ in 0..200 {
        let tries: Vec<Try> = (0..100).map(|_| ((next() % 24) as u8, next(), next(), next())).collect();
        for stored in play(&tries).stored {
            *taken.entry(stored.entry.kind()).or_default() += 1;
        }
    }
    let few: Vec<_> = taken.iter().filter(|(_, count)| **count < 100).collect();
    assert!(taken.len() == 15 && few.is_empty(), "{taken:?}");
}

/// Grams of a piece by another road than the ledger: straight from the entries that count.
fn grams_by_hand(state: &State, piece: &Piece) -> (f64, f64) {
    let (mut out, mut purge, mut measured, mut bag_off) = (0.0, None, None, None);
    let mut measured_at = None;
    for entry in state.log().filter_map(|row| row.effective()) {
        match &entry.body {
            Body::PortionWeighed(body) if body.piece == piece.id => out += body.mass.g(),
            Body::PartWeighed(body) if body.piece == piece.id && body.part == PartName::Purge => {
                purge = Some(body.mass.g());
            }
            Body::PartWeighed(body) if body.piece == piece.id => out += body.mass.g(),
            Body::PieceMeasured(body)
                if body.piece == piece.id && measured_at.is_none_or(|at| entry.at >= at) =>
            {
                measured = body.purge.map(|mass| mass.g());
                bag_off = body.bag_off.map(|mass| mass.g());
                measured_at = Some(entry.at);
            }
            _ => {}
        }
    }
    let label = piece.received.mass.g();
    let from_bag_off = bag_off.map(|mass| label - mass).filter(|left| *left >= 0.0);
    (label, out + purge.or(measured).or(from_bag_off).unwrap_or(0.0))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, max_global_rejects: 100_000, ..ProptestConfig::default() })]

    #[test]
    fn grams_balance(tries in tries()) {
        let book = play(&tries);
        prop_assert_eq!(book.state.imbalances(), []);
        for piece in book.state.pieces() {
            let ledger = book.state.ledger(piece);
            let (label, out) = grams_by_hand(&book.state, piece);
            let unexplained = ledger.unexplained.g() + ledger.discarded.g();
            prop_assert!((label - out - unexplained).abs() < 1e-6, "{}: {label} - {out} is not {unexplained}", piece.word);
        }
    }

    #[test]
    fn every_portion_is_in_one_place(tries in tries()) {
        let state = play(&tries).state;
        for portion in state.portions() {
            let holders: Vec<&str> = state
                .packs()
                .filter(|pack| state.portions_in(pack).any(|inside| inside.id == portion.id))
                .map(|pack| pack.slug.as_str())
                .collect();
            prop_assert!(holders.len() <= 1, "{} is in {holders:?}", portion.name());
            let packed = matches!(state.stage(portion), Stage::Packed | Stage::Out);
            prop_assert!(!packed || holders.len() == 1, "{} is packed in {holders:?}", portion.name());
        }
        for pack in state.packs() {
            if let (Contents::Portions(_), None) = (&pack.sealed.contents, &pack.gone) {
                prop_assert!(state.portions_in(pack).next().is_some(), "{} is empty and not gone", pack.slug);
            }
            prop_assert_eq!(state.pack_of(&pack.slug.to_uppercase()).map(|found| found.id), Some(pack.id));
        }
    }

    #[test]
    fn replay_equals_live(tries in tries()) {
        let book = play(&tries);
        prop_assert_eq!(&State::fold(book.stored.iter().cloned()), &book.state);
        prop_assert_eq!(book.state.contradictions(), []);
    }

    #[test]
    fn an_entry_counts_once(tries in tries(), again in any::<prop::sample::Index>()) {
        let mut book = play(&tries);
        if let Some(stored) = (!book.stored.is_empty()).then(|| again.get(&book.stored).clone()) {
            let before = book.state.clone();
            prop_assert!(book.state.check(&stored.entry).is_err());
            prop_assert!(book.offer(stored.entry).is_err());
            prop_assert_eq!(&book.state, &before);
        }
    }

    /// An entry is corrected at the end, or it had been right from the start: pieces, packs and suppers are the same.
    #[test]
    fn a_correction_reads_as_if_written_right(tries in tries(), which in any::<prop::sample::Index>(), grams in 50..900_u16) {
        let mut book = play(&tries);
        let candidates: Vec<Stored> =
            book.stored.iter().filter(|stored| stored.entry.kind() != Kind::Corrected).cloned().collect();
        prop_assume!(!candidates.is_empty());
        let wrong = which.get(&candidates).entry.clone();
        let mut right = wrong.body.to_value();
        if right.get("mass_g").is_some() {
            right["mass_g"] = json!(grams);
        }
        let taken_back = grams % 3 == 0;
        let body = if taken_back {
            json!({"entry": wrong.id, "because": "never happened"})
        } else {
            json!({"entry": wrong.id, "because": "misread", "body": right})
        };
        let at = minutes(10_000);
        let entry = book.entry(Kind::Corrected, at, body).expect("reads");
        prop_assume!(book.offer(entry).is_ok());
        let as_if = book.stored.iter().map(|stored| match &stored.entry {
            // Nothing is written where it was taken back; a reading of no place keeps the numbers as they were.
            entry if entry.id == wrong.id && taken_back => stored_like(stored, nothing(entry)),
            entry if entry.id == wrong.id => {
                stored_like(stored, Entry { body: Body::read(entry.kind(), &right, "body").expect("reads"), ..entry.clone() })
            }
            entry if corrects(entry, wrong.id) => stored_like(stored, nothing(entry)),
            entry => stored_like(stored, entry.clone()),
        });
        let names_stay = !(taken_back && matches!(wrong.kind(), Kind::PieceReceived | Kind::PackSealed));
        prop_assume!(names_stay);
        prop_assert_eq!(things(&State::fold(as_if)), things(&book.state));
    }
}

fn corrects(entry: &Entry, wrong: Uuid) -> bool {
    matches!(&entry.body, Body::Corrected(corrected) if corrected.entry == wrong)
}

fn nothing(entry: &Entry) -> Entry {
    let body = json!({"v": 1, "place": "nowhere", "at_c": 0});
    Entry { body: Body::read(Kind::TemperatureRead, &body, "body").expect("reads"), ..entry.clone() }
}

fn stored_like(old: &Stored, entry: Entry) -> Stored {
    stored(old.number, entry)
}

/// Everything that was made, without the numbers of the entries that concern it.
fn things(state: &State) -> String {
    let pieces = state.pieces().map(|piece| Piece { entries: Vec::new(), ..piece.clone() });
    format!(
        "{:#?}",
        (
            pieces.collect::<Vec<_>>(),
            state.portions().collect::<Vec<_>>(),
            state.parts().collect::<Vec<_>>(),
            state.packs().collect::<Vec<_>>(),
            state.suppers().collect::<Vec<_>>(),
            state.settings().iter().collect::<Vec<_>>(),
        )
    )
}
