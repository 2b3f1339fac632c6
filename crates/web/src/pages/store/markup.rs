//! The store, drawn.

use maud::{Markup, html};

use super::view::{Line, PlaceView, View};
use super::{READ, count};
use crate::pages::bag::OUT;
use crate::parts::{Field, Typed, answer, hidden_id, law, overdue, said, section};

pub(super) fn main(view: &View, typed: &Typed) -> Markup {
    html! {
        h1 { "Cold store: what to use next" }
        (answer(&view.answer))
        @for sentence in &view.said { (said(sentence)) }
        (acts(view, typed))
        @for place in &view.places { (place_section(view, place, typed)) }
        @if !view.rules.is_empty() { (keeping(view)) }
        div class="two" {
            div { @if !view.places.is_empty() { (find(view)) } }
            div class="margin" { (elsewhere(view)) }
        }
    }
}

fn acts(view: &View, typed: &Typed) -> Markup {
    let fresh = Typed::default();
    let typed = typed.of(OUT, &fresh);
    html! {
        @match &view.next {
            Some(next) => {
                @for words in typed.whole() { p class="wrong" role="alert" { (words) } }
                div class="acts" {
                    form method="post" action=(view.to) data-entry {
                        (hidden_id(typed, OUT))
                        input type="hidden" name="pack" value=(next.id);
                        input type="hidden" name="place" value=(next.to);
                        input type="hidden" name="method" value="fridge";
                        button class="press first" data-key="next" {
                            span { "Take " (next.name) " out" small { "to the " (next.to) } }
                        }
                    }
                    @if let Some(place) = view.places.iter().find(|place| place.place.is_some()) {
                        a class="press" href={ "#" (place.id) "-count" } { "Count" }
                    }
                    a class="press" href="#find" { "Find by weight" }
                }
            }
            None => {
                div class="acts" { a class="press first" href="/pieces" { "To the pieces" } }
            }
        }
    }
}

fn place_section(view: &View, place: &PlaceView, typed: &Typed) -> Markup {
    html! {
        section aria-labelledby=(place.id) {
            h2 id=(place.id) { (place.heading) }
            @if let Some(reading) = &place.reading { p { (reading) } }
            div class="row pack axis" aria-hidden="true" { span {} (view.calendar.head()) span class="until" { "chart ends" } }
            ol class="rows packs" { @for line in &place.lines { li { (row(view, line)) } } }
            @if let Some(count) = &place.count { p class="quiet" { (count) } }
            @if let Some(name) = &place.place {
                details class="unfold" id={ (place.id) "-count" } open[typed.form() == count::COUNT && typed.get("place") == Some(name)] {
                    summary { "Count it" }
                    (count::draw(view, place, name, typed))
                }
                details class="unfold" id={ (place.id) "-read" } open[typed.form() == READ && typed.get("place") == Some(name)] {
                    summary { "Its temperature" }
                    (read(view, name, typed))
                }
            }
        }
    }
}

fn row(view: &View, line: &Line) -> Markup {
    html! {
        a class="row pack" href=(line.link) {
            b class="code" { (line.name) }
            span class="g n" { (line.mass) }
            span class="what" {
                (line.what)
                @for mark in &line.marks { ", " b { (mark) } }
            }
            span class="where" { (line.spot) }
            (view.calendar.line(line.drawn, &line.sentence))
            span class="until n" { (line.until) }
        }
    }
}

fn read(view: &View, place: &str, typed: &Typed) -> Markup {
    let fresh = Typed::default();
    let mine = typed.form() == READ && typed.get("place") == Some(place);
    let typed = if mine { typed } else { &fresh };
    html! {
        form method="post" action=(view.to) data-entry autocomplete="off" {
            (hidden_id(typed, READ))
            input type="hidden" name="place" value=(place);
            div class="fields" { (Field::number("at_c", "The thermometer shows").unit(view.degree).draw(typed)) }
            div class="acts" { button class="press" { "Read" } }
        }
    }
}

fn keeping(view: &View) -> Markup {
    section(
        "keeps",
        "What the chart is",
        html! {
            @for (rule, authority) in &view.rules { (law(rule, authority)) }
            p { "The bar on each line is that span for the pack, counted from the day it was frozen or cut. How good a pack still is, is not reckoned here." }
        },
    )
}

fn find(view: &View) -> Markup {
    section(
        "find",
        "Label gone? Weigh it",
        html! {
            form method="get" action="/store#find" class="fields find" {
                div class="field" {
                    label for="weight" { "Weight with the bag" }
                    div class="take" {
                        input id="weight" name="weight" inputmode="decimal" autocomplete="off" data-typed value=(view.sought.0);
                        span { (view.unit) }
                    }
                }
                div class="field" { button class="press" { "Which is it?" } }
            }
            @if let Some(answer) = &view.sought.1 { p class="said" role="status" { (answer) } }
        },
    )
}

fn elsewhere(view: &View) -> Markup {
    html! {
        @if !view.missing.is_empty() {
            (section("missing", "Missed by the last count", html! {
                p { (overdue("Not where the list has it. Found it? Open it and put it back.")) }
                ul class="rows" { @for (name, link) in &view.missing { li { a class="row" href=(link) { (name) } } } }
            }))
        }
        @if !view.out.is_empty() {
            (section("out", "Out of the store", html! {
                ul class="rows" {
                    @for (name, link, place) in &view.out {
                        li { a class="row" href=(link) { span { (name) small { (place) } } } }
                    }
                }
            }))
        }
    }
}
