//! The books in words.

use maud::{Markup, html};
use quantity::{Grain, Money, group};
use season::{BooksRow, Sum};

use super::query::{Found, Order, Test};
use crate::house::Visit;
use crate::pages::shared::cut_name;
use crate::plot::against::Row;
use crate::words::{band, counted, number_word, plural, sentence_case};

/// The books as they are shown.
pub(super) struct View {
    pub(super) heading: String,
    pub(super) answer: Markup,
    pub(super) said: Vec<String>,
    pub(super) rows: Vec<Row>,
    pub(super) picture_said: String,
    pub(super) sign: String,
    pub(super) lines: Vec<Line>,
    pub(super) order: Order,
    /// Which money the table is in, where it is one.
    pub(super) money_said: Option<String>,
    pub(super) sums: Vec<SumLine>,
    pub(super) test: Option<TestView>,
    pub(super) notes: Vec<Markup>,
}

/// A piece in the table.
pub(super) struct Line {
    pub(super) word: String,
    pub(super) link: String,
    pub(super) what: String,
    pub(super) bought: String,
    pub(super) share: String,
    pub(super) plates: String,
    pub(super) each: String,
    pub(super) saved: String,
}

/// The last line, one for each currency.
pub(super) struct SumLine {
    pub(super) name: String,
    pub(super) balances: bool,
    pub(super) bought: String,
    pub(super) plates: String,
    pub(super) each: String,
    pub(super) saved: String,
}

/// The cutting test.
pub(super) struct TestView {
    pub(super) caption: String,
    pub(super) beside: String,
    pub(super) lines: Vec<(String, String, String, String)>,
    pub(super) label: String,
}

pub(super) fn view(found: &Found<'_>, visit: &Visit) -> View {
    let sum = found.books.sums.first();
    let amounts = Amounts { of_one_currency: found.books.sums.len() == 1 };
    View {
        heading: format!("The season to {}: did it pay?", visit.now().strftime("%-d %B")),
        answer: answer(sum),
        said: said(found, visit),
        rows: found.books.rows.iter().filter_map(picture_row).collect(),
        picture_said: picture_said(&found.books.rows),
        sign: sum.map(|sum| sum.currency.sign().to_owned()).unwrap_or_default(),
        lines: found.books.rows.iter().map(|row| line(row, amounts, visit)).collect(),
        order: found.order,
        money_said: sum
            .filter(|_| amounts.of_one_currency)
            .map(|sum| format!("Money in {}.", sum.currency.sign())),
        sums: found.books.sums.iter().map(|sum| sum_line(sum, amounts, visit)).collect(),
        test: found.test.as_ref().map(|test| test_view(test, visit)),
        notes: notes(found, visit),
    }
}

fn answer(sum: Option<&Sum>) -> Markup {
    let Some(sum) = sum else {
        return html! { "Every piece will stand here with what it cost, what became of it and what the counter would have asked." };
    };
    let Some(each) = sum.each else {
        return html! { (sentence_case(&counted(sum.pieces, "piece", "pieces"))) " for " strong { (sum.paid) } ", and no plate yet: nothing is cut." };
    };
    html! {
        (sum.plates) " " (plural(sum.plates, "plate", "plates")) " at " strong { (each) }
        @if sum.counter_plates > 0 {
            @let counter = Money::new(sum.counter.amount / rust_decimal::Decimal::from(sum.counter_plates), sum.currency);
            "; the counter would have asked " (counter) "."
        } @else { "; no counter price is known to hold them against." }
    }
}

fn said(found: &Found<'_>, visit: &Visit) -> Vec<String> {
    let Some(sum) = found.books.sums.first().filter(|sum| sum.plates > 0) else { return Vec::new() };
    let mut said = Vec::new();
    if sum.counter_plates > 0 {
        let under = if sum.saved.amount.is_sign_negative() { "over" } else { "under" };
        let saved = Money::new(sum.saved.amount.abs(), sum.currency);
        said.push(format!(
            "{saved} {under} the counter so far, on {} bought.",
            visit.units.large(sum.bought)
        ));
    }
    let lost = visit
        .state
        .packs()
        .filter(|pack| pack.gone.as_ref().is_some_and(|gone| gone.how == "discarded"))
        .count();
    said.push(match lost {
        0 => "No pack was thrown away so far.".to_owned(),
        lost => format!(
            "{} thrown away; what they cost is in these figures.",
            sentence_case(&counted(lost, "pack was", "packs were"))
        ),
    });
    said
}

fn picture_row(row: &BooksRow<'_>) -> Option<Row> {
    let plates = row.ledger.plates.as_ref()?;
    let count = rust_decimal::Decimal::from(plates.count.max(1));
    let figure = |money: Money| format!("{:.2}", money.to_coin().amount);
    let other = plates.counter.map(|counter| Money::new(counter.amount / count, counter.currency));
    Some(Row {
        name: row.piece.word.to_string(),
        own: (band::plain(plates.each.amount), figure(plates.each)),
        other: other.map(|other| (band::plain(other.amount), figure(other))),
    })
}

