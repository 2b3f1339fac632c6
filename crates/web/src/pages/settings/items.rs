//! Every setting the page offers: its key, how it is asked, in which unit it is shown.

use catalogue::crystals;
use quantity::{
    Length, LengthUnit, Mass, Temperature, TemperatureUnit, read_length, read_mass, read_number,
    read_temperature,
};
use record::{SettingValue, Settings};
use rust_decimal::Decimal;

use crate::house::Visit;

/// A setting as it is asked.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Item {
    pub(super) key: String,
    pub(super) label: String,
    pub(super) asks: Asks,
    /// What stands in the empty field.
    pub(super) unknown: &'static str,
}

/// What kind of answer it takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Asks {
    /// One of these words; the first is what holds where nothing is set.
    OneOf(&'static [(&'static str, &'static str)]),
    /// A small mass, kept in grams.
    Grams,
    /// A length, kept in millimetres.
    Millimetres,
    /// A temperature, kept in °C.
    Celsius,
    /// A difference of temperature, kept in °C.
    CelsiusStep,
    /// A plain number with a unit behind it.
    Number(&'static str),
    /// So many in a hundred, kept as a share.
    InHundred,
    /// Money.
    Amount,
    /// Words.
    Text,
}

/// A group of settings under one heading.
pub(super) struct Group {
    pub(super) id: &'static str,
    pub(super) heading: &'static str,
    pub(super) items: Vec<Item>,
}

const MASS: &[(&str, &str)] = &[("g", "grams, kilos"), ("lb", "pounds, ounces")];
const LENGTH: &[(&str, &str)] = &[("mm", "mm"), ("in", "inches")];
const TEMPERATURE: &[(&str, &str)] = &[("c", "°C"), ("f", "°F")];
const CLOCK: &[(&str, &str)] = &[("24", "24 h"), ("12", "am, pm")];
const CURRENCIES: &[(&str, &str)] = &[
    ("EUR", "euro, €"),
    ("USD", "US dollar, $"),
    ("GBP", "pound, £"),
    ("CHF", "Swiss franc"),
    ("CAD", "Canadian dollar, $"),
    ("AUD", "Australian dollar, $"),
    ("NZD", "New Zealand dollar, $"),
    ("SEK", "Swedish krona"),
    ("NOK", "Norwegian krone"),
    ("DKK", "Danish krone"),
    ("JPY", "yen, ¥"),
];
const RULES: &[(&str, &str)] = &[("us", "US"), ("au", "Australia, New Zealand")];
const WRAP: &[(&str, &str)] = &[("vacuum", "vacuum bag"), ("film", "film"), ("none", "none")];
const LABEL: &[(&str, &str)] = &[("sheet", "sheet of 21"), ("roll", "62 mm roll")];
const PLACE: &[(&str, &str)] =
    &[("", "not said"), ("freezer", "freezer"), ("fridge", "fridge"), ("room", "room")];

/// The groups of a kitchen that does not hang on its places, in the order of the page.
pub(super) fn groups() -> Vec<Group> {
    vec![
        group(
            "units",
            "Units",
            vec![
                item("units.mass", "Weight", Asks::OneOf(MASS), ""),
                item("units.length", "Length", Asks::OneOf(LENGTH), ""),
                item("units.temperature", "Temperature", Asks::OneOf(TEMPERATURE), ""),
                item("units.clock", "Clock", Asks::OneOf(CLOCK), ""),
            ],
        ),
        group(
            "kitchen",
            "Kitchen",
            vec![
                item("money.currency", "Money", Asks::OneOf(CURRENCIES), ""),
                item("kitchen.zone", "Time zone", Asks::Text, "as this machine"),
                item("kitchen.rules", "Official rules shown", Asks::OneOf(RULES), ""),
                item("kitchen.day_ends", "A day ends at", Asks::Text, "04:00"),
            ],
        ),
        group(
            "promises",
            "Promises",
            vec![
                item("supper.chance", "On the plate in time", Asks::InHundred, "not set"),
                item("supper.portion_g", "Raw, on a plate", Asks::Grams, "not set"),
                item("board.warm_min", "Longest on the board", Asks::Number("min"), "the official limit"),
            ],
        ),
        group(
            "money",
            "Money",
            vec![
                item("money.lean_trim_per_kg", "Lean trim replaces", Asks::Amount, "counts as zero"),
                item("money.clean_fat_per_kg", "Clean fat replaces", Asks::Amount, "counts as zero"),
                item("money.bag_each", "A bag", Asks::Amount, "counts as zero"),
                item("money.energy_per_kg_month", "Keeping a kilo a month", Asks::Amount, "counts as zero"),
            ],
        ),
        group(
            "instruments",
            "Instruments",
            vec![
                item("scale.division_g", "Kitchen scale, division", Asks::Grams, "taken as 1"),
                item("probe.error_c", "Probe, give or take", Asks::CelsiusStep, "not read"),
                item("ruler.division_mm", "Ruler, division", Asks::Millimetres, "taken as 1"),
            ],
        ),
        group(
            "knife",
            "Knife",
            vec![
                item("board.thinnest_mm", "Thinnest portion", Asks::Millimetres, "as usual"),
                item("board.thickest_mm", "Thickest portion", Asks::Millimetres, "as usual"),
                item("board.knife_mm", "The cut itself takes", Asks::Millimetres, "nothing"),
            ],
        ),
        group("salt", "Salt and bags", salt_and_bags()),
    ]
}

fn salt_and_bags() -> Vec<Item> {
    let spoons = crystals().iter().map(|crystal| Item {
        label: format!("Level teaspoon, {}", crystal.name),
        ..item(&crystal.setting, "", Asks::Grams, "not weighed")
    });
    let rest = [
        item("salt.dose_percent", "Salt, of the weight", Asks::Number("%"), "not set"),
        item("bag.mass_g", "Bag with seal", Asks::Grams, "not weighed"),
        item("bag.lot", "Lot in use", Asks::Text, "not said"),
        item("bag.wrap", "Packed in", Asks::OneOf(WRAP), ""),
        item("label.on", "Labels on", Asks::OneOf(LABEL), ""),
    ];
    spoons.chain(rest).collect()
}

/// What is asked of a place.
pub(super) fn of_place(key: &str) -> Vec<Item> {
    vec![
        item(&format!("place.{key}.kind"), "It is a", Asks::OneOf(PLACE), ""),
        item(&format!("place.{key}.set_c"), "Set to", Asks::Celsius, "not read"),
        item(&format!("place.{key}.volume_l"), "Holds", Asks::Number("litres"), "not read"),
        item(&format!("place.{key}.rated_kg_24h"), "Freezes in 24 h", Asks::Number("kg"), "not read"),
    ]
}

/// Where each word of the kitchen's scale is moved to.
pub(super) fn of_words(visit: &Visit) -> Vec<Item> {
    let of = |word: &catalogue::DonenessWord| {
        item(
            &season::moved_key(&word.word),
            &crate::words::sentence_case(&word.word),
            Asks::Celsius,
            "as its source",
        )
    };
    season::scale(&visit.state).words.iter().map(of).collect()
}

fn group(id: &'static str, heading: &'static str, items: Vec<Item>) -> Group {
    Group { id, heading, items }
}

fn item(key: &str, label: &str, asks: Asks, unknown: &'static str) -> Item {
    Item { key: key.to_owned(), label: label.to_owned(), asks, unknown }
}

impl Item {
    /// The value as the field shows it; empty where nothing is set.
    pub(super) fn shown(&self, visit: &Visit) -> String {
        let settings = visit.settings();
        let number = || settings.number(&self.key);
        let units = &visit.units;
        match self.asks {
            Asks::OneOf(_) | Asks::Text => settings.text(&self.key).unwrap_or_default().to_owned(),
            Asks::Amount => per_mass(&self.key, settings, units.pounds),
            Asks::Grams => number()
                .map(|grams| plain(if units.pounds { Mass::from_g(grams).oz() } else { grams }))
                .unwrap_or_default(),
            Asks::Millimetres => number()
                .map(|mm| {
                    plain(if units.length == LengthUnit::Inch { Length::from_mm(mm).inch() } else { mm })
                })
                .unwrap_or_default(),
            Asks::Celsius => number()
                .map(|c| plain(if self.is_fahrenheit(visit) { Temperature::from_c(c).f() } else { c }))
                .unwrap_or_default(),
            Asks::CelsiusStep => number()
                .map(|c| plain(if self.is_fahrenheit(visit) { c * 1.8 } else { c }))
                .unwrap_or_default(),
            Asks::InHundred => number().map(|share| plain(share * 100.0)).unwrap_or_default(),
            Asks::Number(_) => number().map(plain).unwrap_or_default(),
        }
    }

    fn is_fahrenheit(&self, visit: &Visit) -> bool {
        visit.units.temperature == TemperatureUnit::Fahrenheit
    }

    /// The unit behind the field.
    pub(super) fn unit(&self, visit: &Visit) -> Option<String> {
        let units = &visit.units;
        let word = match self.asks {
            Asks::OneOf(_) | Asks::Text => return None,
            Asks::Grams => if units.pounds { "oz" } else { "g" }.to_owned(),
            Asks::Millimetres => if units.length == LengthUnit::Inch { "in" } else { "mm" }.to_owned(),
            Asks::Celsius | Asks::CelsiusStep => {
                if self.is_fahrenheit(visit) { "°F" } else { "°C" }.to_owned()
            }
            Asks::Number(unit) => unit.to_owned(),
            Asks::InHundred => "in 100".to_owned(),
            Asks::Amount if self.is_per_mass() => {
                format!("{}/{}", visit.currency().sign(), if units.pounds { "lb" } else { "kg" })
            }
            Asks::Amount => visit.currency().sign().to_owned(),
        };
        Some(word)
    }

    fn is_per_mass(&self) -> bool {
        self.key.ends_with("_per_kg") || self.key.contains("_per_kg_")
    }

    /// Reads what was typed into the value that is kept.
    ///
    /// # Errors
    /// A sentence: what was found, what is allowed.
    pub(super) fn read(&self, text: &str, visit: &Visit) -> Result<SettingValue, String> {
        let units = &visit.units;
        let said =
            |problem: quantity::ReadError| format!("{}.", crate::words::sentence_case(&problem.to_string()));
        let number = |value: f64| SettingValue::Number((value * 1e6).round() / 1e6);
        Ok(match self.asks {
            Asks::OneOf(words) => {
                let known = words.iter().any(|(word, _)| *word == text);
                if !known {
                    return Err(format!("“{text}” is not one of the choices."));
                }
                SettingValue::Text(text.to_owned())
            }
            Asks::Text => self.text(text)?,
            Asks::Grams => number(read_mass(text, units.small_mass()).map_err(said)?.g()),
            Asks::Millimetres => number(read_length(text, units.length).map_err(said)?.mm()),
            Asks::Celsius => number(read_temperature(text, units.temperature).map_err(said)?.c()),
            Asks::CelsiusStep => {
                let step = read_number(text).map_err(said)?;
                number(if self.is_fahrenheit(visit) { step / 1.8 } else { step })
            }
            Asks::InHundred => number(read_number(text).map_err(said)? / 100.0),
            Asks::Number(_) => number(read_number(text).map_err(said)?),
            Asks::Amount => SettingValue::Text(self.amount(text, units.pounds)?),
        })
    }

    fn text(&self, text: &str) -> Result<SettingValue, String> {
        let sound = match self.key.as_str() {
            "kitchen.zone" => jiff::tz::TimeZoneDatabase::bundled().get(text).is_ok(),
            "kitchen.day_ends" => text.len() == 5 && text.parse::<jiff::civil::Time>().is_ok(),
            _ => true,
        };
        if sound {
            return Ok(SettingValue::Text(text.to_owned()));
        }
        Err(match self.key.as_str() {
            "kitchen.zone" => {
                format!("“{text}” is not a time zone. Write it as Europe/Vienna or America/Chicago.")
            }
            _ => format!("“{text}” is not an hour. Write it as 04:00."),
        })
    }

    fn amount(&self, text: &str, pounds: bool) -> Result<String, String> {
        let amount = crate::reading::amount(text)
            .ok_or_else(|| format!("“{text}” is no amount. Write one such as 11.80."))?;
        let kept = if pounds && self.is_per_mass() {
            record::Price::from_per_lb(amount).per_kg().round_dp(6)
        } else {
            amount
        };
        Ok(kept.normalize().to_string())
    }
}

fn per_mass(key: &str, settings: &Settings, pounds: bool) -> String {
    let Some(amount) = settings.amount(key) else { return String::new() };
    let is_per_mass = key.ends_with("_per_kg") || key.contains("_per_kg_");
    let shown: Decimal =
        if pounds && is_per_mass { record::Price::from_per_kg(amount).per_lb() } else { amount };
    let shown = shown.round_dp(4).normalize();
    if shown.scale() < 2 { format!("{shown:.2}") } else { shown.to_string() }
}

/// A number without needless digits.
fn plain(value: f64) -> String {
    let text = format!("{value:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
