//! Settings of the kitchen: entries like all others, each key of a known meaning. What was never set is left open.

use crate::read::nearest;
use crate::{At, Entry, Refusal, SettingChanged, SettingValue};
use jiff::civil::Time;
use jiff::tz::{TimeZone, TimeZoneDatabase};
use quantity::{Clock, Currency, LengthUnit, Mass, TemperatureUnit, Units};
use rust_decimal::Decimal;
use std::collections::BTreeMap;
use std::sync::Arc;
use uuid::Uuid;

/// What is set.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Settings(Arc<BTreeMap<String, Setting>>);

/// A setting and where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// Its value.
    pub value: SettingValue,
    /// When it was set.
    pub at: At,
    /// The entry that set it.
    pub id: Uuid,
}

/// What kind of place a place is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlaceKind {
    /// A freezer.
    Freezer,
    /// A fridge.
    Fridge,
    /// Neither.
    Room,
}

impl PlaceKind {
    /// Whether what lies there freezes.
    #[must_use]
    pub const fn freezes(self) -> bool {
        matches!(self, Self::Freezer)
    }
}

/// What a setting's value may be.
enum Takes {
    Text,
    Words(&'static [&'static str]),
    Number(f64, f64),
    Amount,
    Code,
    Zone,
    Hour,
}

/// Every key there is; `*` stands for the name of a place or a piece of equipment as [`place_key`] writes it.
const KEYS: &[(&str, Takes)] = &[
    ("units.mass", Takes::Words(&["g", "lb"])),
    ("units.length", Takes::Words(&["mm", "in"])),
    ("units.temperature", Takes::Words(&["c", "f"])),
    ("units.clock", Takes::Words(&["24", "12"])),
    ("money.currency", Takes::Code),
    ("money.bag_each", Takes::Amount),
    ("money.energy_per_kg_month", Takes::Amount),
    ("money.energy_per_kwh", Takes::Amount),
    ("money.freezer", Takes::Amount),
    ("money.lean_trim_per_kg", Takes::Amount),
    ("money.clean_fat_per_kg", Takes::Amount),
    ("kitchen.name", Takes::Text),
    ("kitchen.zone", Takes::Zone),
    ("kitchen.day_ends", Takes::Hour),
    ("kitchen.rules", Takes::Words(&["us", "uk", "eu", "au"])),
    ("doneness.scale", Takes::Text),
    ("doneness.*.core_c", Takes::Number(40.0, 85.0)),
    ("supper.chance", Takes::Number(0.5, 0.999)),
    ("supper.within_min", Takes::Number(0.0, 240.0)),
    ("supper.portion_g", Takes::Number(10.0, 5000.0)),
    ("board.warm_c", Takes::Number(-5.0, 30.0)),
    ("board.warm_min", Takes::Number(0.0, 600.0)),
    ("board.knife_mm", Takes::Number(0.0, 20.0)),
    ("board.thinnest_mm", Takes::Number(1.0, 500.0)),
    ("board.thickest_mm", Takes::Number(1.0, 1000.0)),
    ("scale.division_g", Takes::Number(0.01, 100.0)),
    ("scale.limit_g", Takes::Number(100.0, 200_000.0)),
    ("ruler.division_mm", Takes::Number(0.1, 20.0)),
    ("probe.division_c", Takes::Number(0.01, 5.0)),
    ("probe.error_c", Takes::Number(0.0, 10.0)),
    ("salt.crystal", Takes::Text),
    ("salt.dose_percent", Takes::Number(0.0, 10.0)),
    ("salt.fine_teaspoon_g", Takes::Number(0.5, 20.0)),
    ("salt.coarse_teaspoon_g", Takes::Number(0.5, 20.0)),
    ("salt.flake_teaspoon_g", Takes::Number(0.5, 20.0)),
    ("bag.mass_g", Takes::Number(0.0, 1000.0)),
    ("bag.lot", Takes::Text),
    ("bag.wrap", Takes::Words(&["vacuum", "film", "none"])),
    ("label.on", Takes::Words(&["roll", "sheet"])),
    ("place.*.name", Takes::Text),
    ("place.*.kind", Takes::Words(&["freezer", "fridge", "room"])),
    ("place.*.set_c", Takes::Number(-90.0, 60.0)),
    ("place.*.volume_l", Takes::Number(1.0, 10_000.0)),
    ("place.*.rated_kg_24h", Takes::Number(0.1, 1000.0)),
    ("equipment.*.name", Takes::Text),
    ("equipment.*.kind", Takes::Words(&["oven", "pan", "grill", "bath", "rest"])),
    ("equipment.*.medium", Takes::Text),
    ("equipment.*.medium_c", Takes::Number(-40.0, 600.0)),
    ("equipment.*.area_cm2", Takes::Number(1.0, 100_000.0)),
    ("equipment.*.places", Takes::Number(1.0, 1000.0)),
];

