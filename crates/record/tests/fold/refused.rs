//! Every refusal is provoked once and reads as it should; nothing refused leaves a trace.

use crate::book::{Book, id, minutes};
use record::{Kind, Refusal};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use uuid::Uuid;

/// TARN with three portions, trim, and a pack of two; and DUSK with one portion.
struct Kitchen {
    book: Book,
    tarn: Uuid,
    portions: [Uuid; 3],
    trim: Uuid,
    pack: Uuid,
    dusk: Uuid,
    other: Uuid,
}

fn kitchen() -> Kitchen {
    let mut book = Book::default();
    let tarn = book.receive("TARN", 2000.0);
    let portions = [1, 2, 3].map(|n| book.portion(tarn, n, 380.0));
    let trim = json!({"piece": tarn, "part": "lean-trim", "mass_g": 300, "use": "keep"});
    let trim = book.write(Kind::PartWeighed, trim).expect("trim");
    let pack = book.pack(&portions[..2]);
    let dusk = book.receive("DUSK", 1000.0);
    let other = book.portion(dusk, 1, 400.0);
    Kitchen { book, tarn, portions, trim, pack, dusk, other }
}

impl Kitchen {
    fn refused(&mut self, kind: Kind, body: Value) -> Refusal {
        let before = self.book.state.clone();
        let refusal = self.book.write(kind, body.clone()).expect_err(&format!("{kind} {body} was taken"));
        assert_eq!(self.book.state, before, "a refused entry left a trace");
        refusal
    }

    fn taken(&mut self, kind: Kind, body: Value) -> Uuid {
        self.book.write(kind, body).expect("taken")
    }
}

fn provoked() -> Vec<Refusal> {
    let k = &mut kitchen();
    let (tarn, pack, [one, two, three]) = (k.tarn, k.pack, k.portions);
    let nobody = id(999_999);
    let received = |word: &str| json!({"cut": "beef-strip-loin", "mass_g": 5000, "total": "99", "currency": "EUR", "word": word});
    let mut all = vec![
        k.refused(Kind::PortionWeighed, json!({"piece": tarn, "n": 2, "mass_g": 377})),
        k.refused(Kind::PortionWeighed, json!({"piece": nobody, "n": 4, "mass_g": 377})),
        k.refused(Kind::PortionWeighed, json!({"piece": pack, "n": 4, "mass_g": 377})),
        k.refused(Kind::PortionWeighed, json!({"piece": tarn, "n": 4, "mass_g": 590})),
        k.refused(
            Kind::PortionWeighed,
            json!({"piece": tarn, "n": 4, "mass_g": 377, "from_mm": 90, "to_mm": 60}),
        ),
        k.refused(Kind::PieceMeasured, json!({"piece": tarn, "purge_g": 700})),
        k.refused(Kind::PieceMeasured, json!({"piece": tarn})),
        k.refused(Kind::PieceReceived, received("tarn")),
        k.refused(Kind::PieceReceived, received("DUST")),
        k.refused(Kind::PieceReceived, received("T-BONE")),
        k.refused(Kind::PackSealed, json!({"portions": [two, three], "wrap": "vacuum"})),
        k.refused(Kind::PackSealed, json!({"portions": [three, k.other], "wrap": "vacuum"})),
        k.refused(Kind::PackSealed, json!({"portions": [three, three], "wrap": "vacuum"})),
        k.refused(
            Kind::PackSealed,
            json!({"portions": [three], "with_bag_g": 460, "bag_g": 16, "wrap": "vacuum"}),
        ),
        k.refused(Kind::SettingChanged, json!({"key": "units.mas", "value": "lb"})),
        k.refused(Kind::SettingChanged, json!({"key": "units.mass", "value": "stone"})),
        k.refused(Kind::Salted, json!({"portions": [three], "salt_g": 45})),
        k.refused(Kind::Discarded, json!({"what": k.trim, "because": "smell", "mass_g": 400})),
        k.refused(
            Kind::SupperPlanned,
            json!({"day": "2026-07-04", "portions": [three], "route": "pan",
            "serve": {"at": "2026-07-11T19:30:00+02:00", "within_min": 5}}),
        ),
    ];
    let early = minutes(-60);
    let body = json!({"packs": [pack], "place": "fridge", "method": "fridge"});
    all.push(k.book.write_at(Kind::TakenOut, early, body.clone()).expect_err("before it existed"));
    all.push(
        k.book
            .write_at(Kind::PutOn, early, json!({"portions": [one], "on": "pan"}))
            .expect_err("cooked before"),
    );
    k.taken(Kind::TakenOut, body.clone());
    all.push(k.refused(Kind::TakenOut, body));
    k.taken(Kind::Served, json!({"portion": one, "outcome": "eaten"}));
    all.push(k.refused(Kind::PutOn, json!({"portions": [one], "on": "pan"})));
    all.push(k.refused(Kind::Served, json!({"portion": one, "outcome": "spare"})));
    let sealed = json!({"entry": k.portions[0], "because": "never cut"});
    all.push(k.refused(Kind::Corrected, sealed));
    let wrong = k.taken(Kind::LeakerFound, json!({"pack": pack}));
    let correction = k.taken(Kind::Corrected, json!({"entry": wrong, "because": "another bag"}));
    all.push(k.refused(Kind::Corrected, json!({"entry": correction, "because": "it was this one"})));
    all.push(k.refused(Kind::Corrected, json!({"entry": wrong, "because": "another bag"})));
    all.push(k.refused(
        Kind::Corrected,
        json!({"entry": k.dusk, "because": "weight", "body": {"v": 1, "mass_g": 900}}),
    ));
    let again = k.book.stored[0].entry.clone();
    all.push(k.book.state.check(&again).expect_err("an id counts once"));
    all.push(no_word_left());
    all
}

