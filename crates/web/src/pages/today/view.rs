//! The day in words.

use maud::{Markup, html};
use quantity::{Grain, Mass};
use season::{Step, Sum, Today, TodayLook};

use super::query::Found;
use crate::house::Visit;
use crate::pages::shared::{Ledger, ledger_of, thread_of};
use crate::parts::{Row, Thread};
use crate::plot::day::Hours;
use crate::words::{chance, counted, hours_after_midnight, long_day, number_word, plural, sentence_case};

/// Today as it is shown.
pub(super) struct View {
    /// `Saturday 18 July`
    pub(super) day: String,
    /// The answer, its readings marked.
    pub(super) answer: Markup,
    /// The sentence under it.
    pub(super) said: Option<String>,
    /// The one button of an empty day.
    pub(super) start: Option<(&'static str, &'static str)>,
    /// The rule of hours.
    pub(super) hours: Hours,
    /// What the rule says in words.
    pub(super) hours_said: String,
    /// How a full hour is written on it.
    pub(super) twelve: bool,
    /// Steps in order, with their hours.
    pub(super) steps: Vec<(String, Row)>,
    /// The piece at hand.
    pub(super) piece: Option<PieceView>,
    /// What is worth a look, with whether it is overdue.
    pub(super) looks: Vec<(bool, String, Markup)>,
    /// The season in a sentence.
    pub(super) season: Option<String>,
    /// Whether nothing was ever written.
    pub(super) is_first_run: bool,
}

/// The piece at hand.
pub(super) struct PieceView {
    /// `TARN, ribeye roll: where its 6 400 g are`
    pub(super) heading: String,
    /// Its page.
    pub(super) link: String,
    /// Its thread.
    pub(super) thread: Thread,
    /// Its grams.
    pub(super) ledger: Ledger,
}

/// The most steps that are listed; the rest are on the suppers' own pages.
const STEPS_SHOWN: usize = 6;

pub(super) fn view(found: &Found<'_>, visit: &Visit) -> View {
    let today = &found.today;
    View {
        day: long_day(visit.now()),
        answer: answer(today, found.chance, visit),
        said: said(today),
        start: start(today),
        hours: hours(today, visit),
        hours_said: hours_said(today, visit),
        twelve: visit.units.clock == quantity::Clock::Hours12,
        steps: today.ahead.iter().take(STEPS_SHOWN).map(|step| step_row(step, visit)).collect(),
        piece: today.piece.filter(|_| !today.is_first_run).map(|piece| {
            let ledger = ledger_of(visit, piece);
            PieceView {
                heading: format!("{}: where its {} are", ledger.name, ledger.came_in),
                link: format!("/piece/{}", piece.word.slug()),
                thread: thread_of(visit, piece),
                ledger,
            }
        }),
        looks: today.looks.iter().map(|look| look_row(look, visit)).collect(),
        season: today
            .season
            .first()
            .filter(|sum| sum.plates > 0)
            .map(|sum| season(sum, today.suppers_eaten, visit)),
        is_first_run: today.is_first_run,
    }
}

fn answer(today: &Today<'_>, sure: Option<f64>, visit: &Visit) -> Markup {
    let moments = &visit.moments;
    let Some(next) = today.ahead.first() else {
        return if today.is_first_run {
            html! { "Nothing is due. Write down one piece of beef, and this page says what comes next, and when." }
        } else {
            html! { "Nothing is due." }
        };
    };
    if next.overdue_by(visit.now()).is_some() {
        return html! { "Overdue since " strong { (moments.time(&next.at)) } ": " (next.what) "." };
    }
    let is_today = next.at.date() == visit.now().date();
    if !is_today {
        return html! {
            "Nothing until " (moments.day_word(&next.at)) ": " (next.what) " by " strong { (moments.clock(&next.at)) } "."
        };
    }
    let plate = today.supper.map(|supper| visit.zoned(supper.planned.serve.at)).filter(|at| *at > next.at);
    html! {
        (sentence_case(&next.what)) " at " strong { (moments.time(&next.at)) } "."
        @if let Some(at) = plate {
            " " (eaters(today)) " at " strong { (moments.time(&at)) }
            @if let Some(sure) = sure { ", " span class="n" { (chance(sure)) } }
            "."
        }
    }
}

fn eaters(today: &Today<'_>) -> String {
    match today.supper.map_or(0, |supper| supper.planned.seat.len()) {
        0 => "Supper".to_owned(),
        1 => "One eats".to_owned(),
        seats => format!("{} eat", sentence_case(&number_word(seats))),
    }
}

fn said(today: &Today<'_>) -> Option<String> {
    if today.is_first_run {
        return None;
    }
    let overdue = today.looks.iter().filter(|look| matches!(look, TodayLook::Reading(..))).count();
    match (today.ahead.is_empty(), overdue) {
        (true, 0) => Some("Plan a supper, and this page says what to take out, and when.".to_owned()),
        (true, _) => Some("A reading is overdue; it stands under “Worth a look”.".to_owned()),
        (false, _) => None,
    }
}

fn start(today: &Today<'_>) -> Option<(&'static str, &'static str)> {
    if today.is_first_run {
        Some(("A first piece", "/case"))
    } else if today.ahead.is_empty() {
        Some(("Plan a supper", "/table"))
    } else {
        None
    }
}

