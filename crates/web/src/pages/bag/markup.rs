//! One pack, drawn.

use maud::{Markup, html};

use super::acts;
use super::view::{Line, View};
use crate::parts::{Typed, answer, law, overdue, said, section};

pub(super) fn main(view: &View, typed: &Typed) -> Markup {
    html! {
        h1 { (view.name) }
        (answer(&view.answer))
        @if let Some(loose) = &view.loose { p { (overdue(loose)) } }
        @for sentence in &view.said { (said(sentence)) }
        @if let Some((rule, authority)) = &view.thawing { (law(rule, authority)) }
        (acts::draw(view, typed))
        @if let Some(chart) = &view.chart {
            (section("keeps", "How long it keeps", html! {
                (law(&chart.rule, &chart.authority))
                (said(&chart.here))
            }))
        }
        @if !view.rows.is_empty() { (section("in", "In the bag", contents(view))) }
        (section("label", "Its label", label(view)))
    }
}

fn contents(view: &View) -> Markup {
    html! {
        table {
            caption class="unseen" { "Portions in the bag" }
            thead { tr { th scope="col" { "Portion" } th scope="col" class="r" { "Weight" } th scope="col" class="r" { "Thick" } } }
            tbody { @for line in &view.rows { (row(line)) } }
        }
    }
}

fn row(line: &Line) -> Markup {
    html! {
        tr {
            th scope="row" { a href=(line.link) { (line.name) } }
            td class="r n" { (line.mass) }
            td class="r n" { (line.thick) }
        }
    }
}

fn label(view: &View) -> Markup {
    html! {
        p { "By hand: " (view.by_hand) "." }
        div class="acts" {
            a class="press" href={ "/pack/" (view.slug) "/label.pdf" } { "Print it again" }
            @if let Some(anew) = &view.anew { a class="press" href=(anew) { "Seal it anew" } }
            a class="press" href=(view.piece.1) { "All of " (view.piece.0) }
        }
    }
}
