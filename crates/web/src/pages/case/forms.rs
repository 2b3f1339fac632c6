//! Another roll: weight, price, counter price; what can be seen of it.

use maud::{Markup, html};
use quantity::{Grain, Units};
use record::{DateKind, Lip, PieceReceived, Price};
use season::is_sold_both_ways;

use super::rolls::{Asked, Roll, address};
use crate::house::Visit;
use crate::pages::shared::{LIPS, TRIMS, cut_options, cut_unit_price, date_on_bag};
use crate::parts::{Choice, Field, Typed, hidden_id};
use crate::reading::{Reading, Size};

pub(super) const ADD: &str = "add";
/// Marks what the form starts from.
const LAST: &str = "last time’s";

/// The roll that was typed, if nothing stands against it.
pub(super) fn read(reading: &mut Reading<'_>, visit: &Visit) -> Option<Roll> {
    let cut = reading.choice("cut", |word| catalogue::cut(word).map(|cut| cut.id.clone()));
    let cut = reading.needs("cut", cut, "Say which cut it is.");
    let heaviest = cut.as_deref().and_then(catalogue::cut).map_or(200_000.0, |cut| cut.mass.high_g * 2.0);
    let mass = reading.mass("mass", Size::Large, 50.0..=heaviest);
    let mass = reading.needs("mass", mass, "The weight stands on the label.");
    let price = reading.money("price");
    let price = reading.needs("price", price, "What is asked for it?");
    let counter = reading.money("counter");
    let trim = reading.choice("trim", |word| unknown_or(word, catalogue::Trim::named)).flatten();
    let lip = reading.choice("lip", |word| unknown_or(word, Lip::of)).flatten();
    let day = reading.date("day");
    let kind = reading.choice("kind", |word| unknown_or(word, DateKind::of)).flatten();
    let date = match (kind, day) {
        (Some(kind), Some(day)) => Some((kind, day)),
        (None, Some(_)) => {
            reading.refuse("kind", "There are four different dates. Say which one this is.");
            None
        }
        _ => None,
    };
    let all = reading.text("price_is").as_deref() == Some("all");
    let by_mass = |amount| if visit.units.pounds { Asked::Pound(amount) } else { Asked::Kilo(amount) };
    let grams = season::grams(mass?).g();
    let price = price?;
    reading.is_good().then_some(())?;
    Some(Roll {
        cut: cut?,
        grams,
        price: if all { Asked::All(price) } else { by_mass(price) },
        counter: counter.map(by_mass),
        trim,
        lip,
        date,
    })
}

fn unknown_or<T>(word: &str, of: impl Fn(&str) -> Option<T>) -> Option<Option<T>> {
    if word == "unknown" { Some(None) } else { of(word).map(Some) }
}

/// What the form starts from: the last piece's cut, trim and prices, marked as last time's.
pub(super) fn fresh(visit: &Visit, rolls: &[Roll]) -> Typed {
    if let Some(roll) = rolls.last() {
        return Typed::fresh(&beside(roll));
    }
    let last = visit.state.pieces().next_back().map(|piece| &piece.received);
    Typed::fresh(&last.map(|received| last_time(received, &visit.units)).unwrap_or_default())
}

fn beside(roll: &Roll) -> Vec<(&'static str, String)> {
    let amount = |asked: Asked| match asked {
        Asked::Kilo(amount) | Asked::Pound(amount) | Asked::All(amount) => amount.to_string(),
    };
    let mut values = vec![("cut", roll.cut.clone())];
    if !matches!(roll.price, Asked::All(_)) {
        values.push(("price", amount(roll.price)));
    }
    values.extend(roll.counter.map(|counter| ("counter", amount(counter))));
    values.extend(roll.trim.map(|trim| ("trim", trim.name().to_owned())));
    values
}

fn last_time(received: &PieceReceived, units: &Units) -> Vec<(&'static str, String)> {
    let amount = |price: Price| {
        let amount = if units.pounds { price.per_lb() } else { price.per_kg() };
        format!("{:.2}", amount.round_dp(2))
    };
    let mut values = vec![("cut", received.cut.clone())];
    if let record::Paid::ByMass(price) = received.paid {
        values.push(("price", amount(price)));
    }
    values.extend(received.counter_price.map(|price| ("counter", amount(price))));
    values.extend(received.trim.map(|trim| ("trim", trim.word().to_owned())));
    values
}

