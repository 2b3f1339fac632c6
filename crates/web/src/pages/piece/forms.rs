//! What can be written down on a piece: bag off, a heap, what its label says.

use jiff::civil::Date;
use maud::{Markup, html};
use record::{
    Corrected, DateKind, Entry, Lip, PackerDate, PartName, PartWeighed, PieceMeasured, Price, Replacement,
    Trim, Use,
};
use uuid::Uuid;

use super::view::View;
use crate::house::Visit;
use crate::pages::shared::{LIPS, TRIMS, date_on_bag};
use crate::parts::{Choice, Field, Typed, entry_form};
use crate::reading::{Reading, Size};

const BAG: &str = "bag";
const HEAP: &str = "heap";
const LABEL: &str = "label";

const PARTS: [(&str, &str); 8] = [
    ("lean-trim", "lean trim"),
    ("clean-fat", "clean fat"),
    ("silver-skin", "silver skin, kernel"),
    ("ends-first", "end, first"),
    ("ends-last", "end, last"),
    ("bone", "bone"),
    ("cap", "cap"),
    ("other", "something else"),
];

/// Reads the form of that name into the entries it makes.
pub(super) fn read(reading: &mut Reading<'_>, visit: &Visit, piece: Uuid, form: &str) -> Option<Vec<Entry>> {
    match form {
        BAG => bag(reading, piece).map(|body| vec![reading.entry(body)]),
        HEAP => heap(reading, visit, piece).map(|body| vec![reading.entry(body)]),
        LABEL => label(reading, visit, piece).map(|body| vec![reading.entry(body)]),
        _ => {
            reading.refuse_whole(
                "This form is not one of the piece’s. Open the page anew and send it once more.",
            );
            None
        }
    }
}

fn bag(reading: &mut Reading<'_>, piece: Uuid) -> Option<PieceMeasured> {
    let body = PieceMeasured {
        piece,
        bag_off: reading.mass("bag_off", Size::Large, 50.0..=200_000.0),
        on_board: None,
        purge: reading.mass("purge", Size::Small, 0.0..=20_000.0),
        length: reading.length("length", 20.0..=3000.0),
        slant_first: None,
        slant_last: None,
        core: reading.temperature("core", -60.0..=60.0),
        station: Vec::new(),
        from_end: None,
    };
    let nothing =
        body.bag_off.is_none() && body.purge.is_none() && body.length.is_none() && body.core.is_none();
    if nothing && reading.is_good() {
        reading.refuse_whole("Nothing was measured. One of the four is enough.");
    }
    reading.is_good().then_some(body)
}

fn heap(reading: &mut Reading<'_>, visit: &Visit, piece: Uuid) -> Option<PartWeighed> {
    let part = reading.choice("part", PartName::of);
    let part = reading.needs("part", part, "Say which heap it is.");
    let mass = reading.mass("mass", Size::Small, 0.1..=100_000.0);
    let mass = reading.needs("mass", mass, "Put the heap on the scale.");
    let keep = reading.choice("use", Use::of).unwrap_or(Use::Keep);
    let value = reading.money("value").map(|amount| per_mass(visit, amount));
    let name = reading.text("name");
    reading.is_good().then_some(())?;
    Some(PartWeighed { piece, part: part?, mass: mass?, keep, value, name })
}

/// What the label says, said later: the receipt is corrected, so that it counts as if it had stood there.
fn label(reading: &mut Reading<'_>, visit: &Visit, piece: Uuid) -> Option<Corrected> {
    let mut body = visit.state.piece(piece)?.received.clone();
    body.trim = reading.choice("trim", |word| unknown_or(word, Trim::of)).flatten();
    body.lip = reading.choice("lip", |word| unknown_or(word, Lip::of)).flatten();
    let kind = reading.choice("date_kind", |word| unknown_or(word, DateKind::of)).flatten();
    let day: Option<Date> = reading.date("date_day");
    body.date = match (kind, day) {
        (Some(kind), Some(day)) => Some(PackerDate { kind, day }),
        (None, Some(_)) => {
            reading.refuse("date_kind", "There are four different dates. Say which one this is.");
            None
        }
        (Some(_), None) => {
            reading.refuse("date_day", "Which day? Or set the date to “not on the bag”.");
            None
        }
        (None, None) => None,
    };
    body.counter_price = reading.money("counter").map(|amount| per_mass(visit, amount));
    body.shared_with = reading.text("shared_with");
    body.note = reading.text("note");
    let body = record::Body::from(body);
    let because = "what the label says, written later".to_owned();
    reading.is_good().then(|| Corrected { entry: piece, because, body: Some(Replacement::new(&body)) })
}

