//! The answer of `simulate` as a person reads it.

use super::run::{Ran, StageOutcome};
use crate::Flags;
use crate::answer::say::table;
use crate::unknown::assumed;
use band::{Band, narrow};
use quantity::{Grain, Mass, Span, Temperature, TemperatureUnit, Units};
use std::fmt::Write;

pub(super) fn of(ran: &Ran, cautions: &[String], flags: &Flags) -> String {
    let units = if flags.us { Units::US } else { Units::METRIC };
    let all = |get: &dyn Fn(&super::run::Outcome) -> f64| band(ran.members.iter().map(get));
    let (centre, time) = (all(&|member| member.centre_c), all(&|member| member.time_s));
    let mut text = format!("After {} the middle is at {}.\n", span(&time, &units), degrees(&centre, &units));
    let peak = all(&|member| member.peak_centre_c);
    let _ = writeln!(text, "The warmest it ever is: {}.", degrees(&peak, &units));
    let lost = all(&|member| member.mass_lost_g);
    let grey = all(&|member| member.grey_share);
    if lost.median >= 0.5 {
        let lost = units.mass(Mass::from_g(lost.median), Grain::Forecast);
        let who = ran.each.map_or_else(|| "It".to_owned(), sentence);
        let _ = writeln!(text, "{who} loses {lost}; {:.0} % of the thickness is grey.", 100.0 * grey.median);
    }
    text.push_str(&kills(ran));
    let _ = write!(text, "\n{}", table(&rows(ran, &units)));
    for (at, name) in ran.stages.iter().enumerate() {
        let ends: Vec<&StageOutcome> =
            ran.members.iter().filter_map(|member| member.stages.get(at)).collect();
        let reached = band::chance(ends.iter().map(|end| end.reached));
        if reached < 1.0 {
            let _ = writeln!(text, "{name}: its end is reached {:.0} times in 100.", 100.0 * reached);
        }
    }
    for caution in cautions {
        let _ = writeln!(text, "\n{caution}");
    }
    text.push_str(&leaning_on(ran));
    text
}

/// With a capital.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// Powers of ten killed, where anything is.
fn kills(ran: &Ran) -> String {
    let one = |(at, name): (usize, &String)| {
        let kill = band(ran.members.iter().filter_map(|member| member.kills.get(at).copied()));
        let known = catalogue::organisms().iter().find(|known| known.id == *name);
        let name = known.map_or(name.as_str(), |known| known.words.as_str());
        (kill.median >= 0.05)
            .then(|| format!("{name} {:.1} ({:.1} to {:.1})", kill.median, kill.low, kill.high))
    };
    let all: Vec<String> = ran.organisms.iter().enumerate().filter_map(one).collect();
    if all.is_empty() {
        String::new()
    } else {
        format!("Killed at the coldest place, powers of ten: {}.\n", all.join(", "))
    }
}

fn rows(ran: &Ran, units: &Units) -> Vec<Vec<String>> {
    let heading = ["stage", "lasts", "middle", "face", "mean"].map(str::to_owned).to_vec();
    let stage = |at: usize| {
        let all = |get: fn(&StageOutcome) -> f64| {
            band(ran.members.iter().filter_map(|member| member.stages.get(at)).map(get))
        };
        vec![
            ran.stages.get(at).cloned().unwrap_or_default(),
            span_cell(&all(|end| end.time_s), units),
            degrees_cell(&all(|end| end.centre_c), units),
            degrees_cell(&all(|end| end.surface_c), units),
            degrees_cell(&all(|end| end.mean_c), units),
        ]
    };
    std::iter::once(heading).chain((0..ran.stages.len()).map(stage)).collect()
}

fn band(values: impl Iterator<Item = f64>) -> Band {
    let known: Vec<f64> = values.filter(|value| !value.is_nan()).collect();
    Band::of(&known)
}

fn one_degree(celsius: f64, units: &Units) -> String {
    if celsius.is_nan() {
        return "not reached".to_owned();
    }
    units.temperature(Temperature::from_c(celsius), Grain::Forecast)
}

/// The ends of a band as whole degrees of the shown unit, outward; `None` where it is narrower than a probe can tell.
fn degree_ends(band: &Band, units: &Units) -> Option<(String, String)> {
    const TELLS_K: f64 = 0.2;
    if band.median.is_nan() || band.width() < TELLS_K {
        return None;
    }
    let outward = |celsius: f64, round: fn(f64) -> f64| {
        let shown = Temperature::from_c(celsius);
        let whole = match units.temperature {
            TemperatureUnit::Celsius => Temperature::from_c(round(shown.c())),
            TemperatureUnit::Fahrenheit => Temperature::from_f(round(shown.f())),
        };
        units.temperature(whole, Grain::Forecast)
    };
    Some((outward(band.low, f64::floor), outward(band.high, f64::ceil)))
}

fn degrees(band: &Band, units: &Units) -> String {
    let middle = one_degree(band.median, units);
    match degree_ends(band, units) {
        Some((low, high)) => format!("{middle}, between {low} and {high} four times in five"),
        None => middle,
    }
}

fn degrees_cell(band: &Band, units: &Units) -> String {
    let middle = one_degree(band.median, units);
    match degree_ends(band, units) {
        Some((low, high)) => format!("{middle} ({low} to {high})"),
        None => middle,
    }
}

fn one_span(seconds: f64, units: &Units) -> String {
    if seconds.is_finite() { units.span(Span::from_s(seconds)) } else { "never".to_owned() }
}

fn span(band: &Band, units: &Units) -> String {
    let middle = one_span(band.median, units);
    if band.low == band.high {
        return middle;
    }
    format!("{middle} (four times in five {} to {})", one_span(band.low, units), one_span(band.high, units))
}

fn span_cell(band: &Band, units: &Units) -> String {
    let middle = one_span(band.median, units);
    if band.low == band.high {
        return middle;
    }
    format!("{middle} ({} to {})", one_span(band.low, units), one_span(band.high, units))
}

fn leaning_on(ran: &Ran) -> String {
    let names: Vec<&str> = ran
        .inputs
        .iter()
        .filter(|input| assumed(input).is_some() && !input.spread.is_exact())
        .map(|input| input.name.as_str())
        .collect();
    let mut text = String::new();
    if !names.is_empty() {
        let _ = writeln!(text, "\nAssumed, as usual of the medium and the cut: {}.", names.join(", "));
    }
    let times: Vec<f64> = ran.members.iter().map(|member| member.time_s).collect();
    if let Some(first) = narrow(&ran.inputs, &ran.draws, &times).first() {
        let _ = writeln!(
            text,
            "What would narrow the time: {}. It makes {:.0} % of the width.",
            first.input,
            100.0 * first.share
        );
    }
    text
}
