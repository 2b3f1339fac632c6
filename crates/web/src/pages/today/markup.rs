//! Today, drawn.

use maud::{Markup, html};

use super::view::View;
use crate::pages::shared::{bar_with_list, first_thread};
use crate::parts::{acts, answer, overdue, said, section, steps, thread};
use crate::plot::day;
use crate::words::Moments;

pub(super) fn main(view: &View) -> Markup {
    let hour = |hour: u8| Moments::full_hour(hour, view.twelve);
    html! {
        h1 data-by-the-minute { (view.day) }
        (answer(&view.answer))
        @if let Some(words) = &view.said { (said(words)) }
        @if let Some((words, link)) = view.start {
            (acts(html! { a class="press first" href=(link) { (words) } }))
        }
        @if view.is_first_run {
            p class="quiet" { "A weight and a price are enough. What you do not know may stay unknown." }
        }
        figure { (day::hours(&view.hours, &view.hours_said, hour)) }
        @if view.is_first_run {
            (section("life", "What it follows, for every piece", first_thread()))
        } @else {
            div class="two" {
                div { (left(view)) }
                div class="margin" { (right(view)) }
            }
        }
    }
}

fn left(view: &View) -> Markup {
    html! {
        @if !view.steps.is_empty() { (section("next", "Next, in order", steps(&view.steps))) }
        @if let Some(piece) = &view.piece {
            section aria-labelledby="piece" {
                h2 id="piece" { a href=(piece.link) { (piece.heading) } }
                (thread::thread(&piece.thread))
                (bar_with_list(&piece.ledger))
                @for sentence in &piece.ledger.sentences { (said(sentence)) }
            }
        }
    }
}

fn right(view: &View) -> Markup {
    html! {
        @if !view.looks.is_empty() {
            (section("wait", "Worth a look", html! {
                ul class="rows" {
                    @for (late, link, words) in &view.looks {
                        li { a class="row" href=(link) { @if *late { (overdue(words)) } @else { span { (words) } } } }
                    }
                }
            }))
        }
        (section("write", "Write something down", acts(html! {
            a class="press" href="/write/weight" { "Weight" }
            a class="press" href="/write/temperature" { "Temperature" }
            a class="press" href="/store" { "Move" }
            a class="press" href="/case" { "A new piece" }
        })))
        @if let Some(season) = &view.season { (section("season", "The season", said(season))) }
    }
}
