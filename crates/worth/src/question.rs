//! The same piece with numbers that are ranges, or not cut yet: an ensemble of exact answers.

use crate::answer::{Answer, Ask, Call, Figure, Heap, Unexplained, Verdict};
use crate::ledger::{heaps, weighings};
use crate::transpose::transpose;
use crate::uncut::{Assumed, TrimLevel, Uncut};
use crate::{AfterCooking, Grams, Part, PerMass, Price, Use, Worth, WorthError, ledger};
use band::{Draws, Input, Narrow, Origin, Spread, draw, narrow};
use rust_decimal::Decimal;

/// A piece of which some numbers are ranges, or which has not been cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// Every known number; where a range stands, any number of it. Without parts, [`Question::uncut`] stands in.
    pub worth: Worth,
    /// The numbers that are ranges.
    pub ranges: Vec<Ranged>,
    /// What is expected of a piece that has not been cut.
    pub uncut: Option<Uncut>,
}

/// A number known as a range.
#[derive(Clone, Debug, PartialEq)]
pub struct Ranged {
    /// As the asker knows it, for "what would narrow it".
    pub name: String,
    /// Which number.
    pub number: Number,
    /// Lower end, in the unit the number has.
    pub low: Decimal,
    /// Upper end.
    pub high: Decimal,
}

/// A number of [`Worth`] that can be a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Number {
    /// The piece's mass, g.
    PieceMass,
    /// Its price, in the unit it was said in, or its total.
    Price,
    /// The purge, g.
    Purge,
    /// The mass of a part by its place, g.
    PartMass(usize),
    /// The value of a kept part by its place, in the unit it was said in.
    PartValue(usize),
    /// The counter's price, in the unit it was said in.
    Counter,
    /// The price of a bag.
    Bag,
    /// Keeping a kilo or pound for a month, in the unit it was said in.
    Energy,
    /// Months.
    Months,
    /// Work.
    Labour,
    /// The portion, g.
    Portion,
    /// The cooking loss, a share.
    CookedLoss,
    /// The cooked mass, g.
    CookedMass,
    /// The waste after cooking, g.
    CookedWaste,
    /// What lean trim of an uncut piece replaces, in the unit it was said in.
    LeanValue,
    /// What its clean fat replaces.
    FatValue,
}

/// An answer with what it took for granted.
#[derive(Clone, Debug, PartialEq)]
pub struct Answered {
    /// The answer; plain figures where nothing uncertain went into them.
    pub answer: Answer,
    /// Priors that stood in for what was not given.
    pub assumed: Vec<Assumed>,
    /// What carries the width of the first figure that has one, largest first.
    pub narrow: Vec<Narrow>,
    /// The name of that figure.
    pub narrowed: Option<&'static str>,
    /// Cost of a usable kilo in each member of the ensemble: what several pieces are compared by.
    pub cost_per_kg_members: Vec<f64>,
}

impl Answered {
    /// An exact answer, with nothing taken for granted.
    #[must_use]
    pub fn exact(answer: Answer) -> Self {
        let per_kg = f64::try_from(answer.cost_per_kg.middle()).unwrap_or(f64::NAN);
        Self {
            answer,
            assumed: Vec::new(),
            narrow: Vec::new(),
            narrowed: None,
            cost_per_kg_members: vec![per_kg],
        }
    }
}

/// Reckons a piece from what is known of it.
///
/// Ranges are uniform; an uncut piece takes its yield from the prior. Every member of the ensemble is reckoned exactly,
/// so a figure that no uncertain number touches stays plain. The scales' error lives in what is not explained, alone.
///
/// # Errors
/// [`WorthError`] as [`crate::worth`], also if any part of a range is impossible.
pub fn answer(question: &Question, draws: usize, seed: u64) -> Result<Answered, WorthError> {
    if let Some(uncut) = &question.uncut {
        uncut.check()?;
    }
    let inputs = inputs(question);
    let drawn = draw(&inputs, draws, seed);
    let mut answers = Vec::with_capacity(draws.max(1));
    for member in drawn.members() {
        answers.push(ledger::worth(&one(question, member))?);
    }
    if answers.is_empty() {
        let middle: Vec<f64> = inputs.iter().map(|input| input.spread.median()).collect();
        answers.push(ledger::worth(&one(question, &middle))?);
    }
    let mut answer = transpose(&answers).ok_or(WorthError::NoPortions)?;
    answer.unexplained = unexplained(question, &answer, draws, seed);
    answer.verdict = verdict(&answers, answer.saving);
    if question.uncut.is_some() {
        answer.ledger.retain(|line| line.what != Heap::Unexplained);
    }
    if question.uncut.as_ref().is_some_and(|uncut| uncut.levels.len() > 1) {
        answer.asks.insert(0, Ask::TrimLevel);
    }
    let (narrowed, narrow) = first_band(&answers, &answer, &inputs, &drawn);
    let per_kg = answers.iter().map(|answer| f64::try_from(answer.cost_per_kg.middle()).unwrap_or(f64::NAN));
    Ok(Answered {
        cost_per_kg_members: per_kg.collect(),
        answer,
        assumed: question.uncut.as_ref().map(Uncut::assumed).unwrap_or_default(),
        narrow,
        narrowed,
    })
}

