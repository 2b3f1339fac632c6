//! Sealing a bag: the form and how it is read.

use maud::{Markup, html};
use quantity::{Grain, Mass};
use record::{Contents, Entry, Moved, PackSealed, State, Wrap};
use uuid::Uuid;

use super::view::{Bagging, View};
use crate::house::Visit;
use crate::pages::shared::places::says_freezing;
use crate::parts::{Choice, Field, Typed, hidden_id};
use crate::reading::{Reading, Size};
use crate::sent::{Sent, nth_id};

/// Portions into a bag.
pub(super) const SEAL: &str = "seal";
/// A heap into a bag.
pub(super) const HEAP: &str = "seal-heap";
/// The id that buttons outside the form name.
pub(super) const ID: &str = "seal";

pub(super) fn read(reading: &mut Reading<'_>, visit: &Visit, piece: Uuid, sent: &Sent) -> Option<Vec<Entry>> {
    let contents = contents(reading, &visit.state, piece, sent)?;
    let meat = mass_of(&visit.state, &contents);
    let with_bag = reading.mass("with_bag", Size::Small, 1.0..=100_000.0);
    let with_bag = with_bag.filter(|with_bag| fits(reading, visit, meat, *with_bag));
    let place = reading.text("place").filter(|place| place != LATER);
    let spot = reading.text("spot");
    let freezes = place.as_deref().and_then(|place| says_freezing(visit, place));
    // What a sealing cannot say, where in there and whether it freezes, is said by putting it there.
    let put = place.clone().filter(|_| spot.is_some() || freezes.is_some());
    let body = PackSealed {
        contents,
        mass: None,
        with_bag,
        bag: None,
        wrap: reading.choice("wrap", Wrap::of).unwrap_or(Wrap::Vacuum),
        sealed: reading.number("sealed", 1.0..=2.0).map(|seals| seals.round() as u32),
        bag_lot: reading.text("bag_lot"),
        salted: reading.text("salted").map(|salted| salted == "yes"),
        place: place.filter(|_| put.is_none()),
    };
    if !reading.is_good() {
        return None;
    }
    let sealed = reading.entry(body);
    let moved = put.map(|place| {
        let moved = Moved { what: sealed.id, place, spot, frozen: freezes };
        Entry::new(nth_id(sealed.id, 1), sealed.at, moved)
    });
    Some(std::iter::once(sealed).chain(moved).collect())
}

/// The choice of leaving a bag where it is.
const LATER: &str = "-";

fn contents(reading: &mut Reading<'_>, state: &State, piece: Uuid, sent: &Sent) -> Option<Contents> {
    let id = |text: &str| Uuid::parse_str(text).ok();
    if sent.form() == HEAP {
        let part =
            sent.get("part").and_then(id).filter(|part| state.part(*part).is_some_and(|p| p.piece == piece));
        if part.is_none() {
            reading.refuse_whole("That heap is not one of this piece. Open the page anew.");
        }
        return part.map(Contents::Part);
    }
    let portions: Vec<Uuid> = sent
        .all("portion")
        .filter_map(id)
        .filter(|p| state.portion(*p).is_some_and(|p| p.piece == piece))
        .collect();
    if portions.is_empty() {
        reading.refuse_whole("No portion is in that bag. Open the page anew.");
        return None;
    }
    Some(Contents::Portions(portions))
}

fn mass_of(state: &State, contents: &Contents) -> Mass {
    match contents {
        Contents::Portions(ids) => {
            ids.iter().filter_map(|id| state.portion(*id)).map(|portion| portion.weighed.mass).sum()
        }
        Contents::Part(id) => state.part(*id).map_or(Mass::default(), |part| part.weighed.mass),
    }
}

/// A bag of more than this is another pack on the pan (common practice: the largest household bags weigh 40 g).
const LARGEST_BAG_G: f64 = 120.0;

fn fits(reading: &mut Reading<'_>, visit: &Visit, meat: Mass, with_bag: Mass) -> bool {
    let shown = |mass: Mass| visit.units.mass(mass, Grain::Reading);
    let slack = record::scale_error(meat, visit.settings().scale_division()) * 2.0;
    if with_bag < meat - slack {
        let words =
            format!("{} with its bag, but {} of meat went in. Weigh it again.", shown(with_bag), shown(meat));
        reading.refuse("with_bag", words);
        return false;
    }
    if (with_bag - meat).g() > LARGEST_BAG_G {
        let words =
            format!("{} for {} of meat and a bag? Something else on the pan?", shown(with_bag), shown(meat));
        reading.refuse("with_bag", words);
        return false;
    }
    true
}

/// The form of a bag of portions; its button stands with the answer.
pub(super) fn draw(view: &View, bagging: &Bagging, typed: &Typed) -> Markup {
    let fresh = Typed::fresh(&bagging.start);
    let typed = typed.of(SEAL, &fresh);
    html! {
        form method="post" action=(view.seal_to) id=(ID) data-entry autocomplete="off" {
            (hidden_id(typed, SEAL))
            @for portion in &bagging.portions { input type="hidden" name="portion" value=(portion); }
            (fields(view, typed, true))
            @for words in typed.whole() { p class="wrong" role="alert" { (words) } }
        }
    }
}

/// The form of one heap.
pub(super) fn draw_heap(view: &View, part: &str, typed: &Typed) -> Markup {
    let fresh = Typed::fresh(&view.bag_start);
    let mine = typed.form() == HEAP && typed.get("part") == Some(part);
    let typed = if mine { typed } else { &fresh };
    html! {
        form method="post" action=(view.to) data-entry autocomplete="off" {
            (hidden_id(typed, HEAP))
            input type="hidden" name="part" value=(part);
            (fields(view, typed, false))
            @for words in typed.whole() { p class="wrong" role="alert" { (words) } }
            div class="acts" { button class="press" { "Sealed" } }
        }
    }
}

fn fields(view: &View, typed: &Typed, portions: bool) -> Markup {
    let place = Choice { name: "place", label: "Put in", options: &view.places(), start: &view.place };
    let seals =
        Choice { name: "sealed", label: "Sealed", options: &[("1", "once"), ("2", "twice")], start: "1" };
    let salt =
        Choice { name: "salted", label: "Salt", options: &[("no", "none"), ("yes", "salted")], start: "no" };
    html! {
        div class="fields" {
            (Field::number("with_bag", "Weight with bag").unit(view.unit).unknown("not read").from_scale().draw(typed))
            (Field::text("bag_lot", "Bag lot").unknown("not known").draw(typed))
        }
        (seals.pick(typed))
        @if portions { (salt.pick(typed)) }
        div class="fields" {
            div class="whole" { (place.list(typed)) }
            (Field::text("spot", "Where in there").unknown("not said").draw(typed))
        }
    }
}
