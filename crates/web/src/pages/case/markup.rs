//! The case, drawn.

use maud::{Markup, html};

use super::forms;
use super::rolls::Roll;
use super::view::{Line, View};
use crate::house::Visit;
use crate::parts::{Typed, answer, hidden_id, narrow, said, section};
use crate::plot::bands;

pub(super) fn main(view: &View, rolls: &[Roll], typed: &Typed, visit: &Visit) -> Markup {
    let fresh = forms::fresh(visit, rolls);
    let form = forms::draw(visit, rolls, typed.of(forms::ADD, &fresh));
    html! {
        h1 { "At the case: whole or counter?" }
        (answer(&view.answer))
        @if let Some(words) = &view.said { (said(words)) }
        @if view.lines.is_empty() {
            (section("add", "The piece", html! {
                (form)
                p class="quiet" { "What you do not know may stay unknown; it widens the answer and never blocks it." }
            }))
        } @else {
            div class="two" {
                div { (left(view, rolls)) }
                div class="margin" {
                    (section("add", "Another one", form))
                    (counted(view))
                }
            }
        }
    }
}

fn left(view: &View, rolls: &[Roll]) -> Markup {
    html! {
        (section("offer", &view.heading, html! {
            figure {
                (bands::bands(&view.rows, view.other.as_ref(), &view.picture_said, trimmed))
                @if let Some(words) = &view.caption { figcaption { (words) } }
            }
            (table(&view.lines))
            div class="acts" {
                @for line in &view.lines { (bought(line, view.lines.len() == 1)) }
                a class="press" href="/" { "Not today" }
            }
        }))
        @if let Some((words, at, look)) = &view.narrow {
            (section("narrow", "What would narrow it", html! { (narrow(words)) (forms::look(rolls, *at, *look)) }))
        }
    }
}

fn table(lines: &[Line]) -> Markup {
    let plates = lines.iter().any(|line| line.plates.is_some());
    html! {
        table {
            caption class="unseen" { "Candidates: label, price, plates, price of a trimmed kilo" }
            thead { tr {
                th scope="col" { "Piece" }
                th scope="col" class="r" { "On the bag" }
                @if plates { th scope="col" class="r" { "Plates" } }
                th scope="col" class="r" { "Trimmed" }
            } }
            tbody {
                @for line in lines {
                    tr class=[line.is_best.then_some("chosen")] {
                        th scope="row" {
                            (line.name)
                            @if !line.note.is_empty() { small { (line.note) } }
                            @if lines.len() > 1 { small { a href=(line.without) { "take away" span class="unseen" { " " (line.name) } } } }
                        }
                        td class="r n" { (line.price) small { (line.mass) } }
                        @if plates { td class="r n" { @if let Some((middle, ends)) = &line.plates { (middle) small { (ends) } } } }
                        td class="r n" { (line.per_kg.0) small { (line.per_kg.1) } }
                    }
                }
            }
        }
    }
}

/// The entry: it makes the record.
fn bought(line: &Line, alone: bool) -> Markup {
    html! {
        form method="post" action="/case" data-entry {
            (hidden_id(&Typed::default(), "bought"))
            input type="hidden" name="bought" value=(line.text);
            button class={ "press" @if line.is_best || alone { " first" } } {
                @if alone { "Bought it" } @else { "Bought " (line.name) }
            }
        }
    }
}

fn counted(view: &View) -> Markup {
    section(
        "counted",
        "Counted in",
        html! {
            @for words in &view.counted { p class="quiet" { (words) } }
            @if view.wants_values { p class="quiet" { a href="/books/settings#money" { "Say what trim and fat are worth" } "." } }
            @if !view.sources.is_empty() {
                details class="unfold" id="sources" {
                    summary { "Where the yield comes from" }
                    div { @for words in &view.sources { p class="quiet" { (words) } } }
                }
            }
        },
    )
}

/// A figure of the rule without needless digits.
fn trimmed(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
