//! The answer of `worth` as JSON.

use crate::answer::{exact_number, money_text, narrow_json, number};
use rust_decimal::{Decimal, RoundingStrategy};
use serde_json::{Map, Value, json};
use worth::{
    Answer, Answered, Ask, Call, CookedAnswer, Figure, Heap, Line, PortionAnswer, Unexplained, coins,
};

/// Places of a rate: per kilo, per portion.
const RATE: u32 = 4;

const ROUNDING: &str = "amounts to the coin, half to even, so that the ledger adds up; rates to four places; ends of a band \
                        outward; nothing is rounded on the way";

pub(super) fn of(answered: &Answered) -> Value {
    let answer = &answered.answer;
    let money = Amounts { coin: answer.currency.decimals() };
    let (credit, net) = money.split(answer);
    let mut json = Map::new();
    let mut put = |key: &str, value: Value| json.insert(key.to_owned(), value);
    put("currency", json!(answer.currency.code()));
    put("usable_kg", mass(answer.usable_kg, 3));
    put("yield", share(answer.yield_share));
    put("purchase_cost", money.amount(answer.purchase_cost));
    put("credit", credit);
    put("net_cost", net);
    put(
        "costs",
        json!({
            "bag_count": count(answer.costs.bag_count),
            "bags": money.amount(answer.costs.bags),
            "energy": money.amount(answer.costs.energy),
            "labour": money.amount(answer.costs.labour),
            "all_in": money.amount(answer.costs.all_in),
        }),
    );
    put("cost_per_kg", money.rate(answer.cost_per_kg));
    if let Some(portion) = answer.portion {
        put("cost_per_portion", money.rate(portion.each));
        put("portions_full", count(portion.full));
    }
    put("cost_factor", answer.cost_factor.map_or(Value::Null, share));
    if let Some(portion) = answer.portion {
        put("portion_cost_factor_kg", portion.factor.map_or(Value::Null, share));
    }
    if let Some(cooked) = answer.cooked {
        put("cooked", cooked_json(cooked, money));
    }
    put("saving", answer.saving.map_or(Value::Null, |saving| money.amount(saving)));
    put("break_even_counter_per_kg", money.rate(answer.break_even_counter_per_kg));
    if let Some(verdict) = answer.verdict {
        put("verdict", json!(call(verdict.call)));
        put("chance_whole", number(verdict.chance_whole, 3));
    }
    put("unexplained_g", answer.unexplained.map_or(Value::Null, |found| mass(found.grams, 1)));
    put("scales_g", answer.unexplained.map_or(Value::Null, |found| scales(&found)));
    put("ledger", ledger(answer, money));
    put("questions", answer.asks.iter().map(question).collect());
    put("rounding", json!(ROUNDING));
    put("assumed", assumed(answered));
    if let Some(of) = answered.narrowed {
        put("narrow_of", json!(of));
    }
    put("narrow", narrow_json(&answered.narrow));
    Value::Object(json)
}

#[derive(Clone, Copy)]
struct Amounts {
    coin: u32,
}

impl Amounts {
    fn amount(self, figure: Figure) -> Value {
        self.at(figure, self.coin)
    }
    fn rate(self, figure: Figure) -> Value {
        self.at(figure, RATE)
    }
    fn at(self, figure: Figure, places: u32) -> Value {
        let text = |value: Decimal| json!(money_text(value, places, self.coin));
        match worth::outward(figure, places) {
            Figure::Plain(_) => text(figure.middle()),
            Figure::Band { median, low, high } => {
                json!({ "median": text(median), "low": text(low), "high": text(high) })
            }
        }
    }

    /// Credit and net cost that add up to the purchase cost as printed, where all three are plain.
    fn split(self, answer: &Answer) -> (Value, Value) {
        match (answer.credit, answer.net_cost) {
            (Figure::Plain(credit), Figure::Plain(net)) => {
                let shown = coins(&[credit, net], answer.currency);
                let text = |at: usize| json!(money_text(shown[at], self.coin, self.coin));
                (text(0), text(1))
            }
            (credit, net) => (self.amount(credit), self.amount(net)),
        }
    }
}

