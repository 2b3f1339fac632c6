//! The thread of a piece or portion in words, each step a link to its page for this piece.

use maud::Markup;
use record::{Piece, Portion};
use season::{Knot, Life, life_of_piece, life_of_portion};

use crate::house::Visit;
use crate::parts::{Mark, Thread, thread};

/// The thread of a piece.
pub(crate) fn thread_of(visit: &Visit, piece: &Piece) -> Thread {
    of(visit, &piece.word.to_string(), &piece.word.slug(), &life_of_piece(&visit.state, piece))
}

/// The thread of a portion: after the knife it is its own.
pub(crate) fn portion_thread_of(visit: &Visit, piece: &Piece, portion: &Portion) -> Thread {
    of(visit, &portion.name(), &piece.word.slug(), &life_of_portion(&visit.state, piece, portion))
}

/// The thread of no piece yet: all ahead, the first step now.
pub(crate) fn first_thread() -> Markup {
    let knots = Knot::ALL.map(|knot| crate::parts::thread::Knot {
        name: name(knot),
        when: String::new(),
        mark: if knot == Knot::Buy { Mark::Now } else { Mark::Ahead },
        link: "/case".to_owned(),
    });
    thread::thread(&Thread { of: "the first piece".to_owned(), knots: knots.into() })
}

fn of(visit: &Visit, name_of: &str, slug: &str, life: &Life) -> Thread {
    let knots = Knot::ALL.into_iter().enumerate().map(|(place, knot)| {
        let done = life.done[place];
        let planned = life.plate.filter(|_| knot == Knot::Plate && done.is_none());
        crate::parts::thread::Knot {
            name: name(knot),
            when: done.or(planned).map(|at| when(visit, at)).unwrap_or_default(),
            mark: mark(knot, life, done.is_some()),
            link: link(knot, slug, life),
        }
    });
    Thread { of: name_of.to_owned(), knots: knots.collect() }
}

fn mark(knot: Knot, life: &Life, is_done: bool) -> Mark {
    if life.now == Some(knot) {
        Mark::Now
    } else if is_done && life.now.is_none_or(|now| knot < now) {
        Mark::Done
    } else {
        Mark::Ahead
    }
}

/// An hour today, a weekday and hour within the week, else the day: short enough for a seventh of a phone.
fn when(visit: &Visit, at: record::At) -> String {
    let at = visit.zoned(at);
    let days = at.date().since(visit.now().date()).map_or(99, |span| span.get_days());
    if days == 0 { visit.moments.clock(&at) } else { visit.moments.day(&at) }
}

fn name(knot: Knot) -> &'static str {
    match knot {
        Knot::Buy => "Buy",
        Knot::Cut => "Cut",
        Knot::Store => "Store",
        Knot::Thaw => "Thaw",
        Knot::Salt => "Salt",
        Knot::Cook => "Cook",
        Knot::Plate => "Plate",
    }
}

fn link(knot: Knot, slug: &str, life: &Life) -> String {
    let is_cut = life.done[1].is_some();
    match (knot, &life.supper) {
        (Knot::Buy, _) => format!("/piece/{slug}"),
        (Knot::Cut, _) if is_cut => format!("/piece/{slug}/board"),
        (Knot::Cut, _) => format!("/piece/{slug}/plan"),
        (Knot::Store, _) if life.done[2].is_some() => "/store".to_owned(),
        (Knot::Store, _) => format!("/piece/{slug}/pack"),
        (Knot::Thaw | Knot::Salt, Some(supper)) => format!("/table/{supper}/thaw"),
        (Knot::Cook | Knot::Plate, Some(supper)) => format!("/table/{supper}"),
        (_, None) => "/table".to_owned(),
    }
}
