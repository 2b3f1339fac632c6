//! Every piece, drawn.

use maud::{Markup, html};

use super::view::{Line, View};
use crate::pages::shared::first_thread;
use crate::parts::{acts, answer, section};

pub(super) fn main(view: &View) -> Markup {
    html! {
        h1 { "Pieces" }
        (answer(&view.answer))
        (acts(html! { a class="press first" href="/case" { "At the case" } }))
        @if view.in_hand.is_empty() && view.past.is_empty() {
            (section("life", "What it follows, for every piece", first_thread()))
        }
        @if !view.in_hand.is_empty() { (section("hand", "In hand", list(&view.in_hand))) }
        @if !view.past.is_empty() { (section("past", "Eaten", list(&view.past))) }
    }
}

fn list(lines: &[Line]) -> Markup {
    html! {
        ul class="rows" {
            @for line in lines {
                li {
                    a class="row piece" href=(line.link) {
                        b class="code" { (line.word) }
                        span { (line.what) small { (line.where_to) } }
                        span class="r n" { (line.mass) small { (line.day) } }
                    }
                }
            }
        }
    }
}
