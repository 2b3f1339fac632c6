//! The sealer, drawn.

use maud::{Markup, html};

use super::seal;
use super::view::{Bagging, Label, Line, View};
use crate::parts::{Typed, answer, overdue, said, section, thread};
use crate::plot::pairs;

pub(super) fn main(view: &View, typed: &Typed) -> Markup {
    html! {
        h1 { (view.heading) }
        (answer(&view.answer))
        @for sentence in &view.said { (said(sentence)) }
        @match &view.next {
            Some(bagging) => (acts(view, bagging)),
            None => (done(view)),
        }
        @if view.next.is_none() { (thread::thread(&view.thread)) }
        // The form comes first: on a phone it follows the answer, on a laptop it stands in the margin.
        div class="two lead" {
            div class="margin off" { (margin(view, typed)) }
            div {
                @if let Some(label) = &view.label { (label_section(view, label)) }
                @if !view.rows.is_empty() { (bags(view)) }
            }
        }
    }
}

fn acts(view: &View, bagging: &Bagging) -> Markup {
    html! {
        div class="acts off" {
            button class="press first" form=(seal::ID) data-key="next" { "Sealed. Next" }
            @if let Some((n, _)) = bagging.partners.first() {
                a class="press" href={ (view.to) "?first=" (bagging.first) "&with=" (n) } {
                    @if bagging.is_pair { "Swap: " (bagging.first) " with " (n) } @else { "With " (n) }
                }
            }
            @if bagging.is_pair {
                a class="press" href={ (view.to) "?first=" (bagging.first) "&single=yes" } { "Singly" }
            }
        }
    }
}

fn done(view: &View) -> Markup {
    html! {
        div class="acts off" {
            a class="press first" href="/store" { "To the store" }
            a class="press" href={ "/piece/" (view.slug) "/board" } { "To the board" }
        }
    }
}

fn label_section(view: &View, label: &Label) -> Markup {
    section(
        "label",
        &format!("The label of {}, at its true size", label.name),
        html! {
            div class="labels" {
                @for picture in &label.pictures {
                    figure { (picture.svg) figcaption { (picture.caption) } }
                }
            }
            p class="quiet off" { "The code opens this pack’s page. No printer: write " (label.by_hand) " by hand; that finds it as well." }
            @if let Some(warning) = &label.warning { p class="off" { (overdue(warning)) } }
            div class="acts off" {
                @for (place, picture) in label.pictures.iter().enumerate() {
                    a class={ "press" @if place == 0 { " first" } } href={ "/pack/" (label.slug) "/label.pdf?on=" (picture.on) } {
                        "Print on a " (picture.on)
                    }
                }
                @if label.packs > 1 {
                    @if let Some(picture) = label.pictures.last() {
                        a class="press" href={ "/piece/" (view.slug) "/labels.pdf?on=" (picture.on) } { "All " (label.packs) ", on " (picture.on) "s" }
                    }
                }
            }
        },
    )
}

fn bags(view: &View) -> Markup {
    html! {
        section class="off" aria-labelledby="pairs" {
            h2 id="pairs" { "The bags" }
            @if view.pairs.len() > 1 {
                figure {
                    (pairs::pairs(&view.pairs, &view.pairs_sentence, &view.figure))
                    @if let Some(caption) = &view.pairs_caption { figcaption { (caption) } }
                }
            }
            table {
                caption class="unseen" { "Bags with weight and difference of thickness" }
                thead {
                    tr {
                        th scope="col" { "Pack" }
                        th scope="col" class="r" { "Weight" }
                        th scope="col" class="r" { "Apart" }
                        th scope="col" class="r" { span class="unseen" { "State" } }
                    }
                }
                tbody { @for line in &view.rows { (row(line)) } }
                tfoot { tr { th scope="row" { (view.total.0) } td class="r n" { (view.total.1) } td {} td {} } }
            }
        }
    }
}

fn row(line: &Line) -> Markup {
    html! {
        tr class=[line.now.then_some("chosen")] {
            th scope="row" {
                @match &line.link {
                    Some(link) => a href=(link) { (line.name) },
                    None => (line.name),
                }
            }
            td class="r n" { (line.mass) }
            td class="r n" { (line.apart) }
            td class="r n" { (line.state) }
        }
    }
}

fn margin(view: &View, typed: &Typed) -> Markup {
    html! {
        @if let Some(bagging) = &view.next {
            (section("bag", "This bag", seal::draw(view, bagging, typed)))
            @if bagging.partners.len() > 1 { (partners(view, bagging)) }
        }
        @for heap in &view.heaps {
            section aria-label=(heap.name) {
                details class="unfold" id={ "heap-" (heap.id) } open[typed.get("part") == Some(heap.id.as_str())] {
                    summary { (heap.name) }
                    (seal::draw_heap(view, &heap.id, typed))
                }
            }
        }
        @if let Some(lot) = &view.lot { (section("lot", "Bags of this lot", said(lot))) }
    }
}

fn partners(view: &View, bagging: &Bagging) -> Markup {
    html! {
        details class="unfold" id="partners" {
            summary { "Another with " (bagging.first) }
            ul class="rows" {
                @for (n, apart) in &bagging.partners {
                    li { a class="row" href={ (view.to) "?first=" (bagging.first) "&with=" (n) } { span { (bagging.first) " with " (n) ", " (apart) } } }
                }
            }
        }
    }
}
