//! Reads what was typed, in either unit, and says under each field what was found, what is allowed and what to do.

use jiff::civil::{Date, DateTime};
use quantity::{Grain, Length, Mass, Temperature, read_length, read_mass, read_number, read_temperature};
use record::{At, Body, Entry, Refusal};
use rust_decimal::Decimal;
use std::ops::RangeInclusive;

use crate::failure::Failure;
use crate::house::{House, NotWritten, Visit};
use crate::parts::Typed;
use crate::sent::Sent;
use crate::words::refused;

/// A form being read: what it says so far, and what is wrong with it.
pub(crate) struct Reading<'a> {
    sent: &'a Sent,
    visit: &'a Visit,
    typed: Typed,
}

/// How large a mass a field takes: it decides the unit of a bare number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Size {
    /// Grams or ounces.
    Small,
    /// Kilos or pounds.
    Large,
}

impl<'a> Reading<'a> {
    pub(crate) fn new(sent: &'a Sent, visit: &'a Visit) -> Self {
        Self { sent, visit, typed: sent.typed() }
    }

    /// The words of a field; nothing if it was left empty.
    pub(crate) fn text(&self, name: &str) -> Option<String> {
        self.sent.get(name).map(str::to_owned)
    }

    /// A word of a closed list; a word that is not on it is refused.
    pub(crate) fn choice<T>(&mut self, name: &str, of: impl Fn(&str) -> Option<T>) -> Option<T> {
        let word = self.sent.get(name)?;
        let found = of(word);
        if found.is_none() {
            self.typed.refuse(name, format!("“{word}” is not one of the choices. Choose one of them."));
        }
        found
    }

    /// A mass in either unit.
    pub(crate) fn mass(&mut self, name: &str, size: Size, allowed: RangeInclusive<f64>) -> Option<Mass> {
        let units = self.visit.units;
        let unit = if size == Size::Large { units.large_mass() } else { units.small_mass() };
        let shown = |grams: f64| match size {
            Size::Large => units.large(Mass::from_g(grams)),
            Size::Small => units.mass(Mass::from_g(grams), Grain::Reading),
        };
        let mass = self.quantity(name, |text| read_mass(text, unit))?;
        self.within(name, mass.g(), &allowed, shown).then_some(mass)
    }

    /// A length in either unit.
    pub(crate) fn length(&mut self, name: &str, allowed_mm: RangeInclusive<f64>) -> Option<Length> {
        let units = self.visit.units;
        let length = self.quantity(name, |text| read_length(text, units.length))?;
        let shown = |mm: f64| units.length(Length::from_mm(mm));
        self.within(name, length.mm(), &allowed_mm, shown).then_some(length)
    }

    /// A temperature in either unit.
    pub(crate) fn temperature(&mut self, name: &str, allowed_c: RangeInclusive<f64>) -> Option<Temperature> {
        let units = self.visit.units;
        let temperature = self.quantity(name, |text| read_temperature(text, units.temperature))?;
        let shown = |c: f64| units.temperature(Temperature::from_c(c), Grain::Reading);
        self.within(name, temperature.c(), &allowed_c, shown).then_some(temperature)
    }

    /// A plain number.
    pub(crate) fn number(&mut self, name: &str, allowed: RangeInclusive<f64>) -> Option<f64> {
        let number = self.quantity(name, read_number)?;
        let shown = |value: f64| plain(value);
        self.within(name, number, &allowed, shown).then_some(number)
    }

    /// An amount of money: exact, with up to four decimals; a sign of the currency around it is passed over.
    pub(crate) fn money(&mut self, name: &str) -> Option<Decimal> {
        let text = self.sent.get(name)?.to_owned();
        let read = amount(&text);
        if read.is_none() {
            let allowed = "an amount such as 24.90, not below zero";
            self.typed.refuse(name, format!("“{text}” is no amount. Write {allowed}."));
        }
        read
    }

    /// A day.
    pub(crate) fn date(&mut self, name: &str) -> Option<Date> {
        let text = self.sent.get(name)?.to_owned();
        let read = text.parse::<Date>().ok();
        if read.is_none() {
            self.typed.refuse(name, format!("“{text}” is not a day. Write it as 2026-07-04."));
        }
        read
    }

