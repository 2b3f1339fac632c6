//! The form that plans a supper, or plans it anew: hour, seats with wishes, what is set aside, what there is to cook on.

mod draft;
mod draw;
mod read;

pub(super) use draft::{Draft, draft};
pub(super) use draw::fields;
pub(super) use read::{day_of, read};

use record::{Equipment, EquipmentKind};

/// The form's name.
pub(super) const PLAN: &str = "plan";

/// The low places a kitchen may have, by catalogue name, and how a cook says them.
const LOW: [(&str, &str); 4] = [
    ("oven", "oven"),
    ("fan-oven", "oven with its fan on"),
    ("smoker", "smoker or covered grill"),
    ("water-bath", "water bath"),
];
/// The hot places.
const HOT: [(&str, &str); 2] = [("pan", "pan"), ("grill", "grill")];
/// Where nothing was planned yet: dial of the low place, °C.
const USUAL_DIAL_C: f64 = 110.0;
/// Rows of seats at most.
const MOST_SEATS: usize = 60;

/// The first place to warm in, of a supper's equipment.
fn low(equipment: &[Equipment]) -> Option<&Equipment> {
    equipment.iter().find(|item| matches!(item.kind, EquipmentKind::Oven | EquipmentKind::Bath))
}

/// The first place to sear on.
fn hot(equipment: &[Equipment]) -> Option<&Equipment> {
    equipment.iter().find(|item| matches!(item.kind, EquipmentKind::Pan | EquipmentKind::Grill))
}