fn hours(today: &Today<'_>, visit: &Visit) -> Hours {
    let now = visit.now();
    let near = |step: &&Step| hours_after_midnight(now, &step.at) <= hours_after_midnight(now, now) + 24.0;
    let plate = today.supper.map(|supper| visit.zoned(supper.planned.serve.at));
    let plate =
        plate.filter(|at| at > now && hours_after_midnight(now, at) < hours_after_midnight(now, now) + 24.0);
    let is_plate = |step: &&Step| plate.as_ref().is_some_and(|plate| *plate == step.at);
    let steps: Vec<&Step> =
        today.ahead.iter().filter(near).filter(|step| !is_plate(step) && step.at > *now).collect();
    Hours {
        now: hours_after_midnight(now, now),
        now_word: visit.moments.clock(now),
        first_word: steps.first().map(|step| visit.moments.clock(&step.at)).unwrap_or_default(),
        steps: steps.iter().map(|step| hours_after_midnight(now, &step.at)).collect(),
        plate: plate.map(|at| (hours_after_midnight(now, &at), format!("eat {}", visit.moments.clock(&at)))),
    }
}

fn hours_said(today: &Today<'_>, visit: &Visit) -> String {
    let now = visit.moments.clock(visit.now());
    let times: Vec<String> = today
        .ahead
        .iter()
        .filter(|step| step.at > *visit.now() && step.at.date() == visit.now().date())
        .map(|step| format!("{}, {}", visit.moments.clock(&step.at), step.what))
        .collect();
    match times.len() {
        0 => format!("The hours to come. Now {now}. Nothing to come today."),
        count => format!(
            "The hours to come. Now {now}. {} to come: {}.",
            sentence_case(&counted(count, "step", "steps")),
            times.join("; ")
        ),
    }
}

fn step_row(step: &Step, visit: &Visit) -> (String, Row) {
    let overdue = step.overdue_by(visit.now());
    let more = overdue.map(|late| format!("overdue by {}", visit.units.span(late)));
    (
        visit.moments.time(&step.at),
        Row { link: Some(step.link.clone()), words: sentence_case(&step.what), more },
    )
}

fn look_row(look: &TodayLook<'_>, visit: &Visit) -> (bool, String, Markup) {
    let grams = |mass: Mass| visit.units.mass(mass, Grain::Reading);
    match look {
        TodayLook::Loose(pack) => {
            let since =
                pack.leaker.as_ref().map(|leak| visit.moments.day(&visit.zoned(leak.at))).unwrap_or_default();
            (
                false,
                format!("/pack/{}", pack.slug),
                html! { b { (pack.name) } " lost its vacuum by " (since) ". Eat it first." },
            )
        }
        TodayLook::Missing(pack) => {
            let since = pack.missing.map(|at| visit.moments.day_word(&visit.zoned(at))).unwrap_or_default();
            (
                false,
                format!("/pack/{}", pack.slug),
                html! { b { (pack.name) } " was not there when it was counted, " (since) "." },
            )
        }
        TodayLook::NotPacked(piece, count) => (
            false,
            format!("/piece/{}/pack", piece.word.slug()),
            html! { b { (piece.word.to_string()) } ": " (counted(*count, "portion", "portions")) " in no pack yet." },
        ),
        TodayLook::Uncut(piece, day) => {
            let since = visit.moments.day_word(&visit.zoned(piece.at));
            let until = day.map(|day| day.strftime(", its bag says %-d %b").to_string()).unwrap_or_default();
            (
                false,
                format!("/piece/{}/plan", piece.word.slug()),
                html! { b { (piece.word.to_string()) } " waits for the knife since " (since) (until) "." },
            )
        }
        TodayLook::NotExplained(piece, mass) => {
            let words = if mass.g() < 0.0 { "more weighed than came in" } else { "not written down" };
            (
                true,
                format!("/piece/{}", piece.word.slug()),
                html! { b { (piece.word.to_string()) } ": " (grams(Mass::from_g(mass.g().abs()))) " " (words) "." },
            )
        }
        TodayLook::Reading(place, last) => {
            let last = last.map_or_else(
                || "never read".to_owned(),
                |at| format!("last {}", visit.moments.time(&visit.zoned(at))),
            );
            (
                true,
                format!("/write/temperature?place={}", urlencoded(place)),
                html! { b { (sentence_case(place)) " reading overdue" } ", " (last) "." },
            )
        }
    }
}

fn season(sum: &Sum, suppers: usize, visit: &Visit) -> String {
    let bought = visit.units.large(sum.bought);
    let eaten = if suppers > 0 {
        format!("{}, ", sentence_case(&counted(suppers, "supper", "suppers")))
    } else {
        String::new()
    };
    let plates = format!("{} {}", sum.plates, plural(sum.plates, "plate", "plates"));
    let saved = match sum.counter_plates {
        0 => String::new(),
        _ if sum.saved.amount.is_sign_negative() => {
            format!(" So far {} over the counter.", quantity::Money::new(-sum.saved.amount, sum.currency))
        }
        _ => format!(" So far {} under the counter.", sum.saved),
    };
    format!("{eaten}{plates} cut, {bought} bought.{saved}")
}

fn urlencoded(text: &str) -> String {
    text.bytes()
        .map(|byte| match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'_' | b'.' => char::from(byte).to_string(),
            b' ' => "+".to_owned(),
            _ => format!("%{byte:02X}"),
        })
        .collect()
}
