//! The rowing club's Saturday: nine at table, five pairs in the fridge, salted.

use super::*;
use crate::testing::{Writing, saturday, tarn};
use crate::{Step, next_steps, supper_steps, thaw_plan};
use jiff::tz::TimeZone;
use quantity::Temperature;
use serde_json::{Value, json};
use uuid::Uuid;

fn now() -> ZonedDateTime {
    saturday().in_zone(&TimeZone::get("Europe/Vienna").unwrap())
}

fn at(text: &str) -> ZonedDateTime {
    record::At::read(text).unwrap().in_zone(&TimeZone::get("Europe/Vienna").unwrap())
}

const SEATS: [(&str, &str); 9] = [
    ("bow", "medium rare"),
    ("two", "medium rare"),
    ("three", "rare"),
    ("four", "medium rare"),
    ("five", "medium"),
    ("six", "medium rare"),
    ("seven", "rare"),
    ("stroke", "medium rare"),
    ("cox", "well done"),
];

fn planned(serve: &str, portions: &[Uuid]) -> Value {
    let seats: Vec<Value> =
        SEATS.iter().map(|(name, wish)| json!({ "name": name, "doneness": wish })).collect();
    json!({ "day": "2026-07-18", "serve": { "at": serve, "within_min": 10 }, "portions": portions, "seat": seats,
        "route": "low-then-sear", "equipment": [
            { "name": "oven", "kind": "oven", "medium": "oven", "medium_c": 110 },
            { "name": "pan", "kind": "pan", "medium": "pan", "places": 5 } ] })
}

fn club(serve: &str) -> (Writing, Vec<Uuid>) {
    let (mut record, _, portions) = tarn();
    record.put("2026-07-18T12:00:00+02:00", "supper-planned", planned(serve, &portions[..10]));
    (record, portions)
}

fn plan_of<'s>(record: &'s Writing, plans: &Plans, now: &ZonedDateTime) -> SupperPlan<'s> {
    let supper = record.state.suppers().next().unwrap();
    supper_plan(&record.state, plans, supper, now).unwrap()
}

#[test]
fn nine_eat_and_the_tenth_is_spare() {
    let (record, _) = club("2026-07-18T19:30:00+02:00");
    let plan = plan_of(&record, &Plans::default(), &now());
    assert_eq!((plan.plan.plates.len(), plan.plan.spare.len(), plan.plan.passes), (9, 1, 2));
    assert!(plan.plan.chance >= 0.9 && plan.plan.is_reached());
    // TARN 10, 369 g, is the lightest of the ten.
    assert_eq!(plan.portion(plan.plan.spare[0]).name(), "TARN 10");
    assert_eq!(plan.asked.wishes[8].word.as_deref(), Some("well done"));
    assert!(plan.low_on() < plan.first_in() && plan.first_in() < plan.serve);
    assert!(plan.first_in() > now(), "there is time: {}", plan.first_in());
    let first = plan.portions_of(&plan.plan.rows[0]);
    assert_eq!(first.len(), 1, "the cox alone is well done");
    assert_eq!(plan.earliest(), None);
}

#[test]
fn a_later_hour_moves_every_start_by_as_much() {
    let plans = Plans::default();
    let (early, _) = club("2026-07-18T19:30:00+02:00");
    let (late, _) = club("2026-07-18T20:15:00+02:00");
    let (early, late) = (plan_of(&early, &plans, &now()), plan_of(&late, &plans, &now()));
    for (a, b) in early.plan.rows.iter().zip(&late.plan.rows) {
        let moved = late.at(b.in_before).timestamp().duration_since(early.at(a.in_before).timestamp());
        assert_eq!(moved.as_mins(), 45);
    }
    assert!(std::sync::Arc::ptr_eq(&early.plan, &late.plan), "an hour is no part of the question");
}

#[test]
fn too_late_says_what_chance_is_left_and_the_soonest_hour() {
    let (record, _) = club("2026-07-18T19:30:00+02:00");
    let plans = Plans::default();
    let first_in = plan_of(&record, &plans, &now()).first_in();
    let late = plan_of(&record, &plans, &first_in.checked_add(jiff::SignedDuration::from_mins(40)).unwrap());
    assert!(late.chance_now() < late.plan.chance);
    let earliest = late.earliest().unwrap();
    let moved = earliest.timestamp().duration_since(late.serve.timestamp()).as_mins();
    assert_eq!(moved, 40);
    assert!(!late.is_past());
}