fn mass(figure: Figure, places: u32) -> Value {
    match figure {
        Figure::Plain(value) => exact_number(value),
        Figure::Band { median, low, high } => {
            let at = |value: Decimal, how| exact_number(value.round_dp_with_strategy(places, how));
            json!({
                "median": at(median, RoundingStrategy::MidpointNearestEven),
                "low": at(low, RoundingStrategy::ToNegativeInfinity),
                "high": at(high, RoundingStrategy::ToPositiveInfinity),
            })
        }
    }
}

/// A share or a factor, to six places.
fn share(figure: Figure) -> Value {
    let at = |value: Decimal| exact_number(value.round_dp(6));
    match figure {
        Figure::Plain(value) => at(value),
        Figure::Band { median, low, high } => {
            json!({ "median": at(median), "low": at(low), "high": at(high) })
        }
    }
}

/// A whole number of portions; the ends of its band whole too, outward.
fn count(figure: Figure) -> Value {
    let whole = |value: Decimal| json!(i64::try_from(value).unwrap_or_default());
    match figure {
        Figure::Plain(value) => whole(value),
        Figure::Band { median, low, high } => {
            json!({ "median": whole(median.round()), "low": whole(low.floor()), "high": whole(high.ceil()) })
        }
    }
}

fn cooked_json(cooked: CookedAnswer, money: Amounts) -> Value {
    let mut json = Map::new();
    json.insert("saleable_kg".to_owned(), mass(cooked.saleable_kg, 3));
    json.insert("cost_per_kg".to_owned(), money.rate(cooked.cost_per_kg));
    if let Some(PortionAnswer { each, full, .. }) = cooked.portion {
        json.insert("cost_per_portion".to_owned(), money.rate(each));
        json.insert("portions_full".to_owned(), count(full));
    }
    json.insert("cost_factor".to_owned(), cooked.cost_factor.map_or(Value::Null, share));
    json.insert("carries".to_owned(), json!("the net cost, credits taken off, not the whole invoice"));
    Value::Object(json)
}

fn scales(found: &Unexplained) -> Value {
    exact_number(found.scales.g())
}

/// The lines; plain values are rounded together so that they add up to what was paid.
fn ledger(answer: &Answer, money: Amounts) -> Value {
    let plain = answer.ledger.iter().all(|line| !line.value.is_band());
    let values: Vec<Decimal> = answer.ledger.iter().map(|line| line.value.middle()).collect();
    let shown = coins(&values, answer.currency);
    let line = |(line, shown): (&Line, Decimal)| {
        let value =
            if plain { json!(money_text(shown, money.coin, money.coin)) } else { money.amount(line.value) };
        json!({
            "part": heap(&line.what),
            "mass_g": mass(line.mass_g, 1),
            "share": share(line.share),
            "value": value,
        })
    };
    answer.ledger.iter().zip(shown).map(line).collect()
}

pub(super) fn heap(heap: &Heap) -> &str {
    match heap {
        Heap::Part(name) => name,
        Heap::Purge => "purge",
        Heap::Unexplained => "not explained",
    }
}

pub(super) const fn call(call: Call) -> &'static str {
    match call {
        Call::Whole => "whole",
        Call::Counter => "counter",
        Call::CannotTell => "cannot-tell",
    }
}

fn question(ask: &Ask) -> Value {
    json!(super::words::question(ask))
}

fn assumed(answered: &Answered) -> Value {
    answered
        .assumed
        .iter()
        .map(|assumed| {
            json!({
                "input": assumed.input,
                "low": number(assumed.low, 4),
                "high": number(assumed.high, 4),
                "from": assumed.from,
            })
        })
        .collect()
}
