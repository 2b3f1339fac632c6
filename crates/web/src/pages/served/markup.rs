//! One portion, drawn.

use maud::{Markup, html};

use super::CAME;
use super::view::View;
use crate::pages::table::supper::OUTCOMES;
use crate::parts::{Choice, Field, Typed, acts, answer, entry_form, section, thread};

pub(super) fn main(view: &View, typed: &Typed) -> Markup {
    html! {
        h1 { (view.heading) }
        (answer(&view.answer))
        (thread::thread(&view.thread))
        @if view.asks && view.asks_now { (section("came", "What came of it", came(view, typed))) }
        (section("life", "So far", html! {
            ol class="rows steps past" {
                @for (hour, words) in &view.life { li { div class="row" { time { (hour) } span { (words) } } } }
            }
        }))
        @if view.asks && !view.asks_now {
            section aria-labelledby="came" {
                details class="unfold" open[typed.form() == CAME] { summary id="came" { "What came of it" } (came(view, typed)) }
            }
        }
        (acts(html! {
            @if let Some(link) = &view.ways { a class="press" href=(link) { "Which way to cook it?" } }
            a class="press" href=(view.piece.1) { "All of " (view.piece.0) }
            @if let Some((name, link)) = &view.pack { a class="press" href=(link) { (name) } }
            @if let Some((name, link)) = &view.supper { a class="press" href=(link) { (name) } }
        }))
    }
}

fn came(view: &View, typed: &Typed) -> Markup {
    let words: Vec<(&str, &str)> = std::iter::once(("", "not said"))
        .chain(view.words.iter().map(|word| (word.as_str(), word.as_str())))
        .collect();
    let fields = html! {
        (Choice { name: "outcome", label: "It was", options: &OUTCOMES, start: "eaten" }.pick(typed))
        div class="fields" {
            (Field::number("core_c", "Core when it was cut").unit(view.degree).unknown("no probe").draw(typed))
            (Choice { name: "doneness", label: "As served", options: &words, start: "" }.list(typed))
            (Field::when("when", "When").wide().draw(typed))
            (Field::note("note", "A sentence").unknown("nothing to say").draw(typed))
        }
    };
    entry_form(
        &view.to,
        typed,
        CAME,
        fields,
        html! { button class="press first" data-key="next" { "Write it down" } },
    )
}
