//! What the record says of a supper, as the planner asks for it.

use crate::packing::{Thickness, thickness_of};
use band::Value;
use catalogue::{DonenessScale, doneness_scale, doneness_scales};
use dinner::{Habits, Holds, Hot, Low, Seat, Table};
use jiff::ZonedDateTime;
use quantity::{Span, Temperature};
use record::{Equipment, EquipmentKind, Portion, State, Supper, Wish, place_key};

/// A supper's question, with what the record calls its parts.
#[derive(Clone, Debug, PartialEq)]
pub struct SupperAsked<'s> {
    /// The question.
    pub table: Table,
    /// The portions of the question, in its order.
    pub portions: Vec<&'s Portion>,
    /// The word for each seat's wish, and whether nobody asked it yet.
    pub wishes: Vec<WishWord>,
    /// The low place's name in this kitchen.
    pub low: String,
    /// What its dial is set to.
    pub dial: Option<Temperature>,
    /// The hot place's name.
    pub hot: String,
}

impl std::fmt::Display for Missing {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Seats => "nobody sits at this supper yet",
            Self::Portions => "nothing is set aside for this supper yet",
            Self::Eaten => "all that was set aside is eaten or gone",
            Self::LowPlace => "no oven or bath is named for this supper",
            Self::HotPlace => "no pan or grill is named for this supper",
        })
    }
}

/// A seat's wish in words.
#[derive(Clone, Debug, PartialEq)]
pub struct WishWord {
    /// `medium rare`, or nothing where the wish is a core no word of the scale stands for.
    pub word: Option<String>,
    /// Whether it was never asked, and the usual one stands in.
    pub is_assumed: bool,
}

/// Why a supper cannot be asked about yet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Missing {
    /// Nobody sits there.
    Seats,
    /// Nothing is set aside.
    Portions,
    /// All of it is eaten or gone.
    Eaten,
    /// No oven or bath is named.
    LowPlace,
    /// No pan or grill is named.
    HotPlace,
}

/// What a seat gets whose wish nobody asked.
pub const USUAL_WISH: &str = "medium rare";
/// Where the scale has no such word, °C.
const USUAL_CORE_C: f64 = 55.0;

/// The question a supper puts, as far as it is known at `now`.
///
/// # Errors
/// [`Missing`] where the record does not say enough to ask.
pub fn supper_asked<'s>(
    state: &'s State,
    supper: &Supper,
    now: &ZonedDateTime,
) -> Result<SupperAsked<'s>, Missing> {
    let planned = &supper.planned;
    if planned.seat.is_empty() {
        return Err(Missing::Seats);
    }
    let all: Vec<&Portion> = planned.portions.iter().filter_map(|id| state.portion(*id)).collect();
    if all.is_empty() {
        return Err(Missing::Portions);
    }
    let portions: Vec<&Portion> = all.into_iter().filter(|portion| is_to_eat(portion)).collect();
    if portions.is_empty() {
        return Err(Missing::Eaten);
    }
    let low = first_of(&planned.equipment, |kind| matches!(kind, EquipmentKind::Oven | EquipmentKind::Bath))
        .ok_or(Missing::LowPlace)?;
    let hot = first_of(&planned.equipment, |kind| matches!(kind, EquipmentKind::Pan | EquipmentKind::Grill))
        .ok_or(Missing::HotPlace)?;
    let scale = &scale(state);
    let serve = planned.serve.at.timestamp();
    let before = |at: record::At| Span::from_s(serve.duration_since(at.timestamp()).as_secs_f64());
    let seats = planned
        .seat
        .iter()
        .map(|seat| Seat {
            name: seat.name.clone(),
            wish: core(&seat.wish, scale),
            portion: seat.portion.and_then(|id| portions.iter().position(|portion| portion.id == id)),
        })
        .collect();
    let cut = state.piece(portions[0].piece).map(|piece| piece.received.cut.clone()).unwrap_or_default();
    let table = Table {
        cut,
        seats,
        portions: portions.iter().map(|portion| asked_portion(state, portion, low, before, now)).collect(),
        low: low_place(state, low, now),
        wait: wait(&planned.equipment),
        hot: hot_place(hot),
        habits: Habits::default(),
        chance: planned.chance.or_else(|| state.settings().chance()).unwrap_or(0.9),
    };
    let wishes = planned.seat.iter().map(|seat| wish_word(&seat.wish, scale)).collect();
    Ok(SupperAsked {
        table,
        portions,
        wishes,
        low: low.name.clone(),
        dial: low.temperature,
        hot: hot.name.clone(),
    })
}

/// The kitchen's scale of doneness, its moved words where it moved them; a new kitchen has the catalogue's first.
#[must_use]
pub fn scale(state: &State) -> DonenessScale {
    let settings = state.settings();
    let chosen = settings.text("doneness.scale").and_then(doneness_scale).unwrap_or(&doneness_scales()[0]);
    chosen.moved(|word| settings.number(&moved_key(word)).map(Temperature::from_c))
}

/// The setting that moves a word of the kitchen's scale.
#[must_use]
pub fn moved_key(word: &str) -> String {
    format!("doneness.{}.core_c", place_key(word))
}

/// Not eaten, not thrown away, not left over from this supper.
fn is_to_eat(portion: &Portion) -> bool {
    portion.gone().is_none() && portion.served.is_empty()
}

pub(super) fn first_of(equipment: &[Equipment], is: impl Fn(EquipmentKind) -> bool) -> Option<&Equipment> {
    equipment.iter().find(|item| is(item.kind))
}

