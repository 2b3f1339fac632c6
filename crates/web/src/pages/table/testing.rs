//! A record with something to eat: four portions of a strip loin, two in a pack in the chest, two on the counter.

use crate::testing::Visitor;
use serde_json::json;

pub(crate) fn four_portions() -> Visitor {
    let visitor = Visitor::new();
    for (key, kind) in [("place.chest.kind", "freezer"), ("place.fridge.kind", "fridge")] {
        visitor.put("2026-07-01T09:00:00+02:00", "setting-changed", json!({ "key": key, "value": kind }));
    }
    let piece = visitor.put(
        "2026-07-03T09:00:00+02:00",
        "piece-received",
        json!({ "cut": "beef-strip-loin", "mass_g": 4200, "total": "90", "currency": "EUR", "word": "DUSK" }),
    );
    let mut portions = Vec::new();
    for (n, grams) in [(1, 380), (2, 372), (3, 391), (4, 366)] {
        let body = json!({ "piece": piece, "n": n, "mass_g": grams, "thickness_mm": 29 + n % 2 });
        portions.push(visitor.put(&format!("2026-07-04T11:0{n}:00+02:00"), "portion-weighed", body));
    }
    for pair in portions.chunks(2) {
        let body = json!({ "portions": pair, "wrap": "vacuum", "place": "chest" });
        visitor.put("2026-07-04T12:00:00+02:00", "pack-sealed", body);
    }
    visitor
}

/// A supper on Sunday 5 July at 19:30 for three: the tests' now is that day at 11:42.
pub(crate) fn sunday(visitor: &Visitor) {
    let state = visitor.state();
    let portions: Vec<_> = state.portions().map(|portion| portion.id).collect();
    let body = json!({ "day": "2026-07-05", "serve": { "at": "2026-07-05T19:30:00+02:00", "within_min": 10 },
        "portions": portions, "route": "low-then-sear",
        "seat": [{ "name": "Bow", "doneness": "rare" }, { "doneness": "medium rare" }, { "name": "Cox", "core_c": 60 }],
        "equipment": [{ "name": "oven", "kind": "oven", "medium": "oven", "medium_c": 110, "places": 12 },
            { "name": "pan", "kind": "pan", "medium": "pan", "places": 2 }] });
    visitor.put("2026-07-05T10:00:00+02:00", "supper-planned", body);
}
