//! Heaps at the end of the board: ends, trim, fat, bone.

use maud::{Markup, html};
use record::{PartName, PartWeighed, Use};
use uuid::Uuid;

use super::view::{Heaps, View};
use crate::parts::{Choice, Field, Typed, hidden_id};
use crate::reading::{Reading, Size};

/// The form's name.
pub(super) const HEAP: &str = "heap";
/// The id the foot button names.
pub(super) const ID: &str = "heap";

pub(super) fn read(reading: &mut Reading<'_>, piece: Uuid) -> Option<PartWeighed> {
    let part = reading.choice("part", PartName::of);
    let part = reading.needs("part", part, "Say which heap it is.");
    let mass = reading.mass("mass", Size::Small, 0.1..=100_000.0);
    let mass = reading.needs("mass", mass, "Put the heap on the scale.");
    let keep = reading.choice("use", Use::of);
    let (part, mass) = reading.is_good().then_some(part.zip(mass)).flatten()?;
    let usual = if is_waste(part) { Use::Waste } else { Use::Keep };
    Some(PartWeighed { piece, part, mass, keep: keep.unwrap_or(usual), value: None, name: None })
}

/// What is thrown away unless somebody says otherwise.
pub(super) fn is_waste(part: PartName) -> bool {
    matches!(part, PartName::SilverSkin | PartName::Bone | PartName::Purge)
}

pub(super) fn draw(view: &View, heaps: &Heaps, typed: &Typed) -> Markup {
    let fresh = Typed::default();
    let typed = typed.of(HEAP, &fresh);
    let options: Vec<(&str, &str)> =
        heaps.options.iter().map(|(value, words)| (*value, words.as_str())).collect();
    let part = Choice { name: "part", label: "Heap", options: &options, start: heaps.start };
    let keep = Choice {
        name: "use",
        label: "What for",
        options: &[("", "as usual"), ("keep", "kept"), ("waste", "thrown away")],
        start: "",
    };
    html! {
        form method="post" action=(view.to) id=(ID) data-entry autocomplete="off" class="weigh" {
            (hidden_id(typed, HEAP))
            (part.pick(typed))
            (Field::number("mass", "It weighs").unit(heaps.unit).unknown("not weighed").from_scale().draw(typed))
            (keep.pick(typed))
            @for words in typed.whole() { p class="wrong" role="alert" { (words) } }
        }
    }
}
