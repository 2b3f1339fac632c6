//! One exact answer from one set of exact numbers.

use crate::answer::{
    Answer, Ask, Call, CookedAnswer, CostLines, Figure, Heap, Line, PortionAnswer, Unexplained, Verdict,
};
use crate::chain::{Chain, PortionCost, accounted};
use crate::{Grams, Use, Worth, WorthError};
use rust_decimal::Decimal;

/// Reckons a piece that has been cut and weighed: every figure exact and plain.
///
/// # Errors
/// [`WorthError`] if a number is one no piece has, if nothing is used as portions, or if more was weighed than was bought
/// by more than the scales can be wrong.
pub fn worth(worth: &Worth) -> Result<Answer, WorthError> {
    let chain = Chain::of(worth)?;
    let unexplained = unexplained(worth, &chain)?;
    let plain = Figure::Plain;
    let call = chain.saving.map(|saving| Verdict {
        call: match saving {
            saving if saving > Decimal::ZERO => Call::Whole,
            saving if saving < Decimal::ZERO => Call::Counter,
            _ => Call::CannotTell,
        },
        chance_whole: if saving > Decimal::ZERO { 1.0 } else { 0.0 },
    });
    Ok(Answer {
        currency: worth.currency,
        usable_kg: plain(chain.usable.kg()),
        yield_share: plain(chain.yield_share),
        purchase_cost: plain(chain.purchase),
        credit: plain(chain.credit),
        net_cost: plain(chain.net),
        costs: CostLines {
            bag_count: plain(chain.bag_count),
            bags: plain(chain.bags),
            energy: plain(chain.energy),
            labour: plain(chain.labour),
            all_in: plain(chain.all_in),
        },
        cost_per_kg: plain(chain.per_kg),
        portion: chain.portion.as_ref().map(portion),
        cost_factor: chain.factor.map(plain),
        cooked: chain.cooked.as_ref().map(|cooked| CookedAnswer {
            saleable_kg: plain(cooked.saleable.kg()),
            cost_per_kg: plain(cooked.per_kg),
            portion: cooked.portion.as_ref().map(portion),
            cost_factor: cooked.factor.map(plain),
        }),
        saving: chain.saving.map(plain),
        break_even_counter_per_kg: plain(chain.per_kg),
        verdict: call,
        unexplained: Some(unexplained),
        ledger: heaps(worth)
            .into_iter()
            .zip(&chain.lines)
            .map(|(what, line)| Line {
                what,
                mass_g: plain(line.mass.g()),
                share: plain(line.share),
                value: plain(line.value),
            })
            .collect(),
        asks: asks(worth, &chain, unexplained),
    })
}

fn portion(cost: &PortionCost) -> PortionAnswer {
    PortionAnswer {
        each: Figure::Plain(cost.each),
        full: Figure::Plain(cost.full),
        factor: cost.factor.map(Figure::Plain),
    }
}

/// The heaps in the order of the ledger: parts, purge where it was weighed, what is left.
pub(crate) fn heaps(worth: &Worth) -> Vec<Heap> {
    let parts = worth.parts.iter().map(|part| Heap::Part(part.name.clone()));
    let purge = worth.piece.purge.map(|_| Heap::Purge);
    parts.chain(purge).chain([Heap::Unexplained]).collect()
}

/// Compares what is not explained with the scales' own error, and refuses grams that came from nowhere.
fn unexplained(worth: &Worth, chain: &Chain) -> Result<Unexplained, WorthError> {
    let squares: Decimal = weighings(worth).iter().map(|limit| limit.g().saturating_mul(limit.g())).sum();
    let missing = chain.unexplained;
    let beyond = missing.g().saturating_mul(missing.g()) > squares;
    let scales = Grams::new(root(squares));
    if beyond && missing < Grams::ZERO {
        return Err(WorthError::MoreOutThanIn {
            out: accounted(worth).g().normalize(),
            bought: worth.piece.mass.g().normalize(),
            over: missing.abs().g().normalize(),
            limit: scales.g(),
        });
    }
    Ok(Unexplained { grams: Figure::Plain(missing.g()), scales, beyond })
}

/// What each weighing may be wrong by: the label, every part, and the purge as two readings of the board's scale.
pub(crate) fn weighings(worth: &Worth) -> Vec<Grams> {
    let board = worth.scales.board;
    let label = worth.scales.label.error_in_service(worth.piece.mass);
    let parts = worth.parts.iter().map(|part| board.error_in_service(part.mass));
    let purge = worth.piece.purge.map(|purge| board.error_in_service(purge));
    [label].into_iter().chain(parts).chain(purge).collect()
}

/// A limit for people to read, to a tenth of a gram; the comparison above is made on the exact squares.
fn root(squares: Decimal) -> Decimal {
    let root = f64::try_from(squares).map_or(0.0, f64::sqrt);
    Decimal::try_from(root).unwrap_or_default().round_dp(1)
}

fn asks(worth: &Worth, chain: &Chain, unexplained: Unexplained) -> Vec<Ask> {
    let mut asks = Vec::new();
    if unexplained.beyond {
        asks.push(Ask::Missing {
            grams: chain.unexplained.g(),
            scales: unexplained.scales,
            purge_weighed: worth.piece.purge.is_some(),
        });
    }
    let unvalued = worth.parts.iter().filter(|part| part.used == Use::Keep { value: None });
    asks.extend(unvalued.map(|part| Ask::NoValue { part: part.name.clone() }));
    if chain.credit > chain.purchase {
        asks.push(Ask::CreditAbovePrice);
    }
    asks
}
