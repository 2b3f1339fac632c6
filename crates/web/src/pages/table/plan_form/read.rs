//! The form read: what it says as a supper's plan.

use jiff::ToSpan;
use record::{At, Equipment, EquipmentKind, Route, Seat, Serve, Supper, SupperPlanned, Wish};
use uuid::Uuid;

use super::{HOT, LOW, MOST_SEATS};
use crate::house::Visit;
use crate::reading::Reading;
use crate::sent::Sent;

/// The plan a sent form describes; nothing where something stands against it, which then stands under its field.
pub(in crate::pages::table) fn read(
    form: &mut Reading<'_>,
    sent: &Sent,
    visit: &Visit,
    words: &[String],
    replaces: Option<&Supper>,
) -> Option<SupperPlanned> {
    let serve = form.hour("serve");
    let serve = form.needs("serve", serve, "When shall it be on the plate?");
    let portions = set_aside(sent, visit);
    let seat = if replaces.is_some() { seated(form, visit, &portions) } else { counted(form, words) };
    if seat.is_empty() {
        form.refuse("seats", "Nobody sits there yet. Give one or more.");
    }
    let low = low(form, replaces);
    let hot = hot(form, replaces);
    let serve = serve?;
    Some(SupperPlanned {
        supper: replaces.map(|supper| supper.id),
        day: day_of(visit, serve),
        serve: Serve { at: serve, within_min: within_min(visit, replaces) },
        seat,
        portions,
        equipment: others(replaces).chain([low?, hot?]).collect(),
        route: Route::LowThenSear,
        chance: replaces.and_then(|supper| supper.planned.chance),
    })
}

/// The kitchen's day an hour belongs to: the small hours belong to the evening before.
pub(in crate::pages::table) fn day_of(visit: &Visit, serve: At) -> jiff::civil::Date {
    let at = visit.zoned(serve);
    let ends = visit.settings().day_ends().unwrap_or_else(|| jiff::civil::time(4, 0, 0, 0));
    if at.time() < ends { at.date().checked_sub(1.day()).unwrap_or_else(|_| at.date()) } else { at.date() }
}

fn within_min(visit: &Visit, replaces: Option<&Supper>) -> f64 {
    let set = visit.settings().number("supper.within_min");
    replaces.map(|supper| supper.planned.serve.within_min).or(set).unwrap_or(10.0)
}

/// Where to warm: as it stood, with what the form says of it.
fn low(form: &mut Reading<'_>, replaces: Option<&Supper>) -> Option<Equipment> {
    let medium = form.choice("low", |word| LOW.iter().find(|(id, _)| *id == word).map(|(id, _)| *id));
    let degree = form.temperature("low_c", 40.0..=200.0);
    let degree = form.needs("low_c", degree, "Give the dial’s degree.");
    let (medium, degree) = (medium?, degree?);
    let kind = if medium == "water-bath" { EquipmentKind::Bath } else { EquipmentKind::Oven };
    let before = replaces.and_then(|supper| super::low(&supper.planned.equipment));
    let name = match medium {
        "water-bath" => "bath",
        "smoker" => "smoker",
        _ => "oven",
    };
    let same = before.filter(|before| before.kind == kind).cloned();
    let item = same.unwrap_or_else(|| bare(name, kind));
    Some(Equipment { medium: Some(medium.to_owned()), temperature: Some(degree), ..item })
}

/// Where to sear, likewise.
fn hot(form: &mut Reading<'_>, replaces: Option<&Supper>) -> Option<Equipment> {
    let medium = form.choice("hot", |word| HOT.iter().find(|(id, _)| *id == word).map(|(id, _)| *id));
    let places = form.number("hot_places", 1.0..=1000.0).map(|count| count as u32);
    let medium = medium?;
    let kind = if medium == "grill" { EquipmentKind::Grill } else { EquipmentKind::Pan };
    let before = replaces.and_then(|supper| super::hot(&supper.planned.equipment));
    let same = before.filter(|before| before.kind == kind).cloned();
    let item = same.unwrap_or_else(|| bare(medium, kind));
    Some(Equipment { medium: Some(medium.to_owned()), places, ..item })
}

fn bare(name: &str, kind: EquipmentKind) -> Equipment {
    Equipment { name: name.to_owned(), kind, medium: None, temperature: None, area_cm2: None, places: None }
}

/// What else the plan that stands names: where to rest, a second grill.
fn others(replaces: Option<&Supper>) -> impl Iterator<Item = Equipment> {
    let equipment = replaces.map_or(&[][..], |supper| &supper.planned.equipment);
    let (low, hot) = (super::low(equipment), super::hot(equipment));
    let is_other = move |item: &&Equipment| Some(*item) != low && Some(*item) != hot;
    equipment.iter().filter(is_other).cloned().collect::<Vec<_>>().into_iter()
}

/// Portions of the packs and loose portions that were ticked, each once.
fn set_aside(sent: &Sent, visit: &Visit) -> Vec<Uuid> {
    let state = &visit.state;
    let id = |text: &str| Uuid::parse_str(text).ok();
    let packed = sent.all("pack").filter_map(id).filter_map(|id| state.pack(id));
    let mut portions: Vec<Uuid> =
        packed.flat_map(|pack| state.portions_in(pack).map(|portion| portion.id)).collect();
    for loose in sent.all("portion").filter_map(id).filter(|id| state.portion(*id).is_some()) {
        if !portions.contains(&loose) {
            portions.push(loose);
        }
    }
    portions
}

/// Seats without names, so many of each doneness.
fn counted(form: &mut Reading<'_>, words: &[String]) -> Vec<Seat> {
    let mut seats = Vec::new();
    for (place, word) in words.iter().enumerate() {
        let count = form.number(&format!("count_{place}"), 0.0..=MOST_SEATS as f64).unwrap_or(0.0);
        let seat = Seat { name: None, wish: Wish::Doneness(word.clone()), portion: None };
        seats.extend(std::iter::repeat_n(seat, count as usize));
    }
    seats
}

/// Seats row by row; a row without a wish is nobody's. A portion that is no longer set aside is nobody's own.
fn seated(form: &mut Reading<'_>, visit: &Visit, portions: &[Uuid]) -> Vec<Seat> {
    let mut seats: Vec<Seat> = Vec::new();
    for place in 0..=MOST_SEATS {
        let wish = match form.text(&format!("seat_{place}_wish")).as_deref() {
            None => continue,
            Some("?") => Wish::Unknown,
            Some(word) => wish_of(word, visit),
        };
        let name = form.text(&format!("seat_{place}_name"));
        let own = form.text(&format!("seat_{place}_portion")).and_then(|id| Uuid::parse_str(&id).ok());
        let own = own.filter(|id| portions.contains(id));
        if let Some(twice) = own.filter(|id| seats.iter().any(|seat| seat.portion == Some(*id))) {
            let name = visit.state.portion(twice).map(record::Portion::name).unwrap_or_default();
            form.refuse("seats", format!("{name} is meant for two seats. Give one of them another."));
        }
        seats.push(Seat { name, wish, portion: own });
    }
    seats
}

/// A word of the scale, or a core as it stood there before.
fn wish_of(word: &str, visit: &Visit) -> Wish {
    let degree = quantity::read_temperature(word, visit.units.temperature).ok();
    degree.map_or_else(|| Wish::Doneness(word.to_owned()), Wish::Core)
}