/// Grams a kitchen scale steps in where nobody said (common practice).
const DIVISION_G: f64 = 1.0;

impl Settings {
    /// What is set at a key.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&Setting> {
        self.0.get(key)
    }

    /// Everything that is set, by key.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Setting)> {
        self.0.iter().map(|(key, setting)| (key.as_str(), setting))
    }

    /// The text set at a key.
    #[must_use]
    pub fn text(&self, key: &str) -> Option<&str> {
        match &self.get(key)?.value {
            SettingValue::Text(text) => Some(text),
            _ => None,
        }
    }

    /// The number set at a key.
    #[must_use]
    pub fn number(&self, key: &str) -> Option<f64> {
        match self.get(key)?.value {
            SettingValue::Number(number) => Some(number),
            _ => None,
        }
    }

    /// The amount of money set at a key, in the kitchen's currency.
    #[must_use]
    pub fn amount(&self, key: &str) -> Option<Decimal> {
        Decimal::from_str_exact(self.text(key)?).ok()
    }

    /// Units of display, each kind by itself; metric where nothing is set.
    #[must_use]
    pub fn units(&self) -> Units {
        Units {
            pounds: self.text("units.mass") == Some("lb"),
            length: if self.text("units.length") == Some("in") {
                LengthUnit::Inch
            } else {
                LengthUnit::Millimetre
            },
            temperature: match self.text("units.temperature") {
                Some("f") => TemperatureUnit::Fahrenheit,
                _ => TemperatureUnit::Celsius,
            },
            clock: if self.text("units.clock") == Some("12") { Clock::Hours12 } else { Clock::Hours24 },
        }
    }

    /// The kitchen's currency.
    #[must_use]
    pub fn currency(&self) -> Option<Currency> {
        Currency::new(self.text("money.currency")?).ok()
    }

    /// The kitchen's time zone.
    #[must_use]
    pub fn zone(&self) -> Option<TimeZone> {
        zone(self.text("kitchen.zone")?)
    }

    /// The hour of the night at which a day of the kitchen ends.
    #[must_use]
    pub fn day_ends(&self) -> Option<Time> {
        hour(self.text("kitchen.day_ends")?)
    }

    /// The wished chance of being ready.
    #[must_use]
    pub fn chance(&self) -> Option<f64> {
        self.number("supper.chance")
    }

    /// What the kitchen's scale steps in; 1 g where nothing is set.
    #[must_use]
    pub fn scale_division(&self) -> Mass {
        Mass::from_g(self.number("scale.division_g").unwrap_or(DIVISION_G))
    }

    /// What kind of place a place is, if it was said.
    #[must_use]
    pub fn place_kind(&self, place: &str) -> Option<PlaceKind> {
        match self.text(&format!("place.{}.kind", place_key(place)))? {
            "freezer" => Some(PlaceKind::Freezer),
            "fridge" => Some(PlaceKind::Fridge),
            "room" => Some(PlaceKind::Room),
            _ => None,
        }
    }

    /// Names under a group, `place` or `equipment`, as keys write them; in order.
    #[must_use]
    pub fn names(&self, group: &str) -> Vec<&str> {
        let mut names: Vec<&str> = self
            .0
            .keys()
            .filter_map(|key| {
                key.strip_prefix(group)?.strip_prefix('.')?.split_once('.').map(|(name, _)| name)
            })
            .collect();
        names.dedup();
        names
    }

    pub(super) fn set(&mut self, entry: &Entry, body: &SettingChanged) {
        let settings = Arc::make_mut(&mut self.0);
        if settings.get(&body.key).is_some_and(|old| old.at > entry.at) {
            return;
        }
        match body.value {
            SettingValue::Unset => {
                settings.remove(&body.key);
            }
            _ => {
                let setting = Setting { value: body.value.clone(), at: entry.at, id: entry.id };
                settings.insert(body.key.clone(), setting);
            }
        }
    }
}

