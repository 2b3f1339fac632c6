//! The plan as JSON.

use crate::Flags;
use crate::answer::{banded, narrow_json, number};
use crate::unknown::assumed;
use quantity::Length;
use roll::{Conflict, GivenUp, KnifePlan, Missed, Portion};
use serde_json::{Map, Value, json};

pub(super) fn of(plan: &KnifePlan, names: &[&str], flags: &Flags) -> Value {
    let mut json = Map::new();
    let mut put = |key: &str, value: Value| json.insert(key.to_owned(), value);
    put("marks_mm", plan.marks.iter().map(|mark| mm(*mark)).collect());
    put("portions", plan.portions.iter().map(|portion| portion_json(portion, names, flags)).collect());
    put("squared_off_g", number(plan.squared_off.g(), 2));
    put("left_over_g", number(plan.left_over.g(), 2));
    let gaps = plan.left_over_at.iter();
    put("left_over_at", gaps.map(|(from, to)| json!({ "from_mm": mm(*from), "to_mm": mm(*to) })).collect());
    put("kerf_g", number(plan.kerf.g(), 2));
    put("balance_g", number(plan.balance.g(), 2));
    put("given_up", plan.given_up.iter().map(|given| given_up(given, names)).collect());
    put("conflicts", plan.conflicts.iter().map(|conflict| conflict_json(conflict, names)).collect());
    put("next_mark_mm", plan.next.map_or(Value::Null, |next| mm(next.mark)));
    put("next_from_fresh_face_mm", plan.next.map_or(Value::Null, |next| mm(next.from_fresh_face)));
    put("piece_mass_g", banded(&plan.mass.times(1000.0), 1, flags.exact));
    put("piece_length_mm", mm(plan.length));
    put("by_muscle", json!(plan.not_a_roll));
    put("assumed", plan.assumed.iter().filter_map(assumed).collect());
    put("narrow", if flags.exact { json!([]) } else { narrow_json(&plan.narrow) });
    Value::Object(json)
}

fn mm(length: Length) -> Value {
    number(length.mm(), 2)
}

fn portion_json(portion: &Portion, names: &[&str], flags: &Flags) -> Value {
    let mut json = Map::new();
    let mut put = |key: &str, value: Value| json.insert(key.to_owned(), value);
    put("n", json!(portion.number));
    put("from_mm", mm(portion.from));
    put("to_mm", mm(portion.to));
    put("thickness_mm", mm(portion.thickness));
    put("thin_side_mm", mm(portion.thin_side));
    put("mass_g", banded(&portion.mass.times(1000.0), 1, flags.exact || portion.weighed));
    put("weighed", json!(portion.weighed));
    put("want", json!(portion.want.and_then(|want| names.get(want))));
    if let Some(share) = portion.cap_share {
        put("cap_share", number(share, 4));
    }
    Value::Object(json)
}

fn given_up(given: &GivenUp, names: &[&str]) -> Value {
    let (by, unit, portion) = match given.missed {
        Missed::Portions(count) => (json!(count), "portions", Value::Null),
        Missed::Thickness { portion, by } => (number(by.mm(), 2), "mm", json!(portion)),
        Missed::Mass { portion, by } => (number(by.g(), 1), "g", json!(portion)),
    };
    json!({ "want": names.get(given.want), "missed_by": by, "unit": unit, "portion": portion })
}

fn conflict_json(conflict: &Conflict, names: &[&str]) -> Value {
    let (thin, thick) = conflict.thickness_runs;
    let (light, heavy) = conflict.weight_runs;
    json!({
        "want": names.get(conflict.want),
        "keep_mass_g": number(conflict.weight.g(), 1),
        "thinnest_mm": mm(thin),
        "thickest_mm": mm(thick),
        "keep_thickness_mm": mm(conflict.thickness),
        "lightest_g": number(light.g(), 1),
        "heaviest_g": number(heavy.g(), 1),
    })
}
