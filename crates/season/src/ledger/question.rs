//! A piece as the yield and cost test takes it: its parts, what the counter asked, how long it was kept.

use super::answer::Heap;
use super::grams;
use super::heaps::is_kept;
use quantity::Mass;
use record::{At, Pack, Piece, State, Where};
use rust_decimal::Decimal;
use worth::{Bought, Costs, PerMass, Scales, Worth};

/// The piece as the yield and cost test takes it.
pub(super) fn question(state: &State, piece: &Piece, heaps: &[(Heap, Mass)], now: At) -> Worth {
    let parts = heaps
        .iter()
        .map(|(heap, mass)| worth::Part {
            name: String::new(),
            used: match heap {
                Heap::Portions { .. } => worth::Use::Portion,
                Heap::Part { value_per_kg, whereabouts, .. } if is_kept(whereabouts.as_ref()) => {
                    worth::Use::Keep { value: value_per_kg.map(PerMass::per_kg) }
                }
                _ => worth::Use::Waste,
            },
            mass: grams(*mass),
        })
        .collect();
    let settings = state.settings();
    let packs: Vec<&Pack> = state.packs_of(piece).collect();
    Worth {
        currency: piece.received.currency,
        piece: Bought {
            mass: grams(piece.received.mass),
            price: worth::Price::Total(piece.received.paid.total(piece.received.mass)),
            purge: state.ledger(piece).purge.map(|purge| grams(purge.mass())),
        },
        parts,
        counter: counter_price(state, piece).map(PerMass::per_kg),
        costs: Costs {
            bag: settings.amount("money.bag_each").unwrap_or_default(),
            bags: Some(u32::try_from(packs.len()).unwrap_or(u32::MAX)),
            energy_month: settings.amount("money.energy_per_kg_month").map(PerMass::per_kg),
            months: months_kept(&packs, now),
            labour: Decimal::ZERO,
        },
        cooked: None,
        portion: None,
        scales: Scales::default(),
    }
}

/// What the counter asked for the same, cut: as noted on receipt, else the latest price noted before that day was over.
#[must_use]
pub fn counter_price(state: &State, piece: &Piece) -> Option<Decimal> {
    let noted = || {
        let by_then = |at: At| at.timestamp() <= piece.at.timestamp() + jiff::SignedDuration::from_hours(24);
        let same = |note: &record::PriceNoted| {
            note.form == Where::Counter
                && note.cut == piece.received.cut
                && note.currency == piece.received.currency
        };
        state.prices().rfind(|price| by_then(price.at) && same(&price.note)).map(|price| price.note.price)
    };
    piece.received.counter_price.or_else(noted).map(record::Price::per_kg)
}

/// Months a kilo of it was kept frozen on average, by mass.
fn months_kept(packs: &[&Pack], now: At) -> Decimal {
    const SECONDS: f64 = 365.25 / 12.0 * 86400.0;
    let (mut weighted, mut all) = (0.0, 0.0);
    for pack in packs {
        all += pack.mass.g();
        let Some(since) = pack
            .frozen
            .or_else(|| pack.lay.iter().find(|lay| lay.freezes == Some(true)).map(|lay| lay.since))
        else {
            continue;
        };
        let ends = [
            pack.out.as_ref().map(|out| out.at),
            pack.outs.first().map(|out| out.at),
            pack.gone.as_ref().map(|gone| gone.at),
        ];
        let until = ends.into_iter().flatten().min_by_key(|at| at.timestamp()).unwrap_or(now);
        let seconds = until.timestamp().as_second() - since.timestamp().as_second();
        weighted += pack.mass.g() * seconds.max(0) as f64 / SECONDS;
    }
    if all > 0.0 { Decimal::try_from(weighted / all).unwrap_or_default().round_dp(3) } else { Decimal::ZERO }
}
