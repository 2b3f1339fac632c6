//! The chain back from the hour: its picture, its table, and the entries that stand in it.

use maud::{Markup, html};
use quantity::Grain;
use record::Portion;
use season::{DinnerRow as PlanRow, SupperPlan, portions_words};
use uuid::Uuid;

use crate::house::Visit;
use crate::pages::table::hours::seen_from;
use crate::plot::chain::{Link, Row, clock};
use crate::plot::gambrel::Span;
use crate::words::{Moments, Shown, hours_after_midnight, sentence_case};

/// The chain as it is shown.
pub(super) struct Chain {
    pub(super) heading: String,
    pub(super) picture: Markup,
    pub(super) caption: String,
    pub(super) lines: Vec<Line>,
    /// What is done next at the low place: its button stands first.
    pub(super) next: Option<Next>,
}

/// One row of the table.
pub(super) struct Line {
    pub(super) name: String,
    pub(super) who: String,
    pub(super) at: String,
    /// `is in`, once it is.
    pub(super) state: Option<&'static str>,
    pub(super) pull: String,
    pub(super) pulled: String,
    pub(super) peak: String,
    pub(super) peak_band: String,
}

/// The next entry: portions in, or portions pulled.
pub(super) struct Next {
    pub(super) act: Act,
    pub(super) words: String,
    pub(super) portions: Vec<Uuid>,
    /// The place they go into.
    pub(super) on: String,
    /// Whether its hour is near: then its button is the page's first.
    pub(super) is_near: bool,
}

/// Which entry it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Act {
    In,
    Pulled,
    Seared,
}

pub(super) fn chain(visit: &Visit, plan: &SupperPlan<'_>) -> Chain {
    let lines = plan.plan.rows.iter().map(|row| line(visit, plan, row)).collect();
    Chain {
        heading: format!("Back from {}", visit.moments.clock(&plan.serve)),
        picture: picture(visit, plan),
        caption: format!(
            "Dot: in the {}. Bar with hooks: the core stands at its pull number, four times in five; the upright is the middle. \
             Those out early wait {}.",
            plan.asked.low,
            wait_words(&plan.asked.table.wait)
        ),
        lines,
        next: next(plan),
    }
}

/// Where those that are out early lie.
fn wait_words(medium: &str) -> &'static str {
    match medium {
        "hot-hold" => "in the hot box",
        "rest" => "on the rack",
        _ => "loosely under foil",
    }
}

fn line(visit: &Visit, plan: &SupperPlan<'_>, row: &PlanRow) -> Line {
    let moments = seen_from(visit, &plan.serve);
    let pulled = moments.band(row.pulled_before.times(-60.0));
    let peak = Shown::temperature(&visit.units, row.peak);
    if row.is_out {
        return Line {
            name: sentence_case(&name(visit, plan, row)),
            who: portions_words(&plan.portions_of(row)),
            at: moments.time(&plan.at(row.in_before)),
            state: None,
            pull: "is out".to_owned(),
            pulled: moments.time(&plan.at(row.pulled_before.median)),
            peak: String::new(),
            peak_band: String::new(),
        };
    }
    Line {
        name: sentence_case(&name(visit, plan, row)),
        who: portions_words(&plan.portions_of(row)),
        at: moments.time(&plan.at(row.in_before)),
        state: row.is_in.then_some("is in"),
        pull: visit.units.temperature(row.pull, Grain::Forecast),
        pulled: pulled.dash(),
        peak_band: peak.dash(),
        peak: peak.middle,
    }
}

/// The wish of a row in a word, or its core.
pub(super) fn name(visit: &Visit, plan: &SupperPlan<'_>, row: &PlanRow) -> String {
    let seat = row.plates.first().map(|&plate| plan.plan.plates[plate].seat);
    let word = seat.and_then(|seat| plan.asked.wishes.get(seat)).and_then(|wish| wish.word.clone());
    word.unwrap_or_else(|| visit.units.temperature(row.wish, Grain::Forecast))
}

fn picture(visit: &Visit, plan: &SupperPlan<'_>) -> Markup {
    let hour = |before: f64| hours_after_midnight(visit.now(), &plan.at(before));
    let first = plan.plan.rows.iter().map(|row| row.in_before).fold(0.0, f64::max);
    let (rule, graduation) = clock(hour(first + 5.0), hour(-10.0));
    let mut rows: Vec<Row> = plan.plan.rows.iter().map(|row| drawn(visit, plan, row)).collect();
    rows.push(sear(visit, plan));
    let twelve = visit.units.clock == quantity::Clock::Hours12;
    let word = visit.moments.clock(&plan.serve);
    let figure = |at: f64| {
        let minutes = (at * 60.0).round() as i64;
        let (hour, minute) = (minutes.div_euclid(60).rem_euclid(24), minutes.rem_euclid(60));
        let (hour, minute) = (u8::try_from(hour).unwrap_or(0), u8::try_from(minute).unwrap_or(0));
        Some(if twelve && minute == 0 {
            Moments::full_hour(hour, true)
        } else {
            visit.moments.clock_of(hour, minute)
        })
    };
    crate::plot::chain::chain(
        rule,
        graduation,
        &rows,
        Some((hour(0.0), &word)),
        &sentence(visit, plan),
        figure,
    )
}

fn drawn(visit: &Visit, plan: &SupperPlan<'_>, row: &PlanRow) -> Row {
    let hour = |before: f64| hours_after_midnight(visit.now(), &plan.at(before));
    let at = |before: f64| visit.moments.clock(&plan.at(before));
    let band = row.pulled_before;
    let finite = |before: f64| if before.is_finite() { before } else { 0.0 };
    let (early, middle, late) = (finite(band.high), finite(band.median), finite(band.low));
    Row {
        name: sentence_case(&name(visit, plan, row)),
        more: portions_words(&plan.portions_of(row)),
        links: vec![
            Link::On(hour(row.in_before), hour(early)),
            Link::In(hour(row.in_before), format!("in {}", at(row.in_before))),
            Link::Band(Span::new(hour(early), hour(middle), hour(late)), at(middle)),
        ],
    }
}

