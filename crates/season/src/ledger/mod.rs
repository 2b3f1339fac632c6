//! The ledger of one piece: where its grams and its money are.

mod answer;
mod heaps;
mod question;
#[cfg(test)]
mod tests;

pub use answer::{Heap, LedgerRow, PieceLedger, Plates, Standing, Whereabouts};
pub use heaps::whereabouts;
pub use question::counter_price;

use catalogue::Trim;
use heaps::{heaps, is_kept};
use quantity::{Mass, Money};
use question::question;
use record::{At, PartName, Piece, State};
use rust_decimal::Decimal;
use worth::{Ask, Grams, WorthError};

/// The ledger of a piece. `now` ends the months that packs still in store have been kept.
#[must_use]
pub fn piece_ledger(state: &State, piece: &Piece, now: At) -> PieceLedger {
    let currency = piece.received.currency;
    let money = |amount| Money::new(amount, currency);
    let heaps = heaps(state, piece);
    let paid = piece.received.paid.total(piece.received.mass);
    let so_far = state.ledger(piece);
    let weighings = 1
        + piece.portions.len()
        + piece.parts.len()
        + usize::from(piece.measured.purge.is_some() || piece.measured.bag_off.is_some());
    let mut ledger = PieceLedger {
        rows: Vec::new(),
        came_in: so_far.came_in,
        paid: money(paid).to_coin(),
        standing: Standing::Uncut,
        plates: None,
        unvalued: Vec::new(),
        weighings,
    };
    if piece.portions.is_empty() {
        ledger.rows = grams_alone(&heaps, &so_far, ledger.paid, Heap::Whole);
        return ledger;
    }
    let asked = question(state, piece, &heaps, now);
    match worth::worth(&asked) {
        Ok(answer) => fill(&mut ledger, &answer, heaps, piece, state),
        Err(WorthError::MoreOutThanIn { over, .. }) => {
            ledger.standing = Standing::MoreOutThanIn { over: mass(over) };
            ledger.rows = grams_alone(&heaps, &so_far, ledger.paid, Heap::NotExplained);
        }
        // What the record accepted, the sum can be done of; should it not, the grams still stand.
        Err(_) => ledger.rows = grams_alone(&heaps, &so_far, ledger.paid, Heap::NotExplained),
    }
    ledger
}

/// What was bought and what became portions, for a piece that was cut and balances: what the next one is judged by.
#[must_use]
pub fn own_yield(state: &State, piece: &Piece) -> Option<crate::OwnYield> {
    let ledger = state.ledger(piece);
    let settled = ledger.unexplained.g().abs() < ledger.came_in.g() * 0.02;
    (ledger.portions.g() > 0.0 && settled).then(|| crate::OwnYield {
        cut: piece.received.cut.clone(),
        trim: piece.received.trim.and_then(|trim| Trim::named(trim.word())),
        portions: ledger.portions / ledger.came_in,
    })
}

fn fill(
    ledger: &mut PieceLedger,
    answer: &worth::Answer,
    heaps: Vec<(Heap, Mass)>,
    piece: &Piece,
    state: &State,
) {
    // Books are to the coin: each line is, and they add to what was paid.
    let money = |amount: Decimal| Money::new(amount, answer.currency).to_coin();
    let amounts: Vec<Decimal> = answer.ledger.iter().map(|line| line.value.middle()).collect();
    let coins = worth::coins(&amounts, answer.currency);
    let mut heaps = heaps.into_iter().map(|(heap, _)| heap);
    ledger.rows = answer
        .ledger
        .iter()
        .zip(coins)
        .map(|(line, coins)| LedgerRow {
            heap: match line.what {
                worth::Heap::Part(_) => heaps.next().unwrap_or(Heap::NotExplained),
                worth::Heap::Purge => Heap::Purge,
                worth::Heap::Unexplained => Heap::NotExplained,
            },
            mass: mass(line.mass_g.middle()),
            share: plain(line.share.middle()),
            value: Money::new(coins, answer.currency),
        })
        .collect();
    let of_portions = |row: &&LedgerRow| matches!(row.heap, Heap::Portions { .. });
    let carry = ledger.rows.iter().filter(of_portions).map(|row| row.value.amount).sum();
    let count = piece.portions.len();
    let usable = answer.usable_kg.middle();
    let costs = money(answer.costs.all_in.middle() - answer.net_cost.middle());
    let all_in = costs.amount + carry;
    let counter = counter_price(state, piece).map(|price| money(price * usable));
    ledger.plates = Some(Plates {
        count,
        mass: Mass::from_kg(plain(usable)),
        carry: money(carry),
        costs,
        all_in: money(all_in),
        each: money(all_in / Decimal::from(count.max(1))),
        per_kg: money(answer.cost_per_kg.middle()),
        counter,
        saved: counter.map(|counter| money(counter.amount - all_in)),
    });
    let smallest =
        state.portions_of(piece).map(|portion| portion.weighed.mass.g()).fold(f64::INFINITY, f64::min);
    if let Some(found) = answer.unexplained {
        let (grams, scales) = (mass(found.grams.middle()), mass(found.scales.g()));
        let purge_weighed = answer.ledger.iter().any(|line| line.what == worth::Heap::Purge);
        ledger.standing = if found.beyond {
            let on_the_board = grams.g() >= smallest * 0.8;
            Standing::Missing { grams, scales, purge_weighed, on_the_board }
        } else {
            Standing::Balances { grams, scales }
        };
    }
    let unvalued = answer.asks.iter().any(|ask| matches!(ask, Ask::NoValue { .. }));
    if unvalued {
        ledger.unvalued = ledger.rows.iter().filter_map(|row| without_value(&row.heap)).collect();
    }
}

fn without_value(heap: &Heap) -> Option<PartName> {
    match heap {
        Heap::Part { part, whereabouts, value_per_kg: None, .. } if is_kept(whereabouts.as_ref()) => {
            Some(*part)
        }
        _ => None,
    }
}

/// Grams before the money can be laid on portions: all of it lies on what is not cut.
fn grams_alone(heaps: &[(Heap, Mass)], grams: &record::Ledger, paid: Money, rest: Heap) -> Vec<LedgerRow> {
    let nothing = Money::new(Decimal::ZERO, paid.currency);
    let row = |heap: Heap, mass: Mass| LedgerRow { heap, mass, share: mass / grams.came_in, value: nothing };
    let mut rows: Vec<LedgerRow> = heaps.iter().map(|(heap, mass)| row(heap.clone(), *mass)).collect();
    rows.extend(grams.purge.map(|purge| row(Heap::Purge, purge.mass())));
    if grams.discarded.g() > 0.0 {
        rows.push(row(Heap::ThrownAway, grams.discarded));
    }
    rows.push(LedgerRow { value: paid, ..row(rest, grams.unexplained) });
    rows
}

/// A mass as exact decimal grams. Scales show tenths at best; the milligram keeps the sum exact.
#[must_use]
pub fn grams(mass: Mass) -> Grams {
    Grams::new(Decimal::try_from(mass.g()).unwrap_or_default().round_dp(3))
}

fn mass(grams: Decimal) -> Mass {
    Mass::from_g(plain(grams))
}

fn plain(value: Decimal) -> f64 {
    value.try_into().unwrap_or(f64::NAN)
}
