//! The season from its file: dated so that one Saturday, 15:10, is *now*; here it is moved to any other hour.
//!
//! In the file ids are labels, `@tarn-4`, and `@zone` is the zone of the kitchen. Everything else is an entry as anybody
//! would write it, and it is read, checked and written as such.

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Span, Timestamp, ZonedDateTime};
use record::{At, Origin, Written};
use serde_json::Value;
use std::collections::HashMap;
use uuid::{NoContext, Uuid};

const FILE: &str = include_str!("../../../../demo/season.jsonl");

/// The moment the file is dated for: Saturday 18 July 2026, 15:10 in central Europe.
const NOW_OF_THE_FILE: &str = "2026-07-18T15:10:00+02:00";
/// The day of that moment.
const DAY_OF_THE_FILE: Date = Date::constant(2026, 7, 18);
/// All moves by whole quarters of an hour, so that hours stay as even as people make them.
const QUARTER_S: i64 = 15 * 60;
/// A day of the club's kitchen ends in the night, as its settings in the file say.
const DAY_ENDS: Time = Time::constant(4, 0, 0, 0);
/// Who wrote it.
pub(super) const WRITER: &str = "page";

/// The entries up to `now`, each written down when it happened.
pub(super) fn around(now: Timestamp, zone: &TimeZone) -> Result<Vec<Written>, String> {
    let mover = Mover::to(now, zone)?;
    let mut lines = Vec::new();
    for (place, line) in FILE.lines().enumerate() {
        let value = serde_json::from_str(line).map_err(|problem| format!("line {}: {problem}", place + 1))?;
        lines.push((place + 1, value));
    }
    let ids = lines.iter().filter_map(|(_, line)| mover.id_of(line)).collect();
    let mut entries = Vec::with_capacity(lines.len());
    for (place, mut line) in lines {
        mover.put(&mut line, &ids);
        let mut written =
            Written::read(&line.to_string()).map_err(|refusal| format!("line {place}: {refusal}"))?;
        let happened = written.entry.at.timestamp();
        if happened <= now {
            written.origin = Some(Origin { written: happened, writer: WRITER.into() });
            entries.push(written);
        }
    }
    Ok(entries)
}

/// Moves what the file says to another hour and another zone.
struct Mover<'z> {
    by: SignedDuration,
    days: Span,
    zone: &'z TimeZone,
}

impl<'z> Mover<'z> {
    fn to(now: Timestamp, zone: &'z TimeZone) -> Result<Self, String> {
        let from: Timestamp = NOW_OF_THE_FILE.parse().map_err(|problem: jiff::Error| problem.to_string())?;
        let apart = now.duration_since(from).as_secs();
        let by = SignedDuration::from_secs(apart - apart.rem_euclid(QUARTER_S));
        let now = from.checked_add(by).map_err(|problem| problem.to_string())?;
        let days = DAY_OF_THE_FILE.until(kitchen_day(&now.to_zoned_datetime(zone.clone())));
        Ok(Self { by, days: days.map_err(|problem| problem.to_string())?, zone })
    }

    /// The label of a line and a new id for it, made as of its own hour.
    fn id_of(&self, line: &Value) -> Option<(String, Uuid)> {
        let at = self.moment(line["at"].as_str()?)?.timestamp();
        let (seconds, nanos) =
            (u64::try_from(at.as_second()).ok()?, u32::try_from(at.subsec_nanosecond()).ok()?);
        let id = Uuid::new_v7(uuid::Timestamp::from_unix(NoContext, seconds, nanos));
        Some((line["id"].as_str()?.to_owned(), id))
    }

    fn put(&self, value: &mut Value, ids: &HashMap<String, Uuid>) {
        match value {
            Value::String(text) => {
                if let Some(moved) = self.moved(text, ids) {
                    *text = moved;
                }
            }
            Value::Array(list) => list.iter_mut().for_each(|item| self.put(item, ids)),
            Value::Object(map) => {
                map.values_mut().for_each(|item| self.put(item, ids));
                self.put_day(map);
            }
            _ => {}
        }
    }

    /// What a text becomes: a label its id, a moment and a day later ones; nothing where it stays as it is.
    fn moved(&self, text: &str, ids: &HashMap<String, Uuid>) -> Option<String> {
        if text == "@zone" {
            return self.zone.iana_name().map(str::to_owned);
        }
        if let Some(id) = ids.get(text) {
            return Some(id.to_string());
        }
        if let Some(at) = self.moment(text) {
            return Some(at.to_string());
        }
        let day: Date = text.parse().ok().filter(|_| text.len() == 10)?;
        day.checked_add(self.days).ok().map(|day| day.to_string())
    }

    fn moment(&self, text: &str) -> Option<At> {
        let moved = At::read(text)?.timestamp().checked_add(self.by).ok()?;
        Some(At::of(&moved.to_zoned_datetime(self.zone.clone())))
    }

    /// The day of a supper is that of its hour: late in the evening the hour moves into another day than the rest.
    fn put_day(&self, body: &mut serde_json::Map<String, Value>) {
        let serve = body.get("serve").and_then(|serve| serve["at"].as_str()).and_then(At::read);
        if let (Some(serve), Some(day)) = (serve, body.get_mut("day")) {
            *day = kitchen_day(&serve.in_zone(self.zone)).to_string().into();
        }
    }
}

fn kitchen_day(moment: &ZonedDateTime) -> Date {
    let date = moment.date();
    if moment.time() < DAY_ENDS { date.yesterday().unwrap_or(date) } else { date }
}