/// A price by the mass this kitchen buys in.
pub(crate) fn per_mass(visit: &Visit, amount: rust_decimal::Decimal) -> Price {
    if visit.units.pounds { Price::from_per_lb(amount) } else { Price::from_per_kg(amount) }
}

fn unknown_or<T>(word: &str, of: impl Fn(&str) -> Option<T>) -> Option<Option<T>> {
    if word == "unknown" { Some(None) } else { of(word).map(Some) }
}

/// The forms, each folded until it is wanted; the one that was refused stands open.
pub(super) fn draw(view: &View, typed: &Typed) -> Markup {
    let fresh = Typed::default();
    let label = Typed::fresh(&view.label);
    html! {
        (unfold(BAG, if view.is_cut { "Bag and core" } else { "Bag off, core, length" }, typed, !view.is_cut, bag_form(view, typed.of(BAG, &fresh))))
        (unfold(HEAP, "A heap of trim, fat or bone", typed, view.is_cut && view.ledger.figures.rows.len() < 3, heap_form(view, typed.of(HEAP, &fresh))))
        (unfold(LABEL, "What the label says", typed, false, label_form(view, typed.of(LABEL, &label))))
    }
}

fn unfold(form: &str, words: &str, typed: &Typed, open: bool, body: Markup) -> Markup {
    html! {
        details class="unfold" id=(form) open[open || typed.form() == form] {
            summary { (words) }
            (body)
        }
    }
}

fn bag_form(view: &View, typed: &Typed) -> Markup {
    let fields = html! {
        div class="fields" {
            (Field::number("bag_off", "Weight, bag off").unit(view.units.large).unknown("not weighed").draw(typed))
            (Field::number("purge", "Liquid in the bag").unit(view.units.small).unknown("not weighed").draw(typed))
            (Field::number("core", "Core").unit(view.units.degree).unknown("no probe").draw(typed))
            (Field::number("length", "Length").unit(view.units.length).unknown("not read").draw(typed))
        }
    };
    entry_form(
        &format!("/piece/{}", view.slug),
        typed,
        BAG,
        fields,
        html! { button class="press" { "Measured" } },
    )
}

fn heap_form(view: &View, typed: &Typed) -> Markup {
    let part = Choice { name: "part", label: "Heap", options: &PARTS, start: "lean-trim" };
    let keep = Choice {
        name: "use",
        label: "What for",
        options: &[("keep", "kept"), ("waste", "thrown away")],
        start: "keep",
    };
    let fields = html! {
        div class="fields" {
            (part.list(typed))
            (Field::number("mass", "Weight").unit(view.units.small).required().draw(typed))
        }
        (keep.pick(typed))
        div class="fields" {
            (Field::number("value", "It replaces").unit(&view.currency).unknown("not said").draw(typed))
            (Field::text("name", "Called").unknown("as above").draw(typed))
        }
    };
    entry_form(
        &format!("/piece/{}", view.slug),
        typed,
        HEAP,
        fields,
        html! { button class="press" { "Weighed" } },
    )
}

fn label_form(view: &View, typed: &Typed) -> Markup {
    let trim = Choice { name: "trim", label: "Trimmed how", options: TRIMS, start: "unknown" };
    let lip = Choice { name: "lip", label: "Lip", options: LIPS, start: "unknown" };
    let kind = date_on_bag("date_kind");
    let fields = html! {
        (trim.pick(typed))
        (lip.pick(typed))
        div class="fields" {
            (kind.list(typed))
            (Field::date("date_day", "That day").draw(typed))
            (Field::number("counter", "Counter, cut").unit(&view.currency).unknown("not seen").draw(typed))
            (Field::text("shared_with", "Shared with").unknown("nobody").draw(typed))
            (Field::note("note", "Note").draw(typed))
        }
    };
    entry_form(
        &format!("/piece/{}", view.slug),
        typed,
        LABEL,
        fields,
        html! { button class="press" { "Written" } },
    )
}
