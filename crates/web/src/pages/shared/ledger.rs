//! The ledger in words: its lines, its two bars, the sentences under it.

use maud::{Markup, html};
use quantity::{Grain, Mass, Money, group};
use record::Piece;
use season::{Heap, LedgerRow, PieceLedger, Plates, Standing, Whereabouts};

use super::names::{cut_name, kilo_word, part_name, portions_of, price_here, whereabouts_words};
use crate::house::Visit;
use crate::plot::parts::{Fill, Part, bar, key, two_bars};
use crate::words::{counted, sentence_case};

/// A ledger as pages show it.
pub(crate) struct Ledger {
    /// `TARN, ribeye roll`
    pub(crate) name: String,
    /// `6 400 g`
    pub(crate) came_in: String,
    /// What was paid.
    pub(crate) paid: String,
    /// Its lines.
    pub(crate) lines: Vec<Line>,
    /// Lengths of the bar of grams.
    pub(crate) grams: Vec<Part>,
    /// Lengths of the bar of money; empty before it was cut.
    pub(crate) money: Vec<Part>,
    /// What the last line says: the label and its day.
    pub(crate) sum: String,
    /// Whether it balances.
    pub(crate) balances: bool,
    /// A sentence about the scales, or about what is missing.
    pub(crate) standing: Option<String>,
    /// What the plates come to.
    pub(crate) sentences: Vec<String>,
    /// The figures behind it.
    pub(crate) figures: PieceLedger,
}

/// A line of it.
pub(crate) struct Line {
    pub(crate) fill: Fill,
    pub(crate) name: String,
    pub(crate) note: String,
    pub(crate) mass: String,
    pub(crate) share: String,
    /// What it carries, or `nothing`.
    pub(crate) carries: String,
}

/// The ledger of a piece as of this visit.
pub(crate) fn ledger_of(visit: &Visit, piece: &Piece) -> Ledger {
    let figures = season::piece_ledger(&visit.state, piece, visit.at());
    let length = |value: f64, row: &LedgerRow| Part { fill: fill(&row.heap), length: value };
    let carried = figures.plates.is_some();
    Ledger {
        name: format!("{}, {}", piece.word, cut_name(visit.settings(), &piece.received.cut)),
        came_in: visit.units.mass(figures.came_in, Grain::Reading),
        paid: figures.paid.to_string(),
        lines: figures
            .rows
            .iter()
            .filter(|row| is_shown(row))
            .map(|row| line(row, &figures, visit))
            .collect(),
        grams: figures.rows.iter().map(|row| length(row.mass.g(), row)).collect(),
        money: if carried {
            figures.rows.iter().map(|row| length(crate::words::band::plain(row.value.amount), row)).collect()
        } else {
            Vec::new()
        },
        sum: format!("on the label, {}", visit.moments.day(&visit.zoned(piece.at))),
        balances: matches!(figures.standing, Standing::Balances { .. }),
        standing: standing(&figures, visit),
        sentences: figures
            .plates
            .as_ref()
            .map(|plates| plates_words(plates, figures.paid))
            .into_iter()
            .collect(),
        figures,
    }
}

/// What is not explained is always shown; a part of no grams is not.
fn is_shown(row: &LedgerRow) -> bool {
    row.heap == Heap::NotExplained || row.mass.g() != 0.0
}

fn line(row: &LedgerRow, ledger: &PieceLedger, visit: &Visit) -> Line {
    let (name, note) = names(&row.heap, ledger, visit);
    let carries =
        if row.value.to_coin().amount.is_zero() { "nothing".to_owned() } else { row.value.to_string() };
    Line {
        fill: fill(&row.heap),
        name,
        note,
        mass: visit.units.mass(row.mass, Grain::Reading),
        share: format!("{}\u{202f}%", group(row.share * 100.0, 1)),
        carries,
    }
}

fn names(heap: &Heap, ledger: &PieceLedger, visit: &Visit) -> (String, String) {
    match heap {
        Heap::Portions { whereabouts, places, packs } => {
            let where_words = whereabouts_words(whereabouts);
            let note = match (whereabouts, packs) {
                (Whereabouts::Out(_) | Whereabouts::Store(_), 1..) => {
                    format!("{where_words}, {}", counted(*packs, "pack", "packs"))
                }
                _ => where_words,
            };
            (portions_of(places.len()), note)
        }
        Heap::Part { part, called, whereabouts, value_per_kg } => {
            let place = whereabouts.as_ref().map_or_else(|| "kept".to_owned(), whereabouts_words);
            let value = value_per_kg.map(|value| {
                let price = price_here(visit, Money::new(value, ledger.paid.currency)).to_coin();
                format!(", at {price} a {}", kilo_word(visit))
            });
            (part_name(*part, called.as_deref()), place + &value.unwrap_or_default())
        }
        Heap::Whole => ("the piece".to_owned(), "not cut yet".to_owned()),
        Heap::Purge => ("purge".to_owned(), "in the bag".to_owned()),
        Heap::ThrownAway => ("thrown away whole".to_owned(), String::new()),
        Heap::NotExplained => not_explained(&ledger.standing, visit),
    }
}

/// An error, rounded up: it must not look smaller than it is.
fn about(mass: Mass, visit: &Visit) -> String {
    visit.units.mass(Mass::from_g((mass.g() - 1e-9).ceil()), Grain::Forecast)
}

