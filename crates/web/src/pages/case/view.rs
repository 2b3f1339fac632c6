//! The comparison in words.

use band::Band;
use maud::{Markup, html};
use quantity::{Money, group};
use season::{Around, Case, CaseError, Judged, Look, Take};

use super::forms::{label_mass, seen_words};
use super::rolls::{Asked, Roll, address};
use crate::house::Visit;
use crate::pages::shared::{cut_name, kilo_word, per_unit, price_here};
use crate::plot::bands::{Other, Row};
use crate::plot::gambrel::Span;
use crate::words::{Shown, and_list, chance, number_word, plural, sentence_case};

/// The case as it is shown.
pub(super) struct View {
    pub(super) answer: Markup,
    pub(super) said: Option<String>,
    /// Rows of the picture and of the table; empty without candidates.
    pub(super) rows: Vec<Row>,
    pub(super) lines: Vec<Line>,
    pub(super) other: Option<Other>,
    pub(super) picture_said: String,
    pub(super) caption: Option<String>,
    pub(super) heading: String,
    /// What would narrow it: the sentence, whose it is, what there is to look at.
    pub(super) narrow: Option<(String, usize, Look)>,
    /// What was counted in, sentence by sentence.
    pub(super) counted: Vec<String>,
    /// Where the yield is from.
    pub(super) sources: Vec<String>,
    /// Whether settings would change the sum.
    pub(super) wants_values: bool,
}

/// A candidate in the table.
pub(super) struct Line {
    pub(super) name: String,
    pub(super) note: String,
    pub(super) price: String,
    pub(super) mass: String,
    pub(super) plates: Option<(String, String)>,
    pub(super) per_kg: (String, String),
    pub(super) is_best: bool,
    pub(super) without: String,
    pub(super) text: String,
}

pub(super) fn view(rolls: &[Roll], case: Result<Case, CaseError>, around: &Around, visit: &Visit) -> View {
    let case = match case {
        Ok(case) => case,
        Err(CaseError::Empty) => {
            return empty(
                html! { "Put down a weight and a price: this page says what a trimmed " (kilo_word(visit)) " comes to, and how sure that is." },
            );
        }
        Err(problem) => return empty(html! { "Cannot reckon it: " (problem.to_string()) "." }),
    };
    let best = best(case.take);
    let say = Say { visit, rolls, case: &case, best };
    View {
        answer: say.answer(),
        said: say.said(),
        rows: say.rows(),
        lines: say.lines(),
        other: say.other(),
        picture_said: say.picture_said(),
        caption: say.caption(),
        heading: format!(
            "The {} on offer, {} a trimmed {}",
            number_word(rolls.len()),
            around.currency.sign(),
            kilo_word(visit)
        ),
        narrow: say.narrow(),
        counted: counted_in(around, &case, visit),
        sources: sources(&case),
        wants_values: around.lean_value.is_none() && around.fat_value.is_none(),
    }
}

fn empty(answer: Markup) -> View {
    View {
        answer,
        said: None,
        rows: Vec::new(),
        lines: Vec::new(),
        other: None,
        picture_said: String::new(),
        caption: None,
        heading: String::new(),
        narrow: None,
        counted: Vec::new(),
        sources: Vec::new(),
        wants_values: false,
    }
}

fn best(take: Take) -> usize {
    match take {
        Take::Whole(at) | Take::Counter(at) | Take::CannotTell(at, _) | Take::Cheapest(at) => at,
    }
}

/// A to F.
fn letter(at: usize) -> String {
    char::from(b'A' + u8::try_from(at).unwrap_or(25)).to_string()
}

struct Say<'a> {
    visit: &'a Visit,
    rolls: &'a [Roll],
    case: &'a Case,
    best: usize,
}

