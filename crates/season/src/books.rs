//! Did it pay? Cost and yield of every piece, and of all together.

use crate::ledger::{PieceLedger, Standing, piece_ledger};
use quantity::{Currency, Mass, Money};
use record::{At, Piece, State};
use rust_decimal::Decimal;

/// All pieces and their sums, one currency each.
#[derive(Clone, Debug, PartialEq)]
pub struct Books<'s> {
    /// Every piece, oldest first.
    pub rows: Vec<BooksRow<'s>>,
    /// Sums by currency, the one with most pieces first; a season usually has one.
    pub sums: Vec<Sum>,
    /// Pieces without a counter price, which no saving can be told of.
    pub without_counter: usize,
}

/// One piece.
#[derive(Clone, Debug, PartialEq)]
pub struct BooksRow<'s> {
    /// The piece.
    pub piece: &'s Piece,
    /// Its ledger.
    pub ledger: PieceLedger,
}

/// What the cut pieces of one currency come to.
#[derive(Clone, Debug, PartialEq)]
pub struct Sum {
    /// Their currency.
    pub currency: Currency,
    /// How many pieces.
    pub pieces: usize,
    /// Of these, how many were cut.
    pub cut: usize,
    /// Bought, on the labels.
    pub bought: Mass,
    /// Paid.
    pub paid: Money,
    /// Plates.
    pub plates: usize,
    /// Raw grams on them.
    pub portions: Mass,
    /// What those plates came to, costs and all.
    pub all_in: Money,
    /// One plate on average; nothing without a plate.
    pub each: Option<Money>,
    /// The counter for the pieces whose counter price is known.
    pub counter: Money,
    /// Plates of those pieces.
    pub counter_plates: usize,
    /// Saved against it.
    pub saved: Money,
    /// Words of the pieces that do not balance, with the grams.
    pub unbalanced: Vec<(String, Mass)>,
}

/// The books as of now.
#[must_use]
pub fn books(state: &State, now: At) -> Books<'_> {
    let rows: Vec<BooksRow<'_>> =
        state.pieces().map(|piece| BooksRow { piece, ledger: piece_ledger(state, piece, now) }).collect();
    let mut currencies: Vec<Currency> = Vec::new();
    for row in &rows {
        if !currencies.contains(&row.piece.received.currency) {
            currencies.push(row.piece.received.currency);
        }
    }
    let mut sums: Vec<Sum> = currencies.into_iter().map(|currency| sum(&rows, currency)).collect();
    sums.sort_by_key(|sum| std::cmp::Reverse(sum.pieces));
    let without_counter = rows
        .iter()
        .filter(|row| row.ledger.plates.as_ref().is_some_and(|plates| plates.counter.is_none()))
        .count();
    Books { rows, sums, without_counter }
}

fn sum(rows: &[BooksRow<'_>], currency: Currency) -> Sum {
    let mine: Vec<&BooksRow<'_>> =
        rows.iter().filter(|row| row.piece.received.currency == currency).collect();
    let plates: Vec<_> = mine.iter().filter_map(|row| row.ledger.plates.as_ref()).collect();
    let money = |amounts: Vec<Decimal>| Money::new(amounts.into_iter().sum(), currency);
    let count: usize = plates.iter().map(|plates| plates.count).sum();
    let all_in = money(plates.iter().map(|plates| plates.all_in.amount).collect());
    let compared: Vec<_> =
        plates.iter().filter_map(|one| Some((one.count, one.counter?, one.saved?))).collect();
    Sum {
        currency,
        pieces: mine.len(),
        cut: plates.len(),
        bought: mine.iter().map(|row| row.ledger.came_in).sum(),
        paid: money(mine.iter().map(|row| row.ledger.paid.amount).collect()),
        plates: count,
        portions: plates.iter().map(|plates| plates.mass).sum(),
        all_in,
        each: (count > 0).then(|| Money::new(all_in.amount / Decimal::from(count), currency)),
        counter: money(compared.iter().map(|(_, counter, _)| counter.amount).collect()),
        counter_plates: compared.iter().map(|(count, _, _)| count).sum(),
        saved: money(compared.iter().map(|(_, _, saved)| saved.amount).collect()),
        unbalanced: mine.iter().filter_map(|row| unbalanced(row)).collect(),
    }
}

fn unbalanced(row: &BooksRow<'_>) -> Option<(String, Mass)> {
    let grams = match row.ledger.standing {
        Standing::Missing { grams, .. } => grams,
        Standing::MoreOutThanIn { over } => -over,
        Standing::Uncut | Standing::Balances { .. } => return None,
    };
    Some((row.piece.word.to_string(), grams))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{saturday, tarn};
    use serde_json::json;

    #[test]
    fn sums_are_those_of_the_rows() {
        let (mut record, _, _) = tarn();
        let body = json!({ "cut": "beef-strip-loin", "mass_g": 4300, "total": "76.07", "currency": "EUR" });
        record.put("2026-07-18T12:00:00+02:00", "piece-received", body);
        let books = books(&record.state, saturday());
        let sum = &books.sums[0];
        assert_eq!((sum.pieces, sum.cut, sum.plates), (2, 1, 14));
        assert_eq!(sum.paid.to_string(), "235.43\u{202f}€");
        assert_eq!(
            sum.saved.to_string(),
            "52.11\u{202f}€",
            "204.74 less 152.63: no bags or electricity are set"
        );
        assert!(sum.unbalanced.is_empty() && books.without_counter == 0);
    }
}
