//! Heaps at the end of the board: ends, trim, fat, bone.

use maud::{Markup, html};
use quantity::{Grain, Mass};
use record::{PartName, PartWeighed, Use};
use uuid::Uuid;

use super::query::Found;
use super::view::{Heaps, View};
use crate::house::Visit;
use crate::pages::shared::part_name;
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

/// What the form starts from: the likeliest heap that is not weighed yet.
pub(super) fn start(found: &Found<'_>, visit: &Visit) -> Heaps {
    let ends =
        found.board.plan.as_ref().map_or(("first end".into(), "last end".into()), |plan| plan.ends.clone());
    let bone = found.piece.received.cut.contains("bone-in") || found.piece.received.cut.contains("t-bone");
    let mut parts = vec![
        PartName::EndsFirst,
        PartName::EndsLast,
        PartName::LeanTrim,
        PartName::CleanFat,
        PartName::SilverSkin,
        PartName::Cap,
        PartName::Bone,
        PartName::Other,
    ];
    if !bone {
        parts.retain(|part| *part != PartName::Bone);
    }
    let weighed = |part: PartName| found.board.heaps.iter().any(|(name, _)| *name == part);
    let likely = |part: &&PartName| !matches!(part, PartName::Cap | PartName::Other);
    let start =
        parts.iter().filter(likely).find(|part| !weighed(**part)).map_or("lean-trim", |part| part.word());
    let name = |part: PartName| match part {
        PartName::EndsFirst => format!("off the {}", ends.0),
        PartName::EndsLast => format!("off the {}", ends.1),
        other => part_name(other, None),
    };
    Heaps {
        options: parts
            .into_iter()
            .map(|part| {
                let sum: Mass =
                    found.board.heaps.iter().filter(|(name, _)| *name == part).map(|(_, mass)| *mass).sum();
                let weighed = if sum.g() > 0.0 {
                    format!(", {}", visit.units.mass(sum, Grain::Reading))
                } else {
                    String::new()
                };
                let bin = if is_waste(part) { " (bin)" } else { "" };
                (part.word(), format!("{}{bin}{weighed}", name(part)))
            })
            .collect(),
        start,
        unit: if visit.units.pounds { "oz" } else { "g" },
    }
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
