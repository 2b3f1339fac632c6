//! One portion in words: what it is, what it went through, what came of it.

use maud::{Markup, html};
use quantity::Grain;
use record::{Portion, Supper};
use season::{Thickness, scale, thickness_of, whereabouts};

use crate::house::Visit;
use crate::pages::shared::{cut_name, in_the, portion_thread_of, whereabouts_words};
use crate::pages::table::supper::{degree, served_words};
use crate::parts::Thread;
use crate::words::sentence_case;

/// A portion as it is shown.
pub(super) struct View {
    pub(super) name: String,
    pub(super) heading: String,
    pub(super) to: String,
    pub(super) answer: Markup,
    pub(super) thread: Thread,
    /// What it went through, the oldest first.
    pub(super) life: Vec<(String, String)>,
    pub(super) piece: (String, String),
    pub(super) pack: Option<(String, String)>,
    pub(super) supper: Option<(String, String)>,
    /// Whether the form stands there: not for what is eaten or gone.
    pub(super) asks: bool,
    /// Where its ways stand side by side, as long as it is raw.
    pub(super) ways: Option<String>,
    /// Whether it is asked at once: on the heat, or its supper is over.
    pub(super) asks_now: bool,
    pub(super) words: Vec<String>,
    pub(super) degree: &'static str,
}

pub(super) fn view(visit: &Visit, portion: &Portion) -> Option<View> {
    let piece = visit.state.piece(portion.piece)?;
    let pack = portion.pack.and_then(|id| visit.state.pack(id));
    let supper = supper_of(visit, portion.id);
    Some(View {
        name: portion.name(),
        heading: format!("{}, {}", portion.name(), cut_name(visit.settings(), &piece.received.cut)),
        to: format!("/piece/{}/{}", portion.word.slug(), portion.n),
        answer: answer(visit, portion),
        thread: portion_thread_of(visit, piece, portion),
        life: life(visit, portion),
        piece: (portion.word.to_string(), format!("/piece/{}", portion.word.slug())),
        pack: pack.map(|pack| (pack.name.clone(), format!("/pack/{}", pack.slug))),
        supper: supper.map(|supper| {
            let at = visit.zoned(supper.planned.serve.at);
            (format!("Supper, {}", visit.moments.time(&at)), format!("/table/{}", supper.slug))
        }),
        asks: portion.gone().is_none(),
        ways: (portion.gone().is_none() && portion.on_heat.is_empty() && portion.served.is_empty())
            .then(|| format!("/piece/{}/{}/ways", portion.word.slug(), portion.n)),
        asks_now: !portion.on_heat.is_empty()
            || supper.is_some_and(|supper| visit.zoned(supper.planned.serve.at) <= *visit.now()),
        words: scale(&visit.state).words.iter().map(|word| word.word.clone()).collect(),
        degree: degree(visit),
    })
}

/// The supper it is set aside for, or was served at: the latest.
pub(super) fn supper_of(visit: &Visit, portion: uuid::Uuid) -> Option<&Supper> {
    visit
        .state
        .suppers()
        .filter(|supper| supper.planned.portions.contains(&portion) || supper.served.contains(&portion))
        .max_by_key(|supper| supper.planned.serve.at)
}

fn answer(visit: &Visit, portion: &Portion) -> Markup {
    let piece = visit.state.piece(portion.piece);
    let mass = visit.units.mass(portion.weighed.mass, Grain::Reading);
    let thick = piece.and_then(|piece| thickness_of(&visit.state, piece, portion)).map(|thick| {
        let length = visit.units.length(thick.length());
        match thick {
            Thickness::Measured(_) | Thickness::Marked(_) => format!(", {length} thick"),
            Thickness::Reckoned(_) => format!(", about {length} thick"),
        }
    });
    let came = portion.served.last().map(|served| sentence_case(&served_words(visit, &served.served)));
    let place =
        came.unwrap_or_else(|| sentence_case(&whereabouts_words(&whereabouts(&visit.state, portion))));
    html! { strong class="n" { (mass) } (thick.unwrap_or_default()) ". " (place.trim_end_matches('.')) "." }
}

/// Salt, heat, probe and plate, by the hour.
fn life(visit: &Visit, portion: &Portion) -> Vec<(String, String)> {
    let degrees = |at| visit.units.temperature(at, Grain::Reading);
    let salted = portion.salted.iter().map(|salt| {
        let grams = salt.salt.map_or_else(
            || "not weighed".to_owned(),
            |salt| visit.units.mass(quantity::Mass::from_g((salt.g() * 10.0).round() / 10.0), Grain::Reading),
        );
        (salt.at, format!("Salted, {grams}"))
    });
    let on = portion.on_heat.iter().map(|on| {
        let degree = on.temperature.map_or_else(String::new, |at| format!(" at {}", degrees(at)));
        (on.at, format!("On the {}{degree}", on.on))
    });
    let probed = portion.probes.iter().map(|probe| (probe.at, format!("Core {}", degrees(probe.core))));
    let pulled = portion.pulled.iter().map(|pull| {
        let core = pull.core.map_or_else(String::new, |core| format!(" at {}", degrees(core)));
        (pull.at, format!("Pulled{core}"))
    });
    let served =
        portion.served.iter().map(|served| (served.at, sentence_case(&served_words(visit, &served.served))));
    let weighed =
        (portion.at, format!("Weighed, {}", visit.units.mass(portion.weighed.mass, Grain::Reading)));
    let pack = portion.pack.and_then(|id| visit.state.pack(id));
    let packed = pack.map(|pack| (pack.at, format!("Packed, {}", pack.name)));
    let out =
        pack.and_then(|pack| pack.out.as_ref()).map(|out| (out.at, format!("Out, {}", in_the(&out.place))));
    let mut all: Vec<(record::At, String)> = [weighed]
        .into_iter()
        .chain(packed)
        .chain(out)
        .chain(salted)
        .chain(on)
        .chain(probed)
        .chain(pulled)
        .chain(served)
        .collect();
    all.sort_by_key(|(at, _)| *at);
    all.into_iter().map(|(at, words)| (visit.moments.time(&visit.zoned(at)), words)).collect()
}