fn not_explained(standing: &Standing, visit: &Visit) -> (String, String) {
    match standing {
        Standing::Uncut => ("not explained".to_owned(), String::new()),
        Standing::Balances { scales, .. } => {
            ("not explained".to_owned(), format!("inside the scales’ {}", about(*scales, visit)))
        }
        Standing::Missing { on_the_board: true, .. } => {
            ("not weighed yet".to_owned(), "on the board still, or not written down".to_owned())
        }
        Standing::Missing { scales, .. } => {
            ("not explained".to_owned(), format!("the scales explain {}", about(*scales, visit)))
        }
        Standing::MoreOutThanIn { .. } => ("more than came in".to_owned(), "a weight is wrong".to_owned()),
    }
}

fn standing(ledger: &PieceLedger, visit: &Visit) -> Option<String> {
    let grams = |mass: Mass| visit.units.mass(mass, Grain::Reading);
    match &ledger.standing {
        Standing::Uncut => None,
        Standing::Balances { grams: left, scales } => {
            let weighings = counted(ledger.weighings, "weighing", "weighings");
            let last = if left.g() == 0.0 {
                "Nothing is missing."
            } else {
                "What is not explained is nobody’s fault."
            };
            Some(format!("The scales’ own error over {weighings} is {}. {last}", about(*scales, visit)))
        }
        Standing::Missing { on_the_board: true, grams: left, .. } => {
            Some(format!("{} are not written down yet. Weigh what still lies on the board.", grams(*left)))
        }
        Standing::Missing { grams: left, purge_weighed, .. } => {
            let ask = if *purge_weighed { "A heap not weighed?" } else { "Purge not weighed?" };
            Some(format!("{} are missing between bag and board. {ask}", grams(*left)))
        }
        Standing::MoreOutThanIn { over } => Some(format!(
            "{} more was weighed than came in, beyond what any scale is wrong by. Look at the entries and take the wrong one back.",
            grams(*over)
        )),
    }
}

fn plates_words(plates: &Plates, paid: Money) -> String {
    let credit = Money::new(paid.amount - plates.carry.amount, paid.currency);
    let less =
        if credit.amount.is_zero() { String::new() } else { format!(", less {credit} for what was kept") };
    let plus = if plates.costs.amount.is_zero() {
        String::new()
    } else {
        format!(", plus {} for bags and electricity", plates.costs)
    };
    let sum = if less.is_empty() && plus.is_empty() { String::new() } else { format!(": {}", plates.all_in) };
    let counter = plates.counter.map_or_else(
        || " No counter price is known.".to_owned(),
        |counter| format!(" The counter would have asked {counter}."),
    );
    let many = sentence_case(&counted(plates.count, "plate", "plates")).to_lowercase();
    format!("Paid {paid}{less}{plus}{sum} for {many}, {} each.{counter}", plates.each)
}

fn fill(heap: &Heap) -> Fill {
    match heap {
        Heap::Portions { whereabouts, .. } => match whereabouts {
            Whereabouts::Out(_) | Whereabouts::Loose | Whereabouts::Heat | Whereabouts::Spare => Fill::Tint,
            Whereabouts::Store(_) => Fill::Solid,
            Whereabouts::Eaten => Fill::Gone,
            Whereabouts::Discarded => Fill::Plain,
        },
        Heap::Part { part: record::PartName::CleanFat, .. } => Fill::Fat,
        Heap::Part { whereabouts: Some(Whereabouts::Discarded), .. } => Fill::Plain,
        Heap::Part { .. } | Heap::Whole => Fill::Meat,
        Heap::Purge | Heap::ThrownAway => Fill::Plain,
        Heap::NotExplained => Fill::Plain,
    }
}

/// The bar of grams with its list, as Today has it.
pub(crate) fn bar_with_list(ledger: &Ledger) -> Markup {
    html! {
        figure {
            (bar(&ledger.grams, &format!("A bar of {}, divided as the list below.", ledger.came_in)))
            dl class="parts" {
                @for line in &ledger.lines {
                    div { dt { (key(line.fill)) } dd { (line.name) @if !line.note.is_empty() { ", " (line.note) } } dd class="r n" { (line.mass) } }
                }
                div class="sum" { dt {} dd { (ledger.sum) } dd class="r n" { (ledger.came_in) } }
            }
            @if let Some(words) = &ledger.standing { figcaption { (words) } }
        }
    }
}

/// Grams over money with the table, as the piece has it.
pub(crate) fn ledger_table(ledger: &Ledger) -> Markup {
    let carries = !ledger.money.is_empty();
    html! {
        figure {
            @if carries {
                (two_bars(&ledger.grams, &ledger.came_in, &ledger.money, &ledger.paid, "Two bars, grams above and money below, each divided as the table."))
            } @else {
                (bar(&ledger.grams, &format!("A bar of {}, divided as the table.", ledger.came_in)))
            }
        }
        table class="ledger" {
            caption class="unseen" { "Ledger: part, grams, money" }
            thead { tr { th scope="col" { "Part" } th scope="col" class="r" { "Weight" } th scope="col" class="r" { "Carries" } } }
            tbody {
                @for line in &ledger.lines {
                    tr {
                        th scope="row" { span class="key" { (key(line.fill)) } (line.name) @if !line.note.is_empty() { small { (line.note) } } }
                        td class="r n" { (line.mass) small { (line.share) } }
                        td class="r n" { (line.carries) }
                    }
                }
            }
            tfoot {
                tr {
                    th scope="row" { (sentence_case(&ledger.sum)) @if ledger.balances { small { "balances" } } }
                    td class="r n" { (ledger.came_in) }
                    td class="r n" { (ledger.paid) }
                }
            }
        }
    }
}
