//! What next, and when? The next steps, what is overdue, what is worth a look.

use crate::books::{Books, Sum, books};
use crate::ledger::Standing;
use crate::{Step, Whereabouts, whereabouts};
use jiff::ZonedDateTime;
use jiff::civil::Date;
use quantity::Mass;
use record::{At, DateKind, Pack, Piece, PlaceKind, State, Supper};

/// The day as the record has it.
#[derive(Clone, Debug, PartialEq)]
pub struct Today<'s> {
    /// Whether nothing was ever written down.
    pub is_first_run: bool,
    /// Steps that wait, overdue ones first, then by the hour.
    pub ahead: Vec<Step>,
    /// The next supper that is not eaten yet.
    pub supper: Option<&'s Supper>,
    /// The piece at hand: that of the next supper, else the one last touched.
    pub piece: Option<&'s Piece>,
    /// What is worth a look.
    pub looks: Vec<Look<'s>>,
    /// Suppers at which something was served.
    pub suppers_eaten: usize,
    /// The season's sums, by currency.
    pub season: Vec<Sum>,
}

/// Something worth a look.
#[derive(Clone, Debug, PartialEq)]
pub enum Look<'s> {
    /// A pack whose bag is loose.
    Loose(&'s Pack),
    /// A pack the last count missed.
    Missing(&'s Pack),
    /// Portions of a piece that lie in no pack.
    NotPacked(&'s Piece, usize),
    /// A piece that was not cut, with the day on its bag that bounds it.
    Uncut(&'s Piece, Option<Date>),
    /// Grams of a piece that nobody wrote down.
    NotExplained(&'s Piece, Mass),
    /// A place that keeps food and whose temperature was not read for a day; when it last was.
    Reading(String, Option<At>),
}

/// Hours after which a fridge or freezer in use wants a reading (common practice: a look a day).
const READING_H: i64 = 24;
/// Hours a supper stays the next one after its plates: late guests, late entries.
const SUPPER_STAYS_H: i64 = 6;

/// The day, seen from `now`; `steps` are those of plans, done ones among them.
#[must_use]
pub fn today<'s>(state: &'s State, now: &ZonedDateTime, steps: Vec<Step>) -> Today<'s> {
    let mut ahead: Vec<Step> = steps.into_iter().filter(|step| !step.done).collect();
    ahead.extend(days_on_bags(state, now));
    ahead.sort_by_key(|step| step.at.timestamp());
    let supper = next_supper(state, now);
    let Books { sums, rows, .. } = books(state, At::of(now));
    let mut looks: Vec<Look<'s>> = Vec::new();
    looks.extend(state.packs().filter(|pack| pack.is_in_store() && pack.leaker.is_some()).map(Look::Loose));
    looks.extend(
        state.packs().filter(|pack| pack.gone.is_none() && pack.missing.is_some()).map(Look::Missing),
    );
    for row in &rows {
        looks.extend(looks_of(state, row.piece, &row.ledger.standing));
    }
    looks.extend(overdue_readings(state, now));
    Today {
        is_first_run: state.number() == 0 || state.pieces().next().is_none(),
        ahead,
        supper,
        piece: piece_at_hand(state, supper),
        looks,
        suppers_eaten: state.suppers().filter(|supper| !supper.served.is_empty()).count(),
        season: sums,
    }
}

/// The next supper: planned, not all eaten, and not long past its hour.
#[must_use]
pub fn next_supper<'s>(state: &'s State, now: &ZonedDateTime) -> Option<&'s Supper> {
    let since = now.timestamp().as_second() - SUPPER_STAYS_H * 3600;
    state
        .suppers()
        .filter(|supper| supper.planned.serve.at.timestamp().as_second() >= since)
        .filter(|supper| {
            supper.planned.portions.is_empty()
                || supper.planned.portions.iter().any(|portion| !supper.served.contains(portion))
        })
        .min_by_key(|supper| supper.planned.serve.at.timestamp())
}

