//! The books, drawn.

use maud::{Markup, html};

use super::query::Order;
use super::view::{TestView, View};
use crate::parts::{Row, acts, answer, rows, said, section};
use crate::plot::against::against;

pub(super) fn main(view: &View) -> Markup {
    html! {
        h1 { (view.heading) }
        (answer(&view.answer))
        @for sentence in &view.said { (said(sentence)) }
        @if view.lines.is_empty() {
            (acts(html! { a class="press first" href="/case" { "A first piece" } a class="press" href="/books/settings" { "Settings" } }))
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
        @if !view.rows.is_empty() {
            (section("plates", &format!("A plate of each piece, {}", view.sign), html! {
                figure {
                    (against(&view.rows, &view.picture_said, |value| format!("{value:.0}")))
                    figcaption { "Dot: what it came to, bags and electricity counted in. Ring: what the counter asked for the same meat." }
                }
            }))
        }
        section { (table(view)) (acts(html! { a class="press" href="/books/pieces.csv" { "As CSV" } })) }
        @if let Some(test) = &view.test { section { (cutting_test(test)) } }
    }
}

fn table(view: &View) -> Markup {
    html! {
        table {
            caption { "Piece by piece" small { @if let Some(money) = &view.money_said { (money) " " } "Under the weight, the share that became plates; under the plates, what one came to." } }
            thead { tr {
                (head(view, Order::Day, "day", "Piece", false))
                (head(view, Order::Bought, "bought", "Bought", true))
                (head(view, Order::Plates, "plates", "Plates", true))
                (head(view, Order::Saved, "saved", "Saved", true))
            } }
            tbody {
                @for line in &view.lines {
                    tr {
                        th scope="row" { a href=(line.link) { (line.word) } small { (line.what) } }
                        td class="r n" { (line.bought) small { (line.share) } }
                        td class="r n" { (line.plates) small { (line.each) } }
                        td class="r n" { (line.saved) }
                    }
                }
            }
            tfoot {
                @for sum in &view.sums {
                    tr {
                        th scope="row" { (sum.name) @if sum.balances { small { "balances" } } }
                        td class="r n" { (sum.bought) }
                        td class="r n" { (sum.plates) small { (sum.each) } }
                        td class="r n" { (sum.saved) }
                    }
                }
            }
        }
    }
}

/// A heading that sorts by its column.
fn head(view: &View, order: Order, name: &str, words: &str, right: bool) -> Markup {
    let sorted =
        (view.order == order).then_some(if order == Order::Day { "ascending" } else { "descending" });
    html! {
        th scope="col" class=[right.then_some("r")] aria-sort=[sorted] { a class="sort" href={ "/books?by=" (name) } { (words) } }
    }
}

fn cutting_test(test: &TestView) -> Markup {
    html! {
        table {
            caption { (test.caption) small { (test.beside) } }
            thead { tr {
                th scope="col" { "Part" }
                th scope="col" class="r" { "Weight" }
                th scope="col" class="r" { "Share" }
                th scope="col" class="r" { "Usual, %" }
            } }
            tbody {
                @for (name, mass, share, usual) in &test.lines {
                    tr { th scope="row" { (name) } td class="r n" { (mass) } td class="r n" { (share) } td class="r n" { (usual) } }
                }
            }
            tfoot { tr { th scope="row" { "On the label" } td class="r n" { (test.label) } td {} td {} } }
        }
    }
}

fn right(view: &View) -> Markup {
    let row =
        |link: &str, words: &str| Row { link: Some(link.to_owned()), words: words.to_owned(), more: None };
    html! {
        @if !view.notes.is_empty() {
            (section("notes", "What is not whole", html! { ul class="rows" { @for note in &view.notes { li { (note) } } } }))
        }
        (section("more", "More", rows(&[row("/books/settings", "Settings"), row("/pieces", "Every piece")])))
    }
}
