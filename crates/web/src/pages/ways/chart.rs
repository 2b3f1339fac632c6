//! The ways on one clock.

use maud::Markup;
use quantity::{Grain, Temperature};
use season::{PortionWays, Road, Way};

use super::says::{minutes, road_words};
use super::view::Hours;
use crate::house::Visit;
use crate::pages::table::hours::seen_from;
use crate::plot::chain::clock;
use crate::plot::gambrel::Span;
use crate::plot::ways::{Row, ways as drawing};
use crate::words::{Moments, hours_after_midnight};

/// Hours on the rule: of the day where there is a supper, else before the plate.
pub(super) fn chart(
    visit: &Visit,
    ways: &PortionWays<'_>,
    known: &[(Road, &Way)],
    hours: &Hours<'_>,
) -> Markup {
    let hour = |before: f64| match hours.at(before) {
        Some(at) => hours_after_midnight(visit.now(), &at),
        None => -before / 60.0,
    };
    let first = known.iter().map(|(_, way)| way.in_before).fold(0.0, f64::max);
    let (rule, graduation) = clock(hour(first + 5.0), hour(-8.0));
    let rows: Vec<Row> =
        known.iter().map(|(road, way)| row(visit, road_words(ways, *road), way, hours, &hour)).collect();
    let word = hours.serve.as_ref().map_or_else(|| "plate".to_owned(), |serve| visit.moments.clock(serve));
    let twelve = visit.units.clock == quantity::Clock::Hours12;
    let figure = |at: f64| {
        let whole = (at * 60.0).round() as i64;
        if hours.serve.is_none() {
            return (whole < 0).then(|| minutes(&visit.units, -whole as f64));
        }
        let (hour, minute) = (whole.div_euclid(60).rem_euclid(24), whole.rem_euclid(60));
        let (hour, minute) = (u8::try_from(hour).unwrap_or(0), u8::try_from(minute).unwrap_or(0));
        Some(if twelve && minute == 0 {
            Moments::full_hour(hour, true)
        } else {
            visit.moments.clock_of(hour, minute)
        })
    };
    let plate = hour(0.0);
    drawing(rule, graduation, &rows, (plate, &word), &sentence(visit, ways, known, hours), figure)
}

fn row(visit: &Visit, name: String, way: &Way, hours: &Hours<'_>, hour: &impl Fn(f64) -> f64) -> Row {
    let along = |of: fn(&season::WayPoint) -> f64| {
        way.curve.iter().map(|point| (hour(way.in_before - point.at_min), of(point))).collect()
    };
    let ready = way.ready_before;
    Row {
        name,
        core: along(|point| point.core_c),
        face: along(|point| point.face_c),
        start: format!("in {}", hours.word(way.in_before)),
        ready: Span::new(hour(ready.high), hour(ready.median), hour(ready.low)),
        ready_word: if hours.serve.is_some() { hours.band(way).0 } else { hours.word(ready.median) },
        peak_word: visit.units.temperature(Temperature::from_c(way.peak.median), Grain::Forecast),
    }
}

/// What the picture says, for who does not see it.
fn sentence(visit: &Visit, ways: &PortionWays<'_>, known: &[(Road, &Way)], hours: &Hours<'_>) -> String {
    let of = |(road, way): &(Road, &Way)| {
        let ready = match &hours.serve {
            Some(serve) => seen_from(visit, serve).band(way.ready_before.times(-60.0)).between(),
            None => format!("{} before the plate", minutes(&visit.units, way.ready_before.median.round())),
        };
        format!("{} in {}, ready {ready}.", road_words(ways, *road), hours.word(way.in_before))
    };
    let all: Vec<String> = known.iter().map(of).collect();
    format!(
        "Core and upper face over time. {} All peak near {}.",
        all.join(" "),
        visit.units.temperature(ways.asked.wish, Grain::Forecast)
    )
}
