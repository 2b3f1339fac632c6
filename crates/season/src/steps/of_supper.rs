//! The steps of a supper: out, salt, oven on, in, sear, plate.

use super::Step;
use crate::supper::SupperPlan;
use crate::thaw::{ThawPlan, thaw_plan};
use crate::{Plans, SupperAsked};
use jiff::{SignedDuration, ZonedDateTime};
use quantity::{Grain, Mass, Temperature, Units};
use record::{At, Pack, Portion, State, Supper};

/// Steps of all suppers that are not over, done ones too, in order of their hours.
#[must_use]
pub fn next_steps(state: &State, plans: &Plans, now: &ZonedDateTime) -> Vec<Step> {
    let over = SignedDuration::from_hours(OVER_H);
    let is_on = |supper: &&Supper| {
        let served = supper.planned.portions.iter().all(|id| supper.served.contains(id));
        let since = now.timestamp().duration_since(supper.planned.serve.at.timestamp());
        since < over && (supper.served.is_empty() || !served)
    };
    let mut steps: Vec<Step> =
        state.suppers().filter(is_on).flat_map(|supper| supper_steps(state, plans, supper, now)).collect();
    steps.sort_by_key(|step| step.at.timestamp());
    steps
}

/// Hours after which nobody asks any more what a supper's next step is.
const OVER_H: i64 = 6;

/// The steps of one supper, done ones too, in order of their hours.
#[must_use]
pub fn supper_steps(state: &State, plans: &Plans, supper: &Supper, now: &ZonedDateTime) -> Vec<Step> {
    let units = state.settings().units();
    let link = format!("/table/{}", supper.slug);
    let mut steps = Vec::new();
    let thaw = thaw_plan(state, plans, supper, now).ok();
    if let Some(thaw) = &thaw {
        steps.extend(out_steps(thaw, &link));
        steps.extend(salt_steps(thaw, units, &link));
        if let Some(plan) = &thaw.plan {
            steps.extend(heat_steps(plan, units, &link));
        }
    }
    let served = !supper.served.is_empty();
    let serve = supper.planned.serve.at.in_zone(now.time_zone());
    steps.push(Step { at: serve, what: plate_words(supper), link, done: served });
    steps.sort_by_key(|step| step.at.timestamp());
    steps
}

fn plate_words(supper: &Supper) -> String {
    match supper.planned.seat.len() {
        0 => "supper on the plate".to_owned(),
        1 => "one plate".to_owned(),
        seats => format!("{seats} plates"),
    }
}

fn out_steps(thaw: &ThawPlan<'_>, link: &str) -> Vec<Step> {
    let link = format!("{link}/thaw");
    let mut steps = Vec::new();
    let by_hour = |a: &At, b: &At| a.timestamp() == b.timestamp();
    let mut outs: Vec<(At, Vec<&Pack>)> = Vec::new();
    let thawing = thaw.thawing.iter().map(|pack| (pack.pack, pack.out.at));
    for (pack, out) in thaw.opened.iter().map(|pack| (pack.pack, pack.out.at)).chain(thawing) {
        match outs.iter_mut().find(|(at, _)| by_hour(at, &out)) {
            Some((_, packs)) => packs.push(pack),
            None => outs.push((out, vec![pack])),
        }
    }
    for (at, packs) in outs {
        let at = at.in_zone(thaw.serve.time_zone());
        steps.push(Step {
            at,
            what: format!("{} out to thaw", packs_words(&packs)),
            link: link.clone(),
            done: true,
        });
    }
    if let Some(by) = thaw.waiting.as_ref().and_then(|waiting| waiting.out_by.clone()) {
        let what = format!("{} out of the freezer", packs_words(&thaw.frozen));
        steps.push(Step { at: by, what, link, done: false });
    }
    steps
}

/// Three packs by name, more by count.
fn packs_words(packs: &[&Pack]) -> String {
    match packs {
        [] => String::new(),
        [one] => one.name.clone(),
        [one, two] => format!("{} and {}", one.name, two.name),
        [one, two, three] => format!("{}, {} and {}", one.name, two.name, three.name),
        more => format!("{} packs", more.len()),
    }
}

