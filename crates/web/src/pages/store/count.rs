//! Counting a place: one tap a pack, the rest as listed.

use maud::{Markup, html};
use record::Counted;
use uuid::Uuid;

use super::view::{PlaceView, View};
use crate::house::Visit;
use crate::parts::{Field, Typed, entry_form};
use crate::reading::Reading;
use crate::sent::Sent;

/// The form's name.
pub(super) const COUNT: &str = "count";

/// Packs ticked as not here are missing; the rest of the list, and those found beside it, are here.
pub(super) fn read(reading: &mut Reading<'_>, visit: &Visit, sent: &Sent) -> Option<Counted> {
    let place = reading.text("place");
    let place = reading.needs("place", place, "Say which place was counted.")?;
    let id = |text: &str| Uuid::parse_str(text).ok().filter(|id| visit.state.pack(*id).is_some());
    let listed: Vec<Uuid> = sent.all("listed").filter_map(id).collect();
    let missing: Vec<Uuid> =
        sent.all("missing").filter_map(id).filter(|pack| listed.contains(pack)).collect();
    let mut here: Vec<Uuid> = listed.into_iter().filter(|pack| !missing.contains(pack)).collect();
    for name in names(&reading.text("also").unwrap_or_default()) {
        match pack_called(visit, &name) {
            Some(pack) if !here.contains(&pack) => here.push(pack),
            Some(_) => {}
            None => {
                reading.refuse(
                    "also",
                    format!("“{name}” is no pack. Write it as its label has it: TARN 11+12."),
                );
                return None;
            }
        }
    }
    Some(Counted { place, here, missing })
}

/// Names between commas or line ends.
fn names(text: &str) -> Vec<String> {
    text.split([',', ';', '\n']).map(str::trim).filter(|name| !name.is_empty()).map(str::to_owned).collect()
}

/// A pack as people write it: `TARN 11+12`, `tarn-11-12`, `Tarn trim`.
pub(super) fn pack_called(visit: &Visit, name: &str) -> Option<Uuid> {
    let slug: String =
        name.to_lowercase().chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
    let slug = slug.split('-').filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-");
    visit.state.pack_of(&slug).map(|pack| pack.id)
}

pub(super) fn draw(view: &View, place: &PlaceView, name: &str, typed: &Typed) -> Markup {
    let fresh = Typed::default();
    let mine = typed.form() == COUNT && typed.get("place") == Some(name);
    let typed = if mine { typed } else { &fresh };
    let fields = html! {
        input type="hidden" name="place" value=(name);
        fieldset class="count" {
            legend { "Tick what is not here" }
            @for line in &place.lines {
                input type="hidden" name="listed" value=(line.id);
                label class="one" {
                    input type="checkbox" name="missing" value=(line.id);
                    span { b { (line.name) } ", " (line.mass) }
                }
            }
        }
        div class="fields" {
            (Field::text("also", "Here and not on the list").unknown("nothing else").wide().draw(typed))
        }
    };
    let buttons = html! { button class="press first" { "Counted. Rest as listed" } };
    entry_form(&view.to, typed, COUNT, fields, buttons)
}
