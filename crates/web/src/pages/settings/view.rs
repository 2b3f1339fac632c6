//! The kitchen in a sentence, its places, its doneness scales.

use catalogue::{DonenessScale, doneness_scales};
use quantity::{Clock, LengthUnit, Temperature, TemperatureUnit, group};
use record::place_key;

use super::items::{groups, of_place, of_words};
use crate::house::Visit;
use crate::parts::Typed;
use crate::plot::dots::Dot;
use crate::words::{and_list, sentence_case};

/// The page in words.
pub(super) struct View {
    pub(super) answer: String,
    pub(super) said: String,
    pub(super) scales: Vec<Scale>,
    pub(super) places: Vec<(String, String)>,
}

/// A doneness scale to choose.
pub(super) struct Scale {
    pub(super) id: String,
    pub(super) name: String,
    pub(super) source: &'static str,
    pub(super) dots: Vec<Dot>,
    pub(super) chosen: bool,
    pub(super) said: String,
}

pub(super) fn view(visit: &Visit) -> View {
    View { answer: answer(visit), said: said(visit), scales: scales(visit), places: places(visit) }
}

/// What the form starts from: everything that is set, as it is shown.
pub(super) fn fresh(visit: &Visit) -> Typed {
    let mut items: Vec<_> = groups().into_iter().flat_map(|group| group.items).collect();
    items.extend(places(visit).iter().flat_map(|(key, _)| of_place(key)));
    items.extend(of_words(visit));
    let mut values: Vec<(String, String)> = items
        .iter()
        .map(|item| (item.key.clone(), item.shown(visit)))
        .filter(|(_, shown)| !shown.is_empty())
        .collect();
    if visit.settings().currency().is_none() {
        values.push(("money.currency".to_owned(), visit.currency().code().to_owned()));
    }
    let values: Vec<(&str, String)> =
        values.iter().map(|(key, shown)| (key.as_str(), shown.clone())).collect();
    Typed::fresh(&values)
}

/// Places known by name or setting: their keys and what people call them.
pub(super) fn places(visit: &Visit) -> Vec<(String, String)> {
    season::known_places(&visit.state)
        .into_iter()
        .map(|name| (place_key(&name), name))
        .filter(|(key, _)| !key.is_empty())
        .collect()
}

fn answer(visit: &Visit) -> String {
    let units = &visit.units;
    let zone = visit.now().time_zone().iana_name().unwrap_or("this machine’s");
    let words = [
        if units.pounds { "pounds" } else { "grams" },
        if units.length == LengthUnit::Inch { "inches" } else { "mm" },
        if units.temperature == TemperatureUnit::Fahrenheit { "°F" } else { "°C" },
    ];
    let money = match visit.currency().code() {
        "EUR" => "euros".to_owned(),
        "USD" => "US dollars".to_owned(),
        "GBP" => "pounds sterling".to_owned(),
        code => code.to_owned(),
    };
    let clock = if units.clock == Clock::Hours12 { "am and pm" } else { "24\u{202f}h" };
    let medium_rare = chosen(visit).core("medium rare");
    let doneness = medium_rare.map_or_else(String::new, |core| {
        format!(" Medium rare is {}.", units.temperature(core, quantity::Grain::Forecast))
    });
    format!(
        "{}, {money}, {clock}; {} time.{doneness}",
        sentence_case(&words.join(", ")),
        zone.replace('_', " ")
    )
}

fn said(visit: &Visit) -> String {
    let unset: Vec<String> = [
        ("money.currency", "the currency"),
        ("kitchen.zone", "the time zone"),
        ("supper.portion_g", "how much goes on a plate"),
        ("money.lean_trim_per_kg", "what trim is worth"),
    ]
    .iter()
    .filter(|(key, _)| visit.settings().get(key).is_none())
    .map(|(_, words)| (*words).to_owned())
    .collect();
    let open = if unset.is_empty() { String::new() } else { format!(" Not set yet: {}.", and_list(&unset)) };
    format!(
        "Changing a unit changes how it is shown, never what was written. What stays unset is named on the page that suffers.{open}"
    )
}

/// The kitchen's scale, its moved words as they are.
pub(super) fn chosen(visit: &Visit) -> DonenessScale {
    season::scale(&visit.state)
}

fn scales(visit: &Visit) -> Vec<Scale> {
    let chosen = chosen(visit);
    let of = |scale: &DonenessScale| {
        if scale.id == chosen.id {
            self::scale(visit, &chosen, true)
        } else {
            self::scale(visit, scale, false)
        }
    };
    doneness_scales().iter().map(of).collect()
}

fn scale(visit: &Visit, scale: &DonenessScale, chosen: bool) -> Scale {
    let degree = |core: Temperature| match visit.units.temperature {
        TemperatureUnit::Celsius => group(core.c(), usize::from((core.c() - core.c().round()).abs() > 0.05)),
        TemperatureUnit::Fahrenheit => group(core.f(), 0),
    };
    let dots: Vec<Dot> = scale
        .words
        .iter()
        .map(|word| {
            let (low, high) = word.range();
            // The middle of a range is ours and is not known to the tenth.
            let core = if low == high { word.core() } else { Temperature::from_c(word.core().c().round()) };
            Dot { at: word.core().c(), figure: degree(core), word: word.word.clone() }
        })
        .collect();
    let listed: Vec<String> = dots.iter().map(|dot| format!("{} {}", dot.word, dot.figure)).collect();
    Scale {
        id: scale.id.clone(),
        name: scale.name.clone(),
        source: catalogue::source(&scale.source).map_or("", |source| &source.citation),
        said: format!("{}: {} degrees.", scale.name, listed.join(", ")),
        dots,
        chosen,
    }
}
