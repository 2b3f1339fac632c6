//! What the form starts from: the plan that stands, or the next Saturday evening.

use jiff::ZonedDateTime;
use quantity::{Grain, Temperature, TemperatureUnit};
use record::{Pack, Portion, State, Supper, Wish};
use season::Whereabouts;
use uuid::Uuid;

use super::{USUAL_DIAL_C, hot, low};
use crate::house::Visit;
use crate::pages::shared::whereabouts_words;
use crate::parts::Typed;

/// What the form starts from.
pub(in crate::pages::table) struct Draft {
    /// Field values.
    pub(in crate::pages::table) values: Typed,
    /// Words of the kitchen's scale, the most done last.
    pub(in crate::pages::table) words: Vec<String>,
    /// Seats of a plan that stands; none for a new one, which asks for counts.
    pub(super) seats: usize,
    /// What can be set aside.
    pub(super) lines: Vec<Line>,
    /// Portions set aside in the plan that stands, for a seat's own choice.
    pub(super) chosen: Vec<(String, String)>,
    /// `°C`
    pub(super) degree: &'static str,
}

/// A pack or a loose portion to set aside.
pub(super) struct Line {
    pub(super) field: &'static str,
    pub(super) id: Uuid,
    pub(super) name: String,
    pub(super) more: String,
    pub(super) checked: bool,
}

/// The draft of a new supper, or of the one that stands.
pub(in crate::pages::table) fn draft(visit: &Visit, supper: Option<&Supper>) -> Draft {
    let state = &visit.state;
    let words = season::scale(state).words.iter().map(|word| word.word.clone()).collect();
    let set_aside: &[Uuid] = supper.map_or(&[], |supper| &supper.planned.portions);
    let chosen = set_aside.iter().filter_map(|id| state.portion(*id));
    let values: Vec<(String, String)> = match supper {
        Some(supper) => standing(visit, supper),
        None => fresh(visit),
    };
    let values: Vec<(&str, String)> =
        values.iter().map(|(name, value)| (name.as_str(), value.clone())).collect();
    Draft {
        values: Typed::fresh(&values),
        words,
        seats: supper.map_or(0, |supper| supper.planned.seat.len()),
        lines: lines(visit, supper, set_aside),
        chosen: chosen.map(|portion| (portion.id.to_string(), portion.name())).collect(),
        degree: match visit.units.temperature {
            TemperatureUnit::Celsius => "°C",
            TemperatureUnit::Fahrenheit => "°F",
        },
    }
}

fn fresh(visit: &Visit) -> Vec<(String, String)> {
    let dial = dial(visit, Temperature::from_c(USUAL_DIAL_C));
    vec![("serve".to_owned(), hour(&next_saturday(visit))), ("low_c".to_owned(), dial)]
}

fn standing(visit: &Visit, supper: &Supper) -> Vec<(String, String)> {
    let planned = &supper.planned;
    let mut values = vec![("serve".to_owned(), hour(&visit.zoned(planned.serve.at)))];
    let mut put = |name: &str, value: Option<String>| {
        values.extend(value.map(|value| (name.to_owned(), value)));
    };
    if let Some(low) = low(&planned.equipment) {
        put("low", low.medium.clone());
        put("low_c", low.temperature.map(|degree| dial(visit, degree)));
    }
    if let Some(hot) = hot(&planned.equipment) {
        put("hot", hot.medium.clone());
        put("hot_places", hot.places.map(|places| places.to_string()));
    }
    for (place, seat) in planned.seat.iter().enumerate() {
        put(&format!("seat_{place}_name"), seat.name.clone());
        put(&format!("seat_{place}_wish"), Some(wish(visit, &seat.wish)));
        put(&format!("seat_{place}_portion"), seat.portion.map(|id| id.to_string()));
    }
    values
}

