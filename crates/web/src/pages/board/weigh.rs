//! A portion on the scale: the form, how it is read, and what is asked about a weight that does not fit.

use maud::{Markup, html};
use quantity::{Grain, Length, Mass};
use record::PortionWeighed;
use season::{Doubt, Made, doubt};

use super::query::{Asked, Found};
use super::view::{Scale, View};
use super::write::Told;
use crate::house::Visit;
use crate::parts::{Field, Typed, hidden_id};
use crate::reading::{Reading, Size};

/// The form's name.
pub(super) const WEIGH: &str = "weigh";
/// The id the foot button names.
pub(super) const ID: &str = "weigh";

pub(super) fn read(reading: &mut Reading<'_>, visit: &Visit, found: &Found<'_>) -> Told {
    let here = found.asked.clone();
    let unweighed = &found.board.unweighed;
    let next = found.board.next.as_ref();
    let n = reading.number("n", 1.0..=400.0).map(|n| n.round() as u32);
    let shown = shown_marks(reading);
    if reading.text("mass").is_none() && reading.is_good() {
        return cut_unweighed(reading, found, shown);
    }
    let mass = reading.mass("mass", Size::Small, 1.0..=20_000.0);
    // Which one it is: as chosen, else the first that waits for the scale, else the next.
    let n = n.or(unweighed.first().map(|made| made.n)).or(next.map(|next| next.made.n)).unwrap_or(1);
    let waits = unweighed.iter().find(|made| made.n == n).copied();
    let made = waits.or_else(|| shown.map(|(from, to)| Made { n, from, to }));
    let made = beside_the_mark(reading, found, made);
    let thickness = reading.length("thickness", 1.0..=3000.0);
    let twin = reading.number("twin", 1.0..=400.0).map(|twin| twin.round() as u32).filter(|twin| *twin != n);
    let Some(mass) = mass.filter(|_| reading.is_good()) else { return Told::Written(None, here) };
    if waits.is_none() && thickness.is_none() && reading.text("sure").is_none() {
        ask_about(reading, visit, found, mass);
    }
    let want = next.filter(|next| next.made.n == n).and_then(|next| want_name(found, next.want?));
    let body = PortionWeighed {
        piece: found.piece.id,
        n,
        mass,
        from: made.map(|made| made.from),
        to: made.map(|made| made.to),
        thickness,
        want,
        twin,
    };
    let left: Vec<(Length, Length)> =
        unweighed.iter().filter(|made| made.n != n).map(|made| (made.from, made.to)).collect();
    let entries = reading.is_good().then(|| vec![reading.entry(body)]);
    Told::Written(entries, Asked::new(left, here.is_end()))
}

/// The marks the page showed when the knife went in: the plan may have moved since on another device.
fn shown_marks(reading: &mut Reading<'_>) -> Option<(Length, Length)> {
    let mm = |reading: &mut Reading<'_>, name: &str| reading.number(name, 0.0..=3000.0).map(Length::from_mm);
    let (from, to) = (mm(reading, "from_mm"), mm(reading, "to_mm"));
    from.zip(to).filter(|(from, to)| to > from)
}

/// Cut, and not on the scale yet: the next mark follows, and the weight is asked for later.
fn cut_unweighed(reading: &mut Reading<'_>, found: &Found<'_>, shown: Option<(Length, Length)>) -> Told {
    let mut made = found.asked.made();
    match shown {
        Some(marks) => {
            made.push(marks);
            Told::Cut(Asked::new(made, false))
        }
        None => {
            reading.refuse("mass", "Nothing stands here. Put it on the scale.");
            Told::Written(None, found.asked.clone())
        }
    }
}

/// A cut that went elsewhere: its place, from the squared end, moves the far mark.
fn beside_the_mark(reading: &mut Reading<'_>, found: &Found<'_>, made: Option<Made>) -> Option<Made> {
    let at = reading.length("cut_at", 1.0..=3000.0);
    let (made, Some(at)) = (made?, at) else { return made };
    let zero = found.board.plan.as_ref().map_or(Length::default(), |plan| plan.zero);
    let to = at + zero;
    if to > made.from {
        return Some(Made { to, ..made });
    }
    reading.refuse("cut_at", "That lies before the last cut. Count from the squared end.");
    Some(made)
}

