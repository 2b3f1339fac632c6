//! An entry, drawn.

use maud::{Markup, html};
use record::{Kind, Logged};

use super::{BACK, WEIGHT, weight_of};
use crate::house::Visit;
use crate::pages::shared::{entry_words, struck};
use crate::parts::{Field, Typed, entry_form, said, section};
use crate::reading::Size;
use crate::words::sentence_case;

pub(super) fn main(visit: &Visit, row: &Logged, typed: &Typed, back: &str) -> Markup {
    let stored = &row.stored;
    let at = visit.zoned(stored.entry.at);
    let written = visit.moments.time(&stored.written.to_zoned_datetime(visit.now().time_zone().clone()));
    let is_correction = stored.entry.kind() == Kind::Corrected;
    html! {
        h1 { "Entry " (stored.number) ", " (stored.entry.kind().word().replace('-', " ")) }
        p class="answer" { (struck(visit, row)) }
        (said(format!("Happened {}, written down {written} by {}.", visit.moments.time(&at), stored.writer)))
        div class="acts" { a class="press" href=(back) { "Back" } }
        @if is_correction {
            (said("This is a correction; the entry it corrects can be corrected once more instead."))
        } @else {
            (corrections(visit, row, typed))
        }
    }
}

fn corrections(visit: &Visit, row: &Logged, typed: &Typed) -> Markup {
    let fresh = Typed::default();
    let entry = row.effective().unwrap_or(&row.stored.entry);
    let to = format!("/entry/{}", row.stored.number);
    let because = |typed: &Typed| Field::text("because", "Why").wide().required().draw(typed);
    html! {
        @if let Some((_, size)) = weight_of(&entry.body) {
            (section("weigh", "Another weight", html! {
                @let typed = typed.of(WEIGHT, &fresh);
                (entry_form(&to, typed, WEIGHT, html! {
                    div class="fields" {
                        (Field::number("mass", "It should have been").unit(unit(visit, size)).required().draw(typed))
                        (because(typed))
                    }
                }, html! { button class="press first" { "Correct it" } }))
            }))
        }
        @if row.effective().is_some() {
            (section("take", "Take it back", html! {
                p class="quiet" {
                    (sentence_case(&entry_words(visit, entry))) ": as if it had never been written. The line stays, struck."
                }
                @let typed = typed.of(BACK, &fresh);
                (entry_form(&to, typed, BACK, html! { div class="fields" { (because(typed)) } }, html! { button class="press" { "Take it back" } }))
            }))
        }
    }
}

fn unit(visit: &Visit, size: Size) -> &'static str {
    match (size, visit.units.pounds) {
        (Size::Large, false) => "kg",
        (Size::Large, true) => "lb",
        (Size::Small, false) => "g",
        (Size::Small, true) => "oz",
    }
}
