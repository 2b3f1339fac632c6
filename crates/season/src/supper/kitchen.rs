//! Where a piece is cooked in this kitchen: at its supper, else as at the last one, else as most do.

use super::asked::{first_of, hot_place, low_place};
use band::Value;
use dinner::{Holds, Hot, Low};
use jiff::ZonedDateTime;
use record::{Equipment, EquipmentKind, State, Supper};

/// The low and the hot place of a kitchen, and what it calls them.
#[derive(Clone, Debug, PartialEq)]
pub struct Kitchen {
    /// The low place in air.
    pub low: Low,
    /// Its name.
    pub low_name: String,
    /// The hot place.
    pub hot: Hot,
    /// Its name.
    pub hot_name: String,
    /// Whether the supper's low place is a bath.
    pub in_bath: bool,
    /// Whether nobody said so: an oven as most have it.
    pub is_assumed: bool,
}

/// °C of a low oven, where no supper says otherwise (common practice without a source).
const USUAL_DIAL_C: f64 = 110.0;

/// The places of a supper; what it leaves out, as at the latest supper that names it.
pub(crate) fn kitchen(state: &State, supper: Option<&Supper>, now: &ZonedDateTime) -> Kitchen {
    let mut latest: Vec<&Supper> = state.suppers().collect();
    latest.sort_by_key(|other| std::cmp::Reverse(other.planned.serve.at));
    let suppers: Vec<&Supper> = supper.into_iter().chain(latest).collect();
    let of = |is: fn(EquipmentKind) -> bool| -> Option<&Equipment> {
        suppers.iter().find_map(|supper| first_of(&supper.planned.equipment, is))
    };
    let oven = of(|kind| kind == EquipmentKind::Oven);
    let hot = of(|kind| matches!(kind, EquipmentKind::Pan | EquipmentKind::Grill));
    let bath =
        |supper: &Supper| first_of(&supper.planned.equipment, |kind| kind == EquipmentKind::Bath).is_some();
    Kitchen {
        low: oven.map_or_else(usual_oven, |oven| low_place(state, oven, now)),
        low_name: oven.map_or_else(|| "oven".to_owned(), |oven| oven.name.clone()),
        hot: hot.map_or_else(usual_pan, hot_place),
        hot_name: hot.map_or_else(|| "pan".to_owned(), |hot| hot.name.clone()),
        in_bath: supper.is_some_and(bath),
        is_assumed: oven.is_none(),
    }
}

fn usual_oven() -> Low {
    Low { medium: "oven".to_owned(), medium_c: Value::Known(USUAL_DIAL_C), probed: false, holds: Holds::All }
}

fn usual_pan() -> Hot {
    Hot { medium: "pan".to_owned(), medium_c: Value::Unknown, holds: Holds::All }
}
