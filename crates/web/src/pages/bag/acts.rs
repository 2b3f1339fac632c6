//! What can be written down of a pack: taken out, put somewhere, found loose, thrown away.

use maud::{Markup, html};
use record::{Discarded, Entry, LeakerFound, Method, Moved, TakenOut};
use uuid::Uuid;

use super::view::View;
use crate::house::Visit;
use crate::pages::shared::places::says_freezing;
use crate::parts::{Choice, Field, Typed, entry_form};
use crate::reading::Reading;
use crate::sent::Sent;

/// It leaves the store.
pub(crate) const OUT: &str = "out";
/// It goes to another place, or back.
pub(super) const MOVE: &str = "move";
/// Its bag is loose.
pub(super) const LOOSE: &str = "loose";
/// It is thrown away.
pub(super) const BIN: &str = "bin";

pub(super) fn read(reading: &mut Reading<'_>, visit: &Visit, pack: Uuid, sent: &Sent) -> Option<Vec<Entry>> {
    match sent.form() {
        OUT => taken_out(reading, pack),
        MOVE => {
            let place = reading.text("other").or_else(|| reading.text("place"));
            let place = reading.needs("place", place, "Say where it goes.")?;
            let by_place = says_freezing(visit, &place);
            let frozen = reading.choice("frozen", |word| match word {
                "yes" => Some(Some(true)),
                "no" => Some(Some(false)),
                "as-set" => Some(None),
                _ => None,
            });
            let spot = reading.text("spot");
            let frozen = frozen.flatten().or(by_place);
            let entry = reading.entry(Moved { what: pack, place, spot, frozen });
            reading.is_good().then(|| vec![entry])
        }
        LOOSE => {
            let note = reading.text("note");
            Some(vec![reading.entry(LeakerFound { pack, note })])
        }
        BIN => {
            let because = reading.text("because");
            let because =
                reading.needs("because", because, "One word is enough: freezer burn, warm, lost.")?;
            Some(vec![reading.entry(Discarded { what: pack, because, mass: None })])
        }
        _ => {
            reading.refuse_whole(
                "This form is not one of the pack’s. Open the page anew and send it once more.",
            );
            None
        }
    }
}

/// A pack leaves the store, by the form of its page or the first button of the store.
pub(crate) fn taken_out(reading: &mut Reading<'_>, pack: Uuid) -> Option<Vec<Entry>> {
    let method = reading.choice("method", Method::of).unwrap_or(Method::Fridge);
    let place = reading.text("place").unwrap_or_else(|| method_place(method).to_owned());
    let temperature = reading.temperature("place_c", -10.0..=70.0);
    if !reading.is_good() {
        return None;
    }
    Some(vec![reading.entry(TakenOut { packs: vec![pack], place, method, temperature })])
}

fn method_place(method: Method) -> &'static str {
    match method {
        Method::Fridge => "fridge",
        Method::ColdWater | Method::WarmWater => "sink",
        Method::FromFrozen => "kitchen",
        Method::Counter => "counter",
    }
}

/// Ways to thaw, the gentle one first. Common practice and official advice leave the counter out.
const METHODS: [(&str, &str); 4] = [
    ("fridge", "in the fridge"),
    ("cold-water", "in cold water"),
    ("from-frozen", "straight to the heat"),
    ("counter", "on the counter"),
];

pub(super) fn draw(view: &View, typed: &Typed) -> Markup {
    html! {
        @if view.can_take_out { (take_out(view, typed)) }
        @if view.is_there {
            (unfold(MOVE, if view.can_take_out { "Put somewhere else" } else { "Put back" }, typed, put(view, typed)))
            @if !view.is_loose { (unfold(LOOSE, "Its bag is loose", typed, loose(view, typed))) }
            (unfold(BIN, "Throw it away", typed, bin(view, typed)))
        }
    }
}

fn unfold(form: &str, words: &str, typed: &Typed, body: Markup) -> Markup {
    html! {
        details class="unfold" id=(form) open[typed.form() == form] {
            summary { (words) }
            (body)
        }
    }
}

fn take_out(view: &View, typed: &Typed) -> Markup {
    let fresh = Typed::default();
    let typed = typed.of(OUT, &fresh);
    let method = Choice { name: "method", label: "It thaws", options: &METHODS, start: "fridge" };
    let fields = html! { (method.pick(typed)) };
    let button = html! { button class="press first" data-key="next" { "Take " (view.name) " out" } };
    entry_form(&view.to, typed, OUT, fields, button)
}

fn put(view: &View, typed: &Typed) -> Markup {
    let fresh = Typed::default();
    let typed = typed.of(MOVE, &fresh);
    let places: Vec<(&str, &str)> =
        view.places.iter().map(|place| (place.name.as_str(), place.name.as_str())).collect();
    let start = view.places.first().map_or("", |place| place.name.as_str());
    let place = Choice { name: "place", label: "Put in", options: &places, start };
    let frozen = Choice {
        name: "frozen",
        label: "Does it freeze there?",
        options: &[("as-set", "as that place does"), ("yes", "yes"), ("no", "no")],
        start: "as-set",
    };
    let fields = html! {
        div class="fields" {
            (place.list(typed))
            (Field::text("other", "Another place").unknown("none of these").draw(typed))
            (Field::text("spot", "Where in there").unknown("not said").draw(typed))
        }
        (frozen.pick(typed))
    };
    entry_form(&view.to, typed, MOVE, fields, html! { button class="press" { "It lies there" } })
}

fn loose(view: &View, typed: &Typed) -> Markup {
    let fresh = Typed::default();
    let typed = typed.of(LOOSE, &fresh);
    let fields = html! {
        div class="fields" { (Field::text("note", "How it looks").unknown("not said").wide().draw(typed)) }
    };
    entry_form(&view.to, typed, LOOSE, fields, html! { button class="press" { "Loose" } })
}

fn bin(view: &View, typed: &Typed) -> Markup {
    let fresh = Typed::default();
    let typed = typed.of(BIN, &fresh);
    let fields = html! {
        div class="fields" { (Field::text("because", "Why").wide().required().draw(typed)) }
    };
    entry_form(&view.to, typed, BIN, fields, html! { button class="press" { "Thrown away" } })
}