fn piece_at_hand<'s>(state: &'s State, supper: Option<&Supper>) -> Option<&'s Piece> {
    let of_supper = supper
        .and_then(|supper| supper.planned.portions.first())
        .and_then(|portion| state.portion(*portion))
        .and_then(|portion| state.piece(portion.piece));
    of_supper
        .or_else(|| state.pieces().max_by_key(|piece| piece.entries.last().copied().unwrap_or(piece.number)))
}

/// A use-by or sell-by day on the bag of a piece that is not cut: it is cut or frozen before that day is over.
fn days_on_bags(state: &State, now: &ZonedDateTime) -> Vec<Step> {
    state
        .pieces()
        .filter(|piece| is_uncut(piece) && !is_frozen(piece))
        .filter_map(|piece| {
            let date = piece.received.date.as_ref()?;
            let kind = match date.kind {
                DateKind::UseBy => "use-by",
                DateKind::SellBy => "sell-by",
                DateKind::Pack | DateKind::Kill => return None,
            };
            let end = date.day.at(22, 0, 0, 0).to_zoned_datetime(now.time_zone().clone()).ok()?;
            Some(Step {
                at: end,
                what: format!("{} cut or in the freezer: its {kind} day", piece.word),
                link: format!("/piece/{}", piece.word.slug()),
                done: false,
            })
        })
        .collect()
}

fn is_uncut(piece: &Piece) -> bool {
    piece.portions.is_empty() && piece.parts.is_empty() && piece.discarded.is_none()
}

fn is_frozen(piece: &Piece) -> bool {
    piece.lying.as_ref().is_some_and(|lying| lying.freezes == Some(true))
}

fn looks_of<'s>(state: &'s State, piece: &'s Piece, standing: &Standing) -> Vec<Look<'s>> {
    let mut looks = Vec::new();
    if is_uncut(piece) {
        let day = piece
            .received
            .date
            .as_ref()
            .filter(|date| matches!(date.kind, DateKind::UseBy | DateKind::SellBy));
        looks.push(Look::Uncut(piece, day.map(|date| date.day)));
        return looks;
    }
    let loose =
        state.portions_of(piece).filter(|portion| whereabouts(state, portion) == Whereabouts::Loose).count();
    if loose > 0 {
        looks.push(Look::NotPacked(piece, loose));
    }
    match standing {
        Standing::Missing { grams, on_the_board, .. } if !on_the_board || loose == 0 => {
            looks.push(Look::NotExplained(piece, *grams));
        }
        Standing::MoreOutThanIn { over } => looks.push(Look::NotExplained(piece, -*over)),
        _ => {}
    }
    looks
}

/// Fridges and freezers that hold something and were not read for a day.
fn overdue_readings<'s>(state: &State, now: &ZonedDateTime) -> Vec<Look<'s>> {
    let mut places: Vec<String> = Vec::new();
    for pack in state.packs().filter(|pack| pack.gone.is_none() && pack.missing.is_none()) {
        let place = pack.out.as_ref().map(|out| &out.place).or(pack.lying.as_ref().map(|lying| &lying.place));
        places.extend(place.filter(|place| !places.contains(place)).cloned());
    }
    places.retain(|place| {
        matches!(state.settings().place_kind(place), Some(PlaceKind::Fridge | PlaceKind::Freezer))
    });
    places
        .into_iter()
        .filter_map(|place| {
            let last =
                state.temperatures().rfind(|reading| reading.note.place == place).map(|reading| reading.at);
            let age = last.map(|at| now.timestamp().as_second() - at.timestamp().as_second());
            age.is_none_or(|age| age > READING_H * 3600).then_some(Look::Reading(place, last))
        })
        .collect()
}

