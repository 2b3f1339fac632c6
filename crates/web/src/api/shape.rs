//! How pieces, packs and suppers read as JSON: keys of the forms, units in the names, moments as they were written.

use quantity::{Mass, Temperature};
use record::{Body, Contents, Lying, Pack, Part, Piece, Portion, Purge, State, Supper};
use serde_json::{Value, json};

/// A piece in a line.
pub(super) fn piece_in_short(state: &State, piece: &Piece) -> Value {
    json!({
        "word": piece.word.to_string(),
        "id": piece.id,
        "at": piece.at.to_string(),
        "cut": piece.received.cut,
        "mass_g": grams(piece.received.mass),
        "portions": piece.portions.len(),
        "packs": state.packs_of(piece).filter(|pack| pack.is_in_store()).count(),
        "unexplained_g": grams(state.ledger(piece).unexplained),
        "place": piece.lying.as_ref().map(|lying| &lying.place),
    })
}

/// A piece with everything that came of it.
pub(super) fn piece(state: &State, piece: &Piece) -> Value {
    let plan = piece.plan.as_ref().map(|plan| Body::from(plan.plan.clone()).to_value());
    json!({
        "word": piece.word.to_string(),
        "id": piece.id,
        "number": piece.number,
        "at": piece.at.to_string(),
        "received": Body::from(piece.received.clone()).to_value(),
        "measured": {
            "bag_off_g": piece.measured.bag_off.map(grams),
            "on_board_g": piece.measured.on_board.map(grams),
            "purge_g": piece.measured.purge.map(grams),
            "length_mm": piece.measured.length.map(|length| rounded(length.mm())),
            "core_c": piece.measured.core.map(|(_, core)| celsius(core)),
            "from_end": piece.measured.from_end,
        },
        "plan": plan,
        "ledger": ledger(state, piece),
        "portions": state.portions_of(piece).map(|one| portion(state, one)).collect::<Vec<_>>(),
        "parts": state.parts_of(piece).map(part).collect::<Vec<_>>(),
        "packs": state.packs_of(piece).map(|one| pack(state, one)).collect::<Vec<_>>(),
        "lies": piece.lying.as_ref().map(lies),
        "discarded": piece.gone().map(|gone| gone.since.to_string()),
        "entries": piece.entries,
    })
}

fn ledger(state: &State, piece: &Piece) -> Value {
    let ledger = state.ledger(piece);
    let parts: Vec<Value> = ledger
        .parts
        .iter()
        .map(|(part, keep, mass)| json!({ "part": part.word(), "use": keep.word(), "mass_g": grams(*mass) }))
        .collect();
    json!({
        "came_in_g": grams(ledger.came_in),
        "purge_g": ledger.purge.map(|purge| grams(purge.mass())),
        "purge_weighed": ledger.purge.map(|purge| matches!(purge, Purge::Weighed(_))),
        "portions_g": grams(ledger.portions),
        "parts": parts,
        "discarded_g": grams(ledger.discarded),
        "unexplained_g": grams(ledger.unexplained),
        "scale_error_g": grams(ledger.scale_error),
    })
}

fn portion(state: &State, portion: &Portion) -> Value {
    let pack = portion.pack.and_then(|id| state.pack(id)).map(|pack| &pack.slug);
    json!({
        "n": portion.n,
        "name": portion.name(),
        "id": portion.id,
        "at": portion.at.to_string(),
        "mass_g": grams(portion.weighed.mass),
        "from_mm": portion.weighed.from.map(|mark| rounded(mark.mm())),
        "to_mm": portion.weighed.to.map(|mark| rounded(mark.mm())),
        "thickness_mm": portion.weighed.thickness.map(|mark| rounded(mark.mm())),
        "twin": portion.weighed.twin,
        "stage": state.stage(portion).word(),
        "pack": pack,
        "salted_at": portion.salted.last().map(|salt| salt.at.to_string()),
        "served_at": portion.served.last().map(|served| served.at.to_string()),
    })
}

fn part(part: &Part) -> Value {
    json!({
        "part": part.weighed.part.word(),
        "id": part.id,
        "at": part.at.to_string(),
        "mass_g": grams(part.weighed.mass),
        "use": part.weighed.keep.word(),
        "name": part.weighed.name,
        "discarded": part.gone().map(|gone| gone.since.to_string()),
    })
}

/// A pack: what is in it, where it lies, what became of it.
pub(super) fn pack(state: &State, pack: &Pack) -> Value {
    let portions: Option<Vec<u32>> = match &pack.sealed.contents {
        Contents::Portions(ids) => {
            Some(ids.iter().filter_map(|id| state.portion(*id)).map(|one| one.n).collect())
        }
        Contents::Part(_) => None,
    };
    json!({
        "pack": pack.slug,
        "name": pack.name,
        "id": pack.id,
        "piece": pack.word.to_string(),
        "at": pack.at.to_string(),
        "portions": portions,
        "mass_g": grams(pack.mass),
        "wrap": pack.sealed.wrap.word(),
        "in_store": pack.is_in_store(),
        "lies": pack.lying.as_ref().map(lies),
        "frozen": pack.frozen.map(|at| at.to_string()),
        "leaker": pack.leaker.as_ref().map(|leak| leak.at.to_string()),
        "out": pack.out.as_ref().map(|out| json!({
            "at": out.at.to_string(), "place": out.place, "method": out.method.map(record::Method::word),
            "place_c": out.temperature.map(celsius),
        })),
        "missing": pack.missing.map(|at| at.to_string()),
        "gone": pack.gone.as_ref().map(|gone| json!({ "at": gone.at.to_string(), "how": gone.how })),
    })
}

fn lies(lying: &Lying) -> Value {
    json!({
        "place": lying.place, "where": lying.spot, "since": lying.since.to_string(), "freezes": lying.freezes,
    })
}

/// A supper: its plan and what was served.
pub(super) fn table(state: &State, supper: &Supper) -> Value {
    let name = |id| state.portion(id).map(Portion::name);
    json!({
        "table": supper.slug,
        "id": supper.id,
        "number": supper.number,
        "at": supper.at.to_string(),
        "plan": Body::from(supper.planned.clone()).to_value(),
        "portions": supper.planned.portions.iter().map(|id| name(*id)).collect::<Vec<_>>(),
        "served": supper.served.iter().map(|id| name(*id)).collect::<Vec<_>>(),
        "planned_by": supper.revisions.iter().map(|(id, _)| id).collect::<Vec<_>>(),
    })
}

fn grams(mass: Mass) -> f64 {
    rounded(mass.g())
}

fn celsius(temperature: Temperature) -> f64 {
    rounded(temperature.c())
}

/// Without the tail that a sum or a conversion leaves: a millionth of the unit.
fn rounded(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}