/// The inputs of the ensemble: the ranges, then the trim level where it is open, then the yield.
fn inputs(question: &Question) -> Vec<Input> {
    let mut inputs: Vec<Input> = question
        .ranges
        .iter()
        .map(|range| Input::new(range.name.clone(), uniform(range.low, range.high), Origin::Range))
        .collect();
    if let Some(uncut) = &question.uncut {
        let prior = |level: Option<&TrimLevel>| Origin::Prior {
            mark: level.map_or_else(String::new, |level| level.mark.clone()),
            source: level.map_or_else(String::new, |level| level.source.clone()),
        };
        if uncut.levels.len() > 1 {
            let any = Spread::Uniform { low: 0.0, high: uncut.levels.len() as f64 };
            inputs.push(Input::new("piece.trim", any, prior(uncut.levels.first())));
        }
        let spread = Spread::Normal { mean: 0.0, sd: 1.0 };
        inputs.push(Input::new("yield", spread, prior(uncut.levels.first())));
    }
    inputs
}

fn uniform(low: Decimal, high: Decimal) -> Spread {
    let plain = |value| f64::try_from(value).unwrap_or_default();
    Spread::Uniform { low: plain(low), high: plain(high) }
}

/// The piece as one member of the ensemble has it.
fn one(question: &Question, member: &[f64]) -> Worth {
    let mut worth = question.worth.clone();
    let mut uncut = question.uncut.clone();
    for (range, &drawn) in question.ranges.iter().zip(member) {
        // A drawn number is a guess: a millionth of its unit is more than anybody knows of it.
        let value = Decimal::try_from(drawn).unwrap_or(range.low).round_dp(6);
        let value = value.max(range.low).min(range.high);
        match (range.number, &mut uncut) {
            (Number::LeanValue, Some(uncut)) => amount(&mut uncut.lean_value, value),
            (Number::FatValue, Some(uncut)) => amount(&mut uncut.fat_value, value),
            (number, _) => put(&mut worth, number, value),
        }
    }
    if let Some(uncut) = &uncut {
        uncut.cut(&mut worth, &member[question.ranges.len()..]);
    }
    worth
}

fn put(worth: &mut Worth, number: Number, value: Decimal) {
    let grams = Grams::new(value);
    match number {
        Number::PieceMass => worth.piece.mass = grams,
        Number::Price => match &mut worth.piece.price {
            Price::Per(price) => *price = price.with_amount(value),
            Price::Total(total) => *total = value,
        },
        Number::Purge => worth.piece.purge = Some(grams),
        Number::PartMass(at) => {
            if let Some(part) = worth.parts.get_mut(at) {
                part.mass = grams;
            }
        }
        Number::PartValue(at) => {
            if let Some(Part { used: Use::Keep { value: Some(kept) }, .. }) = worth.parts.get_mut(at) {
                *kept = kept.with_amount(value);
            }
        }
        Number::Counter => amount(&mut worth.counter, value),
        Number::Bag => worth.costs.bag = value,
        Number::Energy => amount(&mut worth.costs.energy_month, value),
        Number::Months => worth.costs.months = value,
        Number::Labour => worth.costs.labour = value,
        Number::Portion => worth.portion = Some(grams),
        Number::CookedLoss | Number::CookedMass | Number::CookedWaste => put_cooked(worth, number, value),
        // These belong to the uncut piece, not to parts that were weighed.
        Number::LeanValue | Number::FatValue => {}
    }
}