pub(crate) fn core(wish: &Wish, scale: &DonenessScale) -> Temperature {
    let of = |word: &str| scale.core(word);
    match wish {
        Wish::Core(core) => Some(*core),
        Wish::Doneness(word) => of(word),
        Wish::Unknown => None,
    }
    .or_else(|| of(USUAL_WISH))
    .unwrap_or(Temperature::from_c(USUAL_CORE_C))
}

pub(crate) fn wish_word(wish: &Wish, scale: &DonenessScale) -> WishWord {
    let known = |word: &str| scale.core(word).is_some();
    match wish {
        Wish::Core(core) => {
            let near = |word: &&catalogue::DonenessWord| (word.core().c() - core.c()).abs() < 0.05;
            let word = scale.words.iter().find(near).map(|word| word.word.clone());
            WishWord { word, is_assumed: false }
        }
        Wish::Doneness(word) if known(word) => {
            WishWord { word: Some(word.replace('-', " ").to_lowercase()), is_assumed: false }
        }
        // A word of another scale says nothing in this one.
        Wish::Doneness(_) | Wish::Unknown => WishWord { word: Some(USUAL_WISH.to_owned()), is_assumed: true },
    }
}

fn asked_portion(
    state: &State,
    portion: &Portion,
    low: &Equipment,
    before: impl Fn(record::At) -> Span,
    now: &ZonedDateTime,
) -> dinner::Portion {
    let on = portion.on_heat.iter().find(|on| place_key(&on.on) == place_key(&low.name));
    let off = on.and_then(|on| portion.pulled.iter().find(|pull| pull.at >= on.at));
    dinner::Portion {
        name: portion.name(),
        mass_kg: Value::Known(portion.weighed.mass.kg()),
        thickness_m: thickness_m(state, portion),
        start_c: start_c(state, portion, now),
        went_in: on.map(|on| before(on.at)),
        pulled: off.map(|off| before(off.at)),
    }
}

/// Measured or marked: through a ruler; reckoned from grams and place: an eighth either way; else left to the planner, which
/// knows how wide a steak of this mass is.
pub(crate) fn thickness_m(state: &State, portion: &Portion) -> Value {
    let piece = state.piece(portion.piece);
    match piece.and_then(|piece| thickness_of(state, piece, portion)) {
        Some(Thickness::Measured(length) | Thickness::Marked(length)) => Value::Known(length.m()),
        Some(Thickness::Reckoned(length)) => {
            Value::Range { low: length.m() * (1.0 - RECKONED), high: length.m() * (1.0 + RECKONED) }
        }
        None => Value::Unknown,
    }
}

/// What a thickness reckoned from grams and place may be off by, as a share: the profile along such cuts and the length of a
/// piece nobody measured (assumed).
const RECKONED: f64 = 0.12;

/// What is out in a place whose temperature is known starts from there, a degree either way; else the planner's usual
/// range stands in.
pub(crate) fn start_c(state: &State, portion: &Portion, now: &ZonedDateTime) -> Value {
    let out = portion.pack.and_then(|id| state.pack(id)).and_then(|pack| pack.out.as_ref());
    out.and_then(|out| out.temperature.or_else(|| last_read(state, &out.place, now, DAY_H)))
        .filter(|degree| (0.0..=15.0).contains(&degree.c()))
        .map_or(Value::Unknown, |degree| Value::Range { low: degree.c() - 1.0, high: degree.c() + 1.0 })
}

/// Hours a reading of a fridge stands for its evening.
const DAY_H: f64 = 24.0;
/// Hours a reading of an oven stands for its evening.
const EVENING_H: f64 = 4.0;

/// The last reading of a place, if it is not older than so many hours.
pub(crate) fn last_read(state: &State, place: &str, now: &ZonedDateTime, hours: f64) -> Option<Temperature> {
    let same = |noted: &&record::Noted<record::TemperatureRead>| {
        place_key(&noted.note.place) == place_key(place)
            && now.timestamp().duration_since(noted.at.timestamp()).as_secs_f64() <= hours * 3600.0
    };
    state.temperatures().rev().find(same).map(|noted| noted.note.at)
}

pub(super) fn low_place(state: &State, low: &Equipment, now: &ZonedDateTime) -> Low {
    let read = last_read(state, &low.name, now, EVENING_H);
    Low {
        medium: medium(low),
        medium_c: degree(read.or(low.temperature)),
        probed: read.is_some(),
        holds: holds(low),
    }
}

pub(super) fn hot_place(hot: &Equipment) -> Hot {
    Hot { medium: medium(hot), medium_c: degree(hot.temperature), holds: holds(hot) }
}

fn degree(temperature: Option<Temperature>) -> Value {
    temperature.map_or(Value::Unknown, |temperature| Value::Known(temperature.c()))
}

/// The medium as named, else the usual one of its kind.
fn medium(item: &Equipment) -> String {
    let usual = match item.kind {
        EquipmentKind::Oven => "oven",
        EquipmentKind::Pan => "pan",
        EquipmentKind::Grill => "grill",
        EquipmentKind::Bath => "water-bath",
        EquipmentKind::Rest => "rest",
    };
    item.medium.clone().unwrap_or_else(|| usual.to_owned())
}

/// Where those that are out early wait: as planned, else loosely under foil.
fn wait(equipment: &[Equipment]) -> String {
    let rest = first_of(equipment, |kind| kind == EquipmentKind::Rest);
    rest.and_then(|rest| rest.medium.clone()).unwrap_or_else(|| "foil-tent".to_owned())
}

fn holds(item: &Equipment) -> Holds {
    match (item.places, item.area_cm2) {
        (Some(places), _) => Holds::Places(places as usize),
        (None, Some(area)) => Holds::Area(area / 1e4),
        (None, None) => Holds::All,
    }
}
