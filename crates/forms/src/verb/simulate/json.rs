//! The answer of `simulate` as JSON.

use super::run::{Outcome, Ran, StageOutcome};
use crate::Flags;
use crate::answer::{narrow_json, number, spread};
use crate::unknown::assumed;
use band::narrow;
use heat::{Layer, Moment};
use serde_json::{Map, Value, json};

type Get<T> = fn(&T) -> f64;

const SCALARS: [(&str, i32, Get<Outcome>); 10] = [
    ("time_s", 2, |member| member.time_s),
    ("centre_c", 3, |member| member.centre_c),
    ("surface_c", 3, |member| member.surface_c),
    ("mean_c", 3, |member| member.mean_c),
    ("peak_centre_c", 3, |member| member.peak_centre_c),
    ("peak_at_s", 2, |member| member.peak_at_s),
    ("heat_kj", 4, |member| member.heat_kj),
    ("mass_lost_g", 3, |member| member.mass_lost_g),
    ("grey_share", 4, |member| member.grey_share),
    ("ice_share", 5, |member| member.ice_share),
];

const STAGE_SCALARS: [(&str, i32, Get<StageOutcome>); 5] = [
    ("time_s", 2, |stage| stage.time_s),
    ("centre_c", 3, |stage| stage.centre_c),
    ("surface_c", 3, |stage| stage.surface_c),
    ("mean_c", 3, |stage| stage.mean_c),
    ("mass_lost_g", 3, |stage| stage.mass_lost_g),
];

pub(super) fn of(ran: &Ran, cautions: &[String], flags: &Flags) -> Value {
    let mut json = Map::new();
    let mut put = |key: &str, value: Value| json.insert(key.to_owned(), value);
    for (key, places, get) in SCALARS {
        put(key, spread(&known(ran.members.iter().map(get)), places));
    }
    put("kill_log10", kills(ran));
    put("energy_error", energy_error(ran));
    put("stages", (0..ran.stages.len()).map(|at| stage(ran, at)).collect());
    put("curve", ran.shown.curve.iter().map(moment).collect());
    put("section", ran.shown.section.iter().map(layer).collect());
    if !flags.exact {
        put("curve_of", json!("the middle of every input"));
    }
    put("cautions", json!(cautions));
    put("assumed", ran.inputs.iter().filter(|input| !input.spread.is_exact()).filter_map(assumed).collect());
    let (of, named) = narrowed(ran);
    if let Some(of) = of {
        put("narrow_of", json!(of));
    }
    put("narrow", named);
    Value::Object(json)
}

/// What a member never came to has no value; it shows in its times and in `reached`.
fn known(values: impl Iterator<Item = f64>) -> Vec<f64> {
    values.filter(|value| !value.is_nan()).collect()
}

fn kills(ran: &Ran) -> Value {
    let each = ran.organisms.iter().enumerate().map(|(at, name)| {
        let kills = ran.members.iter().filter_map(|member| member.kills.get(at).copied());
        (name.clone(), spread(&known(kills), 4))
    });
    Value::Object(each.collect())
}

fn energy_error(ran: &Ran) -> Value {
    let worst = ran.members.iter().map(|member| member.energy_error).fold(ran.shown.energy_error, f64::max);
    // What is below a billionth is rounding, another on every machine.
    json!((worst * 1e9).round() / 1e9)
}

fn stage(ran: &Ran, at: usize) -> Value {
    let ends = || ran.members.iter().filter_map(move |member| member.stages.get(at));
    let mut json = Map::new();
    json.insert("name".to_owned(), json!(ran.stages.get(at)));
    for (key, places, get) in STAGE_SCALARS {
        json.insert(key.to_owned(), spread(&known(ends().map(get)), places));
    }
    json.insert("reached".to_owned(), json!(ends().all(|end| end.reached)));
    if ran.members.len() > 1 {
        json.insert("chance_reached".to_owned(), number(band::chance(ends().map(|end| end.reached)), 3));
    }
    Value::Object(json)
}

fn moment(moment: &Moment) -> Value {
    let mut json = Map::new();
    let columns = [
        ("t_s", moment.t_s),
        ("centre_c", moment.centre_c),
        ("surface_c", moment.surface_c),
        ("mean_c", moment.mean_c),
    ];
    for (key, value) in columns {
        json.insert(key.to_owned(), number(value, 3));
    }
    if !moment.at_depth_c.is_empty() {
        json.insert(
            "at_depth_c".to_owned(),
            moment.at_depth_c.iter().map(|&celsius| number(celsius, 3)).collect(),
        );
    }
    Value::Object(json)
}

fn layer(layer: &Layer) -> Value {
    json!({
        "depth_mm": number(1000.0 * layer.depth_m, 3),
        "c": number(layer.c, 3),
        "colour_share": number(layer.colour_share, 4),
    })
}

/// The first-named result that has a width, and what carries it.
fn narrowed(ran: &Ran) -> (Option<&'static str>, Value) {
    let varies = |get: &Get<Outcome>| {
        let mut values = ran.members.iter().map(get).filter(|value| value.is_finite());
        let first = values.next();
        values.any(|value| Some(value) != first)
    };
    let Some((key, _, get)) = SCALARS.iter().find(|(_, _, get)| varies(get)) else {
        return (None, json!([]));
    };
    let values: Vec<f64> = ran.members.iter().map(get).collect();
    (Some(key), narrow_json(&narrow(&ran.inputs, &ran.draws, &values)))
}
