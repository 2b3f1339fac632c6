//! Words for people: money, bands, small tables.

use quantity::{Currency, Grain, Mass, Money, Units};
use rust_decimal::{Decimal, RoundingStrategy};
use worth::Figure;

/// A forecast's middle to a tenth, its ends outward; an exact amount to the coin.
pub(crate) fn money(figure: Figure, currency: Currency) -> String {
    match figure {
        Figure::Plain(amount) => Money::new(amount, currency).to_string(),
        Figure::Band { median, .. } => {
            Money::new(tenths(median, RoundingStrategy::MidpointNearestEven), currency).to_string()
        }
    }
}

/// ", between 28.60 and 30.70 four times in five" behind a forecast; nothing behind an exact amount.
pub(crate) fn between(figure: Figure, currency: Currency) -> String {
    match figure {
        Figure::Plain(_) => String::new(),
        Figure::Band { low, high, .. } => {
            let (low, high) = money_ends(low, high);
            let places = currency.decimals() as usize;
            format!(", between {low:.places$} and {high:.places$} four times in five")
        }
    }
}

/// "29.60 (28.60 to 30.70)" for a cell.
pub(crate) fn money_cell(figure: Figure, currency: Currency) -> String {
    let places = currency.decimals() as usize;
    match figure {
        Figure::Plain(amount) => format!("{:.places$}", Money::new(amount, currency).to_coin().amount),
        Figure::Band { median, low, high } => {
            let (low, high) = money_ends(low, high);
            let median = tenths(median, RoundingStrategy::MidpointNearestEven);
            format!("{median:.places$} ({low:.places$} to {high:.places$})")
        }
    }
}

fn money_ends(low: Decimal, high: Decimal) -> (Decimal, Decimal) {
    (tenths(low, RoundingStrategy::ToNegativeInfinity), tenths(high, RoundingStrategy::ToPositiveInfinity))
}

fn tenths(amount: Decimal, how: RoundingStrategy) -> Decimal {
    amount.round_dp_with_strategy(1, how)
}

/// A mass in grams as ledgers show it, its band in brackets.
pub(crate) fn mass_cell(grams: Figure, units: &Units) -> String {
    let one =
        |grams: Decimal, grain| units.mass(Mass::from_g(f64::try_from(grams).unwrap_or_default()), grain);
    match grams {
        Figure::Plain(grams) => one(grams, Grain::Reading),
        Figure::Band { median, low, high } => format!(
            "{} ({} to {})",
            one(median, Grain::Forecast),
            one(low, Grain::Forecast),
            one(high, Grain::Forecast)
        ),
    }
}

/// "83.1 %", "83 (78 to 88) %".
pub(crate) fn percent_cell(share: Figure) -> String {
    let whole =
        |share: Decimal, how| (share * Decimal::ONE_HUNDRED).round_dp_with_strategy(0, how).normalize();
    match share {
        Figure::Plain(share) => format!("{:.1} %", (share * Decimal::ONE_HUNDRED).round_dp(1)),
        Figure::Band { median, low, high } => format!(
            "{} ({} to {}) %",
            whole(median, RoundingStrategy::MidpointNearestEven),
            whole(low, RoundingStrategy::ToNegativeInfinity),
            whole(high, RoundingStrategy::ToPositiveInfinity)
        ),
    }
}

/// Columns of text: the first to the left, the others to the right, a rule under the heading.
pub(crate) fn table(rows: &[Vec<String>]) -> String {
    headed(rows, 1)
}

/// The same with so many rows of heading.
pub(crate) fn headed(rows: &[Vec<String>], heading: usize) -> String {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let width = |column: usize| {
        rows.iter().filter_map(|row| row.get(column)).map(|cell| cell.chars().count()).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..columns).map(width).collect();
    let mut lines: Vec<String> = rows
        .iter()
        .map(|row| {
            let cells = row.iter().zip(&widths).enumerate().map(|(column, (cell, &width))| {
                if column == 0 { format!("{cell:width$}") } else { format!("{cell:>width$}") }
            });
            cells.collect::<Vec<_>>().join("   ").trim_end().to_owned()
        })
        .collect();
    let rule = "─".repeat(widths.iter().sum::<usize>() + 3 * columns.saturating_sub(1));
    if lines.len() > heading {
        lines.insert(heading, rule);
    }
    lines.iter().map(|line| format!("  {line}\n")).collect()
}