fn picture_said(rows: &[BooksRow<'_>]) -> String {
    let each: Vec<String> = rows
        .iter()
        .filter_map(picture_row)
        .map(|row| match &row.other {
            Some((_, other)) => format!("{} {}, counter {other}", row.name, row.own.1),
            None => format!("{} {}", row.name, row.own.1),
        })
        .collect();
    format!("What a plate of each piece came to, and what the counter would have asked. {}.", each.join("; "))
}

/// How the table writes money: the sign stands once above it, unless there are several.
#[derive(Clone, Copy)]
struct Amounts {
    of_one_currency: bool,
}

impl Amounts {
    fn of(self, money: Money) -> String {
        if !self.of_one_currency {
            return money.to_string();
        }
        let figure = money.to_coin().amount;
        format!(
            "{}{:.*}",
            if figure.is_sign_negative() { "−" } else { "" },
            money.currency.decimals() as usize,
            figure.abs()
        )
    }
}

fn line(row: &BooksRow<'_>, amounts: Amounts, visit: &Visit) -> Line {
    let plates = row.ledger.plates.as_ref();
    let share = plates.map(|plates| format!("{:.0}\u{202f}%", plates.mass / row.ledger.came_in * 100.0));
    Line {
        word: row.piece.word.to_string(),
        link: format!("/piece/{}", row.piece.word.slug()),
        what: format!(
            "{}, {}",
            cut_name(visit.settings(), &row.piece.received.cut),
            visit.moments.day(&visit.zoned(row.piece.at))
        ),
        bought: visit.units.large(row.ledger.came_in),
        share: share.unwrap_or_else(|| "not cut".to_owned()),
        plates: plates.map_or_else(|| "–".to_owned(), |plates| plates.count.to_string()),
        each: amounts.of(plates.map_or(row.ledger.paid, |plates| plates.each)),
        saved: match plates.map(|plates| plates.saved) {
            Some(Some(saved)) => amounts.of(saved),
            Some(None) => "no counter".to_owned(),
            None => "–".to_owned(),
        },
    }
}

fn sum_line(sum: &Sum, amounts: Amounts, visit: &Visit) -> SumLine {
    let name = sentence_case(&number_word(sum.pieces));
    SumLine {
        name: if amounts.of_one_currency { name } else { format!("{name}, {}", sum.currency) },
        balances: sum.unbalanced.is_empty(),
        bought: visit.units.large(sum.bought),
        plates: sum.plates.to_string(),
        each: sum.each.map_or_else(String::new, |each| amounts.of(each)),
        saved: if sum.counter_plates > 0 { amounts.of(sum.saved) } else { "–".to_owned() },
    }
}

fn test_view(test: &Test, visit: &Visit) -> TestView {
    let percent = |share: f64| format!("{}\u{202f}%", group(share * 100.0, 1));
    let usual = |ends: Option<(f64, f64)>| {
        ends.map_or_else(
            || "not known".to_owned(),
            |(low, high)| format!("{:.0}–{:.0}", (low * 100.0 + 1e-9).floor(), (high * 100.0 - 1e-9).ceil()),
        )
    };
    let beside = match (&test.trim, &test.source) {
        (Some(trim), Some(source)) => {
            format!("Usual, four times in five, for this cut {trim}: catalogue, from {source}")
        }
        _ => "How it was trimmed is not written, so there is no usual to hold it against".to_owned(),
    };
    TestView {
        caption: format!("Cutting test, {}, {}", test.word, cut_name(visit.settings(), &test.cut)),
        beside,
        lines: test
            .parts
            .iter()
            .map(|part| {
                (
                    part.name.to_owned(),
                    visit.units.mass(part.mass, Grain::Reading),
                    percent(part.mass / test.came_in),
                    usual(part.usual),
                )
            })
            .collect(),
        label: visit.units.mass(test.came_in, Grain::Reading),
    }
}

/// Entries that keep the sum from being whole.
fn notes(found: &Found<'_>, visit: &Visit) -> Vec<Markup> {
    let mut notes = Vec::new();
    for row in &found.books.rows {
        if !row.ledger.unvalued.is_empty() {
            let names: Vec<String> =
                row.ledger.unvalued.iter().map(|part| crate::pages::shared::part_name(*part, None)).collect();
            let word = row.piece.word.to_string();
            notes.push(html! { a class="row" href={ "/piece/" (row.piece.word.slug()) } { span { b { (word) } ": " (names.join(", ")) " counts as zero, no value is set." } } });
        }
    }
    for sum in &found.books.sums {
        for (word, grams) in &sum.unbalanced {
            let grams = visit.units.mass(quantity::Mass::from_g(grams.g().abs()), Grain::Reading);
            notes.push(html! { a class="row" href={ "/piece/" (word.to_lowercase()) } { span class="heed" { b { (word) } " does not balance: " (grams) "." } } });
        }
    }
    if found.books.without_counter > 0 {
        let count = counted(found.books.without_counter, "piece has", "pieces have");
        notes.push(html! { div class="row" { span { (sentence_case(&count)) " no counter price; no saving is told of it." } } });
    }
    notes
}
