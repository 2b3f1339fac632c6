//! Candidates as the address of the page carries them, so that nothing is written down until one is bought.

use catalogue::Trim;
use jiff::civil::Date;
use record::{DateKind, Lip, PackerDate, Paid, PieceReceived, Price};
use rust_decimal::Decimal;
use season::{Candidate, Grams, PerMass, PiecePrice};

use crate::house::Visit;

/// The most that are put side by side: letters A to F.
pub(super) const MOST: usize = 6;

/// A candidate with the date on its bag.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Roll {
    pub(super) cut: String,
    pub(super) grams: Decimal,
    pub(super) price: Asked,
    pub(super) counter: Option<Asked>,
    pub(super) trim: Option<Trim>,
    pub(super) lip: Option<Lip>,
    pub(super) date: Option<(DateKind, Date)>,
}

/// A price as it was said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Asked {
    Kilo(Decimal),
    Pound(Decimal),
    All(Decimal),
}

impl Roll {
    /// `beef-ribeye-roll~6400~kg24.90~kg38.50~to-6-mm~on~pack:2026-06-20`, empty where not known.
    pub(super) fn to_text(&self) -> String {
        let counter = self.counter.map(Asked::to_text).unwrap_or_default();
        let trim = self.trim.map_or("", Trim::name);
        let lip = self.lip.map_or("", Lip::word);
        let date = self.date.map(|(kind, day)| format!("{}:{day}", kind.word())).unwrap_or_default();
        [
            self.cut.as_str(),
            &self.grams.normalize().to_string(),
            &self.price.to_text(),
            &counter,
            trim,
            lip,
            &date,
        ]
        .join("~")
    }

    /// Reads it back; nothing where the address was changed by hand into something else.
    pub(super) fn read(text: &str) -> Option<Self> {
        let parts: Vec<&str> = text.split('~').collect();
        let [cut, grams, price, counter, trim, lip, date] = parts.as_slice() else { return None };
        let filled = |text: &str| !text.is_empty();
        let date = if filled(date) {
            let (kind, day) = date.split_once(':')?;
            Some((DateKind::of(kind)?, day.parse().ok()?))
        } else {
            None
        };
        let grams = Decimal::from_str_exact(grams).ok()?;
        let in_range = grams >= Decimal::from(50) && grams <= Decimal::from(200_000);
        catalogue::cut(cut).filter(|_| in_range)?;
        Some(Self {
            cut: (*cut).to_owned(),
            grams,
            price: Asked::read(price)?,
            counter: if filled(counter) { Some(Asked::read(counter)?) } else { None },
            trim: if filled(trim) { Some(Trim::named(trim)?) } else { None },
            lip: if filled(lip) { Some(Lip::of(lip)?) } else { None },
            date,
        })
    }

    /// As the comparison takes it.
    pub(super) fn candidate(&self) -> Candidate {
        Candidate {
            cut: self.cut.clone(),
            mass: Grams::new(self.grams),
            price: match self.price {
                Asked::Kilo(amount) => PiecePrice::Per(PerMass::per_kg(amount)),
                Asked::Pound(amount) => PiecePrice::Per(PerMass::per_lb(amount)),
                Asked::All(amount) => PiecePrice::Total(amount),
            },
            counter: self.counter.and_then(Asked::per_mass),
            trim: self.trim,
            lip: self.lip.map(|lip| lip == Lip::On),
        }
    }

    /// As it is received once it is bought.
    pub(super) fn received(&self, visit: &Visit) -> PieceReceived {
        let by_mass = |asked: Asked| match asked {
            Asked::Pound(amount) => Price::from_per_lb(amount),
            Asked::Kilo(amount) | Asked::All(amount) => Price::from_per_kg(amount),
        };
        PieceReceived {
            cut: self.cut.clone(),
            mass: quantity::Mass::from_g(f64::try_from(self.grams).unwrap_or_default()),
            paid: match self.price {
                Asked::All(amount) => Paid::Total(amount),
                asked => Paid::ByMass(by_mass(asked)),
            },
            currency: visit.currency(),
            counter_price: self.counter.map(by_mass),
            word: None,
            trim: self.trim.and_then(|trim| record::Trim::of(trim.name())),
            lip: self.lip,
            date: self.date.map(|(kind, day)| PackerDate { kind, day }),
            core: None,
            place: None,
            shared_with: None,
            note: None,
        }
    }
}

impl Asked {
    fn to_text(self) -> String {
        match self {
            Self::Kilo(amount) => format!("kg{amount}"),
            Self::Pound(amount) => format!("lb{amount}"),
            Self::All(amount) => format!("all{amount}"),
        }
    }

    fn read(text: &str) -> Option<Self> {
        let amount = |text: &str| {
            let amount = Decimal::from_str_exact(text).ok()?;
            (amount >= Decimal::ZERO && amount < Decimal::from(1_000_000)).then_some(amount)
        };
        if let Some(rest) = text.strip_prefix("kg") {
            return amount(rest).map(Self::Kilo);
        }
        if let Some(rest) = text.strip_prefix("lb") {
            return amount(rest).map(Self::Pound);
        }
        text.strip_prefix("all").and_then(amount).map(Self::All)
    }

    fn per_mass(self) -> Option<PerMass> {
        match self {
            Self::Kilo(amount) => Some(PerMass::per_kg(amount)),
            Self::Pound(amount) => Some(PerMass::per_lb(amount)),
            Self::All(_) => None,
        }
    }
}

/// The address of the page with these candidates.
pub(super) fn address(rolls: &[Roll]) -> String {
    if rolls.is_empty() {
        return "/case".to_owned();
    }
    let each: Vec<String> = rolls.iter().map(|roll| format!("roll={}", roll.to_text())).collect();
    format!("/case?{}", each.join("&"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_candidate_is_read_back_as_it_was_put_down() {
        for text in [
            "beef-ribeye-roll~6400~kg24.90~kg38.50~to-6-mm~on~pack:2026-06-20",
            "beef-strip-loin~5900~all126.85~~~~",
            "beef-tenderloin~2267.96185~lb14.99~lb24.99~bare~~use-by:2026-12-01",
        ] {
            assert_eq!(Roll::read(text).unwrap().to_text(), text);
        }
    }

    #[test]
    fn an_address_changed_by_hand_is_not_taken() {
        for text in [
            "",
            "beef-unicorn~6400~kg1~~~~",
            "beef-strip-loin~0~kg1~~~~",
            "beef-strip-loin~900~kg-1~~~~",
            "a~b",
        ] {
            assert_eq!(Roll::read(text), None, "{text}");
        }
    }
}
