//! The store in words.

use jiff::ToSpan;
use jiff::civil::Date;
use maud::{Markup, html};
use quantity::{Grain, Mass};
use season::{ByWeight, Lain, Match, ShelfPlace};

use super::chart;
use super::query::Found;
use crate::house::Visit;
use crate::pages::shared::in_the;
use crate::pages::shared::places::first_of;
use crate::papers::{is_salted, what};
use crate::plot::months::{Calendar, Lain as Drawn, Until};
use crate::words::{and_list, counted, day_month, number_word, sentence_case};

/// The store as it is shown.
pub(super) struct View {
    pub(super) to: String,
    pub(super) answer: Markup,
    pub(super) said: Vec<String>,
    pub(super) next: Option<Next>,
    pub(super) places: Vec<PlaceView>,
    pub(super) calendar: Calendar,
    /// The official rules the ends of the spans come from.
    pub(super) rules: Vec<(String, String)>,
    pub(super) missing: Vec<(String, String)>,
    pub(super) out: Vec<(String, String, String)>,
    pub(super) sought: (String, Option<Markup>),
    pub(super) unit: &'static str,
    pub(super) degree: &'static str,
}

/// The pack to use next.
pub(super) struct Next {
    pub(super) id: String,
    pub(super) name: String,
    /// Where it thaws.
    pub(super) to: String,
}

/// A place with its packs.
pub(super) struct PlaceView {
    pub(super) id: String,
    /// As entries carry it; nothing where nobody wrote where its packs lie.
    pub(super) place: Option<String>,
    pub(super) heading: String,
    pub(super) reading: Option<String>,
    pub(super) count: Option<String>,
    pub(super) lines: Vec<Line>,
}

/// A pack in the list.
pub(super) struct Line {
    pub(super) id: String,
    pub(super) name: String,
    pub(super) link: String,
    pub(super) mass: String,
    pub(super) what: String,
    /// What is special about it: loose, set aside.
    pub(super) marks: Vec<String>,
    pub(super) spot: String,
    pub(super) drawn: Drawn,
    pub(super) sentence: String,
    pub(super) until: String,
}

pub(super) fn view(found: &Found<'_>, visit: &Visit) -> View {
    let shelf = &found.shelf;
    let start = calendar_start(found, visit);
    let next = shelf.next.as_ref();
    View {
        to: "/store".to_owned(),
        answer: answer(found, visit),
        said: said(found, visit),
        next: next.map(|lain| Next {
            id: lain.pack.id.to_string(),
            name: lain.pack.name.clone(),
            to: first_of(visit, record::PlaceKind::Fridge),
        }),
        places: shelf
            .places
            .iter()
            .enumerate()
            .map(|(place, shelf)| place_view(place, shelf, visit, start))
            .collect(),
        calendar: calendar(start, visit),
        rules: rules(found),
        missing: shelf
            .missing
            .iter()
            .map(|pack| (pack.name.clone(), format!("/pack/{}", pack.slug)))
            .collect(),
        out: shelf
            .out
            .iter()
            .map(|pack| {
                let place = pack.out.as_ref().map_or_else(String::new, |out| {
                    format!("{}, since {}", in_the(&out.place), visit.moments.time(&visit.zoned(out.at)))
                });
                (pack.name.clone(), format!("/pack/{}", pack.slug), place)
            })
            .collect(),
        sought: sought(found, visit),
        unit: if visit.units.pounds { "oz" } else { "g" },
        degree: if visit.units.temperature == quantity::TemperatureUnit::Fahrenheit { "°F" } else { "°C" },
    }
}

fn answer(found: &Found<'_>, visit: &Visit) -> Markup {
    let Some(next) = &found.shelf.next else {
        return html! { "Packs will stand here, in the order they are used, once the first bag is sealed." };
    };
    let why = if next.pack.leaker.is_some() {
        "its bag is loose".to_owned()
    } else if !next.chart.frozen {
        format!("it is not frozen, cut {}", chart::day_words(next.chart.since, visit))
    } else {
        format!("it has lain longest, since {}", chart::day_words(next.chart.since, visit))
    };
    html! { "Use " strong { (next.pack.name) } " next: " (why) "." }
}

fn said(found: &Found<'_>, visit: &Visit) -> Vec<String> {
    let Some(next) = &found.shelf.next else { return Vec::new() };
    let place = next.pack.lying.as_ref().map_or("Nobody wrote where it lies".to_owned(), |lying| {
        let spot = lying.spot.as_ref().map_or_else(String::new, |spot| format!(", {spot}"));
        format!("It lies {}{spot}", in_the(&lying.place))
    });
    let mass = visit.units.mass(next.pack.mass, Grain::Reading);
    vec![format!("{place}: {mass} of {}.", what(&visit.state, next))]
}

fn place_view(number: usize, shelf: &ShelfPlace<'_>, visit: &Visit, start: Date) -> PlaceView {
    let count = shelf.packs.len();
    let mass = visit.units.mass(shelf.mass, Grain::Reading);
    let packs = counted(count, "pack", "packs");
    let heading = match &shelf.name {
        Some(name) => format!("{}: {packs}, {mass}", sentence_case(name)),
        None => format!("{}, {mass}, nobody wrote where", sentence_case(&packs)),
    };
    let reading = shelf.reading.map(|(at, temperature)| {
        let shown = visit.units.temperature(temperature, Grain::Reading);
        format!("{shown} at {}.", visit.moments.time(&visit.zoned(at)))
    });
    PlaceView {
        id: format!("place-{number}"),
        heading,
        reading,
        count: shelf.count.as_ref().map(|count| {
            let day = visit.moments.day(&visit.zoned(count.at));
            let of = count.here + count.missing;
            match count.missing {
                0 => format!("Last counted {day}: all {} there.", number_word(of)),
                missing => format!(
                    "Last counted {day}: {} of {} there, {} missing.",
                    number_word(count.here),
                    number_word(of),
                    number_word(missing)
                ),
            }
        }),
        lines: shelf.packs.iter().map(|lain| line(lain, visit, start)).collect(),
        place: shelf.name.clone(),
    }
}