/// Every word of the list is some piece's.
fn no_word_left() -> Refusal {
    let mut book = Book::default();
    let body = json!({"cut": "beef-round", "mass_g": 5000, "total": "40", "currency": "EUR"});
    loop {
        if let Err(refusal) = book.write(Kind::PieceReceived, body.clone()) {
            // One of its own is still taken.
            let own = json!({"cut": "beef-round", "mass_g": 5000, "total": "40", "currency": "EUR", "word": "QXZQ"});
            book.write(Kind::PieceReceived, own).expect("a word of one's own");
            return refusal;
        }
    }
}

#[test]
fn every_refusal_says_what_was_found_what_is_allowed_and_what_to_do() {
    let mut by_reason: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for refusal in provoked() {
        let by_key = refusal.problems().iter().map(|problem| format!("\n    {problem}")).collect::<String>();
        by_reason.entry(refusal.reason()).or_default().push(format!("{refusal}{by_key}"));
    }
    let missing: Vec<&str> = [
        "before-it-existed",
        "corrects-a-correction",
        "does-not-fit",
        "gone",
        "grams-from-nowhere",
        "id-taken",
        "later-stands-on-it",
        "no-such-setting",
        "no-word-left",
        "not-a-word",
        "packed-twice",
        "taken-out-twice",
        "two-pieces",
        "unknown-reference",
        "unreadable",
        "weighed-twice",
        "word-taken",
        "word-too-like",
    ]
    .into_iter()
    .filter(|reason| !by_reason.contains_key(reason))
    .collect();
    assert!(missing.is_empty(), "not provoked: {missing:?}");
    let text: String = by_reason
        .iter()
        .flat_map(|(reason, all)| all.iter().map(move |message| format!("{reason}\n  {message}\n")))
        .collect();
    insta::assert_snapshot!(text);
}

#[test]
fn everything_wrong_with_a_body_is_told_at_once() {
    let body = json!({"v": 1, "cut": "beef-strip-loin", "mass_gr": 6400, "price_per_kg": 24.9, "currency": "euro",
        "trim": "to-6mm", "core_c": 3.1, "core_f": 38, "date": {"kind": "packed", "day": "24 June"}, "note": null});
    let problems = record::Body::read(Kind::PieceReceived, &body, "body").expect_err("refused");
    let text: Vec<String> = problems.iter().map(ToString::to_string).collect();
    insta::assert_snapshot!(text.join("\n"));
}
