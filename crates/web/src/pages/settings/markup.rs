//! Settings, drawn: one form, the kind on the left, its fields on the right.

use maud::{Markup, html};

use super::items::{Asks, Group, Item, groups, of_place, of_words};
use super::view::{Scale, View};
use crate::house::Visit;
use crate::parts::{Choice, Field, Typed, answer, entry_form, said};
use crate::plot::dots::dots;
use crate::plot::rule::Rule;

/// The form's name.
const FORM: &str = "settings";

pub(super) fn main(view: &View, visit: &Visit, typed: &Typed) -> Markup {
    let fields = html! {
        @for group in groups() {
            (kind(&group, visit, typed))
            @if group.id == "kitchen" { (doneness(&view.scales, visit, typed)) }
        }
        (places(view, visit, typed))
    };
    html! {
        h1 { "Settings: is this my kitchen?" }
        (answer(&view.answer))
        (said(&view.said))
        div class="form" {
            (entry_form("/books/settings", typed, FORM, fields, html! { button class="press first" { "Save" } }))
        }
        div class="kind" {
            h2 { "Who may write" }
            p class="said" { "Everybody who can open this page. The house listens on this machine alone unless it was started otherwise." }
        }
        div class="kind" {
            h2 { "Take it with you" }
            p class="said" { "Every entry, as it was written: " a href="/api/entries?after=0" { "the record as JSON Lines" } "." }
        }
    }
}

fn kind(group: &Group, visit: &Visit, typed: &Typed) -> Markup {
    let picked = |item: &&Item| matches!(item.asks, Asks::OneOf(words) if words.len() <= 3);
    html! {
        div class="kind" id=(group.id) {
            h2 { (group.heading) }
            @for item in group.items.iter().filter(picked) { (pick(item, typed)) }
            @if group.items.iter().any(|item| !picked(&item)) {
                div class="fields" {
                    @for item in group.items.iter().filter(|item| !picked(item)) { (field(item, visit, typed)) }
                }
            }
        }
    }
}

fn pick(item: &Item, typed: &Typed) -> Markup {
    let Asks::OneOf(options) = item.asks else { return html! {} };
    let start = options.first().map_or("", |(word, _)| word);
    Choice { name: &item.key, label: &item.label, options, start }.pick(typed)
}

fn field(item: &Item, visit: &Visit, typed: &Typed) -> Markup {
    if let Asks::OneOf(options) = item.asks {
        let start = options.first().map_or("", |(word, _)| word);
        return Choice { name: &item.key, label: &item.label, options, start }.list(typed);
    }
    let unit = item.unit(visit);
    let base = if item.asks == Asks::Text {
        Field::text(&item.key, &item.label)
    } else {
        Field::number(&item.key, &item.label)
    };
    let base = if item.unknown.is_empty() { base } else { base.unknown(item.unknown) };
    match &unit {
        Some(unit) => base.unit(unit).draw(typed),
        None => base.draw(typed),
    }
}

/// Each scale as dots on one rule of degrees, so that it is seen how far the same words lie apart.
fn doneness(scales: &[Scale], visit: &Visit, typed: &Typed) -> Markup {
    let rule = Rule::new(48.0, 80.0).between(2.0, 98.0);
    html! {
        div class="kind" id="doneness" {
            h2 { "Doneness" }
            fieldset {
                legend class="unseen" { "Doneness scale" }
                @for scale in scales {
                    @let is_chosen = typed.get("doneness.scale").map_or(scale.chosen, |id| id == scale.id.as_str());
                    label class="one" {
                        input type="radio" name="doneness.scale" value=(scale.id) checked[is_chosen];
                        span { @if scale.chosen { b { (scale.name) } } @else { (scale.name) } }
                    }
                    div class="scale-row" { (dots(&rule, 4.0, &scale.dots, scale.chosen, &scale.said)) }
                }
            }
            p class="quiet" { "The same words, other degrees: up to ten apart." }
            details class="unfold" id="moved" open[of_words(visit).iter().any(|item| typed.wrong(&item.key).is_some())] {
                summary { "Move a word of yours" }
                div class="fields" { @for item in of_words(visit) { (field(&item, visit, typed)) } }
            }
            details class="unfold" id="scales" {
                summary { "Where they come from" }
                div { @for scale in scales { p class="quiet" { (scale.name) ": " (scale.source) "." } } }
            }
        }
    }
}

fn places(view: &View, visit: &Visit, typed: &Typed) -> Markup {
    html! {
        div class="kind" id="places" {
            h2 { "Cold places" }
            @if view.places.is_empty() { p class="quiet" { "Places you write down anywhere will stand here." } }
            @for (key, name) in &view.places {
                h3 { (crate::words::sentence_case(name)) }
                div class="fields" { @for item in of_place(key) { (field(&item, visit, typed)) } }
            }
            h3 { "Another place" }
            div class="fields" {
                (Field::text("new-place", "Its name").unknown("as “cellar chest”").draw(typed))
                (Choice { name: "new-place-kind", label: "It is a", options: &[("", "not said"), ("freezer", "freezer"), ("fridge", "fridge"), ("room", "room")], start: "" }.list(typed))
            }
        }
    }
}