/// Salt is a dose and an hour the person gives: a step ahead only where the kitchen has a dose, due when all is soft.
fn salt_steps(thaw: &ThawPlan<'_>, units: Units, link: &str) -> Vec<Step> {
    let salt = &thaw.salt;
    let link = format!("{link}/thaw");
    let mut steps = Vec::new();
    if let Some((_, at, _)) = salt.given.last() {
        let grams: Option<Mass> = salt.given.iter().map(|(_, _, grams)| *grams).sum();
        let words =
            grams.map_or_else(String::new, |all| format!(", {} in all", units.mass(all, Grain::Reading)));
        let at = at.in_zone(thaw.serve.time_zone());
        steps.push(Step { at, what: format!("salted{words}"), link: link.clone(), done: true });
    }
    if let (Some(dose), false) = (salt.dose_percent, salt.waiting.is_empty()) {
        let meat: Mass = salt.waiting.iter().map(|portion| portion.weighed.mass).sum();
        let grams = units.mass(tenths(meat * (dose / 100.0)), Grain::Reading);
        let what = format!("salt: {grams} on {} portions", salt.waiting.len());
        steps.push(Step { at: thaw.soft_by.clone(), what, link, done: false });
    }
    steps
}

fn tenths(mass: Mass) -> Mass {
    Mass::from_g((mass.g() * 10.0).round() / 10.0)
}

fn heat_steps(plan: &SupperPlan<'_>, units: Units, link: &str) -> Vec<Step> {
    let step = |at: ZonedDateTime, what: String, done: bool| Step { at, what, link: link.to_owned(), done };
    let asked = &plan.asked;
    let mut steps = vec![step(plan.low_on(), low_on_words(asked, units), plan.has_begun())];
    for row in &plan.plan.rows {
        let portions = plan.portions_of(row);
        let word = word_of(plan, row);
        let what = format!("{} in, {word}", portions_words(&portions));
        steps.push(step(plan.at(row.in_before), what, row.is_in));
    }
    let passes = match plan.plan.passes {
        0 | 1 => String::new(),
        more => format!(", {more} passes"),
    };
    let seared = asked.portions.iter().any(|portion| {
        portion.on_heat.iter().any(|on| record::place_key(&on.on) == record::place_key(&asked.hot))
    });
    steps.push(step(plan.at(plan.plan.first_sear()), format!("sear on the {}{passes}", asked.hot), seared));
    steps
}

fn low_on_words(asked: &SupperAsked<'_>, units: Units) -> String {
    let degree = match asked.dial {
        Some(dial) => format!(", dial at {}", units.temperature(dial, Grain::Forecast)),
        None => String::new(),
    };
    format!("{} on{degree}", asked.low)
}

/// The wish of a row in a word, or its core.
fn word_of(plan: &SupperPlan<'_>, row: &dinner::Row) -> String {
    let seat = row.plates.first().map(|&plate| plan.plan.plates[plate].seat);
    let word = seat.and_then(|seat| plan.asked.wishes.get(seat)).and_then(|wish| wish.word.clone());
    word.unwrap_or_else(|| Units::METRIC.temperature(Temperature::from_c(row.wish.c()), Grain::Forecast))
}

/// `TARN 1, 3 and 4`; portions of several pieces one piece after the other.
#[must_use]
pub fn portions_words(portions: &[&Portion]) -> String {
    let mut by_piece: Vec<(String, Vec<String>)> = Vec::new();
    for portion in portions {
        let (word, place) = (portion.word.to_string(), portion.n.to_string());
        match by_piece.iter_mut().find(|(other, _)| *other == word) {
            Some((_, places)) => places.push(place),
            None => by_piece.push((word, vec![place])),
        }
    }
    let piece = |(word, places): &(String, Vec<String>)| {
        let places = match places.as_slice() {
            [start @ .., last] if !start.is_empty() => format!("{} and {last}", start.join(", ")),
            all => all.join(", "),
        };
        format!("{word} {places}")
    };
    by_piece.iter().map(piece).collect::<Vec<_>>().join(", ")
}
