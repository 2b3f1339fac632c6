//! A record for tests, written entry by entry.

use record::{At, Entry, State, Stored};
use serde_json::{Value, json};
use uuid::Uuid;

/// A record being written.
#[derive(Default)]
pub(crate) struct Writing {
    pub(crate) state: State,
    count: u128,
}

impl Writing {
    /// Writes one entry and gives its id.
    pub(crate) fn put(&mut self, at: &str, kind: &str, mut body: Value) -> Uuid {
        self.count += 1;
        let id = Uuid::from_u128(0x0197_0000_0000_7000_8000_0000_0000_0000 | self.count);
        body["v"] = json!(1);
        let entry = json!({ "id": id, "at": at, "kind": kind, "body": body });
        let entry = Entry::read(&entry).unwrap_or_else(|problems| panic!("{kind}: {problems:?}"));
        let number = self.state.number() + 1;
        let written = entry.at.timestamp();
        let stored = Stored { entry, number, written, writer: "test".into(), hash: [0; 32] };
        self.state.take(stored).unwrap_or_else(|refusal| panic!("{kind}: {refusal}"));
        id
    }
}

/// 18 July 2026, 15:10 in central Europe.
pub(crate) fn saturday() -> At {
    At::read("2026-07-18T15:10:00+02:00").unwrap()
}

/// Weights of the fourteen portions of TARN, g.
pub(crate) const PORTIONS: [u32; 14] = [384, 376, 391, 379, 372, 386, 381, 374, 388, 369, 383, 380, 377, 378];

/// TARN, a ribeye roll of 6 400 g at 24.90: bought, cut into 14, trimmed, packed in pairs, five pairs thawed, salted.
pub(crate) fn tarn() -> (Writing, Uuid, Vec<Uuid>) {
    let mut record = Writing::default();
    let put = |record: &mut Writing, at: &str, kind: &str, body: Value| record.put(at, kind, body);
    put(
        &mut record,
        "2026-07-04T09:00:00+02:00",
        "setting-changed",
        json!({ "key": "place.cellar-chest.kind", "value": "freezer" }),
    );
    put(
        &mut record,
        "2026-07-04T09:00:00+02:00",
        "setting-changed",
        json!({ "key": "place.fridge.kind", "value": "fridge" }),
    );
    let piece = put(
        &mut record,
        "2026-07-04T10:24:00+02:00",
        "piece-received",
        json!({ "cut": "beef-ribeye-roll", "mass_g": 6400, "price_per_kg": "24.90", "currency": "EUR",
            "counter_price_per_kg": "38.50", "word": "TARN", "trim": "to-6-mm", "lip": "on" }),
    );
    put(
        &mut record,
        "2026-07-05T11:12:00+02:00",
        "piece-measured",
        json!({ "piece": piece, "bag_off_g": 6354, "purge_g": 46 }),
    );
    let mut portions = Vec::new();
    for (place, grams) in PORTIONS.iter().enumerate() {
        let minute = 20 + place * 3;
        let at = format!("2026-07-05T11:{:02}:00+02:00", minute.min(59));
        let body = json!({ "piece": piece, "n": place + 1, "mass_g": grams });
        portions.push(put(&mut record, &at, "portion-weighed", body));
    }
    let part = |record: &mut Writing, part: &str, grams: u32, keep: &str, value: Option<&str>| {
        let mut body = json!({ "piece": piece, "part": part, "mass_g": grams, "use": keep });
        if let Some(value) = value {
            body["value_per_kg"] = json!(value);
        }
        put(record, "2026-07-05T12:21:00+02:00", "part-weighed", body)
    };
    let trim = part(&mut record, "lean-trim", 438, "keep", Some("11.80"));
    part(&mut record, "clean-fat", 489, "keep", Some("3.20"));
    part(&mut record, "silver-skin", 102, "waste", None);
    let mut packs = Vec::new();
    for pair in portions.chunks(2) {
        let body = json!({ "portions": pair, "wrap": "vacuum", "sealed": 2, "place": "cellar chest" });
        packs.push(put(&mut record, "2026-07-05T19:12:00+02:00", "pack-sealed", body));
    }
    put(
        &mut record,
        "2026-07-05T19:50:00+02:00",
        "pack-sealed",
        json!({ "part": trim, "wrap": "vacuum", "place": "cellar chest" }),
    );
    put(
        &mut record,
        "2026-07-17T18:40:00+02:00",
        "taken-out",
        json!({ "packs": packs[..5], "place": "fridge", "method": "fridge" }),
    );
    put(
        &mut record,
        "2026-07-18T10:05:00+02:00",
        "salted",
        json!({ "portions": portions[..10], "salt_g": 26.6 }),
    );
    (record, piece, portions)
}
