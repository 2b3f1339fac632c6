//! A piece, drawn.

use maud::{Markup, html};

use super::forms;
use super::view::{View, entries_words};
use crate::pages::shared::{ledger_table, log};
use crate::parts::{Row, Typed, acts, answer, law, overdue, rows, said, section, thread};

pub(super) fn main(view: &View, typed: &Typed) -> Markup {
    html! {
        h1 { (view.heading) }
        (answer(&view.answer))
        @if let Some(warm) = &view.warm {
            (law(&warm.rule, &warm.authority))
            (said(&warm.here))
        }
        @for sentence in &view.said { (said(sentence)) }
        (thread::thread(&view.thread))
        (next(view))
        div class="two" {
            div { (left(view)) }
            div class="margin" { (right(view, typed)) }
        }
    }
}

fn next(view: &View) -> Markup {
    acts(html! {
        @for (place, (link, words)) in view.next.iter().enumerate() {
            a class=(if place == 0 { "press first" } else { "press" }) href=(link) { (words) }
        }
    })
}

fn left(view: &View) -> Markup {
    html! {
        section class="bare" aria-label="Grams and money" {
            (ledger_table(&view.ledger))
            @if let Some(words) = view.ledger.standing.as_ref().filter(|_| view.asks.is_empty()) { p class="quiet" { (words) } }
            @for ask in &view.asks { p { (overdue(ask)) } }
        }
        @if !view.portions.is_empty() { (portions(view)) }
        (log(&view.days, &entries_words(view.entries)))
    }
}

fn portions(view: &View) -> Markup {
    html! {
        section {
            table {
                caption { "Its portions" small { "By their place from the named end" } }
                thead { tr {
                    th scope="col" { "Portion" }
                    th scope="col" class="r" { "Weight" }
                    th scope="col" class="r" { "Thick" }
                    th scope="col" { "Where" }
                } }
                tbody {
                    @for line in &view.portions {
                        tr {
                            th scope="row" { a class="cell" href=(line.link) { (line.name) } }
                            td class="r n" { (line.mass) }
                            td class="r n" { (line.thickness) }
                            td { (line.stands) }
                        }
                    }
                }
            }
        }
    }
}

fn right(view: &View, typed: &Typed) -> Markup {
    html! {
        section aria-labelledby="write" {
            h2 id="write" { "Write something down" }
            (forms::draw(view, typed))
        }
        (section("pages", &format!("{}’s other pages", view.word), rows(&pages(view))))
        (section("keep", "Keeping", html! { @for sentence in &view.keeping { (said(sentence)) } }))
        (section("shared", "Shared with", said(&view.shared_with)))
    }
}

fn pages(view: &View) -> Vec<Row> {
    let row = |path: &str, words: &str| Row {
        link: Some(format!("/piece/{}/{path}", view.slug)),
        words: words.to_owned(),
        more: None,
    };
    let mut pages = vec![row("plan", "Knife plan and strip"), row("board", "The board")];
    if view.is_cut {
        pages.push(row("pack", "Packs and labels"));
    }
    pages
}