fn put_cooked(worth: &mut Worth, number: Number, value: Decimal) {
    if let Some(cooked) = &mut worth.cooked {
        match number {
            Number::CookedLoss => cooked.after = AfterCooking::Loss(value),
            Number::CookedMass => cooked.after = AfterCooking::Mass(Grams::new(value)),
            _ => cooked.waste = Grams::new(value),
        }
    }
}

fn amount(price: &mut Option<PerMass>, value: Decimal) {
    if let Some(price) = price {
        *price = price.with_amount(value);
    }
}

/// What is not explained, with the scales' error as its band; nothing for a piece nobody has weighed out.
fn unexplained(question: &Question, answer: &Answer, draws: usize, seed: u64) -> Option<Unexplained> {
    let found = answer.unexplained?;
    if question.uncut.is_some() {
        return None;
    }
    let error = scale_error(&question.worth, draws, seed);
    let grams = Figure::Band {
        median: found.grams.middle(),
        low: found.grams.low() - error,
        high: found.grams.high() + error,
    };
    Some(Unexplained { grams, ..found })
}

/// Half the width of the 80 % band of the scales' errors together, each uniform within its limit in service.
fn scale_error(worth: &Worth, draws: usize, seed: u64) -> Decimal {
    let limits: Vec<Input> = weighings(worth)
        .iter()
        .zip(heaps(worth))
        .map(|(limit, heap)| {
            Input::new(format!("{heap:?}"), uniform(-limit.g(), limit.g()), Origin::Instrument)
        })
        .collect();
    let drawn = draw(&limits, draws, seed);
    let sums: Vec<f64> = drawn.members().map(|errors| errors.iter().sum::<f64>().abs()).collect();
    if sums.is_empty() {
        return Decimal::ZERO;
    }
    // Errors are symmetric, so the 80 % point of their size is half the width and the middle stays what was weighed.
    Decimal::try_from(band::quantile(&sums, 0.8)).unwrap_or_default().round_dp(1)
}

/// Whole or counter only where the whole band of the saving lies on one side of nothing.
fn verdict(answers: &[Answer], saving: Option<Figure>) -> Option<Verdict> {
    let saving = saving?;
    let call = if saving.low() > Decimal::ZERO {
        Call::Whole
    } else if saving.high() < Decimal::ZERO {
        Call::Counter
    } else {
        Call::CannotTell
    };
    let better = |answer: &Answer| answer.saving.is_some_and(|saving| saving.middle() > Decimal::ZERO);
    Some(Verdict { call, chance_whole: band::chance(answers.iter().map(better)) })
}

fn first_band(
    answers: &[Answer],
    answer: &Answer,
    inputs: &[Input],
    drawn: &Draws,
) -> (Option<&'static str>, Vec<Narrow>) {
    type Get = fn(&Answer) -> Option<Figure>;
    let named: [(&'static str, Get); 5] = [
        ("cost_per_kg", |answer| Some(answer.cost_per_kg)),
        ("net_cost", |answer| Some(answer.net_cost)),
        ("saving", |answer| answer.saving),
        ("cooked.cost_per_kg", |answer| answer.cooked.map(|cooked| cooked.cost_per_kg)),
        ("cost_per_portion", |answer| answer.portion.map(|portion| portion.each)),
    ];
    let Some((name, get)) = named.into_iter().find(|(_, get)| get(answer).is_some_and(Figure::is_band))
    else {
        return (None, Vec::new());
    };
    let outputs: Vec<f64> = answers
        .iter()
        .map(|answer| {
            get(answer).map_or(f64::NAN, |figure| f64::try_from(figure.middle()).unwrap_or(f64::NAN))
        })
        .collect();
    (Some(name), narrow(inputs, drawn, &outputs))
}

/// A banded amount at the currency's coin: its ends rounded outward, its middle to nearest, so that no promise narrows.
#[must_use]
pub fn outward(figure: Figure, places: u32) -> Figure {
    use rust_decimal::RoundingStrategy::{ToNegativeInfinity, ToPositiveInfinity};
    match figure {
        Figure::Plain(value) => Figure::Plain(value.round_dp(places)),
        Figure::Band { median, low, high } => Figure::Band {
            median: median.round_dp(places),
            low: low.round_dp_with_strategy(places, ToNegativeInfinity),
            high: high.round_dp_with_strategy(places, ToPositiveInfinity),
        },
    }
}