/// Names of places as they were written, the latest first, each once; then those of the settings.
#[must_use]
pub fn known_places(state: &State) -> Vec<String> {
    let mut places: Vec<String> = Vec::new();
    let packs = state.packs().rev().flat_map(|pack| {
        let out = pack.out.as_ref().map(|out| out.place.clone());
        out.into_iter().chain(pack.lying.as_ref().map(|lying| lying.place.clone()))
    });
    let pieces =
        state.pieces().rev().filter_map(|piece| piece.lying.as_ref().map(|lying| lying.place.clone()));
    let read = state.temperatures().rev().map(|reading| reading.note.place.clone());
    let settings = state.settings();
    let set = settings
        .names("place")
        .into_iter()
        .map(|key| settings.text(&format!("place.{key}.name")).unwrap_or(key).to_owned());
    for place in packs.chain(pieces).chain(read).chain(set) {
        let same = |other: &String| record::place_key(other) == record::place_key(&place);
        if !places.iter().any(same) {
            places.push(place);
        }
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{Writing, saturday, tarn};
    use jiff::tz::TimeZone;
    use serde_json::json;

    fn now() -> ZonedDateTime {
        saturday().in_zone(&TimeZone::get("Europe/Vienna").unwrap())
    }

    #[test]
    fn nothing_written_is_a_first_run() {
        let record = Writing::default();
        let today = today(&record.state, &now(), vec![]);
        assert!(today.is_first_run && today.ahead.is_empty() && today.looks.is_empty());
    }

    #[test]
    fn a_loose_bag_and_an_old_reading_are_worth_a_look() {
        let (mut record, _, _) = tarn();
        let pack = record.state.pack_of("tarn-11-12").unwrap().id;
        record.put("2026-07-18T12:00:00+02:00", "leaker-found", json!({ "pack": pack }));
        record.put(
            "2026-07-18T12:00:00+02:00",
            "temperature-read",
            json!({ "place": "cellar chest", "at_c": -19.4 }),
        );
        let today = today(&record.state, &now(), vec![]);
        assert!(
            today.looks.iter().any(|look| matches!(look, Look::Loose(pack) if pack.slug == "tarn-11-12"))
        );
        assert!(today.looks.contains(&Look::Reading("fridge".into(), None)));
        assert!(
            !today
                .looks
                .iter()
                .any(|look| matches!(look, Look::Reading(place, _) if place == "cellar chest"))
        );
    }

    #[test]
    fn the_day_on_the_bag_of_an_uncut_piece_is_a_step() {
        let (mut record, _, _) = tarn();
        let body = json!({ "cut": "beef-strip-loin", "mass_g": 5900, "total": "120", "currency": "EUR",
            "date": { "kind": "use-by", "day": "2026-07-20" } });
        record.put("2026-07-18T12:00:00+02:00", "piece-received", body);
        let today = today(&record.state, &now(), vec![]);
        assert_eq!(today.ahead.len(), 1);
        assert_eq!(today.ahead[0].at.date().to_string(), "2026-07-20");
    }

    #[test]
    fn the_next_supper_is_not_one_that_was_eaten() {
        let (mut record, _, portions) = tarn();
        let plan = |day: &str, portions: &[uuid::Uuid]| {
            json!({ "day": day, "serve": { "at": format!("{day}T19:30:00+02:00"), "within_min": 10 },
                "portions": portions, "route": "low-then-sear" })
        };
        let eaten =
            record.put("2026-07-18T12:00:00+02:00", "supper-planned", plan("2026-07-18", &portions[..1]));
        record.put("2026-07-18T12:10:00+02:00", "supper-planned", plan("2026-08-01", &portions[10..12]));
        let body = json!({ "portion": portions[0], "supper": eaten, "outcome": "eaten" });
        record.put("2026-07-18T14:30:00+02:00", "served", body);
        assert_eq!(next_supper(&record.state, &now()).unwrap().slug, "2026-08-01");
    }

    #[test]
    fn places_are_known_by_the_names_they_were_given() {
        let (record, _, _) = tarn();
        assert_eq!(known_places(&record.state), ["cellar chest", "fridge"]);
    }
}