impl Say<'_> {
    fn judged(&self) -> &Judged {
        &self.case.judged[self.best]
    }

    fn price(&self, per_kg: Band) -> Shown {
        Shown::money(per_unit(self.visit, per_kg), self.judged().answered.answer.currency, false)
    }

    /// `roll A`, or `it` where it is alone.
    fn name(&self, at: usize) -> String {
        let noun =
            if catalogue::cut(&self.rolls[at].cut).is_some_and(|cut| cut.roll) { "roll" } else { "piece" };
        format!("{noun} {}", letter(at))
    }

    fn counter(&self) -> Option<String> {
        let currency = self.judged().answered.answer.currency;
        self.rolls[self.best].counter.map(|asked| counter_words(asked, currency))
    }

    fn answer(&self) -> Markup {
        let price = self.price(self.judged().per_kg);
        let (alone, name) = (self.rolls.len() == 1, self.name(self.best));
        let counter = self.counter().unwrap_or_default();
        let unit = kilo_word(self.visit);
        let comes_to = html! { "a trimmed " (unit) " comes to " strong { (price.middle) } ", " (price.between()) " four times in five" };
        match self.case.take {
            Take::Whole(_) if alone => html! { "Take it: " (comes_to) "; the counter asks " (counter) "." },
            Take::Whole(_) => html! { "Take " (name) ": " (comes_to) "; the counter asks " (counter) "." },
            Take::Counter(_) if alone => {
                html! { "Buy at the counter, it asks " strong { (counter) } "; whole, " (comes_to) "." }
            }
            Take::Counter(_) => {
                html! { "Buy at the counter, it asks " strong { (counter) } "; even of " (name) " " (comes_to) "." }
            }
            Take::CannotTell(_, whole) => {
                let nearer = if whole >= 0.5 { "whole" } else { "the counter" };
                let share = chance(whole.max(1.0 - whole));
                html! { "Cannot tell; the nearer call is " (nearer) ", " (share) ": " (comes_to) ", the counter asks " (counter) "." }
            }
            Take::Cheapest(_) if alone => {
                html! { (sentence_case("")) "A trimmed " (unit) " comes to " strong { (price.middle) } ", " (price.between()) " four times in five." }
            }
            Take::Cheapest(_) => html! { "Of these, " (name) ": " (comes_to) "." },
        }
    }

    fn said(&self) -> Option<String> {
        let judged = self.judged();
        let currency = judged.answered.answer.currency;
        let plates = judged.plates.zip(judged.answered.answer.portion).map(|(plates, portion)| {
            let each = Shown::money(season::banded(portion.each), currency, false);
            let plates = Shown::count(plates);
            let ends = if plates.is_sharp() { String::new() } else { format!(" ({})", plates.to()) };
            format!("It makes {} plates{ends} at about {}.", plates.middle, each.middle)
        });
        let saved = judged.saving.filter(|saving| saving.median > 0.0).map(|saving| {
            let saving = Shown::money(saving, currency, true);
            format!("It saves {}, {}.", saving.middle, saving.between())
        });
        let even = judged.saving.map(|_| {
            let price = self.price(judged.per_kg);
            format!(
                "Whole stops paying if the counter falls below {} a {}.",
                price.middle,
                kilo_word(self.visit)
            )
        });
        let no_counter = (judged.saving.is_none()).then(|| {
            "Say what the counter asks for the same, cut, and this page says which to take.".to_owned()
        });
        let words: Vec<String> = [plates, saved, even, no_counter].into_iter().flatten().collect();
        (!words.is_empty()).then(|| words.join(" "))
    }

    fn rows(&self) -> Vec<Row> {
        self.case
            .judged
            .iter()
            .enumerate()
            .map(|(at, judged)| {
                let band = per_unit(self.visit, judged.per_kg);
                Row {
                    name: letter(at),
                    more: label_mass(self.visit, &self.rolls[at]),
                    span: Span::new(band.low, band.median, band.high),
                    figure: group((band.median * 10.0).round() / 10.0, 2),
                }
            })
            .collect()
    }

    fn lines(&self) -> Vec<Line> {
        self.case.judged.iter().enumerate().map(|(at, judged)| self.line(at, judged)).collect()
    }

    fn line(&self, at: usize, judged: &Judged) -> Line {
        let currency = judged.answered.answer.currency;
        let shown = self.price(judged.per_kg);
        let mut without = self.rolls.to_vec();
        without.remove(at);
        let differs = self.rolls.iter().any(|roll| roll.cut != self.rolls[at].cut);
        let cut = differs.then(|| cut_name(self.visit.settings(), &self.rolls[at].cut));
        let note = [cut.unwrap_or_default(), seen_words(&self.rolls[at])];
        Line {
            name: letter(at),
            note: note.into_iter().filter(|words| !words.is_empty()).collect::<Vec<_>>().join(", "),
            price: Money::new(judged.answered.answer.purchase_cost.middle(), currency).to_string(),
            mass: label_mass(self.visit, &self.rolls[at]),
            plates: judged.plates.map(|plates| {
                let plates = Shown::count(plates);
                (plates.middle.clone(), plates.dash())
            }),
            per_kg: (shown.middle.clone(), shown.dash()),
            is_best: at == self.best && self.rolls.len() > 1,
            without: address(&without),
            text: self.rolls[at].to_text(),
        }
    }

    fn other(&self) -> Option<Other> {
        let currency = self.judged().answered.answer.currency;
        let at = self.rolls[self.best].counter.and_then(|asked| plain_counter(self.visit, asked))?;
        let shown = Money::new(rust_decimal::Decimal::try_from(at).ok()?, currency).to_coin();
        Some(Other { at, word: format!("counter {:.2}", shown.amount) })
    }

    fn picture_said(&self) -> String {
        let rows: Vec<String> = self
            .case
            .judged
            .iter()
            .enumerate()
            .map(|(at, judged)| {
                let shown = self.price(judged.per_kg);
                format!("{}: {}, middle {}.", sentence_case(&self.name(at)), shown.to(), shown.middle)
            })
            .collect();
        let counter = self.counter().map_or_else(String::new, |counter| format!(" Counter {counter}."));
        format!("Prices of a trimmed {} on one rule. {}{counter}", kilo_word(self.visit), rows.join(" "))
    }

    fn caption(&self) -> Option<String> {
        if self.rolls.len() < 2 {
            return None;
        }
        let mut order: Vec<usize> = (0..self.rolls.len()).collect();
        order.sort_by(|a, b| self.case.judged[*b].cheapest.total_cmp(&self.case.judged[*a].cheapest));
        let first = order[0];
        let rest: Vec<String> = order[1..]
            .iter()
            .map(|at| format!("{} {:.0}", letter(*at), self.case.judged[*at].cheapest * 100.0))
            .collect();
        let first_share = chance(self.case.judged[first].cheapest);
        let differs = self.rolls.iter().any(|roll| roll.trim != self.rolls[0].trim);
        let trim = if differs { " They are not trimmed alike, so a kilo is not the same kilo." } else { "" };
        Some(format!(
            "{} is the cheapest of the {} {first_share}, {}.{trim}",
            letter(first),
            number_word(self.rolls.len()),
            rest.join(", ")
        ))
    }

    fn narrow(&self) -> Option<(String, usize, Look)> {
        let looks = self.case.judged.iter().enumerate().flat_map(|(at, judged)| {
            judged.narrow.iter().filter(|unseen| unseen.what != Look::Yield).map(move |unseen| (at, unseen))
        });
        let (at, unseen) = looks.max_by(|a, b| a.1.share.total_cmp(&b.1.share))?;
        let whose = if self.rolls.len() == 1 { "the".to_owned() } else { format!("{}’s", letter(at)) };
        let share = format!("It makes {:.0}\u{202f}% of {whose} width.", unseen.share * 100.0);
        let act = match unseen.what {
            Look::Lip => format!("Turn {} and look for the lip.", self.name(at)),
            Look::Trim => "Settle how it will be trimmed.".to_owned(),
            Look::Yield => return None,
        };
        Some((format!("{act} {share}"), at, unseen.what))
    }
}

