//! The log of a piece: newest day first, like entries folded, struck lines readable where they stood.

use maud::{Markup, html};
use record::{Body, Kind, Logged};

use super::entries::entry_words;
use crate::house::Visit;
use crate::words::{counted, long_day};

/// A day of the log.
pub(crate) struct Day {
    /// `Sunday 5 July`
    pub(crate) name: String,
    /// Its lines, newest first.
    pub(crate) lines: Vec<Line>,
}

/// A line of it.
pub(crate) struct Line {
    pub(crate) time: String,
    pub(crate) link: String,
    pub(crate) words: Markup,
    pub(crate) by: String,
}

/// The days of these entries, which come oldest first.
pub(crate) fn days<'e>(visit: &Visit, entries: impl Iterator<Item = &'e Logged>) -> Vec<Day> {
    let mut days: Vec<Day> = Vec::new();
    let mut run: Vec<&Logged> = Vec::new();
    // A correction stands in the line it corrects, not in one of its own.
    for row in entries.filter(|row| row.stored.entry.kind() != Kind::Corrected) {
        if !run.last().is_some_and(|last| folds(visit, last, row)) {
            push(visit, &mut days, &run);
            run.clear();
        }
        run.push(row);
    }
    push(visit, &mut days, &run);
    days.reverse();
    days
}

/// Entries of a kind that come one after the other at one job on one day are one line.
fn folds(visit: &Visit, last: &Logged, next: &Logged) -> bool {
    let foldable = matches!(next.stored.entry.kind(), Kind::PortionWeighed | Kind::PackSealed | Kind::Served);
    let day = |row: &Logged| visit.zoned(row.stored.entry.at).date();
    foldable
        && last.stored.entry.kind() == next.stored.entry.kind()
        && !last.is_struck()
        && !next.is_struck()
        && day(last) == day(next)
}

fn push(visit: &Visit, days: &mut Vec<Day>, run: &[&Logged]) {
    let (Some(first), Some(last)) = (run.first(), run.last()) else { return };
    let at = visit.zoned(first.stored.entry.at);
    let name = if at.year() == visit.now().year() {
        long_day(&at)
    } else {
        format!("{} {}", long_day(&at), at.year())
    };
    let line = Line {
        time: visit.moments.clock(&at),
        link: format!("/entry/{}", first.stored.number),
        words: words(visit, run, last),
        by: first.stored.writer.to_string(),
    };
    match days.last_mut().filter(|day| day.name == name) {
        Some(day) => day.lines.insert(0, line),
        None => days.push(Day { name, lines: vec![line] }),
    }
}

fn words(visit: &Visit, run: &[&Logged], last: &Logged) -> Markup {
    let first = run[0];
    if run.len() > 1 {
        return html! { (folded(visit, run)) ", the last at " (visit.moments.clock(&visit.zoned(last.stored.entry.at))) };
    }
    struck(visit, first)
}

/// A line with what became of it: a corrected one is struck, what counts stands beside it.
pub(crate) fn struck(visit: &Visit, row: &Logged) -> Markup {
    let entry = &row.stored.entry;
    match &row.correction {
        None => html! { (entry_words(visit, entry)) },
        Some(correction) => {
            let when = visit.moments.time(&visit.zoned(correction.at));
            html! {
                del { (entry_words(visit, entry)) }
                @if let Some(instead) = &correction.instead {
                    " " b { (entry_words(visit, instead)) }
                    br;
                    span class="by" { "corrected " (when) ": " (correction.because) }
                } @else {
                    " taken back " (when) ": " (correction.because)
                }
            }
        }
    }
}

fn folded(visit: &Visit, run: &[&Logged]) -> String {
    let count = run.len();
    match &run[0].stored.entry.body {
        Body::PortionWeighed(_) => {
            let mass = run.iter().filter_map(|row| match &row.stored.entry.body {
                Body::PortionWeighed(body) => Some(body.mass),
                _ => None,
            });
            let mass = visit.units.mass(mass.sum(), quantity::Grain::Reading);
            format!("{}, {mass}", counted(count, "portion", "portions"))
        }
        Body::PackSealed(_) => {
            format!("{} sealed", crate::words::sentence_case(&counted(count, "pack", "packs")))
        }
        _ => format!("{} served", crate::words::sentence_case(&counted(count, "portion", "portions"))),
    }
}

/// The log, drawn.
pub(crate) fn log(days: &[Day], note: &str) -> Markup {
    html! {
        section class="log" aria-labelledby="entries" {
            h2 id="entries" { "Entries, newest first" }
            @for day in days {
                h3 { (day.name) }
                ol class="rows" {
                    @for line in &day.lines {
                        li { a class="row" href=(line.link) { time { (line.time) } span { (line.words) } span class="by" { (line.by) } } }
                    }
                }
            }
            p class="quiet" { (note) }
        }
    }
}