fn ask_about(reading: &mut Reading<'_>, visit: &Visit, found: &Found<'_>, mass: Mass) {
    let Some(next) = &found.board.next else { return };
    let Some(doubt) = doubt(mass, next.mass, next.from_fresh_face) else { return };
    let units = &visit.units;
    let (weight, thick) = (units.mass(mass, Grain::Reading), units.length(next.from_fresh_face));
    reading.refuse(
        "mass",
        match doubt {
            Doubt::TwoOnThePan => format!("{weight} for {thick}? Two pieces on the pan?"),
            Doubt::NotAllOfIt => format!("{weight} for {thick}? Does part of it lie beside the pan?"),
            Doubt::BesideTheMark(likely) => {
                format!(
                    "{weight} for {thick}? That would be {} thick: cut beside the mark?",
                    units.length(likely)
                )
            }
        },
    );
}

/// The name of the want a portion meets, where it has one.
fn want_name(found: &Found<'_>, want: usize) -> Option<String> {
    found.board.plan.as_ref().ok()?.asked.want.get(want)?.name.clone()
}

/// What the form starts from and shows.
pub(super) fn scale(found: &Found<'_>, visit: &Visit) -> Scale {
    let next = found.board.next.as_ref();
    let waiting: Vec<u32> = found.board.unweighed.iter().map(|made| made.n).collect();
    let n = waiting.first().copied().or(next.map(|next| next.made.n));
    let after_last = found.piece.portions.keys().next_back().map_or(1, |n| n + 1);
    Scale {
        n: n.unwrap_or(after_last),
        waiting,
        next: next.map(|next| next.made.n),
        marks: next.map(|next| (next.made.from.mm(), next.made.to.mm())),
        twin_of: found.piece.portions.keys().next_back().copied(),
        is_twin: next.is_some_and(|next| next.twin.is_some()),
        unit: if visit.units.pounds { "oz" } else { "g" },
        length: if visit.units.length == quantity::LengthUnit::Inch { "in" } else { "mm" },
    }
}

pub(super) fn draw(view: &View, scale: &Scale, typed: &Typed) -> Markup {
    let fresh = Typed::default();
    let typed = typed.of(WEIGH, &fresh);
    let asked = typed.wrong("mass").is_some_and(|words| words.ends_with('?'));
    let label = format!("Portion {} weighs", scale.n);
    let beside = typed.wrong("cut_at").is_some() || typed.wrong("thickness").is_some();
    html! {
        form method="post" action=(view.to) id=(ID) data-entry autocomplete="off" class="weigh" {
            (hidden_id(typed, WEIGH))
            @if let Some((from, to)) = scale.marks {
                input type="hidden" name="from_mm" value=(from);
                input type="hidden" name="to_mm" value=(to);
            }
            (which(scale, typed))
            (Field::number("mass", &label).unit(scale.unit).unknown("not weighed").from_scale().draw(typed))
            @if asked {
                div class="acts" { button class="press" name="sure" value="yes" { "It is right, take it" } }
            }
            (keys())
            @if let Some(twin) = scale.twin_of {
                label class="one" {
                    input type="checkbox" name="twin" value=(twin) data-key="t" checked[scale.is_twin];
                    "Twin of " (twin)
                }
            }
            details class="unfold" id="beside" open[beside] {
                summary { "Cut beside the mark" }
                div class="fields" {
                    (Field::number("cut_at", "Cut at, from the squared end").unit(scale.length).unknown("at the mark").draw(typed))
                    (Field::number("thickness", "Thick, measured").unit(scale.length).unknown("not measured").draw(typed))
                }
            }
            @for words in typed.whole() { p class="wrong" role="alert" { (words) } }
        }
    }
}

/// Which portion lies on the scale, where several are cut.
fn which(scale: &Scale, typed: &Typed) -> Markup {
    let chosen = typed.get("n").and_then(|n| n.parse().ok()).unwrap_or(scale.n);
    let all: Vec<u32> = scale.waiting.iter().copied().chain(scale.next).collect();
    html! {
        @if scale.waiting.is_empty() {
            input type="hidden" name="n" value=(scale.n);
        } @else {
            fieldset class="pick" {
                legend { "On the scale is portion" }
                @for n in all { label { input type="radio" name="n" value=(n) checked[n == chosen]; (n) } }
            }
        }
    }
}

/// Large keys for wet hands, where script puts their digits into the field.
fn keys() -> Markup {
    html! {
        div class="keys" role="group" aria-label="Digits" {
            @for digit in ["1", "2", "3", ".", "4", "5", "6", "0", "7", "8", "9"] {
                button class="press" type="button" data-digit=(digit) { (digit) }
            }
            button class="press" type="button" data-digit="" aria-label="Clear" { "C" }
        }
    }
}
