//! What the form changes: one entry for each setting that is another now than it was shown.

use record::{Entry, SettingChanged, SettingValue, place_key};

use super::items::{Asks, Item, groups, of_place, of_words};
use super::view::places;
use crate::house::Visit;
use crate::reading::Reading;
use crate::sent::{Sent, nth_id};

/// The entries, each with an id of its own made from the form's: the same each time it is sent.
pub(super) fn entries(reading: &mut Reading<'_>, visit: &Visit, sent: &Sent) -> Option<Vec<Entry>> {
    let mut changes: Vec<(String, SettingValue)> = Vec::new();
    let mut items: Vec<Item> = groups().into_iter().flat_map(|group| group.items).collect();
    items.extend(places(visit).iter().flat_map(|(key, _)| of_place(key)));
    items.extend(of_words(visit));
    items.push(Item {
        key: "doneness.scale".to_owned(),
        label: String::new(),
        asks: Asks::Text,
        unknown: "",
    });
    for item in &items {
        changes.extend(change(reading, visit, sent, item));
    }
    changes.extend(new_place(reading, sent));
    if !reading.is_good() {
        return None;
    }
    let at = reading.when();
    let entry = |(n, (key, value)): (usize, (String, SettingValue))| {
        let id = nth_id(sent.id(), u16::try_from(n).unwrap_or(u16::MAX));
        Entry::new(id, at, SettingChanged { key, value })
    };
    Some(changes.into_iter().enumerate().map(entry).collect())
}

fn change(
    reading: &mut Reading<'_>,
    visit: &Visit,
    sent: &Sent,
    item: &Item,
) -> Option<(String, SettingValue)> {
    // What the form does not have is left as it is.
    if !sent.has(&item.key) {
        return None;
    }
    let shown = item.shown(visit);
    let typed = sent.get(&item.key).unwrap_or_default();
    if typed == shown || is_unspoken(item, typed, &shown) {
        return None;
    }
    if typed.is_empty() {
        return Some((item.key.clone(), SettingValue::Unset));
    }
    match item.read(typed, visit) {
        Ok(value) => Some((item.key.clone(), value)),
        Err(words) => {
            reading.refuse(&item.key, words);
            None
        }
    }
}

/// A choice left at what holds anyway need not be written; money's kind is, since it is what all amounts are in.
fn is_unspoken(item: &Item, typed: &str, shown: &str) -> bool {
    match item.asks {
        Asks::OneOf(words) => {
            item.key != "money.currency"
                && shown.is_empty()
                && words.first().is_some_and(|(word, _)| *word == typed)
        }
        // The scale a new kitchen speaks in.
        _ => item.key == "doneness.scale" && shown.is_empty() && catalogue::doneness_scales()[0].id == typed,
    }
}

/// A place that was not known: its name and what it is.
fn new_place(reading: &mut Reading<'_>, sent: &Sent) -> Vec<(String, SettingValue)> {
    let Some(name) = sent.get("new-place").map(str::to_owned) else { return Vec::new() };
    let key = place_key(&name);
    if key.is_empty() {
        reading.refuse("new-place", "A name of letters or digits, as “cellar chest”.");
        return Vec::new();
    }
    let mut changes = vec![(format!("place.{key}.name"), SettingValue::Text(name))];
    if let Some(kind) = sent.get("new-place-kind") {
        changes.push((format!("place.{key}.kind"), SettingValue::Text(kind.to_owned())));
    }
    changes
}
