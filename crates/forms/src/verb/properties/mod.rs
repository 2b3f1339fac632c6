//! `properties`: what the meat is at each temperature.

mod words;

use super::meat::{MEAT, MeatDraft, refuse};
use crate::answer::{number, spread};
use crate::field::{Amount, Field, Kind, Unit};
use crate::problem::Problems;
use crate::read::{Table, form};
use crate::unknown::Unknowns;
use crate::{Answer, Flags};
use band::{draw, narrow};
use heat::Properties;
use serde_json::{Map, Value, json};

const AT: Field =
    Field::new("at", Kind::Numbers(Amount::new(Unit::Celsius, -60.0, 200.0)), "at these temperatures")
        .needed()
        .set("[-40, -20, -10, -5, -2, 0, 4, 20, 60]");

pub(super) const FIELDS: &[Field] = &[AT, MEAT];

type Get = fn(&Properties) -> f64;

/// The columns of a row: key, places, value.
const COLUMNS: [(&str, i32, Get); 7] = [
    ("ice_share", 6, |row| row.ice_share),
    ("density_kg_m3", 3, |row| row.density_kg_m3),
    ("specific_heat_j_kg_k", 2, |row| row.specific_heat_j_kg_k),
    ("conductivity_parallel_w_m_k", 6, |row| row.conductivity_parallel_w_m_k),
    ("conductivity_perpendicular_w_m_k", 6, |row| row.conductivity_perpendicular_w_m_k),
    ("conductivity_w_m_k", 6, |row| row.conductivity_w_m_k),
    ("enthalpy_j_kg", 1, |row| row.enthalpy_j_kg),
];

/// One member: the rows, and where freezing starts.
struct Member {
    rows: Vec<Properties>,
    freezing_point_c: Option<f64>,
}

pub(super) fn answer(file: &str, bytes: &[u8], flags: &Flags) -> Result<Answer, Problems> {
    form(file, bytes, FIELDS, flags, |root| read(root, flags))
}

fn read(root: &Table<'_>, flags: &Flags) -> Option<Answer> {
    let mut unknowns = Unknowns::new(flags.exact);
    let at = root.numbers(&AT);
    let meat = root.table(&MEAT).and_then(|table| MeatDraft::read(&table, &mut unknowns));
    let (at, meat) = (at?, meat?);
    let drawn = draw(unknowns.inputs(), flags.draws, flags.seed);
    let mut members: Vec<Member> = Vec::new();
    let none: [&[f64]; 1] = [&[]];
    let all: Vec<&[f64]> = if drawn.is_empty() { none.to_vec() } else { drawn.members().collect() };
    for drawn in all {
        members.push(member(root, &meat, &at, drawn)?);
    }
    let rows: Vec<Value> = (0..at.len()).map(|row| row_json(&members, row)).collect();
    let mut json = Map::new();
    json.insert("rows".to_owned(), json!(rows));
    json.insert("freezing_point_c".to_owned(), freezing_point(&members));
    json.insert("assumed".to_owned(), unknowns.assumed());
    let first: Vec<f64> =
        members.iter().filter_map(|member| member.rows.first().map(|row| row.conductivity_w_m_k)).collect();
    let named = narrow(unknowns.inputs(), &drawn, &first);
    json.insert("narrow".to_owned(), crate::answer::narrow_json(&named));
    let middle = member(root, &meat, &at, &unknowns.middle())?;
    let text = words::of(&middle, flags);
    Some(Answer { json: Value::Object(json), text })
}

/// The rows of one member; what heat has against them goes back as a problem.
fn member(root: &Table<'_>, meat: &MeatDraft, at: &[f64], drawn: &[f64]) -> Option<Member> {
    let meat = meat.meat(drawn).map_err(|error| refuse(root, &MEAT, &error)).ok()?;
    let rows = at.iter().map(|&celsius| meat.properties_at(celsius)).collect::<Result<Vec<_>, _>>();
    let rows = rows.map_err(|error| refuse(root, &AT, &error)).ok()?;
    Some(Member { rows, freezing_point_c: meat.freezing_point_c() })
}

fn row_json(members: &[Member], row: usize) -> Value {
    let mut json = Map::new();
    let first = members.first().and_then(|member| member.rows.get(row));
    json.insert("c".to_owned(), first.map_or(Value::Null, |row| number(row.c, 6)));
    for (key, places, get) in COLUMNS {
        let values: Vec<f64> = members.iter().filter_map(|member| member.rows.get(row)).map(get).collect();
        json.insert(key.to_owned(), spread(&values, places));
    }
    Value::Object(json)
}

fn freezing_point(members: &[Member]) -> Value {
    let points: Vec<f64> = members.iter().filter_map(|member| member.freezing_point_c).collect();
    if points.is_empty() { Value::Null } else { spread(&points, 4) }
}
