//! Suppers in words.

use maud::{Markup, html};
use record::Supper;

use crate::house::Visit;
use crate::parts::Row;
use crate::words::{counted, number_word, sentence_case};

/// The suppers as they are shown.
pub(super) struct View {
    pub(super) answer: Markup,
    pub(super) to_come: Vec<Row>,
    pub(super) before: Vec<Row>,
    /// Whether there is anything to plan a supper with.
    pub(super) has_portions: bool,
}

pub(super) fn view(visit: &Visit) -> View {
    let state = &visit.state;
    let next = season::next_supper(state, visit.now());
    let mut suppers: Vec<&Supper> = state.suppers().collect();
    suppers.sort_by_key(|supper| supper.planned.serve.at);
    let is_to_come = |supper: &Supper| {
        visit.zoned(supper.planned.serve.at) > *visit.now() || next.is_some_and(|next| next.id == supper.id)
    };
    let (to_come, before): (Vec<&Supper>, Vec<&Supper>) =
        suppers.into_iter().partition(|supper| is_to_come(supper));
    View {
        answer: answer(visit, next, to_come.len()),
        to_come: to_come.into_iter().map(|supper| row(visit, supper)).collect(),
        before: before.into_iter().rev().map(|supper| row(visit, supper)).collect(),
        has_portions: state.portions().any(|portion| portion.gone().is_none()),
    }
}

fn answer(visit: &Visit, next: Option<&Supper>, to_come: usize) -> Markup {
    let Some(next) = next else {
        return html! { "No supper is planned. Give an hour and who eats, and it says what goes out, in and off, and when." };
    };
    let at = visit.zoned(next.planned.serve.at);
    let more = match to_come {
        0 | 1 => String::new(),
        more => format!(" {} more to come.", sentence_case(&number_word(more - 1))),
    };
    html! {
        (sentence_case(&eaters(next))) " " (visit.moments.day_word(&at)) " at " strong { (visit.moments.clock(&at)) } "." (more)
    }
}

fn eaters(supper: &Supper) -> String {
    match supper.planned.seat.len() {
        0 => "supper".to_owned(),
        1 => "one eats".to_owned(),
        seats => format!("{} eat", number_word(seats)),
    }
}

fn row(visit: &Visit, supper: &Supper) -> Row {
    let at = visit.zoned(supper.planned.serve.at);
    let seats = counted(supper.planned.seat.len(), "seat", "seats");
    let portions = counted(supper.planned.portions.len(), "portion", "portions");
    let more = match supper.served.len() {
        0 => format!("{seats}, {portions} set aside"),
        served => format!("{seats}, {} written down", counted(served, "plate", "plates")),
    };
    Row {
        link: Some(format!("/table/{}", supper.slug)),
        words: format!("{}, {}", at.strftime("%A %-d %B"), visit.moments.clock(&at)),
        more: Some(sentence_case(&more)),
    }
}