    /// An hour of the kitchen's clock, as a field for day and hour sends it.
    pub(crate) fn hour(&mut self, name: &str) -> Option<At> {
        let text = self.sent.get(name)?.to_owned();
        let zone = self.visit.now().time_zone().clone();
        let read = text.parse::<DateTime>().ok().and_then(|hour| hour.to_zoned_datetime(zone).ok());
        if read.is_none() {
            self.typed
                .refuse(name, format!("“{text}” is not a day and an hour. Write it as 2026-07-04T10:24."));
        }
        read.as_ref().map(At::of)
    }

    /// A field that cannot be left empty.
    pub(crate) fn needs<T>(&mut self, name: &str, value: Option<T>, what: &str) -> Option<T> {
        if value.is_none() && self.sent.get(name).is_none() {
            self.typed.refuse(name, format!("Nothing stands here. {what}"));
        }
        value
    }

    /// Says what is wrong with a field.
    pub(crate) fn refuse(&mut self, name: &str, words: impl Into<String>) {
        self.typed.refuse(name, words);
    }

    /// Says what is wrong with the form as a whole.
    pub(crate) fn refuse_whole(&mut self, words: impl Into<String>) {
        self.typed.refuse_whole(words);
    }

    /// When it happened: the hour typed, else the moment the script sent it, else now.
    pub(crate) fn when(&mut self) -> At {
        let typed = self.hour("when");
        let by_script = self.sent.get("at").and_then(At::read);
        typed.or(by_script).unwrap_or_else(|| self.visit.at())
    }

    /// The entry this form writes: its id is the form's.
    pub(crate) fn entry(&mut self, body: impl Into<Body>) -> Entry {
        let at = self.when();
        Entry::new(self.sent.id(), at, body)
    }

    /// Whether nothing stands against it so far.
    pub(crate) fn is_good(&self) -> bool {
        self.typed.is_good()
    }

    /// What was typed, with what stands against it.
    pub(crate) fn into_typed(self) -> Typed {
        self.typed
    }

    /// Writes the entries this form makes. `Ok(Ok(()))` once they are on disk, at once if they were there before: a form
    /// sent twice counts once. `Ok(Err(typed))` if something stands against them, for the form to be shown again.
    ///
    /// # Errors
    /// [`Failure`] if the house cannot write.
    pub(crate) async fn write(
        mut self,
        house: &House,
        entries: Option<Vec<Entry>>,
    ) -> Result<Result<(), Typed>, Failure> {
        if self.visit.state.entry_of(self.sent.id()).is_some() {
            return Ok(Ok(()));
        }
        let Some(entries) = entries.filter(|_| self.is_good()) else { return Ok(Err(self.typed)) };
        match house.write(entries).await {
            Ok(()) => Ok(Ok(())),
            Err(NotWritten::Refused(refusal)) => {
                self.refused(&refusal);
                Ok(Err(self.typed))
            }
            Err(NotWritten::Failed(failure)) => Err(failure),
        }
    }

    /// Puts a refusal under the field it lies in; over the buttons where it lies in none.
    fn refused(&mut self, refusal: &Refusal) {
        let words = refused(refusal, &self.visit.units, &self.visit.moments);
        let field = refusal.key().map(field_of).filter(|name| self.sent.has(name));
        match field {
            Some(name) => self.typed.refuse(name, words),
            None => self.typed.refuse_whole(words),
        }
    }

    fn quantity<T>(
        &mut self,
        name: &str,
        read: impl Fn(&str) -> Result<T, quantity::ReadError>,
    ) -> Option<T> {
        match read(self.sent.get(name)?) {
            Ok(value) => Some(value),
            Err(problem) => {
                self.typed.refuse(name, sentence(&problem.to_string()));
                None
            }
        }
    }

    /// Refuses a value out of range; where a slip of a thousand explains it, says what may have been meant.
    fn within(
        &mut self,
        name: &str,
        value: f64,
        allowed: &RangeInclusive<f64>,
        shown: impl Fn(f64) -> String,
    ) -> bool {
        if allowed.contains(&value) {
            return true;
        }
        let meant = [value / 1000.0, value * 1000.0].into_iter().find(|other| allowed.contains(other));
        let meant = meant.map_or_else(String::new, |other| format!(" Did you mean {}?", shown(other)));
        let (low, high) = (shown(*allowed.start()), shown(*allowed.end()));
        self.typed.refuse(name, format!("{}? Allowed here: {low} to {high}.{meant}", shown(value)));
        false
    }
}