impl super::State {
    pub(super) fn may_set(&self, body: &SettingChanged) -> Result<(), Refusal> {
        let Some((_, takes)) = KEYS.iter().find(|(pattern, _)| matches(pattern, &body.key)) else {
            let nearest = nearest(&body.key, KEYS.iter().map(|(pattern, _)| *pattern)).map(str::to_owned);
            return Err(Refusal::NoSuchSetting { key: body.key.clone(), nearest });
        };
        if takes.takes(&body.value) {
            return Ok(());
        }
        let found = format!("{} for {}", body.value.to_value(), body.key);
        Err(Refusal::DoesNotFit {
            key: "body.value",
            found,
            allowed: format!("{} | null, which unsets it", takes.says()),
        })
    }
}

/// Keys there are, with what each takes, for pages and descriptions; `*` stands for a name as [`place_key`] writes it.
#[must_use]
pub fn setting_keys() -> Vec<(&'static str, String)> {
    KEYS.iter().map(|(key, takes)| (*key, takes.says())).collect()
}

/// A place's name as it stands in keys: `Cellar chest` is `cellar-chest`.
#[must_use]
pub fn place_key(place: &str) -> String {
    let dashed: String =
        place.to_lowercase().chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
    dashed.split('-').filter(|word| !word.is_empty()).collect::<Vec<_>>().join("-")
}

impl Takes {
    fn takes(&self, value: &SettingValue) -> bool {
        match (self, value) {
            (_, SettingValue::Unset) | (Self::Text, SettingValue::Text(_)) => true,
            (Self::Words(words), SettingValue::Text(text)) => words.contains(&text.as_str()),
            (Self::Number(least, most), SettingValue::Number(number)) => (least..=most).contains(&number),
            (Self::Amount, SettingValue::Text(text)) => {
                Decimal::from_str_exact(text).is_ok_and(|amount| amount >= Decimal::ZERO)
            }
            (Self::Code, SettingValue::Text(text)) => Currency::new(text).is_ok(),
            (Self::Zone, SettingValue::Text(text)) => zone(text).is_some(),
            (Self::Hour, SettingValue::Text(text)) => hour(text).is_some(),
            _ => false,
        }
    }

    fn says(&self) -> String {
        match self {
            Self::Text => "text".to_owned(),
            Self::Words(words) => {
                words.iter().map(|word| format!("\"{word}\"")).collect::<Vec<_>>().join(" | ")
            }
            Self::Number(least, most) => format!("a number from {least} to {most}"),
            Self::Amount => "an amount as a decimal string, as \"0.35\"".to_owned(),
            Self::Code => "a three-letter currency code (ISO 4217), as \"EUR\"".to_owned(),
            Self::Zone => "a time zone, as \"Europe/Vienna\"".to_owned(),
            Self::Hour => "an hour, as \"04:00\"".to_owned(),
        }
    }
}

/// Whether a key is of a pattern in which `*` stands for one name.
fn matches(pattern: &str, key: &str) -> bool {
    match pattern.split_once('*') {
        None => pattern == key,
        Some((before, after)) => key
            .strip_prefix(before)
            .and_then(|rest| rest.strip_suffix(after))
            .is_some_and(|name| !name.is_empty() && place_key(name) == name),
    }
}

/// From the zones built in: the record reads no file.
fn zone(name: &str) -> Option<TimeZone> {
    TimeZoneDatabase::bundled().get(name).ok()
}

fn hour(text: &str) -> Option<Time> {
    (text.len() == 5).then(|| text.parse().ok()).flatten()
}
