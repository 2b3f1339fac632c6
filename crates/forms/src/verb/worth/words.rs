//! The answer of `worth` as a person reads it.

use super::json::heap;
use crate::Flags;
use crate::answer::say::{between, mass_cell, money, money_cell, percent_cell, table};
use quantity::{Currency, Grain, Mass, Units};
use rust_decimal::Decimal;
use std::fmt::Write;
use worth::{Answer, Answered, Ask, Call, Figure, Heap, PerMass, coins};

pub(super) fn of(answered: &Answered, counter: Option<PerMass>, flags: &Flags) -> String {
    let answer = &answered.answer;
    let units = if flags.us { Units::US } else { Units::METRIC };
    let mut text = first(answer, counter, &units);
    text.push_str(&verdict(answer));
    text.push('\n');
    text.push_str(&table(&ledger(answer, &units)));
    text.push('\n');
    text.push_str(&rest(answered, &units));
    text
}

/// "A usable kilo comes to 29.60 €, between 28.60 and 30.70 four times in five; the counter asks 38.50 €."
fn first(answer: &Answer, counter: Option<PerMass>, units: &Units) -> String {
    let currency = answer.currency;
    let (unit, rate) =
        if units.pounds { ("pound", pound(answer.cost_per_kg)) } else { ("kilo", answer.cost_per_kg) };
    let mut text = format!("A usable {unit} comes to {}{}", money(rate, currency), between(rate, currency));
    if let Some(portion) = answer.portion {
        let full = match portion.full {
            Figure::Plain(full) => format!("{full} full plates"),
            Figure::Band { low, high, .. } => format!("{} to {} full plates", low.floor(), high.ceil()),
        };
        let _ =
            write!(text, "; {full} at {}{}", money(portion.each, currency), between(portion.each, currency));
    }
    if let Some(asked) = counter.and_then(PerMass::a_kilo) {
        let asked = if units.pounds { pound(Figure::Plain(asked)) } else { Figure::Plain(asked) };
        let _ = write!(text, "; the counter asks {}", money(asked, currency));
    }
    text.push_str(".\n");
    if let Some(cooked) = answer.cooked {
        let rate = if units.pounds { pound(cooked.cost_per_kg) } else { cooked.cost_per_kg };
        let _ =
            writeln!(text, "Cooked, a {unit} comes to {}{}.", money(rate, currency), between(rate, currency));
    }
    text
}

fn verdict(answer: &Answer) -> String {
    let (Some(verdict), Some(saving)) = (answer.verdict, answer.saving) else { return String::new() };
    let amount = whole_money(saving, answer.currency);
    match verdict.call {
        Call::Whole => format!("Take the whole piece: it saves {amount}.\n"),
        Call::Counter => format!(
            "Buy at the counter: the whole piece costs {} more.\n",
            whole_money(negated(saving), answer.currency)
        ),
        Call::CannotTell => {
            let nearer = if verdict.chance_whole >= 0.5 { "the whole piece" } else { "the counter" };
            format!(
                "Cannot tell: the gap is smaller than the band. The nearer call is {nearer}; the whole piece is the cheaper {} \
                 times in 100.\n",
                (verdict.chance_whole * 100.0).round()
            )
        }
    }
}

/// A saving: exact to the coin, a forecast to whole units.
fn whole_money(figure: Figure, currency: Currency) -> String {
    match figure {
        Figure::Plain(_) => money(figure, currency),
        Figure::Band { median, low, high } => {
            let (low, high) = (minus(low.floor()), minus(high.ceil()));
            format!(
                "about {}, between {low} and {high} four times in five",
                whole_amount(median.round(), currency)
            )
        }
    }
}

/// `50 €`, `$50`: whole units, the sign where the currency has it.
fn whole_amount(amount: Decimal, currency: Currency) -> String {
    let sign = currency.sign();
    if currency.sign_first() { format!("{sign}{amount}") } else { format!("{amount} {sign}") }
}

fn minus(amount: Decimal) -> String {
    amount.to_string().replace('-', "−")
}

fn negated(figure: Figure) -> Figure {
    match figure {
        Figure::Plain(amount) => Figure::Plain(-amount),
        Figure::Band { median, low, high } => Figure::Band { median: -median, low: -high, high: -low },
    }
}

