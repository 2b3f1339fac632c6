//! Ways side by side, drawn.

use maud::{Markup, html};

use super::form::ASK;
use super::view::View;
use crate::parts::{Typed, acts, answer, law, narrow, said, section};

pub(super) fn main(view: &View, typed: &Typed) -> Markup {
    html! {
        h1 { (view.heading) }
        (answer(&view.answer))
        @if let Some(words) = &view.said { (said(words)) }
        @if !view.slices.is_empty() { (section("cut", "The same piece cut across", slices(view))) }
        div class="two" {
            div { (left(view, typed)) }
            div class="margin" { (right(view)) }
        }
    }
}

fn slices(view: &View) -> Markup {
    html! {
        div class="beside" {
            @for cut in &view.slices {
                div {
                    (cut.picture)
                    p { @if cut.is_planned { b { (cut.name) } } @else { (cut.name) } }
                    p class="quiet" { (cut.under) }
                }
            }
        }
        p class="quiet below" { (view.slices_note) }
    }
}

fn left(view: &View, typed: &Typed) -> Markup {
    html! {
        @if let Some(chart) = &view.chart {
            (section("curves", "On one clock", html! {
                figure { (chart) figcaption { (view.chart_note) } }
            }))
        }
        @if !view.lines.is_empty() {
            section { (times(view)) }
            section { (costs(view)) }
        }
        @for (road, why) in &view.refused { p class="said" { b { (road) } ": " (why) "." } }
        (acts(html! { a class="press" href=(view.back.1) { (view.back.0) } }))
        @if let Some(form) = &view.form {
            section aria-labelledby="ask" {
                details class="unfold" open[typed.form() == ASK && !typed.is_good()] {
                    summary id="ask" { "Ask otherwise" }
                    (form.draw(&view.to, typed))
                }
            }
        }
    }
}

fn times(view: &View) -> Markup {
    html! {
        table {
            caption { "Start, finish and a slip" small { "Five minutes late at the pull: how much hotter the middle gets" } }
            thead { tr {
                th scope="col" { "Way" } th scope="col" class="r" { (if view.has_hour { "In at" } else { "In, before you eat" }) } th scope="col" class="r" { (if view.has_hour { "Ready" } else { "Takes" }) } th scope="col" class="r" { "5 min late" }
            } }
            tbody { @for line in &view.lines {
                tr class=[line.is_planned.then_some("chosen")] {
                    th scope="row" { (line.name) small { (line.pull) } }
                    td class="r n" { (line.start) }
                    td class="r n" { (line.ready) small { (line.ready_band) } }
                    td class="r n" { (line.slip) }
                }
            } }
        }
    }
}

fn costs(view: &View) -> Markup {
    html! {
        table {
            caption { "On the plate" small { "Grey of the thickness, loss of the raw weight, the middle at its hottest" } }
            thead { tr {
                th scope="col" { "Way" } th scope="col" class="r" { "Grey" } th scope="col" class="r" { "Loses" } th scope="col" class="r" { "Peak" }
            } }
            tbody { @for line in &view.lines {
                tr class=[line.is_planned.then_some("chosen")] {
                    th scope="row" { (line.name) small { (line.on_hot) } }
                    td class="r n" { (line.grey) @if !line.grey_band.is_empty() { small { (line.grey_band) } } }
                    td class="r n" { (line.lost) @if !line.lost_band.is_empty() { small { (line.lost_band) } } }
                    td class="r n" { (line.peak) small { (line.peak_band) } }
                }
            } }
        }
    }
}

fn right(view: &View) -> Markup {
    html! {
        @if let Some(words) = &view.narrow { (section("narrow", "What would narrow it", narrow(words))) }
        @if let Some(words) = &view.chill { (section("chill", "Take the chill off first?", said(words))) }
        @if let Some((rule, here)) = &view.law {
            (section("pink", "Before you serve it pink", html! { (law(&rule.rule, &rule.authority)) (said(here)) }))
        }
    }
}
