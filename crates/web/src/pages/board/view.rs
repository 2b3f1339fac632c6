//! The board in words.

use maud::{Markup, html};
use quantity::{Grain, Length, Mass, Units};
use record::Aim;
use season::{Board, Cut, Made, NextCut, Off, Plan, last_weighed};

use super::query::{Asked, Found};
use super::{drawing, heaps, weigh};
use crate::house::Visit;
use crate::pages::shared::{portions_of, side};
use crate::plot::piece::Side;
use crate::words::{Shown, and_list, number_word, sentence_case};

/// The board as it is shown.
pub(super) struct View {
    pub(super) title: String,
    pub(super) slug: String,
    pub(super) word: String,
    /// Where its forms go, with what is cut and not weighed.
    pub(super) to: String,
    pub(super) heading: String,
    pub(super) state: Stage,
    /// Portions after the next one as they are planned now: what the page shows while the house is out of reach.
    pub(super) later: Vec<(String, Next, Scale)>,
    pub(super) side: Option<(Side, String)>,
    /// What the last weighing said.
    pub(super) last: Option<String>,
    /// What it leaves for the rest.
    pub(super) rest: Option<String>,
    pub(super) rows: Vec<Line>,
    pub(super) caption: String,
    pub(super) gives_up: Option<String>,
    pub(super) warm: Warm,
    pub(super) undo: Option<Undo>,
    pub(super) notes: Vec<String>,
    pub(super) figure: Box<dyn Fn(f64) -> String>,
}

/// What the page is for at this moment.
pub(super) enum Stage {
    /// A mark is next.
    Next(Next, Scale),
    /// Nothing is left to cut, or nothing is planned: a weight can still be written down.
    Weigh(Markup, Scale),
    /// The end: heaps are weighed.
    End(Markup, Heaps),
}

/// The next mark.
pub(super) struct Next {
    /// `204`, and its unit.
    pub(super) mark: (String, String),
    pub(super) on: Markup,
    pub(super) said: String,
}

/// What the form for a weight starts from.
pub(super) struct Scale {
    pub(super) n: u32,
    pub(super) waiting: Vec<u32>,
    pub(super) next: Option<u32>,
    pub(super) marks: Option<(f64, f64)>,
    pub(super) twin_of: Option<u32>,
    pub(super) is_twin: bool,
    pub(super) unit: &'static str,
    pub(super) length: &'static str,
}

