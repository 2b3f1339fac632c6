//! The form drawn.

use maud::{Markup, html};

use super::draft::Draft;
use super::{HOT, LOW};
use crate::parts::{Choice, Field, Typed};

/// All fields of the form.
pub(in crate::pages::table) fn fields(draft: &Draft, typed: &Typed) -> Markup {
    html! {
        div class="fields" { (Field::when("serve", "On the plate at").wide().required().draw(typed)) }
        @if draft.seats == 0 { (counts(draft, typed)) } @else { (seats(draft, typed)) }
        (set_aside(draft, typed))
        div class="fields" {
            (Choice { name: "low", label: "First, low, in the", options: &LOW, start: "oven" }.list(typed))
            (Field::number("low_c", "Its dial at").unit(draft.degree).required().draw(typed))
            (Choice { name: "hot", label: "Then seared on the", options: &HOT, start: "pan" }.list(typed))
            (Field::number("hot_places", "Portions on it at once").unknown("all").draw(typed))
        }
    }
}

/// How many of each doneness.
fn counts(draft: &Draft, typed: &Typed) -> Markup {
    html! {
        fieldset class="group" {
            legend { "How many, and how done" }
            div class="counts" {
                @for (place, word) in draft.words.iter().enumerate() {
                    @let name = format!("count_{place}");
                    div class="field" {
                        label for=(name) { (word) }
                        div class="take" {
                            input id=(name) name=(name) type="number" min="0" max="60" inputmode="numeric"
                                value=(typed.get(&name).unwrap_or("0"));
                        }
                    }
                }
            }
            (wrong(typed, "seats"))
        }
    }
}

/// One row a seat, and an empty one for one more.
fn seats(draft: &Draft, typed: &Typed) -> Markup {
    html! {
        fieldset class="group" {
            legend { "Who, how done, and which portion" }
            @for seat in 0..=draft.seats {
                div class="seat" {
                    (seat_name(draft, typed, seat))
                    (seat_wish(draft, typed, seat))
                    (seat_portion(draft, typed, seat))
                }
            }
            (wrong(typed, "seats"))
        }
    }
}

fn seat_name(draft: &Draft, typed: &Typed, seat: usize) -> Markup {
    let name = format!("seat_{seat}_name");
    html! {
        div class="take" {
            input name=(name) type="text" autocomplete="off" maxlength="40" value=(typed.get(&name).unwrap_or_default())
                aria-label=(format!("Name of seat {}", seat + 1)) placeholder=(if seat < draft.seats { "no name" } else { "one more" });
        }
    }
}

fn seat_wish(draft: &Draft, typed: &Typed, seat: usize) -> Markup {
    let name = format!("seat_{seat}_wish");
    let asked = typed.get(&name).unwrap_or_default();
    let is_own = !asked.is_empty() && asked != "?" && !draft.words.iter().any(|word| word == asked);
    html! {
        div class="take" {
            select name=(name) aria-label=(format!("Wish of seat {}", seat + 1)) {
                option value="" selected[asked.is_empty()] { (if seat < draft.seats { "nobody" } else { "–" }) }
                option value="?" selected[asked == "?"] { "not asked yet" }
                @for word in &draft.words { option value=(word) selected[asked == word.as_str()] { (word) } }
                @if is_own { option value=(asked) selected { (asked) } }
            }
        }
    }
}

fn seat_portion(draft: &Draft, typed: &Typed, seat: usize) -> Markup {
    let name = format!("seat_{seat}_portion");
    let own = typed.get(&name).unwrap_or_default();
    html! {
        div class="take" {
            select name=(name) aria-label=(format!("Portion of seat {}", seat + 1)) {
                option value="" { "as it fits" }
                @for (id, words) in &draft.chosen { option value=(id) selected[own == id.as_str()] { (words) } }
            }
        }
    }
}

fn set_aside(draft: &Draft, typed: &Typed) -> Markup {
    html! {
        fieldset class="group" {
            legend { "Set aside" }
            ul class="rows ticks" {
                @for line in &draft.lines {
                    li {
                        label class="one" {
                            input type="checkbox" name=(line.field) value=(line.id) checked[line.checked];
                            span { b { (line.name) } small { (line.more) } }
                        }
                    }
                }
            }
            (wrong(typed, "pack"))
        }
    }
}

fn wrong(typed: &Typed, name: &str) -> Markup {
    html! { @if let Some(words) = typed.wrong(name) { span class="wrong" role="alert" { (words) } } }
}
