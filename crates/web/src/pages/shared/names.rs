//! Names as people here say them: cuts by region, heaps, places.

use band::Band;
use quantity::{Currency, Mass, Money};
use record::{PartName, Price, Settings};
use season::Whereabouts;

use crate::house::Visit;
use crate::words::counted;

/// What a cut is called here: the trade's name of the kitchen's region, without its item number.
pub(crate) fn cut_name(settings: &Settings, cut: &str) -> String {
    let Some(cut) = catalogue::cut(cut) else { return cut.trim_start_matches("beef-").replace('-', " ") };
    let name = match settings.text("kitchen.rules") {
        Some("uk") => &cut.names.uk,
        Some("au") => &cut.names.au,
        _ => &cut.names.us,
    };
    let bare = name.split('(').next().unwrap_or(name).trim();
    bare.to_owned()
}

/// The cuts a form offers, by catalogue name and what they are called here: whole rolls first.
pub(crate) fn cut_options(settings: &Settings) -> Vec<(String, String)> {
    let mut cuts: Vec<_> = catalogue::cuts().iter().filter(|cut| cut.trims().next().is_some()).collect();
    cuts.sort_by_key(|cut| !cut.roll);
    cuts.into_iter().map(|cut| (cut.id.clone(), cut_name(settings, &cut.id))).collect()
}

/// The sign and the mass prices are said in here: `€/kg`, `$/lb`.
pub(crate) fn cut_unit_price(visit: &Visit, currency: Currency) -> String {
    format!("{}/{}", currency.sign(), if visit.units.pounds { "lb" } else { "kg" })
}

/// `kilo`, or `pound` where prices are said by the pound.
pub(crate) fn kilo_word(visit: &Visit) -> &'static str {
    if visit.units.pounds { "pound" } else { "kilo" }
}

/// A price per kilo as it is said here: by the kilo or the pound.
pub(crate) fn per_unit(visit: &Visit, per_kg: Band) -> Band {
    if visit.units.pounds { per_kg.times(Mass::from_lb(1.0).kg()) } else { per_kg }
}

/// An exact price per kilo as it is said here.
pub(crate) fn price_here(visit: &Visit, per_kg: Money) -> Money {
    if !visit.units.pounds {
        return per_kg;
    }
    Money::new(Price::from_per_kg(per_kg.amount).per_lb(), per_kg.currency)
}

/// A heap by its name.
pub(crate) fn part_name(part: PartName, called: Option<&str>) -> String {
    match (part, called) {
        (PartName::Other, Some(called)) => called.to_owned(),
        (PartName::EndsFirst, _) => "end squared off, first".to_owned(),
        (PartName::EndsLast, _) => "end squared off, last".to_owned(),
        (PartName::LeanTrim, _) => "lean trim".to_owned(),
        (PartName::CleanFat, _) => "clean fat".to_owned(),
        (PartName::SilverSkin, _) => "silver skin, kernel".to_owned(),
        (PartName::Bone, _) => "bone".to_owned(),
        (PartName::Purge, _) => "purge".to_owned(),
        (PartName::Cap, _) => "cap".to_owned(),
        (PartName::Other, None) => "another heap".to_owned(),
    }
}

/// `ten portions`
pub(crate) fn portions_of(count: usize) -> String {
    counted(count, "portion", "portions")
}

/// Where something is, as a few words: `in the fridge`.
pub(crate) fn whereabouts_words(whereabouts: &Whereabouts) -> String {
    match whereabouts {
        Whereabouts::Out(place) | Whereabouts::Store(Some(place)) => in_the(place),
        Whereabouts::Store(None) => "packed, place not written".to_owned(),
        Whereabouts::Loose => "in no pack".to_owned(),
        Whereabouts::Heat => "at the heat".to_owned(),
        Whereabouts::Spare => "left over".to_owned(),
        Whereabouts::Eaten => "eaten".to_owned(),
        Whereabouts::Discarded => "thrown away".to_owned(),
    }
}

/// A place people wrote: `in the fridge`; one that reads as a name of its own keeps it.
pub(crate) fn in_the(place: &str) -> String {
    if matches!(place, "counter" | "board") {
        return format!("on the {place}");
    }
    let starts_small = place.chars().next().is_some_and(char::is_lowercase);
    if starts_small && !place.starts_with("the ") { format!("in the {place}") } else { format!("in {place}") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use record::State;

    #[test]
    fn a_cut_is_named_without_its_item_number() {
        let settings = State::default();
        assert_eq!(cut_name(settings.settings(), "beef-ribeye-roll"), "ribeye roll, lip-on");
        assert_eq!(cut_name(settings.settings(), "beef-unheard-of"), "unheard of");
        assert!(cut_options(settings.settings()).len() >= 12);
    }

    #[test]
    fn places_read_as_people_say_them() {
        assert_eq!(
            whereabouts_words(&Whereabouts::Store(Some("cellar chest".into()))),
            "in the cellar chest"
        );
        assert_eq!(whereabouts_words(&Whereabouts::Out("Fridge 2".into())), "in Fridge 2");
    }
}
