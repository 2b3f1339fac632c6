//! A piece with what the record and the planners say of it.

use record::{Body, Logged, Piece};
use season::{Around, Candidate, Grams, Judged, PerMass, PiecePrice, case};
use uuid::Uuid;

use crate::house::Visit;

/// A piece with all that its page shows.
pub(super) struct Found<'v> {
    pub(super) piece: &'v Piece,
    /// What it is likely to come to, while it is not cut.
    pub(super) forecast: Option<Judged>,
    /// Its entries, oldest first.
    pub(super) entries: Vec<&'v Logged>,
}

pub(super) fn found(visit: &Visit, id: Uuid) -> Option<Found<'_>> {
    let piece = visit.state.piece(id)?;
    let uncut = piece.portions.is_empty() && piece.discarded.is_none();
    Some(Found {
        piece,
        forecast: if uncut { forecast(visit, piece) } else { None },
        entries: entries(visit, piece),
    })
}

/// Its entries, and those that were taken back: what a correction of its log corrects belongs there too.
fn entries<'v>(visit: &'v Visit, piece: &'v Piece) -> Vec<&'v Logged> {
    let mut rows: Vec<&Logged> = visit.state.entries_of(piece).collect();
    let corrected = rows.iter().filter_map(|row| match &row.stored.entry.body {
        Body::Corrected(body) => visit.state.entry_of(body.entry),
        _ => None,
    });
    let corrected: Vec<&Logged> = corrected.collect();
    rows.extend(corrected);
    rows.sort_by_key(|row| row.stored.number);
    rows.dedup_by_key(|row| row.stored.number);
    rows
}

fn forecast(visit: &Visit, piece: &Piece) -> Option<Judged> {
    let received = &piece.received;
    let candidate = Candidate {
        cut: received.cut.clone(),
        mass: season::grams(received.mass),
        price: PiecePrice::Total(received.paid.total(received.mass)),
        counter: season::counter_price(&visit.state, piece).map(PerMass::per_kg),
        trim: received.trim.and_then(|trim| catalogue::Trim::named(trim.word())),
        lip: received.lip.map(|lip| lip == record::Lip::On),
    };
    let around = Around { currency: received.currency, ..around(visit, Some(piece.id)) };
    case(&[candidate], &around, crate::DRAWS, crate::SEED).ok()?.judged.into_iter().next()
}

/// What the kitchen knows that does not hang on the piece; `except` is left out of its own experience.
pub(crate) fn around(visit: &Visit, except: Option<Uuid>) -> Around {
    let settings = visit.settings();
    let state = &visit.state;
    Around {
        currency: visit.currency(),
        lean_value: settings.amount("money.lean_trim_per_kg").map(PerMass::per_kg),
        fat_value: settings.amount("money.clean_fat_per_kg").map(PerMass::per_kg),
        bag: settings.amount("money.bag_each"),
        portion: settings
            .number("supper.portion_g")
            .and_then(|grams| rust_decimal::Decimal::try_from(grams).ok())
            .map(Grams::new),
        own: state
            .pieces()
            .filter(|piece| Some(piece.id) != except)
            .filter_map(|piece| season::own_yield(state, piece))
            .collect(),
    }
}
