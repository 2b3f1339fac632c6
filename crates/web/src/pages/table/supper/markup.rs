//! One supper, drawn.

use maud::{Markup, html};

use super::acts::{CAME, IN, LATER, PULLED, READ};
use super::beside::Beside;
use super::chain::{Act, Chain, Next, table};
use super::view::View;
use crate::pages::table::plan_form::{Draft, PLAN, fields};
use crate::parts::{Field, Typed, acts, answer, entry_form, law, narrow, said, section, thread};

pub(super) fn main(view: &View, draft: &Draft, typed: &Typed) -> Markup {
    html! {
        h1 { (view.heading) }
        (answer(&view.answer))
        @for sentence in &view.said { (said(sentence)) }
        @match view.chain.as_ref().and_then(|chain| chain.next.as_ref()) {
            Some(next) => (entry(view, next, typed)),
            None => @if view.thaw { (acts(html! {
                a class="press first" href={ (view.to) "/thaw" } { "Thaw and salt" }
                @if let Some(link) = &view.ways { a class="press" href=(link) { "Other ways" } }
            })) },
        }
        @if let Some(life) = &view.thread { (thread::thread(life)) }
        div class="two" {
            div { (left(view, draft, typed)) }
            div class="margin" { (right(view, draft, typed)) }
        }
    }
}

fn left(view: &View, draft: &Draft, typed: &Typed) -> Markup {
    html! {
        @if view.is_over { (section("came", "What came of it", view.came.draw(&view.to, typed))) }
        @if let Some(chain) = &view.chain { (back(chain)) }
        @if let Some(who) = &view.who { section aria-labelledby="who" { (who.draw()) } }
        @if !view.is_over { (unfolded("came", "What came of it", typed.form() == CAME, view.came.draw(&view.to, typed))) }
        @if !(view.is_over && view.came.is_whole()) { (change(view, draft, typed)) }
    }
}

fn back(chain: &Chain) -> Markup {
    section(
        "chain",
        &chain.heading,
        html! {
            figure { (chain.picture) figcaption { (chain.caption) } }
            (table(chain))
        },
    )
}

fn change(view: &View, draft: &Draft, typed: &Typed) -> Markup {
    let own = typed.of(PLAN, &draft.values);
    let form =
        entry_form(&view.to, own, PLAN, fields(draft, own), html! { button class="press" { "Plan it so" } });
    unfolded("change", "Change the plan", typed.form() == PLAN || !view.has_seats, form)
}

fn unfolded(id: &str, words: &str, open: bool, body: Markup) -> Markup {
    html! {
        section aria-labelledby=(id) {
            details class="unfold" open[open] { summary id=(id) { (words) } (body) }
        }
    }
}

/// The next entry, one tap: it is the page's first button.
fn entry(view: &View, next: &Next, typed: &Typed) -> Markup {
    let form = if next.act == Act::Pulled { PULLED } else { IN };
    let fresh = Typed::default();
    let typed = typed.of(form, &fresh);
    let hidden = html! {
        @for portion in &next.portions { input type="hidden" name="portion" value=(portion); }
        @if next.act != Act::Pulled { input type="hidden" name="on" value=(next.on); }
        @if next.act == Act::Pulled {
            div class="fields" { (Field::number("core_c", "Core, if you saw it").unit(view.came.degree()).unknown("not seen").draw(typed)) }
        }
    };
    let class = if next.is_near { "press first" } else { "press" };
    let button = html! { button class=(class) data-key=[next.is_near.then_some("next")] { (next.words) } };
    entry_form(
        &view.to,
        typed,
        form,
        hidden,
        html! {
            (button)
            @if view.thaw { a class="press" href={ (view.to) "/thaw" } { "Thaw and salt" } }
            @if let Some(link) = &view.ways { a class="press" href=(link) { "Other ways" } }
        },
    )
}

fn right(view: &View, draft: &Draft, typed: &Typed) -> Markup {
    html! {
        @if let Some(beside) = &view.beside { (notes(view, beside, draft, typed)) }
        @if let Some(steps) = &view.steps { (section("steps", "The chain so far", steps)) }
    }
}

fn notes(view: &View, beside: &Beside, draft: &Draft, typed: &Typed) -> Markup {
    html! {
        @if let Some(words) = &beside.narrow {
            (section("narrow", "What would narrow it", html! {
                (narrow(words))
                @if let Some(place) = &beside.read { (reading(view, place, typed)) }
            }))
        }
        @if !beside.late.is_empty() {
            (section("late", "If they come late", html! {
                @for sentence in &beside.late { (said(sentence)) }
                (later(view, draft, typed))
                @if let Some((rule, here)) = &beside.waiting { (law(&rule.rule, &rule.authority)) (said(here)) }
            }))
        }
        @if let Some((rule, here)) = &beside.pink {
            (section("pink", "Before you serve them pink", html! { (law(&rule.rule, &rule.authority)) (said(here)) }))
        }
    }
}

fn reading(view: &View, place: &str, typed: &Typed) -> Markup {
    let fresh = Typed::default();
    let typed = typed.of(READ, &fresh);
    let fields = html! {
        input type="hidden" name="place" value=(place);
        div class="fields" { (Field::number("at_c", "On the rack").unit(view.came.degree()).unknown("not read").draw(typed)) }
    };
    entry_form(&view.to, typed, READ, fields, html! { button class="press" { "Read" } })
}

fn later(view: &View, draft: &Draft, typed: &Typed) -> Markup {
    let own = typed.of(LATER, &draft.values);
    let fields = html! { div class="fields" { (Field::when("serve", "On the plate at").wide().draw(own)) } };
    entry_form(&view.to, own, LATER, fields, html! { button class="press" { "Move supper" } })
}
