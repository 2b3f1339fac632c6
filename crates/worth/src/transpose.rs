//! Many exact answers as one answer with bands.

use crate::answer::{Answer, Ask, CookedAnswer, CostLines, Figure, Line, PortionAnswer, Unexplained};
use rust_decimal::Decimal;

/// One answer of the members' answers: a figure they all share stays plain, any other is its 80 % band.
///
/// `None` without members.
pub(crate) fn transpose(members: &[Answer]) -> Option<Answer> {
    let first = members.first()?;
    let all = |get: fn(&Answer) -> Figure| figure(members.iter().map(get));
    Some(Answer {
        currency: first.currency,
        usable_kg: all(|answer| answer.usable_kg),
        yield_share: all(|answer| answer.yield_share),
        purchase_cost: all(|answer| answer.purchase_cost),
        credit: all(|answer| answer.credit),
        net_cost: all(|answer| answer.net_cost),
        costs: CostLines {
            bag_count: all(|answer| answer.costs.bag_count),
            bags: all(|answer| answer.costs.bags),
            energy: all(|answer| answer.costs.energy),
            labour: all(|answer| answer.costs.labour),
            all_in: all(|answer| answer.costs.all_in),
        },
        cost_per_kg: all(|answer| answer.cost_per_kg),
        portion: portion(members, |answer| answer.portion),
        cost_factor: some(members, |answer| answer.cost_factor),
        cooked: cooked(members),
        saving: some(members, |answer| answer.saving),
        break_even_counter_per_kg: all(|answer| answer.break_even_counter_per_kg),
        verdict: None,
        unexplained: first.unexplained.map(|unexplained| Unexplained {
            grams: figure(members.iter().filter_map(|answer| answer.unexplained.map(|found| found.grams))),
            scales: unexplained.scales,
            // A question only where every member would ask it.
            beyond: members.iter().all(|answer| answer.unexplained.is_some_and(|found| found.beyond)),
        }),
        ledger: lines(members),
        asks: asks(members),
    })
}

/// Questions every member asks.
fn asks(members: &[Answer]) -> Vec<Ask> {
    let Some((first, rest)) = members.split_first() else { return Vec::new() };
    let same_kind = |a: &Ask, b: &Ask| std::mem::discriminant(a) == std::mem::discriminant(b);
    first
        .asks
        .iter()
        .filter(|ask| rest.iter().all(|answer| answer.asks.iter().any(|other| same_kind(ask, other))))
        .cloned()
        .collect()
}

fn lines(members: &[Answer]) -> Vec<Line> {
    let Some(first) = members.first() else { return Vec::new() };
    first
        .ledger
        .iter()
        .enumerate()
        .map(|(at, line)| {
            let all = |get: fn(&Line) -> Figure| {
                figure(members.iter().filter_map(|answer| answer.ledger.get(at).map(get)))
            };
            Line {
                what: line.what.clone(),
                mass_g: all(|line| line.mass_g),
                share: all(|line| line.share),
                value: all(|line| line.value),
            }
        })
        .collect()
}

fn portion(members: &[Answer], get: fn(&Answer) -> Option<PortionAnswer>) -> Option<PortionAnswer> {
    let portions: Vec<PortionAnswer> = members.iter().filter_map(get).collect();
    portions.first()?;
    let factors: Vec<Figure> = portions.iter().filter_map(|portion| portion.factor).collect();
    Some(PortionAnswer {
        each: figure(portions.iter().map(|portion| portion.each)),
        full: figure(portions.iter().map(|portion| portion.full)),
        factor: (factors.len() == portions.len()).then(|| figure(factors.into_iter())),
    })
}

fn cooked(members: &[Answer]) -> Option<CookedAnswer> {
    let all: Vec<CookedAnswer> = members.iter().filter_map(|answer| answer.cooked).collect();
    all.first()?;
    let factors: Vec<Figure> = all.iter().filter_map(|cooked| cooked.cost_factor).collect();
    Some(CookedAnswer {
        saleable_kg: figure(all.iter().map(|cooked| cooked.saleable_kg)),
        cost_per_kg: figure(all.iter().map(|cooked| cooked.cost_per_kg)),
        portion: portion(members, |answer| answer.cooked.and_then(|cooked| cooked.portion)),
        cost_factor: (factors.len() == all.len()).then(|| figure(factors.into_iter())),
    })
}

fn some(members: &[Answer], get: fn(&Answer) -> Option<Figure>) -> Option<Figure> {
    let figures: Vec<Figure> = members.iter().filter_map(get).collect();
    (figures.len() == members.len()).then(|| figure(figures.into_iter()))
}

/// Plain where all members agree, else tenth, fiftieth and ninetieth percentile, linear between neighbours.
fn figure(members: impl Iterator<Item = Figure>) -> Figure {
    let mut sorted: Vec<Decimal> = members.map(Figure::middle).collect();
    sorted.sort_unstable();
    match (sorted.first(), sorted.last()) {
        (Some(low), Some(high)) if low != high => Figure::Band {
            median: quantile(&sorted, 5),
            low: quantile(&sorted, 1),
            high: quantile(&sorted, 9),
        },
        (Some(same), _) => Figure::Plain(*same),
        (None, _) => Figure::Plain(Decimal::ZERO),
    }
}

/// The quantile at so many tenths (Hyndman and Fan's type 7, as `band` has it), in exact decimals.
fn quantile(sorted: &[Decimal], tenths: usize) -> Decimal {
    let steps = (sorted.len() - 1) * tenths;
    let (at, between) = (steps / 10, Decimal::new((steps % 10) as i64, 1));
    let low = sorted[at];
    let high = sorted.get(at + 1).copied().unwrap_or(low);
    low + (high - low) * between
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The ensemble's quantiles and these are one definition; money only never passes through a float.
    #[test]
    fn agrees_with_the_band_of_floats() {
        for count in [2_i64, 7, 256] {
            let values: Vec<i64> = (0..count).map(|i| (i * 7919) % 1009).collect();
            let figure = figure(values.iter().map(|&value| Figure::Plain(Decimal::from(value))));
            let band = band::Band::of(&values.iter().map(|&value| value as f64).collect::<Vec<_>>());
            for (exact, float) in
                [(figure.low(), band.low), (figure.middle(), band.median), (figure.high(), band.high)]
            {
                assert!(
                    (f64::try_from(exact).expect("small") - float).abs() < 1e-9,
                    "{count}: {exact} {float}"
                );
            }
        }
    }
}
