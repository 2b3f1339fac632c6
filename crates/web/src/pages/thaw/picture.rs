//! The hours from out to the plate, drawn.

use band::Band;
use jiff::{SignedDuration, ZonedDateTime};
use maud::Markup;
use season::ThawPlan;

use super::view::{is_near, place};
use crate::house::Visit;
use crate::pages::table::hours::seen_from;
use crate::plot::chain::{Link, Row, clock};
use crate::plot::gambrel::Span;
use crate::words::{Moments, hours_after_midnight, sentence_case};

pub(super) fn picture(visit: &Visit, thaw: &ThawPlan<'_>) -> Markup {
    let hour = |at: &ZonedDateTime| hours_after_midnight(visit.now(), at);
    let after = |seconds: f64| {
        let seconds = SignedDuration::from_secs(seconds as i64);
        visit.now().checked_add(seconds).unwrap_or_else(|_| visit.now().clone())
    };
    let mut rows = vec![fridge(visit, thaw, &hour, &after)];
    rows.extend(salted(visit, thaw, &hour));
    rows.extend(heat(visit, thaw, &hour));
    let first = rows.iter().flat_map(|row| &row.links).map(start).fold(f64::INFINITY, f64::min);
    let (rule, graduation) = clock(first - 0.5, hour(&thaw.serve) + 0.4);
    let word = format!("eat {}", visit.moments.clock(&thaw.serve));
    let twelve = visit.units.clock == quantity::Clock::Hours12;
    let figure = |at: f64| {
        let whole = u8::try_from((at.round() as i64).rem_euclid(24)).unwrap_or(0);
        let is_whole = (at - at.round()).abs() < 1e-6;
        let day = || {
            let midnight = visit.now().start_of_day().unwrap_or_else(|_| visit.now().clone());
            let span = SignedDuration::from_secs((at * 3600.0).round() as i64);
            midnight.checked_add(span).map_or_else(|_| String::new(), |day| day.strftime("%a").to_string())
        };
        is_whole
            .then(|| if whole == 0 { format!("{} 0:00", day()) } else { Moments::full_hour(whole, twelve) })
    };
    crate::plot::chain::chain(
        rule,
        graduation,
        &rows,
        Some((hour(&thaw.serve), &word)),
        &sentence(visit, thaw),
        figure,
    )
}

fn fridge(
    visit: &Visit,
    thaw: &ThawPlan<'_>,
    hour: &impl Fn(&ZonedDateTime) -> f64,
    after: &impl Fn(f64) -> ZonedDateTime,
) -> Row {
    let band = |seconds: Band, links: &mut Vec<Link>, from: &ZonedDateTime| {
        let finite = |seconds: f64| if seconds.is_finite() { seconds } else { 14.0 * 86_400.0 };
        let (low, middle, high) =
            (after(finite(seconds.low)), after(finite(seconds.median)), after(finite(seconds.high)));
        // Beyond the plate nothing is drawn: the rule ends there.
        let end = hour(&thaw.serve);
        let at = |moment: &ZonedDateTime| hour(moment).min(end);
        links.push(Link::On(hour(from), at(&low)));
        links.push(Link::Band(
            Span::new(at(&low), at(&middle), at(&high)),
            format!("soft {}", visit.moments.clock(&middle)),
        ));
    };
    let mut links = Vec::new();
    if let Some(waiting) = &thaw.waiting {
        let by = waiting.out_by.as_ref().filter(|by| *by > visit.now());
        match by.filter(|_| !is_near(visit, waiting)) {
            // Days ahead, the hours are drawn from the latest one.
            Some(by) => {
                let wait = hour(by) - hour(visit.now());
                let later = |seconds: f64| seconds + wait * 3600.0;
                let soft = waiting.if_now;
                let soft = Band { median: later(soft.median), low: later(soft.low), high: later(soft.high) };
                band(soft, &mut links, by);
                links.push(Link::In(hour(by), format!("out by {}", visit.moments.clock(by))));
            }
            None => {
                band(waiting.if_now, &mut links, visit.now());
                links.push(Link::In(hour(visit.now()), "out now".to_owned()));
                if let Some(by) = by {
                    links.push(Link::Latest(hour(by), format!("latest {}", visit.moments.time(by))));
                }
            }
        }
    } else if let Some(slowest) = thaw.slowest() {
        let out = visit.zoned(slowest.out.at);
        band(slowest.soft, &mut links, &out);
        links.push(Link::In(hour(&out), format!("out {}", visit.moments.clock(&out))));
    }
    let place = place(thaw);
    let read = thaw.fridge_read.filter(|_| place == thaw.fridge);
    let degree = read.map(|read| visit.units.temperature(read, quantity::Grain::Reading));
    let more = degree.map_or_else(|| "one layer".to_owned(), |degree| format!("one layer, {degree}"));
    Row { name: sentence_case(&place), more, links }
}

fn salted(visit: &Visit, thaw: &ThawPlan<'_>, hour: &impl Fn(&ZonedDateTime) -> f64) -> Option<Row> {
    let (_, at, _) = thaw.salt.given.last()?;
    let at = visit.zoned(*at);
    let end = thaw.plan.as_ref().map_or_else(|| thaw.soft_by.clone(), season::SupperPlan::first_in);
    let mut links = vec![Link::In(hour(&at), visit.moments.clock(&at))];
    if at < end {
        links.insert(0, Link::Rest(hour(&at), hour(&end)));
    }
    Some(Row { name: "Salt".to_owned(), more: "given".to_owned(), links })
}

fn heat(visit: &Visit, thaw: &ThawPlan<'_>, hour: &impl Fn(&ZonedDateTime) -> f64) -> Option<Row> {
    let plan = thaw.plan.as_ref()?;
    let first = plan.first_in();
    Some(Row {
        name: "Heat".to_owned(),
        more: format!("first in the {} at {}", plan.asked.low, visit.moments.clock(&first)),
        links: vec![Link::On(hour(&first), hour(&thaw.serve)), Link::In(hour(&first), String::new())],
    })
}

fn start(link: &Link) -> f64 {
    match link {
        Link::In(at, _) | Link::On(at, _) | Link::Rest(at, _) | Link::Latest(at, _) | Link::Block(at, ..) => {
            *at
        }
        Link::Band(span, _) => span.low,
    }
}

fn sentence(visit: &Visit, thaw: &ThawPlan<'_>) -> String {
    let time = |at: &ZonedDateTime| seen_from(visit, &thaw.serve).time(at);
    let soft = match (&thaw.waiting, thaw.slowest()) {
        (Some(waiting), _) => {
            let by = waiting
                .out_by
                .as_ref()
                .map_or_else(|| "no hour is early enough".to_owned(), |by| format!("out by {}", time(by)));
            if is_near(visit, waiting) {
                format!("Still frozen, {by}. Out now, soft {}.", visit.moments.band(waiting.if_now).between())
            } else {
                format!("Still frozen, {by}, soft by {}.", time(&thaw.soft_by))
            }
        }
        (None, Some(slowest)) => {
            format!(
                "Out at {}, soft {}.",
                time(&visit.zoned(slowest.out.at)),
                visit.moments.band(slowest.soft).between()
            )
        }
        (None, None) => String::new(),
    };
    let heat = thaw
        .plan
        .as_ref()
        .map_or_else(String::new, |plan| format!(" First on the heat at {}.", time(&plan.first_in())));
    format!("{soft}{heat} Eat at {}.", time(&thaw.serve))
}