fn pound(figure: Figure) -> Figure {
    let per_pound = |amount: Decimal| amount * Decimal::new(45_359_237, 8);
    match figure {
        Figure::Plain(amount) => Figure::Plain(per_pound(amount)),
        Figure::Band { median, low, high } => {
            Figure::Band { median: per_pound(median), low: per_pound(low), high: per_pound(high) }
        }
    }
}

fn ledger(answer: &Answer, units: &Units) -> Vec<Vec<String>> {
    let currency = answer.currency;
    let heading =
        ["part".to_owned(), "weight".to_owned(), "share".to_owned(), format!("carries, {}", currency.sign())];
    let values: Vec<Decimal> = answer.ledger.iter().map(|line| line.value.middle()).collect();
    let plain = answer.ledger.iter().all(|line| !line.value.is_band());
    let shown = coins(&values, currency);
    let mut rows = vec![heading.to_vec()];
    for (line, shown) in answer.ledger.iter().zip(shown) {
        let carried = if plain { Figure::Plain(shown) } else { line.value };
        let carries = if carried == Figure::Plain(Decimal::ZERO) {
            "nothing".to_owned()
        } else {
            money_cell(carried, currency)
        };
        let name = match &line.what {
            Heap::Part(_) | Heap::Purge => heap(&line.what).to_owned(),
            Heap::Unexplained => "not explained".to_owned(),
        };
        rows.push(vec![name, mass_cell(line.mass_g, units), percent_cell(line.share), carries]);
    }
    rows
}

fn rest(answered: &Answered, units: &Units) -> String {
    let answer = &answered.answer;
    let currency = answer.currency;
    let mut text = String::new();
    let nothing = Figure::Plain(Decimal::ZERO);
    let _ = write!(text, "Paid {}", money(answer.purchase_cost, currency));
    if answer.credit != nothing {
        let _ = write!(text, ", less {} for what is kept", money(answer.credit, currency));
    }
    if [answer.costs.bags, answer.costs.energy, answer.costs.labour].iter().any(|cost| *cost != nothing) {
        let _ = write!(text, "; with bags, electricity and work {}", money(answer.costs.all_in, currency));
    }
    text.push_str(".\n");
    if let Some(found) = answer.unexplained.filter(|found| !found.beyond) {
        let mass = |grams: Decimal| {
            units.mass(Mass::from_g(f64::try_from(grams).unwrap_or_default()), Grain::Reading)
        };
        let _ = writeln!(
            text,
            "{} not explained, inside the scales’ own {}.",
            mass(found.grams.middle()),
            mass(found.scales.g())
        );
    }
    for ask in &answer.asks {
        let _ = writeln!(text, "{}", question(ask));
    }
    for assumed in &answered.assumed {
        let _ = writeln!(
            text,
            "Assumed: {} from {:.0} to {:.0} %: {}.",
            assumed.input,
            assumed.low * 100.0,
            assumed.high * 100.0,
            assumed.from
        );
    }
    if let Some(first) = answered.narrow.first() {
        let _ = writeln!(
            text,
            "What would narrow it: {}. It makes {:.0} % of the width.",
            act(&first.input),
            first.share * 100.0
        );
    }
    text
}

/// The act that narrows an input.
fn act(input: &str) -> String {
    match input {
        "piece.trim" => "say how it will be trimmed".to_owned(),
        "yield" => "nothing before the knife; weigh the parts once it is cut".to_owned(),
        other => format!("find out {other}"),
    }
}

pub(super) fn question(ask: &Ask) -> String {
    match ask {
        Ask::Missing { grams, scales, purge_weighed } => {
            let where_to = if *purge_weighed {
                "Is a heap forgotten?"
            } else {
                "Purge not weighed, or a heap forgotten?"
            };
            format!(
                "{} g are missing, more than the {} g the scales can be wrong by. {where_to}",
                grams.round_dp(1).normalize(),
                scales.g().normalize()
            )
        }
        Ask::NoValue { part } => {
            format!("What does “{part}” replace? Without a value per kilo it counts as nothing.")
        }
        Ask::CreditAbovePrice => {
            "What is kept is worth more than was paid for the whole piece. Are the values per kilo right?"
                .to_owned()
        }
        Ask::TrimLevel => {
            "How will it be trimmed? That moves the yield more than the animal does: give piece.trim."
                .to_owned()
        }
    }
}