fn counter_words(asked: Asked, currency: quantity::Currency) -> String {
    match asked {
        Asked::Kilo(amount) | Asked::Pound(amount) | Asked::All(amount) => {
            Money::new(amount, currency).to_string()
        }
    }
}

/// The counter's price on the rule: by the mass prices are said in here.
fn plain_counter(visit: &Visit, asked: Asked) -> Option<f64> {
    let per_kg = |amount: rust_decimal::Decimal| Money::new(amount, visit.currency());
    let amount = match asked {
        Asked::Kilo(amount) => price_here(visit, per_kg(amount)).amount,
        Asked::Pound(amount) if visit.units.pounds => amount,
        Asked::Pound(amount) => record::Price::from_per_lb(amount).per_kg(),
        Asked::All(_) => return None,
    };
    f64::try_from(amount).ok()
}

fn counted_in(around: &Around, case: &Case, visit: &Visit) -> Vec<String> {
    let value = |price: Option<season::PerMass>| {
        price.map(|price| price_here(visit, Money::new(price.amount(), around.currency)).to_string())
    };
    let (lean, fat) = (value(around.lean_value), value(around.fat_value));
    let kept: Vec<String> = [
        lean.map(|price| format!("lean trim at {price} a {}", kilo_word(visit))),
        fat.map(|price| format!("clean fat at {price}")),
        around.bag.map(|bag| format!("bags at {} each", Money::new(bag, around.currency))),
    ]
    .into_iter()
    .flatten()
    .collect();
    let mut said = Vec::new();
    said.push(if kept.is_empty() {
        "Nothing beside the meat: trim and fat count as zero, bags and electricity are not set.".to_owned()
    } else {
        format!("{}.", sentence_case(&and_list(&kept)))
    });
    let own = case.judged.iter().map(|judged| judged.own_pieces).max().unwrap_or(0);
    said.push(if own == 0 {
        "Bands come from the yield of the cut in the catalogue.".to_owned()
    } else {
        format!(
            "Bands come from the yield of the cut in the catalogue and your own {}.",
            if own == 1 {
                "piece".to_owned()
            } else {
                format!("{} {}", number_word(own), plural(own, "piece", "pieces"))
            }
        )
    });
    if around.portion.is_none() {
        said.push(format!(
            "How much goes on a plate is not set, so plates are not counted; {} says how much that is.",
            "Settings"
        ));
    }
    said
}

/// Where each yield is from, once each.
fn sources(case: &Case) -> Vec<String> {
    let mut said: Vec<String> = Vec::new();
    for judged in &case.judged {
        for assumed in &judged.answered.assumed {
            let words = format!("{}.", sentence_case(&cited(&assumed.from)));
            if !said.contains(&words) {
                said.push(words);
            }
        }
    }
    said
}

/// A source's key in brackets becomes its citation.
fn cited(from: &str) -> String {
    let key = from.rsplit_once('(').and_then(|(_, rest)| rest.strip_suffix(')'));
    match key.and_then(|key| catalogue::source(key).map(|source| (key, source))) {
        Some((key, source)) => from.replace(&format!(" ({key})"), &format!(": {}", source.citation)),
        None => from.to_owned(),
    }
}