fn sear(visit: &Visit, plan: &SupperPlan<'_>) -> Row {
    let hour = |before: f64| hours_after_midnight(visit.now(), &plan.at(before));
    let first = plan.plan.first_sear();
    let last = plan.plan.plates.iter().map(|plate| plate.rest_before).fold(f64::INFINITY, f64::min);
    let at = visit.moments.clock(&plan.at(first));
    // Its hour stands beside its name: under the block it would run into the plate's line.
    let passes = match plan.plan.passes {
        0 | 1 => format!("{} at {at}", plan.asked.hot),
        more => format!("{} at {at}, {more} passes", plan.asked.hot),
    };
    Row {
        name: "Sear, rest".to_owned(),
        more: passes,
        links: vec![Link::Block(hour(first), hour(last), String::new()), Link::Rest(hour(last), hour(0.0))],
    }
}

/// What the picture says, for who does not see it.
fn sentence(visit: &Visit, plan: &SupperPlan<'_>) -> String {
    let moments = seen_from(visit, &plan.serve);
    let rows: Vec<String> = plan
        .plan
        .rows
        .iter()
        .map(|row| {
            let pulled = moments.band(row.pulled_before.times(-60.0));
            let at = moments.time(&plan.at(row.in_before));
            format!(
                "{} in at {at}, at its pull number {}.",
                sentence_case(&name(visit, plan, row)),
                pulled.between()
            )
        })
        .collect();
    let sear = moments.time(&plan.at(plan.plan.first_sear()));
    format!("{} Sear at {sear}, on the plate at {}.", rows.join(" "), moments.time(&plan.serve))
}

/// What goes in next; else what is pulled first of what is in; else the sear.
fn next(plan: &SupperPlan<'_>) -> Option<Next> {
    if plan.is_past() {
        return None;
    }
    let low = record::place_key(&plan.asked.low);
    let was_in = |portion: &&Portion| portion.on_heat.iter().any(|on| record::place_key(&on.on) == low);
    let is_out = |portion: &&Portion| !portion.pulled.is_empty();
    let waits = plan.plan.rows.iter().find(|row| !row.is_in);
    let warming: Vec<&Portion> = plan
        .plan
        .plates
        .iter()
        .map(|plate| plan.portion(plate.portion))
        .filter(|portion| was_in(portion) && !is_out(portion))
        .collect();
    let ids = |portions: &[&Portion]| portions.iter().map(|portion| portion.id).collect();
    if let Some(row) = waits.filter(|row| plan.left_min() <= row.in_before + SOON_MIN) {
        let portions = plan.portions_of(row);
        let words = format!("{} in", portions_words(&portions));
        let is_near = plan.left_min() <= row.in_before + NEAR_MIN;
        return Some(Next {
            act: Act::In,
            words,
            portions: ids(&portions),
            on: plan.asked.low.clone(),
            is_near,
        });
    }
    let soonest = plan.plan.rows.iter().filter(|row| {
        plan.portions_of(row).iter().any(|portion| warming.iter().any(|other| other.id == portion.id))
    });
    if let Some(row) = soonest.max_by(|a, b| a.pulled_before.median.total_cmp(&b.pulled_before.median)) {
        let portions: Vec<&Portion> =
            plan.portions_of(row).into_iter().filter(|portion| !is_out(portion)).collect();
        let words = format!("{} pulled", portions_words(&portions));
        return Some(Next {
            act: Act::Pulled,
            words,
            portions: ids(&portions),
            on: plan.asked.low.clone(),
            is_near: true,
        });
    }
    if waits.is_some() { None } else { sear_next(plan) }
}

fn sear_next(plan: &SupperPlan<'_>) -> Option<Next> {
    let hot = record::place_key(&plan.asked.hot);
    let is_seared = |portion: &Portion| portion.on_heat.iter().any(|on| record::place_key(&on.on) == hot);
    let waiting = plan.plan.plates.iter().filter(|plate| !is_seared(plan.portion(plate.portion)));
    let pass = waiting.clone().map(|plate| plate.pass).min()?;
    let portions: Vec<&Portion> =
        waiting.filter(|plate| plate.pass == pass).map(|plate| plan.portion(plate.portion)).collect();
    let words = format!("{} on the {}", portions_words(&portions), plan.asked.hot);
    let ids = portions.iter().map(|portion| portion.id).collect();
    Some(Next { act: Act::Seared, words, portions: ids, on: plan.asked.hot.clone(), is_near: true })
}

/// Minutes before its hour from which on an entry is the first button.
const NEAR_MIN: f64 = 30.0;
/// And from which on it stands there at all.
const SOON_MIN: f64 = 300.0;

/// The table under the picture.
pub(super) fn table(chain: &Chain) -> Markup {
    html! {
        table {
            caption { "Pull numbers" small { "In for how long, out at which core, and where sear and rest take it" } }
            thead { tr {
                th scope="col" { "Wish" } th scope="col" class="r" { "In" } th scope="col" class="r" { "Pull at" } th scope="col" class="r" { "Peak" }
            } }
            tbody { @for line in &chain.lines {
                tr {
                    th scope="row" { (line.name) small { (line.who) } }
                    td class="r n" { (line.at) @if let Some(state) = line.state { small { (state) } } }
                    td class="r n" { (line.pull) small { (line.pulled) } }
                    td class="r n" { (line.peak) small { (line.peak_band) } }
                }
            } }
        }
    }
}
