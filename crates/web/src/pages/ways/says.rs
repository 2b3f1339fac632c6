//! The answer in words: which way, and what the others would change.

use band::Band;
use maud::{Markup, html};
use quantity::{Grain, Span, Temperature, TemperatureStep, Units};
use season::{HOT_OVEN, PortionWays, RAW_FACE, Road, Way};

use crate::words::sentence_case;

/// A road in words: a steak is seared, a roast is browned in a hot oven.
pub(super) fn road_words(ways: &PortionWays<'_>, road: Road) -> String {
    let words = match (road, ways.asked.whole) {
        (Road::SearThenLow, false) => "Sear, then low",
        (Road::SearThenLow, true) => "Hot, then low",
        (Road::LowThenSear, false) => "Low, then sear",
        (Road::LowThenSear, true) => "Low, then hot",
        (Road::Bath, false) => "Bath, then sear",
        (Road::Bath, true) => "Bath, then hot",
        (Road::Frozen, false) => "From frozen, low, sear",
        (Road::Frozen, true) => "From frozen, low, hot",
        (Road::HotAlone, _) => return format!("{} alone", sentence_case(&ways.kitchen.hot_name)),
    };
    words.to_owned()
}

/// `22 %`
pub(super) fn percent(share: f64) -> String {
    format!("{:.0}\u{202f}%", share * 100.0)
}

/// `18–26`
pub(super) fn percents(share: Band) -> String {
    let (low, high) = ((share.low * 100.0).floor(), (share.high * 100.0).ceil());
    if low == high { String::new() } else { format!("{low:.0}–{high:.0}") }
}

/// What a slip costs: whole degrees, tenths under one.
pub(super) fn slip(units: &Units, kelvin: f64) -> String {
    let kelvin = kelvin.max(0.0);
    let rounded = if kelvin < 1.0 { (kelvin * 10.0).round() / 10.0 } else { kelvin.round() };
    let shown = units.step(TemperatureStep::from_k(rounded));
    shown.replace(".0\u{202f}", "\u{202f}")
}

/// The ways that came to an answer.
pub(super) fn known<'w>(ways: &'w PortionWays<'_>) -> Vec<(Road, &'w Way)> {
    ways.answer.ways.iter().filter_map(|(road, way)| way.as_ref().ok().map(|way| (*road, way))).collect()
}

/// The way the page speaks of first: the planned one, else the first that is there.
pub(super) fn chosen<'w>(ways: &'w PortionWays<'_>) -> Option<(Road, &'w Way)> {
    let known = known(ways);
    let planned = known.iter().find(|(road, _)| Some(*road) == ways.planned).copied();
    planned.or_else(|| best(&known))
}

/// Without a plan: the surest of those that are not clearly greyer than the pinkest.
fn best<'w>(known: &[(Road, &'w Way)]) -> Option<(Road, &'w Way)> {
    let least = known.iter().map(|(_, way)| way.grey.median).fold(f64::INFINITY, f64::min);
    let pink = known.iter().filter(|(_, way)| way.grey.median <= least + TASTED);
    // No bath is in the house until somebody says so.
    pink.filter(|(road, _)| *road != Road::Bath)
        .min_by(|a, b| a.1.slip.median.total_cmp(&b.1.slip.median))
        .copied()
}

/// Grey share that an eye tells apart on a plate (assumed).
const TASTED: f64 = 0.05;
/// A slip that a tongue tells apart, K (assumed).
const FELT_K: f64 = 1.0;

/// Better by what can be seen or felt, and worse in nothing of the two.
fn betters(other: &Way, than: &Way) -> bool {
    let pinker = than.grey.median - other.grey.median;
    let surer = than.slip.median - other.slip.median;
    (pinker > TASTED && surer > -FELT_K) || (surer > FELT_K && pinker > -TASTED)
}

