//! The plan, drawn.

use maud::{Markup, html};

use super::view::{Line, Planned, View};
use super::write::{NEAREST, OTHER, TAKE};
use super::{measure, wants};
use crate::parts::{Typed, answer, hidden_id, narrow, said, section, thread};
use crate::plot::rule::Rule;
use crate::plot::{picture, piece, profile};

pub(super) fn main(view: &View, typed: &Typed) -> Markup {
    html! {
        h1 { (view.thread.of) ": the knife plan" }
        (answer(&view.answer))
        @for sentence in &view.said { (said(sentence)) }
        (thread::thread(&view.thread))
        @match &view.planned {
            Some(planned) => (whole(view, planned, typed)),
            None => (section("measure", "Measure it", measuring(view, typed))),
        }
    }
}

fn whole(view: &View, planned: &Planned, typed: &Typed) -> Markup {
    html! {
        figure { (piece::side(&planned.side, &planned.sentence, &planned.figure)) }
        @if !planned.profiles.is_empty() { figure class="runs" { (runs(planned)) } }
        (acts(view, planned, typed))
        div class="two" {
            div {
                (section("wants", "What is wanted", wanted(view, planned, typed)))
                section { (marks(planned)) }
            }
            div class="margin off" { (margin(view, planned, typed)) }
        }
    }
}

/// Step lines on the piece's own millimetres; the same values stand in the table.
fn runs(planned: &Planned) -> Markup {
    let side = &planned.side;
    let along = Rule::new(0.0, side.length_mm).between(0.0, 100.0);
    let words: Vec<String> = planned
        .profiles
        .iter()
        .map(|line| format!("{}: {} from {} to {}.", line.kept, line.runs, line.first, line.last))
        .collect();
    picture(
        profile::height(planned.profiles.len()),
        &words.join(" "),
        &profile::profiles(&along, 0.0, &planned.profiles),
    )
}

fn acts(view: &View, planned: &Planned, typed: &Typed) -> Markup {
    html! {
        div class="acts off" {
            @if planned.is_cut {
                a class="press first" href={ "/piece/" (view.slug) "/pack" } { "To the sealer" }
                a class="press" href={ "/piece/" (view.slug) "/board" } { "To the board" }
            } @else if view.is_settled {
                a class="press first" href={ "/piece/" (view.slug) "/board" } { "To the board" }
            } @else {
                (small_form(view, typed, TAKE, html! { button class="press first" { "Take this plan" } }))
            }
            @if !planned.is_cut { a class="press" href={ "/piece/" (view.slug) "/strip.pdf" } { "Print the strip" } }
            @if let Some(other) = &planned.other {
                (small_form(view, typed, OTHER, html! { button class="press" { (other) } }))
            }
        }
    }
}

/// A form of one button.
fn small_form(view: &View, typed: &Typed, form: &str, buttons: Markup) -> Markup {
    let fresh = Typed::default();
    let typed = typed.of(form, &fresh);
    html! {
        form method="post" action=(view.to) data-entry {
            (hidden_id(typed, form))
            (buttons)
            @for words in typed.whole() { p class="wrong" role="alert" { (words) } }
        }
    }
}

fn wanted(view: &View, planned: &Planned, typed: &Typed) -> Markup {
    let starts: Vec<(&str, String)> =
        view.want_start.iter().map(|(name, value)| (name.as_str(), value.clone())).collect();
    let fresh = Typed::fresh(&starts);
    html! {
        ul class="rows" {
            @for (line, more) in &planned.wants { li { div class="row" { span { b { (line) } small { (more) } } } } }
        }
        details class="unfold" id="want" open[typed.form() == wants::WANT || !view.is_settled] {
            summary { "Change what is wanted" }
            (wants::draw(view, typed.of(wants::WANT, &fresh)))
        }
    }
}

fn marks(planned: &Planned) -> Markup {
    html! {
        table {
            caption { "The marks" small { (planned.caption) } }
            thead {
                tr {
                    th scope="col" { "Portion" }
                    th scope="col" class={ "r" (planned.spare) } { "From" }
                    th scope="col" class="r" { "To" }
                    th scope="col" class="r" { "Thick" }
                    @if planned.has_weights { th scope="col" class="r" { "Weight" } }
                    @if planned.has_cap { th scope="col" class="r" { "Cap" } }
                }
            }
            tbody { @for line in &planned.rows { (row(planned, line)) } }
        }
    }
}

fn row(planned: &Planned, line: &Line) -> Markup {
    html! {
        tr class=[line.is_cut.then_some("chosen")] {
            th scope="row" { (line.n) }
            td class={ "r n" (planned.spare) } { (line.from) }
            td class="r n" { (line.to) }
            td class="r n" { (line.thick) }
            @if planned.has_weights { td class="r n" { (line.weight.0) @if let Some(band) = &line.weight.1 { small { (band) } } } }
            @if planned.has_cap { td class="r n" { (line.cap) } }
        }
    }
}

fn margin(view: &View, planned: &Planned, typed: &Typed) -> Markup {
    html! {
        section aria-labelledby="narrow" {
            h2 id="narrow" { @if planned.narrow.is_some() { "What would narrow it" } @else { "What it rests on" } }
            @if let Some(sentence) = &planned.narrow { (narrow(sentence)) }
            details class="unfold" id="measure" open[view.measure.open || typed.form() == measure::MEASURE] {
                summary { "Ruler and scale" }
                (measuring(view, typed))
            }
            p class="quiet" { (planned.basis) }
        }
        @if !planned.gives_up.is_empty() {
            (section("given", "What it gives up", html! {
                @for sentence in &planned.gives_up { (said(sentence)) }
                @if !planned.nearest.is_empty() { (nearest(view, planned, typed)) }
            }))
        }
        @if let Some(sentence) = &planned.cap { (section("cap", "Who gets the cap", said(sentence))) }
    }
}

fn nearest(view: &View, planned: &Planned, typed: &Typed) -> Markup {
    html! {
        (said("The nearest that fit:"))
        div class="acts" {
            @for (place, words) in planned.nearest.iter().enumerate() {
                (small_form(view, typed, NEAREST, html! { button class="press" name="which" value=(place) { (words) } }))
            }
        }
    }
}

fn measuring(view: &View, typed: &Typed) -> Markup {
    let starts: Vec<(&str, String)> =
        view.measure.values.iter().map(|(name, value)| (name.as_str(), value.clone())).collect();
    let fresh = Typed::fresh(&starts);
    measure::draw(view, typed.of(measure::MEASURE, &fresh))
}