fn line(lain: &Lain<'_>, visit: &Visit, start: Date) -> Line {
    let pack = lain.pack;
    let day = |date: Date| days_between(start, date);
    let (from, until) = (day(lain.chart.from), day(lain.chart.until));
    let mut marks = Vec::new();
    marks.extend(pack.leaker.as_ref().map(|_| "loose bag".to_owned()));
    marks.extend(
        lain.supper.map(|supper| format!("for {}", day_month(&visit.zoned(supper.planned.serve.at)))),
    );
    marks.extend((visit.now().date() > lain.chart.until).then(|| "past the chart".to_owned()));
    let salted = if is_salted(lain) { ", salted" } else { "" };
    Line {
        id: pack.id.to_string(),
        name: pack.name.clone(),
        link: format!("/pack/{}", pack.slug),
        mass: visit.units.mass(pack.mass, Grain::Reading),
        what: format!("{}{salted}", what(&visit.state, lain)),
        marks,
        spot: pack.lying.as_ref().and_then(|lying| lying.spot.clone()).unwrap_or_default(),
        drawn: Drawn { since: day(lain.chart.since), until: Some(Until::Rule(from, until)) },
        sentence: chart::words(lain, visit).here,
        until: month(lain.chart.until, lain.chart.frozen, visit),
    }
}

/// `Jul 2027` for months, `10 Jul` for days in the fridge.
fn month(date: Date, frozen: bool, visit: &Visit) -> String {
    if frozen { date.strftime("%b %Y").to_string() } else { chart::day_words(date, visit) }
}

/// The official rules that the spans of the list are, each once.
fn rules(found: &Found<'_>) -> Vec<(String, String)> {
    let mut rules: Vec<(String, String)> = Vec::new();
    for lain in found.shelf.places.iter().flat_map(|place| &place.packs) {
        let rule = (chart::rule(&lain.chart), chart::authority(&lain.chart));
        if !rules.contains(&rule) {
            rules.push(rule);
        }
    }
    rules
}

/// The rule of months starts with the oldest pack's month.
fn calendar_start(found: &Found<'_>, visit: &Visit) -> Date {
    let packs = found.shelf.places.iter().flat_map(|place| &place.packs);
    let oldest = packs.map(|lain| lain.chart.since).min().unwrap_or_else(|| visit.now().date());
    // Two years at the most: what lies longer starts at the edge.
    let edge = visit.now().date().saturating_sub(12.months());
    oldest.max(edge).first_of_month()
}

fn calendar(start: Date, visit: &Visit) -> Calendar {
    let today = visit.now().date();
    let end = today.saturating_add(13.months()).first_of_month();
    let days = days_between(start, end);
    let mut months = Vec::new();
    let mut month = start;
    while month <= end {
        let named = month.month() % 3 == 1;
        months.push((days_between(start, month), named.then(|| month.strftime("%b").to_string())));
        month = month.saturating_add(1.month());
    }
    Calendar::new(days, days_between(start, today), months)
}

fn days_between(from: Date, to: Date) -> f64 {
    from.until((jiff::Unit::Day, to)).map_or(0.0, |span| f64::from(span.get_days()))
}

fn sought(found: &Found<'_>, visit: &Visit) -> (String, Option<Markup>) {
    let Some((typed, read)) = &found.sought else { return (String::new(), None) };
    let answer = match read {
        None => html! { "“" (typed) "” is no weight. Write grams, or a number with its unit." },
        Some((reading, by_weight)) => by_weight_words(*reading, by_weight, visit),
    };
    (typed.clone(), Some(answer))
}

fn by_weight_words(reading: Mass, found: &ByWeight<'_>, visit: &Visit) -> Markup {
    let shown = |mass: Mass| visit.units.mass(mass, Grain::Reading);
    let link = |found: &Match<'_>| html! { a href={ "/pack/" (found.pack.slug) } { (found.pack.name) } };
    let sum = |found: &Match<'_>| match found.bag {
        Some(bag) => format!("{} + {} of bag", shown(found.pack.mass), shown(bag)),
        None => format!("{} and a bag nobody has weighed", shown(found.pack.mass)),
    };
    match found {
        ByWeight::It(it, next) => html! {
            (sum(it)) ": " b { (link(it)) } "."
            @if let Some(next) = next { " The nearest other, " (next.pack.name) ", would read " (shown(next.would_read)) "." }
        },
        ByWeight::OneOf(near) => {
            let names: Vec<String> = near.iter().skip(1).map(|found| found.pack.name.clone()).collect();
            html! { "Likeliest " b { (near.first().map(link).unwrap_or_default()) } ", but it may be " (and_list(&names)) " too: their weights are too near." }
        }
        ByWeight::None(nearest) => html! {
            "Nothing in the store weighs " (shown(reading)) "."
            @if let Some(nearest) = nearest { " The nearest, " (link(nearest)) ", would read " (shown(nearest.would_read)) "." }
        },
    }
}
