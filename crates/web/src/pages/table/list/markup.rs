//! Suppers, drawn.

use maud::{Markup, html};

use super::view::View;
use crate::pages::table::plan_form::{Draft, PLAN, fields};
use crate::parts::{Typed, answer, entry_form, rows, said, section};

pub(super) fn main(view: &View, draft: &Draft, typed: &Typed) -> Markup {
    html! {
        h1 { "Table" }
        (answer(&view.answer))
        div class="two" {
            div {
                @if !view.to_come.is_empty() { (section("next", "To come", rows(&view.to_come))) }
                (section("new", "Plan a supper", new(view, draft, typed)))
            }
            div class="margin" {
                @if !view.before.is_empty() { (section("before", "Before", rows(&view.before))) }
            }
        }
    }
}

fn new(view: &View, draft: &Draft, typed: &Typed) -> Markup {
    html! {
        @if view.has_portions {
            (entry_form("/table", typed, PLAN, fields(draft, typed),
                html! { button class="press first" { "Plan it" } }))
        } @else {
            (said("There is nothing to set aside yet: a piece is bought and cut first."))
            div class="acts" { a class="press first" href="/case" { "A piece of beef" } }
        }
    }
}