/// The field of a key of a body: `body.mass_g` is typed in `mass`.
fn field_of(key: &str) -> &str {
    let bare = key.strip_prefix("body.").unwrap_or(key);
    match bare {
        "at" => "when",
        _ => bare
            .strip_suffix("_g")
            .or_else(|| bare.strip_suffix("_mm"))
            .or_else(|| bare.strip_suffix("_c"))
            .unwrap_or(bare),
    }
}

/// `24.90`, `24,90 €`, `$13.43`: digits with a point or comma, signs of currencies passed over.
pub(crate) fn amount(text: &str) -> Option<Decimal> {
    let bare =
        text.trim().trim_matches(|c: char| "€$£¥".contains(c) || c.is_alphabetic() || c.is_whitespace());
    let dotted = bare.replace(['\u{202f}', '\u{a0}', ' '], "").replace(',', ".");
    let value = Decimal::from_str_exact(&dotted).ok()?;
    (value >= Decimal::ZERO && value.scale() <= 4 && value < Decimal::from(1_000_000)).then_some(value)
}

fn plain(value: f64) -> String {
    let text = format!("{value:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let start = letters.next().map_or_else(String::new, |first| first.to_uppercase().collect());
    format!("{start}{}.", letters.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::Timestamp;
    use record::State;
    use std::sync::Arc;

    fn read<T>(fields: &[(&str, &str)], read: impl FnOnce(&mut Reading<'_>) -> T) -> (T, Typed) {
        let sent: Sent =
            fields.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect();
        let visit = Visit::new(Arc::new(State::default()), Timestamp::UNIX_EPOCH);
        let mut reading = Reading::new(&sent, &visit);
        let value = read(&mut reading);
        (value, reading.into_typed())
    }

    #[test]
    fn either_unit_is_read() {
        let (mass, typed) =
            read(&[("mass", "14 lb")], |form| form.mass("mass", Size::Large, 50.0..=200_000.0));
        assert!((mass.unwrap().lb() - 14.0).abs() < 1e-12 && typed.is_good());
        let (mass, _) = read(&[("mass", "5.9")], |form| form.mass("mass", Size::Large, 50.0..=200_000.0));
        assert_eq!(mass, Some(Mass::from_kg(5.9)));
    }

    #[test]
    fn a_slip_of_a_thousand_is_asked_about() {
        let (mass, typed) =
            read(&[("mass", "6 400 kg")], |form| form.mass("mass", Size::Large, 50.0..=200_000.0));
        assert_eq!(mass, None);
        let wrong = typed.wrong("mass").unwrap().replace('\u{202f}', " ");
        assert_eq!(wrong, "6 400.00 kg? Allowed here: 0.05 kg to 200.00 kg. Did you mean 6.40 kg?");
    }

    #[test]
    fn what_is_no_number_is_said_in_a_sentence() {
        let (_, typed) = read(&[("core", "warm")], |form| form.temperature("core", -60.0..=60.0));
        assert_eq!(typed.wrong("core").unwrap(), "\"warm\" is not a number; write digits, as in 3.1 °C.");
    }

    #[test]
    fn money_is_exact_and_taken_as_people_write_it() {
        for (text, value) in
            [("24.90", "24.90"), ("24,9 €", "24.9"), ("$13.43", "13.43"), ("1 204.50", "1204.50")]
        {
            assert_eq!(amount(text), Some(value.parse().unwrap()), "{text}");
        }
        for text in ["", "-1", "abc", "1.23456", "1e9", "9999999"] {
            assert_eq!(amount(text), None, "{text}");
        }
    }

    #[test]
    fn a_field_that_is_needed_says_so() {
        let (_, typed) = read(&[], |form| {
            let mass = form.mass("mass", Size::Large, 50.0..=200_000.0);
            form.needs("mass", mass, "The weight stands on the label.")
        });
        assert_eq!(typed.wrong("mass"), Some("Nothing stands here. The weight stands on the label."));
    }
}