#[test]
fn what_went_in_is_in_and_a_reading_of_the_oven_is_believed() {
    let (mut record, portions) = club("2026-07-18T19:30:00+02:00");
    record.put("2026-07-18T17:10:00+02:00", "temperature-read", json!({ "place": "oven", "at_c": 104 }));
    let body = json!({ "portions": [portions[1]], "on": "oven", "medium": "oven", "medium_c": 110 });
    record.put("2026-07-18T17:20:00+02:00", "put-on", body);
    let now = at("2026-07-18T17:21:00+02:00");
    let plan = plan_of(&record, &Plans::default(), &now);
    assert!(plan.asked.table.low.probed);
    let row = plan.plan.rows.iter().find(|row| row.is_in).unwrap();
    assert_eq!(plan.at(row.in_before), at("2026-07-18T17:20:00+02:00"));
    assert!(plan.has_begun());
    // Next morning's reading of the same oven is no news of tonight.
    let plan = plan_of(&record, &Plans::default(), &at("2026-07-19T09:00:00+02:00"));
    assert!(!plan.asked.table.low.probed);
}

#[test]
fn what_is_missing_is_named() {
    let (mut record, _, portions) = tarn();
    let mut body = planned("2026-07-18T19:30:00+02:00", &portions[..10]);
    body["equipment"] = json!([]);
    record.put("2026-07-18T12:00:00+02:00", "supper-planned", body);
    let supper = record.state.suppers().next().unwrap();
    let refused = supper_plan(&record.state, &Plans::default(), supper, &now());
    assert_eq!(refused.err(), Some(NoSupperPlan::Missing(Missing::LowPlace)));

    let (mut record, _, portions) = tarn();
    record.put(
        "2026-07-18T12:00:00+02:00",
        "supper-planned",
        planned("2026-07-18T19:30:00+02:00", &portions[..4]),
    );
    let supper = record.state.suppers().next().unwrap();
    let refused = supper_plan(&record.state, &Plans::default(), supper, &now()).err().unwrap();
    assert!(refused.to_string().starts_with("9 at table and 4 portions"), "{refused}");
}

#[test]
fn the_thaw_knows_what_is_out_and_what_is_not() {
    let (record, _) = club("2026-07-18T19:30:00+02:00");
    let supper = record.state.suppers().next().unwrap();
    let thaw = thaw_plan(&record.state, &Plans::default(), supper, &now()).unwrap();
    assert!(thaw.is_out() && thaw.waiting.is_none());
    // Salted at 10:05, so opened: whoever salted them had them in hand.
    assert_eq!((thaw.thawing.len(), thaw.opened.len()), (0, 5));
    assert_eq!(thaw.salt.given.len(), 10);
    assert_eq!(thaw.fridge, "fridge");
}

#[test]
fn packs_on_their_way_have_their_hours_and_a_chance() {
    let (mut record, _, portions) = tarn();
    let packs: Vec<Uuid> =
        ["tarn-11-12", "tarn-13-14"].iter().map(|slug| record.state.pack_of(slug).unwrap().id).collect();
    let body = json!({ "packs": packs, "place": "fridge", "method": "fridge" });
    record.put("2026-07-18T12:00:00+02:00", "taken-out", body);
    let mut body = planned("2026-07-19T19:30:00+02:00", &portions[10..14]);
    body["day"] = json!("2026-07-19");
    record.put("2026-07-18T12:00:00+02:00", "supper-planned", body);
    let supper = record.state.suppers().next().unwrap();
    let thaw = thaw_plan(&record.state, &Plans::default(), supper, &now()).unwrap();
    assert_eq!(thaw.thawing.len(), 2);
    let slowest = thaw.slowest().unwrap();
    assert!(slowest.soft_now < 0.01 && slowest.chance > 0.5, "{slowest:?}");
    assert!(slowest.soft.low > 0.0 && slowest.soft.low < slowest.soft.high);
}

