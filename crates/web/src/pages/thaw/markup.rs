//! The thaw of one supper, drawn.

use maud::{Markup, html};

use super::acts::{OUT, READ};
use super::view::{Line, RescueLine, View};
use crate::parts::{Choice, Field, Typed, acts, answer, entry_form, law, narrow, overdue, said, section};
use crate::words::number_word;

/// Ways to thaw that the rule allows.
const METHODS: [(&str, &str); 3] =
    [("fridge", "in the fridge"), ("cold-water", "in cold water"), ("from-frozen", "straight to the heat")];

pub(super) fn main(view: &View, typed: &Typed) -> Markup {
    html! {
        h1 { (view.heading) }
        (answer(&view.answer))
        @for sentence in &view.said { (said(sentence)) }
        @if let Some(words) = &view.against { p { (overdue(words)) } }
        @if view.frozen.is_empty() {
            (acts(html! { a class="press" href=(view.supper) { "The dinner hour" } }))
        } @else { (all_out(view, typed)) }
        div class="two" {
            div { (left(view, typed)) }
            div class="margin" { (right(view, typed)) }
        }
    }
}

/// Every pack with one tap.
fn all_out(view: &View, typed: &Typed) -> Markup {
    let fresh = Typed::default();
    let typed = typed.of(OUT, &fresh);
    let words = match view.frozen.len() {
        1 => "Out now".to_owned(),
        2 => "Both out now".to_owned(),
        many => format!("All {} out now", number_word(many)),
    };
    let fields = html! {
        @for (id, _) in &view.frozen { input type="hidden" name="pack" value=(id); }
        input type="hidden" name="place" value=(view.fridge);
        (Choice { name: "method", label: "They thaw", options: &METHODS, start: "fridge" }.pick(typed))
    };
    entry_form(
        &view.to,
        typed,
        OUT,
        fields,
        html! {
            button class=(if view.is_near { "press first" } else { "press" }) data-key=[view.is_near.then_some("next")] { (words) }
            a class="press" href=(view.supper) { "The dinner hour" }
        },
    )
}

fn left(view: &View, typed: &Typed) -> Markup {
    html! {
        @if let Some(picture) = &view.picture {
            (section("back", "Back from the hour", html! { figure { (picture) } }))
        }
        @if !view.packs.is_empty() {
            section aria-labelledby="packs" { (packs(&view.packs)) (one_by_one(view)) }
        }
        @if let Some(line) = &view.rescue { section aria-labelledby="rescue" { (rescue(line)) } }
        @if let Some(rule) = &view.rule {
            (section("rule", "The rule", law(&rule.rule, &rule.authority)))
        }
        @if let Some(salting) = &view.salting { (section("salt", "Salt", salting.draw(&view.to, typed))) }
    }
}

fn packs(lines: &[Line]) -> Markup {
    // Once all are opened there is no chance left to tell.
    let waits = lines.iter().any(|line| !line.chance.is_empty());
    html! {
        table {
            caption id="packs" { "Pack by pack" small { "Soft: no place of it below freezing" } }
            thead { tr { th scope="col" { "Pack" } th scope="col" class="r" { "Soft" } @if waits { th scope="col" class="r" { "In time" } } } }
            tbody { @for line in lines {
                tr {
                    th scope="row" { a href=(line.link) { (line.name) } small { (line.lies) } }
                    td class="r n" { (line.soft) @if !line.soft_band.is_empty() { small { (line.soft_band) } } }
                    @if waits { td class="r n" { (line.chance) } }
                }
            } }
        }
    }
}

/// A button a pack.
fn one_by_one(view: &View) -> Markup {
    html! {
        @if view.frozen.len() > 1 {
            details class="unfold" {
                summary { "One by one" }
                div class="acts" {
                    @for (id, name) in &view.frozen {
                        form method="post" action=(view.to) data-entry {
                            (crate::parts::hidden_id(&Typed::default(), OUT))
                            input type="hidden" name="pack" value=(id);
                            input type="hidden" name="place" value=(view.fridge);
                            button class="press" { (name) " out" }
                        }
                    }
                }
            }
        }
    }
}

fn rescue(line: &RescueLine) -> Markup {
    html! {
        table {
            caption id="rescue" { "If the fridge is too slow" small { "The same packs, straight to the heat once they are soft" } }
            thead { tr { th scope="col" { "Way" } th scope="col" class="r" { "Start by" } th scope="col" class="r" { "If now" } } }
            tbody { tr {
                th scope="row" { "Cold water, in the bag" small { "changed every 30 minutes; salt just before the heat" } }
                td class="r n" { (line.start_by) small { "soft " (line.soft) } }
                td class="r n" { (line.chance) }
            } }
        }
    }
}

fn right(view: &View, typed: &Typed) -> Markup {
    html! {
        @if view.narrow.is_some() || view.read {
            (section("narrow", "What would narrow it", html! {
                @if let Some(words) = &view.narrow { (narrow(words)) }
                @if view.read { (reading(view, typed)) }
            }))
        }
        @if let Some(rule) = &view.keeps {
            (section("plans", "If the supper falls through", law(&rule.rule, &rule.authority)))
        }
        (section("how", "Laid how", said("Side by side on a tray, in the bag, nothing on top: the hours are reckoned so.")))
    }
}

fn reading(view: &View, typed: &Typed) -> Markup {
    let fresh = Typed::default();
    let typed = typed.of(READ, &fresh);
    let fields = html! {
        input type="hidden" name="place" value=(view.place);
        div class="fields" { (Field::number("at_c", "The thermometer shows").unit(view.degree).unknown("not read").draw(typed)) }
    };
    entry_form(&view.to, typed, READ, fields, html! { button class="press" { "Read" } })
}
