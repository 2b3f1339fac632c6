//! One pack in words.

use maud::{Markup, html};
use quantity::Grain;
use record::Pack;

use super::query::Found;
use crate::house::Visit;
use crate::pages::shared::in_the;
use crate::pages::shared::places::{Offered, offered};
use crate::pages::store::chart;
use crate::papers::{by_hand, is_salted, what};
use crate::words::{long_day, sentence_case};

/// One pack as it is shown.
pub(super) struct View {
    pub(super) name: String,
    pub(super) to: String,
    pub(super) slug: String,
    pub(super) piece: (String, String),
    pub(super) answer: Markup,
    pub(super) loose: Option<String>,
    pub(super) said: Vec<String>,
    pub(super) chart: Option<chart::Words>,
    /// The official rule on the way it thaws, where that is not one of the ways it allows.
    pub(super) thawing: Option<(String, String)>,
    pub(super) rows: Vec<Line>,
    pub(super) anew: Option<String>,
    pub(super) by_hand: String,
    pub(super) places: Vec<Offered>,
    pub(super) can_take_out: bool,
    pub(super) is_there: bool,
    pub(super) is_loose: bool,
}

/// A portion in it.
pub(super) struct Line {
    pub(super) name: String,
    pub(super) link: String,
    pub(super) mass: String,
    pub(super) thick: String,
}

pub(super) fn view(found: &Found<'_>, visit: &Visit) -> View {
    let pack = found.pack;
    let piece = visit.state.piece(pack.piece);
    let rows = found.lain.portions.iter().map(|portion| Line {
        name: portion.name(),
        link: format!("/piece/{}/{}", portion.word.slug(), portion.n),
        mass: visit.units.mass(portion.weighed.mass, Grain::Reading),
        thick: piece
            .and_then(|piece| season::thickness_of(&visit.state, piece, portion))
            .map_or_else(String::new, |thickness| visit.units.length(thickness.length())),
    });
    let is_there = pack.gone.is_none();
    View {
        name: pack.name.clone(),
        to: format!("/pack/{}", pack.slug),
        slug: pack.slug.clone(),
        piece: (pack.word.to_string(), format!("/piece/{}", pack.word.slug())),
        answer: answer(found, visit),
        loose: loose(pack, visit),
        said: said(found, visit),
        chart: (is_there && pack.out.is_none()).then(|| chart::words(&found.lain, visit)),
        thawing: thawing(pack, visit),
        rows: rows.collect(),
        anew: anew(found),
        by_hand: by_hand(&visit.state, pack),
        places: elsewhere(found, visit),
        can_take_out: is_there && pack.out.is_none(),
        is_there,
        is_loose: pack.leaker.is_some(),
    }
}

fn answer(found: &Found<'_>, visit: &Visit) -> Markup {
    let pack = found.pack;
    let time = |at: record::At| visit.moments.time(&visit.zoned(at));
    if let Some(gone) = &pack.gone {
        return html! { (sentence_case(gone.how)) " " (visit.moments.day(&visit.zoned(gone.at))) "." };
    }
    if let Some(out) = &pack.out {
        return html! { "Out since " strong { (time(out.at)) } ", " (in_the(&out.place)) "." };
    }
    if let Some(missing) = pack.missing {
        return html! { "The count of " (visit.moments.day(&visit.zoned(missing))) " did not find it." };
    }
    match &pack.lying {
        None => html! { "Nobody wrote down where it lies." },
        Some(lying) => html! {
            strong { (sentence_case(&in_the(&lying.place))) }
            @if let Some(spot) = &lying.spot { ", " (spot) }
            ", since " (visit.moments.day(&visit.zoned(lying.since))) "."
        },
    }
}

fn said(found: &Found<'_>, visit: &Visit) -> Vec<String> {
    let pack = found.pack;
    let salted = if found.lain.heap.is_some() {
        String::new()
    } else {
        format!(", {}", if is_salted(&found.lain) { "salted" } else { "not salted" })
    };
    let mass = visit.units.mass(pack.mass, Grain::Reading);
    let packed = visit.moments.day(&visit.zoned(pack.at));
    let mut said = vec![format!("{} of {}{salted}; packed {packed}.", mass, what(&visit.state, &found.lain))];
    if let Some(supper) = found.lain.supper {
        let day = long_day(&visit.zoned(supper.planned.serve.at));
        said.push(format!("Set aside for the supper of {day}."));
    }
    said
}

fn loose(pack: &Pack, visit: &Visit) -> Option<String> {
    let leak = pack.leaker.as_ref().filter(|_| pack.gone.is_none())?;
    let note = leak.note.as_ref().map_or_else(String::new, |note| format!(" ({note})"));
    Some(format!("Its bag is loose since {}{note}. Use it first.", visit.moments.day(&visit.zoned(leak.at))))
}

fn thawing(pack: &Pack, visit: &Visit) -> Option<(String, String)> {
    let method = pack.out.as_ref()?.method?;
    let unsafe_way = matches!(method, record::Method::Counter | record::Method::WarmWater);
    let rule = catalogue::official_rule("thawing", catalogue::Region::Us).filter(|_| unsafe_way)?;
    Some((rule.words(visit.units.temperature), rule.cited()))
}

/// Where a loose bag is sealed anew.
fn anew(found: &Found<'_>) -> Option<String> {
    let loose = found.pack.leaker.is_some() && found.pack.is_in_store();
    let [first, rest @ ..] = found.lain.portions.as_slice() else { return None };
    let with = rest.first().map_or_else(|| "&single=yes".to_owned(), |other| format!("&with={}", other.n));
    loose.then(|| format!("/piece/{}/pack?first={}{with}", found.pack.word.slug(), first.n))
}

/// Places it could go: where it lies already comes last.
fn elsewhere(found: &Found<'_>, visit: &Visit) -> Vec<Offered> {
    let here =
        found.pack.lying.as_ref().filter(|_| found.pack.out.is_none()).map(|lying| lying.place.as_str());
    let mut places = offered(visit);
    places.sort_by_key(|place| Some(place.name.as_str()) == here);
    places
}