#[test]
fn packs_in_the_store_have_a_latest_hour_and_water_is_the_rescue() {
    let (mut record, _, portions) = tarn();
    let body = json!({ "day": "2026-07-19", "serve": { "at": "2026-07-19T19:30:00+02:00", "within_min": 10 },
        "portions": portions[10..14], "seat": [{ "doneness": "rare" }, { "doneness": "medium" }],
        "route": "low-then-sear", "equipment": [
            { "name": "oven", "kind": "oven", "medium_c": 110 }, { "name": "grill", "kind": "grill" } ] });
    record.put("2026-07-18T12:00:00+02:00", "supper-planned", body);
    let supper = record.state.suppers().next().unwrap();
    let plans = Plans::default();
    let thaw = thaw_plan(&record.state, &plans, supper, &now()).unwrap();
    assert_eq!(thaw.frozen.len(), 2);
    let waiting = thaw.waiting.as_ref().unwrap();
    let out_by = waiting.out_by.clone().unwrap();
    assert!(out_by < thaw.soft_by && thaw.soft_by < thaw.plan.as_ref().unwrap().first_in());
    // Out at that very hour, it keeps the wished chance; an hour later it no longer does.
    let chance_at = |at: &ZonedDateTime| {
        thaw_plan(&record.state, &plans, supper, at).unwrap().waiting.unwrap().chance_now
    };
    assert!(chance_at(&out_by) >= 0.9);
    let later = out_by.checked_add(jiff::SignedDuration::from_hours(1)).unwrap();
    assert!(chance_at(&later) < 0.9);
    let noon = at("2026-07-19T12:00:00+02:00");
    let late = thaw_plan(&record.state, &plans, supper, &noon).unwrap().waiting.unwrap();
    let rescue = late.rescue.unwrap();
    assert!(late.chance_now < 0.05 && rescue.chance_now > 0.95, "{late_now:?}", late_now = late.chance_now);
    assert!(rescue.start_by.unwrap() > noon);
}

#[test]
fn the_steps_lead_from_the_freezer_to_the_plate() {
    let (record, _) = club("2026-07-18T19:30:00+02:00");
    let steps = next_steps(&record.state, &Plans::default(), &now());
    let words: Vec<(&str, bool)> = steps.iter().map(|step| (step.what.as_str(), step.done)).collect();
    let plain: Vec<String> =
        words.iter().map(|(what, done)| format!("{what}{}", if *done { " ✓" } else { "" })).collect();
    assert_eq!(plain[0], "5 packs out to thaw ✓");
    assert_eq!(plain[1].replace('\u{202f}', " "), "salted, 26.6 g in all ✓");
    assert!(plain[2].starts_with("oven on, dial at 110"), "{plain:?}");
    assert_eq!(plain.last().unwrap(), "9 plates");
    assert!(plain.iter().any(|what| what == "sear on the pan, 2 passes"));
    assert!(steps.windows(2).all(|pair| pair[0].at <= pair[1].at));
    assert!(steps.iter().all(|step: &Step| step.link.starts_with("/table/2026-07-18")));
}

#[test]
fn a_supper_that_is_eaten_has_no_next_step() {
    let (mut record, portions) = club("2026-07-18T19:30:00+02:00");
    let supper = record.state.suppers().next().unwrap().id;
    for (place, portion) in portions[..10].iter().enumerate() {
        let outcome = if place == 9 { "spare" } else { "eaten" };
        let body = json!({ "portion": portion, "supper": supper, "outcome": outcome, "core_c": 54.5 });
        record.put("2026-07-18T20:00:00+02:00", "served", body);
    }
    let evening = at("2026-07-18T21:00:00+02:00");
    assert!(next_steps(&record.state, &Plans::default(), &evening).is_empty());
    let supper = record.state.suppers().next().unwrap();
    let served = supper_served(&record.state, supper);
    assert_eq!((served.eaten, served.spare, served.waiting()), (9, 1, 0));
    let core = served.plates[0].served.unwrap().served.core;
    assert_eq!(core, Some(Temperature::from_c(54.5)));
    let refused = supper_plan(&record.state, &Plans::default(), supper, &evening);
    assert_eq!(refused.err(), Some(NoSupperPlan::Missing(Missing::Eaten)));
    let steps = supper_steps(&record.state, &Plans::default(), supper, &evening);
    assert!(steps.iter().all(|step| step.done), "{steps:?}");
}