/// The form. Sent one way it puts a roll beside the others, the other way it writes down that it was bought.
pub(super) fn draw(visit: &Visit, rolls: &[Roll], typed: &Typed) -> Markup {
    let options = cut_options(visit.settings());
    let options: Vec<(&str, &str)> = options.iter().map(|(id, name)| (id.as_str(), name.as_str())).collect();
    let unit = cut_unit_price(visit, visit.currency());
    let from_last = rolls.is_empty() && typed.form().is_empty() && visit.state.pieces().next().is_some();
    let hint = |name: &str| from_last && typed.get(name).is_some();
    let price = Field::number("price", "Price").unit(&unit).required();
    let counter = Field::number("counter", "Counter, cut").unit(&unit).unknown("not seen");
    html! {
        form method="get" action="/case" data-entry autocomplete="off" {
            (hidden_id(typed, ADD))
            @for roll in rolls { input type="hidden" name="roll" value=(roll.to_text()); }
            div class="fields" {
                div class="whole" {
                    (Choice { name: "cut", label: "Cut", options: &options, start: "beef-ribeye-roll" }.list(typed))
                }
                (Field::number("mass", "Weight on the label").unit(if visit.units.pounds { "lb" } else { "kg" }).required().draw(typed))
                (if hint("price") { price.hint(LAST).draw(typed) } else { price.draw(typed) })
                (if hint("counter") { counter.hint(LAST).draw(typed) } else { counter.draw(typed) })
            }
            (seen(typed))
            @for words in typed.whole() { p class="wrong" role="alert" { (words) } }
            div class="acts" {
                button class={ "press" @if rolls.is_empty() { " first" } } { (if rolls.is_empty() { "Reckon it" } else { "Put it beside the others" }) }
                button class="press" formmethod="post" { "Bought it" }
            }
        }
    }
}

fn seen(typed: &Typed) -> Markup {
    let price_is = Choice {
        name: "price_is",
        label: "The price is",
        options: &[("mass", "by weight"), ("all", "for all of it")],
        start: "mass",
    };
    let trim = Choice { name: "trim", label: "How you will trim it", options: TRIMS, start: "unknown" };
    let lip = Choice { name: "lip", label: "Lip, on a ribeye", options: LIPS, start: "unknown" };
    let kind = date_on_bag("kind");
    html! {
        details class="unfold" id="seen" open[["trim", "lip", "kind", "day"].iter().any(|name| typed.wrong(name).is_some())] {
            summary { "What you can see" }
            div {
                (price_is.pick(typed))
                (trim.pick(typed))
                (lip.pick(typed))
                div class="fields" { (kind.list(typed)) (Field::date("day", "That day").draw(typed)) }
            }
        }
    }
}

/// The control under "what would narrow it": one tap each.
pub(super) fn look(rolls: &[Roll], at: usize, what: season::Look) -> Markup {
    let options: &[(&str, &str)] = match what {
        // Not the last of each, which says that it is not known.
        season::Look::Lip => &LIPS[..2],
        season::Look::Trim => &TRIMS[..3],
        season::Look::Yield => &[],
    };
    html! {
        div class="acts" {
            @for (value, words) in options {
                @let rolls = seen_as(rolls, at, what, value);
                a class="press" href=(address(&rolls)) { (words) }
            }
        }
    }
}

fn seen_as(rolls: &[Roll], at: usize, what: season::Look, value: &str) -> Vec<Roll> {
    let mut rolls = rolls.to_vec();
    if let Some(roll) = rolls.get_mut(at) {
        match what {
            season::Look::Lip => roll.lip = Lip::of(value),
            season::Look::Trim => roll.trim = catalogue::Trim::named(value),
            season::Look::Yield => {}
        }
    }
    rolls
}

/// Words about what is seen of a roll: `lip on, to 6 mm`.
pub(super) fn seen_words(roll: &Roll) -> String {
    let lip = match roll.lip {
        Some(Lip::On) => Some("lip on"),
        Some(Lip::Off) => Some("lip off"),
        None if is_sold_both_ways(&roll.cut) => Some("lip not seen"),
        None => None,
    };
    let trim = roll.trim.map(|trim| match trim {
        catalogue::Trim::Bare => "bare",
        catalogue::Trim::To6Mm => "to 6 mm",
        catalogue::Trim::AsPacked => "not trimmed",
        catalogue::Trim::BarrelOnly => "barrel only",
    });
    [lip, trim].into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// A mass on a label as the table shows it.
pub(super) fn label_mass(visit: &Visit, roll: &Roll) -> String {
    let mass = quantity::Mass::from_g(f64::try_from(roll.grams).unwrap_or_default());
    if visit.units.pounds { visit.units.mass(mass, Grain::Reading) } else { visit.units.large(mass) }
}