/// A word of the scale, a core with its unit, or a mark for what was not asked.
fn wish(visit: &Visit, wish: &Wish) -> String {
    match wish {
        Wish::Doneness(word) => word.replace('-', " "),
        Wish::Core(core) => visit.units.temperature(*core, Grain::Reading),
        Wish::Unknown => "?".to_owned(),
    }
}

/// The number alone: its unit stands behind the field.
fn dial(visit: &Visit, degree: Temperature) -> String {
    let shown = visit.units.temperature(degree, Grain::Forecast);
    shown.split('\u{202f}').next().unwrap_or(&shown).replace('−', "-")
}

/// As a field for day and hour takes it.
fn hour(at: &ZonedDateTime) -> String {
    at.strftime("%Y-%m-%dT%H:%M").to_string()
}

/// The next Saturday, 19:30, on which no supper is planned yet.
fn next_saturday(visit: &Visit) -> ZonedDateTime {
    let now = visit.now();
    let hour = |day: jiff::civil::Date| day.at(19, 30, 0, 0).to_zoned_datetime(now.time_zone().clone());
    let is_free = |day: &jiff::civil::Date| !visit.state.suppers().any(|supper| supper.planned.day == *day);
    (0..100)
        .filter_map(|days| now.date().checked_add(jiff::Span::new().days(days)).ok())
        .filter(|day| day.weekday() == jiff::civil::Weekday::Saturday && is_free(day))
        .filter_map(|day| hour(day).ok())
        .find(|at| at > now)
        .unwrap_or_else(|| now.clone())
}

/// Packs that hold portions, then portions in no pack; what is set aside stands first.
fn lines(visit: &Visit, supper: Option<&Supper>, set_aside: &[Uuid]) -> Vec<Line> {
    let state = &visit.state;
    let elsewhere = taken_elsewhere(state, supper, visit);
    let is_aside = |portion: &&Portion| set_aside.contains(&portion.id);
    let packs = state.packs().filter(|pack| pack.gone.is_none()).filter_map(|pack| {
        let inside: Vec<&Portion> = state.portions_in(pack).collect();
        let first = inside.first()?;
        Some(Line {
            field: "pack",
            id: pack.id,
            name: pack.name.clone(),
            more: promised(pack_words(visit, pack, first), inside.iter().any(|p| elsewhere.contains(&p.id))),
            checked: inside.iter().all(&is_aside),
        })
    });
    let is_loose =
        |portion: &&Portion| portion.gone().is_none() && portion.served.is_empty() && portion.pack.is_none();
    let loose = state.portions().filter(is_loose).map(|portion| Line {
        field: "portion",
        id: portion.id,
        name: portion.name(),
        more: promised(loose_words(visit, portion), elsewhere.contains(&portion.id)),
        checked: is_aside(&portion),
    });
    let mut lines: Vec<Line> = packs.chain(loose).collect();
    lines.sort_by_key(|line| !line.checked);
    lines
}

/// Portions another supper that is still to come counts on.
fn taken_elsewhere(state: &State, supper: Option<&Supper>, visit: &Visit) -> Vec<Uuid> {
    let own = supper.map(|supper| supper.id);
    state
        .suppers()
        .filter(|other| Some(other.id) != own && visit.zoned(other.planned.serve.at) > *visit.now())
        .flat_map(|other| other.planned.portions.iter().copied())
        .collect()
}

fn pack_words(visit: &Visit, pack: &Pack, first: &Portion) -> String {
    let mass = visit.units.mass(pack.mass, Grain::Reading);
    format!("{mass}, {}", whereabouts_words(&season::whereabouts(&visit.state, first)))
}

fn loose_words(visit: &Visit, portion: &Portion) -> String {
    let mass = visit.units.mass(portion.weighed.mass, Grain::Reading);
    format!("{mass}, {}", whereabouts_words(&Whereabouts::Loose))
}

fn promised(words: String, elsewhere: bool) -> String {
    if elsewhere { format!("{words}, for another supper") } else { words }
}
