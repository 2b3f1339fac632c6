//! The board, drawn.

use maud::{Markup, html};

use super::view::{Line, Next, Stage, Undo, View, Warm};
use super::write::{COLD, OUT, UNDO};
use super::{heaps, weigh};
use crate::parts::{Typed, answer, hidden_id, law, overdue, said, section};
use crate::plot::piece;

/// The page and its two foot buttons.
pub(super) fn page(view: &View, typed: &Typed) -> (Markup, Markup) {
    (main(view, typed), hands(view))
}

fn main(view: &View, typed: &Typed) -> Markup {
    html! {
        div class="two" {
            div {
                div data-stage {
                    h1 { (view.heading) }
                    (stage(view, typed))
                }
                @for (heading, next, scale) in &view.later {
                    template data-ahead {
                        h1 { (heading) }
                        (mark(next))
                        (weigh::draw(view, scale, &Typed::default()))
                    }
                }
                @if let Some((side, sentence)) = &view.side {
                    figure {
                        (piece::side(side, sentence, &view.figure))
                        figcaption { "Apart: cut. Dashed: planned, moved after each weighing." }
                    }
                }
            }
            div class="margin" { (margin(view, typed)) }
        }
        @if !view.rows.is_empty() {
            div class="two" {
                div { section aria-labelledby="cutlist" { (cut_so_far(view)) } }
                div class="margin" {
                    @if let Some(words) = &view.gives_up {
                        (section("give", "What the plan gives up", html! {
                            (said(words))
                            div class="acts" { a class="press" href={ "/piece/" (view.slug) "/plan" } { "Change the plan" } }
                        }))
                    }
                }
            }
        }
    }
}

fn stage(view: &View, typed: &Typed) -> Markup {
    html! {
        @if typed.form() == UNDO { @for words in typed.whole() { p class="wrong" role="alert" { (words) } } }
        @match &view.state {
            Stage::Next(next, scale) => {
                (mark(next))
                (last(view))
                (weigh::draw(view, scale, typed))
            }
            Stage::Weigh(words, scale) => {
                (answer(words))
                (weigh::draw(view, scale, typed))
            }
            Stage::End(words, heaps) => {
                (answer(words))
                (heaps::draw(view, heaps, typed))
                @if let Some(Undo::Entry { id, words }) = &view.undo { (undo_form(view, id, words, typed)) }
            }
        }
    }
}

fn mark(next: &Next) -> Markup {
    html! {
        p class="big" role="status" { (next.mark.0) small { "\u{202f}" (next.mark.1) } }
        (answer(&next.on))
        (said(&next.said))
    }
}

fn last(view: &View) -> Markup {
    html! { @if let Some(words) = &view.last { p class="quiet last" { (words) } } }
}

fn margin(view: &View, typed: &Typed) -> Markup {
    html! {
        @if let Some(rest) = &view.rest { (section("rest", "The rest", said(rest))) }
        @for note in &view.notes { p { (overdue(note)) } }
        (warm(view, typed))
        @if matches!(view.state, Stage::Next(..) | Stage::Weigh(..)) && !view.rows.is_empty() {
            p class="quiet" {
                a href={ "/piece/" (view.slug) "/board?end=yes" } data-key="e" { "End reached" }
                ": nothing more can be cut."
            }
        }
        @if matches!(view.state, Stage::End(..)) {
            p class="quiet" {
                a href={ "/piece/" (view.slug) "/board?more=yes" } { "Weigh one more portion" } ", or look at "
                a href={ "/piece/" (view.slug) } { "the ledger of " (view.word) } ": it shows whether every gram is there."
            }
        }
    }
}

fn warm(view: &View, typed: &Typed) -> Markup {
    html! {
        @match &view.warm {
            Warm::Cold => {
                section aria-labelledby="cold" {
                    h2 id="cold" { "Not on the board yet" }
                    (said("The clock starts when it leaves the cold, or with the first weight."))
                    (small_form(view, typed, OUT, html! { button class="press" { "It is on the board" } }))
                }
            }
            Warm::Out { heading, said: words, law: rule, over, place } => {
                section aria-labelledby="cold" {
                    h2 id="cold" { @if *over { (overdue(heading)) } @else { (heading) } }
                    @if let Some((rule, authority)) = rule { (law(rule, authority)) }
                    (said(words))
                    (small_form(view, typed, COLD, html! {
                        input type="hidden" name="place" value=(place);
                        button class="press" { "Back in the " (place) }
                    }))
                }
            }
            Warm::Over => {}
        }
    }
}

fn small_form(view: &View, typed: &Typed, form: &str, inside: Markup) -> Markup {
    let fresh = Typed::default();
    let typed = typed.of(form, &fresh);
    html! {
        form method="post" action=(view.to) data-entry {
            (hidden_id(typed, form))
            @for words in typed.whole() { p class="wrong" role="alert" { (words) } }
            div class="acts" { (inside) }
        }
    }
}

fn cut_so_far(view: &View) -> Markup {
    html! {
        table {
            caption id="cutlist" { "Cut so far" small { (view.caption) } }
            thead {
                tr {
                    th scope="col" { "Portion" }
                    th scope="col" class="r" { "Weight" }
                    th scope="col" class="r" { "Off" }
                    th scope="col" class="r" { "Thick" }
                }
            }
            tbody { @for line in &view.rows { (row(line)) } }
        }
    }
}

fn row(line: &Line) -> Markup {
    html! {
        tr {
            th scope="row" { a href=(line.link) { (line.n) } }
            td class="r n" { (line.mass) }
            td class="r n" { (line.off) }
            td class="r n" { (line.thick) }
        }
    }
}

fn hands(view: &View) -> Markup {
    html! {
        @match &view.state {
            Stage::Next(..) => {
                button class="press first" form=(weigh::ID) data-key="next" {
                    "Cut. Next" small class="wide" { "space bar or pedal" }
                }
            }
            Stage::Weigh(..) => button class="press first" form=(weigh::ID) data-key="next" { "Weighed" },
            Stage::End(..) => {
                button class="press first" form=(heaps::ID) data-key="next" { "Weighed. Next" }
            }
        }
        @match (&view.state, &view.undo) {
            (Stage::End(..), _) => a class="press" href={ "/piece/" (view.slug) "/pack" } { "To the sealer" },
            (_, Some(Undo::Link { to, words })) => a class="press" href=(to) data-key="undo" { (words) },
            (_, Some(Undo::Entry { id, words })) => (undo_form(view, id, words, &Typed::default())),
            (_, None) => a class="press" href={ "/piece/" (view.slug) "/plan" } { "Plan" },
        }
    }
}

fn undo_form(view: &View, id: &str, words: &str, typed: &Typed) -> Markup {
    let fresh = Typed::default();
    let typed = typed.of(UNDO, &fresh);
    html! {
        form method="post" action=(view.to) data-entry class="undo" {
            (hidden_id(typed, UNDO))
            input type="hidden" name="entry" value=(id);
            button class="press" data-key="undo" { (words) }
        }
    }
}