pub(super) fn answer(ways: &PortionWays<'_>, units: &Units) -> Option<Markup> {
    let (road, way) = chosen(ways)?;
    let as_planned = if Some(road) == ways.planned { ", as planned" } else { "" };
    let others: Vec<(Road, &Way)> =
        known(ways).into_iter().filter(|(other, found)| *other != road && betters(found, way)).collect();
    let short = |way: &Way| html! { span class="n" { (percent(way.grey.median)) } " grey and " span class="n" { (slip(units, way.slip.median)) } };
    Some(html! {
        strong { (road_words(ways, road)) } (as_planned) ": " span class="n" { (percent(way.grey.median)) } " grey, and five minutes late cost "
        span class="n" { (slip(units, way.slip.median)) } ". "
        @match others.as_slice() {
            [] if known(ways).len() > 2 => "None of the others does better by what you could see or taste.",
            [] if known(ways).len() == 2 => "The other does no better by what you could see or taste.",
            [] => "",
            [(other, found)] => { "Only " (in_words(*other, &ways.kitchen.hot_name)) " does better: " (short(found)) "." }
            [(first, found), ..] => { "Better still, " (in_words(*first, &ways.kitchen.hot_name)) ": " (short(found)) "." }
        }
    })
}

/// A road inside a sentence.
fn in_words(road: Road, hot: &str) -> String {
    match road {
        Road::SearThenLow => "high heat first".to_owned(),
        Road::LowThenSear => "low heat first".to_owned(),
        Road::Bath => "a bath".to_owned(),
        Road::Frozen => "low heat from frozen".to_owned(),
        Road::HotAlone => format!("the {hot} alone"),
    }
}

/// What an hour on the counter would change.
pub(super) fn chill(ways: &PortionWays<'_>) -> Option<String> {
    let chill = ways.answer.chill?;
    let (saved, grey) = (chill.saved_min.median, chill.less_grey.median);
    let little = if grey.abs() < TASTED { "and the slice looks the same" } else { "and the slice changes" };
    Some(format!(
        "An hour on the counter saves {:.0} to {:.0}\u{202f}min in the {}, {little}. It stays in the fridge.",
        chill.saved_min.low.max(0.0).floor(),
        chill.saved_min.high.max(saved).ceil(),
        ways.kitchen.low_name
    ))
}

/// What would narrow the way spoken of.
pub(super) fn narrow(ways: &PortionWays<'_>) -> Option<Markup> {
    let (_, way) = chosen(ways)?;
    let first = way.narrow.first()?;
    let share = html! { span class="n" { (percent(first.share)) } };
    let low = &ways.kitchen.low_name;
    let portion = ways.portion.name();
    Some(match first.input.as_str() {
        "low: temperature" => html! {
            "Lay a probe on the empty rack of the " (low) " for ten minutes. Its true degree makes " (share) " of the width."
        },
        "start" => html! { "Read the fridge it lies in. Where it starts makes " (share) " of the width." },
        "thickness" => {
            html! { "Lay a ruler on " (portion) ". Its thickness makes " (share) " of the width." }
        }
        _ => html! {
            "How this " (low) " carries heat and water makes " (share) " of the width. Nothing you could read now says it; go by the core."
        },
    })
}

/// `75 min`
pub(super) fn minutes(units: &Units, minutes: f64) -> String {
    units.span(Span::from_min(minutes))
}

/// What every way of the page shares.
pub(super) fn shared(ways: &PortionWays<'_>, units: &Units, wish: &str) -> String {
    let sear = ways.asked.habits.sear_a_side;
    let rest = ways.asked.habits.rest.min();
    let nobody = if ways.wish.is_assumed { "Nobody said how done; this stands in. " } else { "" };
    let hot = if ways.asked.whole {
        let (dial, span) = HOT_OVEN;
        let dial = units.temperature(Temperature::from_c(dial), Grain::Forecast);
        format!(
            "The oven at {dial} browns it for {:.0}\u{202f}min, raw {:.0}",
            span.min(),
            (span * RAW_FACE).min()
        )
    } else {
        let hot = &ways.kitchen.hot_name;
        format!(
            "On the {hot} it lies {:.0}\u{202f}min a side, a raw face {:.0}",
            sear.min(),
            (sear * RAW_FACE).min()
        )
    };
    format!(
        "{nobody}Each is pulled so that its middle peaks at {wish}. {hot}; then {rest:.0}\u{202f}min of rest."
    )
}