/// What the form for a heap starts from.
pub(super) struct Heaps {
    pub(super) options: Vec<(&'static str, String)>,
    pub(super) start: &'static str,
    pub(super) unit: &'static str,
}

/// A line of what is cut.
pub(super) struct Line {
    pub(super) n: u32,
    pub(super) link: String,
    pub(super) mass: String,
    pub(super) off: String,
    pub(super) thick: String,
}

/// The time on the board.
pub(super) enum Warm {
    /// Nothing says that it is out.
    Cold,
    /// It is out.
    Out { heading: String, said: String, law: Option<(String, String)>, over: bool, place: String },
    /// All is packed, or long past.
    Over,
}

/// What the second foot button takes back.
pub(super) enum Undo {
    /// A weighing.
    Entry { id: String, words: String },
    /// A cut without a weight: only the address says so.
    Link { to: String, words: String },
}

pub(super) fn view(found: &Found<'_>, visit: &Visit) -> View {
    let (piece, board, units) = (found.piece, &found.board, &visit.units);
    let word = piece.word.to_string();
    let slug = piece.word.slug();
    let figure = side::figure(units);
    let state = stage(found, visit);
    let later = later(found, visit);
    let is_end = matches!(state, Stage::End(..));
    View {
        later,
        title: format!("{word} at the board"),
        to: format!("/piece/{slug}/board{}", found.asked.tail()),
        heading: heading(&word, board, &state),
        side: board.plan.as_ref().ok().map(|plan| drawing::drawing(plan, board, units, is_end)),
        last: last(board, units),
        rest: board.plan.as_ref().ok().filter(|_| !is_end).and_then(|plan| rest(plan, board, units)),
        rows: board.cut.iter().rev().map(|cut| line(cut, &slug, units)).collect(),
        caption: caption(board, units),
        gives_up: board.plan.as_ref().ok().and_then(|plan| gives_up(plan, board, units)),
        warm: super::warm::warm(found, visit),
        undo: undo(found, visit, &slug),
        notes: notes(found),
        figure: Box::new(figure),
        state,
        word,
        slug,
    }
}

fn stage(found: &Found<'_>, visit: &Visit) -> Stage {
    let board = &found.board;
    let nothing_waits = board.unweighed.is_empty();
    match &board.next {
        _ if found.asked.is_end() && nothing_waits => {
            Stage::End(end_answer(found, visit), heaps::start(found, visit))
        }
        Some(next) => Stage::Next(next_words(next, board, &visit.units), weigh::scale(found, visit)),
        None if !nothing_waits || board.cut.is_empty() || board.plan.is_err() || found.asked.is_more() => {
            Stage::Weigh(weigh_answer(found), weigh::scale(found, visit))
        }
        None => Stage::End(end_answer(found, visit), heaps::start(found, visit)),
    }
}

fn heading(word: &str, board: &Board<'_>, stage: &Stage) -> String {
    match stage {
        Stage::Next(_, _) => {
            let n = board.next.as_ref().map_or(0, |next| next.made.n);
            format!("{word}, portion {n} of {}: the next mark", board.of)
        }
        Stage::Weigh(..) => format!("{word} at the board"),
        Stage::End(..) => format!("{word}: the heaps"),
    }
}

fn next_words(next: &NextCut, board: &Board<'_>, units: &Units) -> Next {
    let shown = units.length(next.mark);
    let (number, unit) = shown.rsplit_once('\u{202f}').unwrap_or((&shown, ""));
    let end = board.plan.as_ref().map_or("end", |plan| plan.ends.0.as_str());
    let band = Shown::mass(units, next.mass);
    let before = match next.passed_over {
        Some(from) => format!("What lies before {} is left over, for mince. ", units.length(from)),
        None => String::new(),
    };
    let twin = next.twin.map_or_else(String::new, |twin| format!(" Twin of {twin}."));
    let is_first = next.from_fresh_face == next.mark;
    let from =
        if is_first { format!(" from the squared {end}") } else { " on from the fresh face".to_owned() };
    let counts = if is_first { String::new() } else { format!(" The mark counts from the squared {end}.") };
    Next {
        mark: (number.to_owned(), unit.to_owned()),
        on: html! { strong { (units.length(next.from_fresh_face)) } (from) ", about " strong { (band.middle) } "." },
        said: format!("{before}{}, four times in five.{counts}{twin}", sentence_case(&band.between())),
    }
}

fn later(found: &Found<'_>, visit: &Visit) -> Vec<(String, Next, Scale)> {
    let (board, Ok(plan)) = (&found.board, &found.board.plan) else { return Vec::new() };
    let Some(next) = board.next.as_ref().filter(|_| board.unweighed.is_empty()) else { return Vec::new() };
    let after = (next.made.n + 1..).zip(board.ahead.iter().skip(1));
    after
        .map(|(n, portion)| {
            let cut = NextCut {
                made: Made { n, from: portion.from, to: portion.to },
                mark: portion.to - plan.zero,
                from_fresh_face: portion.to - portion.from,
                mass: portion.mass,
                want: portion.want,
                twin: None,
                passed_over: None,
            };
            let scale = Scale {
                n,
                next: Some(n),
                marks: Some((portion.from.mm(), portion.to.mm())),
                twin_of: Some(n - 1),
                is_twin: false,
                waiting: Vec::new(),
                ..weigh::scale(found, visit)
            };
            let heading = format!("{}, portion {n} of {}: the next mark", found.piece.word, board.of);
            (heading, next_words(&cut, board, &visit.units), scale)
        })
        .collect()
}

fn weigh_answer(found: &Found<'_>) -> Markup {
    match &found.board.plan {
        Ok(_) if found.board.unweighed.is_empty() => html! { "One portion more than the plan has." },
        Ok(_) => html! { "All is cut. Weigh what waits: " strong { (waiting(&found.board)) } "." },
        Err(error) => html! { "No plan: " (error.to_string()) ". Portions can be weighed all the same." },
    }
}

fn waiting(board: &Board<'_>) -> String {
    let names: Vec<String> = board.unweighed.iter().map(|made| made.n.to_string()).collect();
    and_list(&names)
}

fn end_answer(found: &Found<'_>, visit: &Visit) -> Markup {
    let board = &found.board;
    let sum: Mass = board.cut.iter().map(|cut| cut.portion.weighed.mass).sum();
    let left = board.left.g();
    html! {
        strong { (sentence_case(&portions_of(board.cut.len()))) } ", " (visit.units.mass(sum, Grain::Reading)) ". "
        @if left > END_G {
            strong { (visit.units.mass(board.left, Grain::Forecast)) } " lie on the board still: " (if board.ahead.is_empty() { "ends, trim, fat." } else { "uncut meat, ends, trim." })
        } @else {
            "Every gram is written down."
        }
    }
}

/// Less than this on the board is drip and the scale's error.
const END_G: f64 = 15.0;

/// `386 g, taken as portion 6: 6 g over.`
fn last(board: &Board<'_>, units: &Units) -> Option<String> {
    let cut = board.cut.last()?;
    let mass = units.mass(cut.portion.weighed.mass, Grain::Reading);
    let off = match cut.off {
        Some(Off::Mass(off)) if off.g().abs() >= 0.5 => {
            let word = if off.g() > 0.0 { "over" } else { "under" };
            format!(": {} {word}", units.mass(Mass::from_g(off.g().abs()), Grain::Reading))
        }
        Some(Off::Mass(_)) => ": as wished".to_owned(),
        _ => String::new(),
    };
    Some(format!("{mass}, taken as portion {}{off}.", cut.portion.n))
}

/// `Eight to come: about 379 g each, last mark at 420 mm.`
fn rest(plan: &Plan, board: &Board<'_>, units: &Units) -> Option<String> {
    let (first, last) = (board.ahead.first()?, board.ahead.last()?);
    let masses = board.ahead.iter().map(|portion| portion.mass.median);
    let (low, high) = masses.fold((f64::MAX, f64::MIN), |(low, high), mass| (low.min(mass), high.max(mass)));
    let shown = |kg: f64| units.mass(Mass::from_kg(kg), Grain::Forecast);
    let each = if (high - low) * 1000.0 < 15.0 {
        format!("about {} each", shown(first.mass.median))
    } else {
        format!("between {} and {}", shown(low), shown(high))
    };
    Some(format!(
        "{} to come: {each}, last mark at {}.",
        sentence_case(&number_word(board.ahead.len())),
        units.length(last.to - plan.zero)
    ))
}

fn line(cut: &Cut<'_>, slug: &str, units: &Units) -> Line {
    let signed = |words: String, over: bool| format!("{}{words}", if over { "+" } else { "" });
    let bare =
        |words: String| words.rsplit_once('\u{202f}').map_or(words.clone(), |(number, _)| number.to_owned());
    Line {
        n: cut.portion.n,
        link: format!("/piece/{slug}/{}", cut.portion.n),
        mass: units.mass(cut.portion.weighed.mass, Grain::Reading),
        off: match cut.off {
            Some(Off::Mass(off)) => signed(bare(units.mass(off, Grain::Reading)), off.g() > 0.0),
            Some(Off::Thickness(off)) => signed(units.length(off), off.mm() > 0.0),
            None => String::new(),
        },
        thick: cut.thickness.map_or_else(String::new, |thickness| units.length(thickness.length())),
    }
}

fn caption(board: &Board<'_>, units: &Units) -> String {
    let sum: Mass = board.cut.iter().map(|cut| cut.portion.weighed.mass).sum();
    let wanted = board.plan.as_ref().ok().and_then(|plan| match plan.asked.want.as_slice() {
        [want] => match want.aim {
            Aim::Portion(mass) => Some(format!("; wanted {} each", units.mass(mass, Grain::Reading))),
            Aim::Thickness(length) => Some(format!("; wanted {} thick", units.length(length))),
            Aim::Roast(_) => None,
        },
        _ => None,
    });
    format!(
        "{} in {}{}",
        units.mass(sum, Grain::Reading),
        number_word(board.cut.len()),
        wanted.unwrap_or_default()
    )
}

fn gives_up(plan: &Plan, board: &Board<'_>, units: &Units) -> Option<String> {
    let conflict = plan.plan.conflicts.iter().find(|conflict| Some(conflict.want) == plan.main)?;
    board.next.as_ref()?;
    let run = |low: Length, high: Length| format!("{} to {}", units.length(low), units.length(high));
    let weigh = |low: Mass, high: Mass| {
        format!("{} to {}", units.mass(low, Grain::Forecast), units.mass(high, Grain::Forecast))
    };
    let (thin, thick) = conflict.thickness_runs;
    let (light, heavy) = conflict.weight_runs;
    Some(format!(
        "Equal weights: thickness runs from {}. Equal {}: weights run from {}.",
        run(thin, thick),
        units.length(conflict.thickness),
        weigh(light, heavy)
    ))
}

fn undo(found: &Found<'_>, visit: &Visit, slug: &str) -> Option<Undo> {
    let mut made = found.asked.made();
    if let Some(last) = found.board.unweighed.last() {
        made.pop();
        let to = format!("/piece/{slug}/board{}", Asked::new(made, false).tail());
        return Some(Undo::Link { to, words: format!("Undo\u{a0}{}", last.n) });
    }
    let id = last_weighed(&visit.state, found.piece)?;
    let words = match (visit.state.portion(id), visit.state.part(id)) {
        (Some(portion), _) => format!("Undo\u{a0}{}", portion.n),
        (None, Some(_)) => "Undo\u{a0}heap".to_owned(),
        (None, None) => return None,
    };
    Some(Undo::Entry { id: id.to_string(), words })
}

/// What is odd and does not stop the work.
fn notes(found: &Found<'_>) -> Vec<String> {
    let Ok(plan) = &found.board.plan else { return Vec::new() };
    let mut notes: Vec<String> = plan
        .unlikely
        .iter()
        .map(|n| {
            format!(
                "Portion {n} does not fit its marks: the plan goes on without its weight. Weigh it again?"
            )
        })
        .collect();
    if found.piece.plan.is_none() {
        notes.push("No plan is settled: this one is only proposed.".to_owned());
    }
    notes
}
