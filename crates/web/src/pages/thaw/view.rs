//! The thaw of one supper in words.

use band::Band;
use jiff::ZonedDateTime;
use maud::{Markup, html};
use quantity::{Grain, Temperature};
use record::{Method, Pack, Supper};
use season::{ThawPlan, ThawWaiting, Thawing};

use super::picture::picture;
use super::salt::{Salting, salting};
use crate::house::Visit;
use crate::pages::shared::in_the;
use crate::pages::table::hours::{day_of, seen_from};
use crate::pages::table::law::{Law, law_of};
use crate::pages::table::supper::eaters;
use crate::words::{Shown, chance, counted, number_word, sentence_case};

/// A thaw as it is shown.
pub(super) struct View {
    pub(super) title: String,
    pub(super) heading: String,
    pub(super) to: String,
    pub(super) supper: String,
    pub(super) answer: Markup,
    pub(super) said: Vec<Markup>,
    /// Packs still in the store: id and name.
    pub(super) frozen: Vec<(String, String)>,
    /// Whether their hour is near: then taking them out is the first button.
    pub(super) is_near: bool,
    /// The fridge they go into.
    pub(super) fridge: String,
    /// Where they lie, or would: the place whose degree is asked for.
    pub(super) place: String,
    pub(super) picture: Option<Markup>,
    pub(super) packs: Vec<Line>,
    pub(super) rescue: Option<RescueLine>,
    pub(super) salting: Option<Salting>,
    pub(super) narrow: Option<Markup>,
    /// Whether the fridge's degree is asked for.
    pub(super) read: bool,
    pub(super) degree: &'static str,
    pub(super) rule: Option<Law>,
    /// A pack lies where the rule does not allow it.
    pub(super) against: Option<String>,
    pub(super) keeps: Option<Law>,
}

/// A pack of the table.
pub(super) struct Line {
    pub(super) name: String,
    pub(super) link: String,
    pub(super) lies: String,
    pub(super) soft: String,
    pub(super) soft_band: String,
    pub(super) chance: String,
}

/// Cold water instead.
pub(super) struct RescueLine {
    pub(super) start_by: String,
    pub(super) soft: String,
    pub(super) chance: String,
}

pub(super) fn view(visit: &Visit, supper: &Supper, thaw: Result<&ThawPlan<'_>, String>) -> View {
    let serve = visit.zoned(supper.planned.serve.at);
    let day = day_of(visit, &serve);
    let known = thaw.as_ref().ok().copied();
    View {
        title: format!("Thaw and salt, {day}"),
        heading: format!("Thaw and salt for {day}{}", eaters(supper)),
        to: format!("/table/{}/thaw", supper.slug),
        supper: format!("/table/{}", supper.slug),
        answer: match &thaw {
            Ok(thaw) => answer(visit, thaw),
            Err(why) => html! { (sentence_case(why)) "." },
        },
        said: known.map(|thaw| said(visit, thaw)).unwrap_or_default(),
        frozen: known.map(|thaw| thaw.frozen.iter().map(|pack| named(pack)).collect()).unwrap_or_default(),
        is_near: known.and_then(|thaw| thaw.waiting.as_ref()).is_some_and(|waiting| is_near(visit, waiting)),
        fridge: known.map_or_else(|| "fridge".to_owned(), |thaw| thaw.fridge.clone()),
        place: known.map_or_else(|| "fridge".to_owned(), place),
        picture: known.filter(|thaw| has_hours(thaw)).map(|thaw| picture(visit, thaw)),
        packs: known.map(|thaw| lines(visit, thaw)).unwrap_or_default(),
        rescue: known.and_then(|thaw| rescue(visit, thaw)),
        salting: known.and_then(|thaw| salting(visit, thaw)),
        narrow: known.and_then(narrow),
        read: known.is_some_and(|thaw| has_hours(thaw) && !is_read(thaw)),
        degree: crate::pages::table::supper::degree(visit),
        rule: law_of(visit, "thawing"),
        against: known.and_then(against),
        keeps: law_of(visit, "after-fridge-thaw"),
    }
}

/// Where the slowest lies, else where the packs will lie.
pub(super) fn place(thaw: &ThawPlan<'_>) -> String {
    let lies = thaw.slowest().filter(|_| thaw.waiting.is_none()).map(|slowest| slowest.out.place.clone());
    lies.unwrap_or_else(|| thaw.fridge.clone())
}

fn has_hours(thaw: &ThawPlan<'_>) -> bool {
    thaw.waiting.is_some() || !thaw.thawing.is_empty()
}

fn named(pack: &Pack) -> (String, String) {
    (pack.id.to_string(), pack.name.clone())
}

fn answer(visit: &Visit, thaw: &ThawPlan<'_>) -> Markup {
    let time = |at: &ZonedDateTime| seen_from(visit, &thaw.serve).time(at);
    if let Some(waiting) = &thaw.waiting {
        return out_by(visit, thaw, waiting);
    }
    if let Some(slowest) = thaw.slowest() {
        let all = packs_words(thaw.thawing.len());
        return if slowest.soft_now >= SURE {
            html! { (sentence_case(&all)) " soft, " span class="n" { (chance(slowest.soft_now)) } "." }
        } else {
            html! {
                (sentence_case(&all)) " soft by " strong { (time(&thaw.soft_by)) } ", " span class="n" { (chance(slowest.chance)) } "."
            }
        };
    }
    if let Some(last) = thaw.opened.iter().map(|pack| pack.at).max() {
        return html! {
            (sentence_case(&packs_words(thaw.opened.len()))) " opened and salted by " strong { (time(&visit.zoned(last))) } "."
        };
    }
    if thaw.salt.waiting.is_empty() && thaw.salt.given.is_empty() {
        return html! { "Nothing that has to thaw is set aside for this supper." };
    }
    html! { "Nothing of this supper is in the freezer." }
}

/// From this chance on a pack is called soft.
const SURE: f64 = 0.9;

fn out_by(visit: &Visit, thaw: &ThawPlan<'_>, waiting: &ThawWaiting) -> Markup {
    let time = |at: &ZonedDateTime| seen_from(visit, &thaw.serve).time(at);
    let in_time = waiting.out_by.as_ref().filter(|by| **by >= *visit.now());
    if let Some(by) = in_time {
        return html! {
            (sentence_case(&packs_words(thaw.frozen.len()))) " out of the freezer by " strong { (time(by)) } "; soft by "
            (time(&thaw.soft_by)) ", " span class="n" { (chance(waiting.thawed.chance_within(waiting.thawed.needed(wished(thaw))))) } "."
        };
    }
    let water =
        waiting.rescue.as_ref().and_then(|rescue| rescue.start_by.as_ref()).filter(|by| **by >= *visit.now());
    html! {
        "Too late for the fridge: " span class="n" { (chance(waiting.chance_now)) } ". "
        @match water {
            Some(by) => { "Into cold water by " strong { (time(by)) } ", and they are soft when the first goes on the heat." }
            None => { "Cold water no longer does it either: move supper." }
        }
    }
}

fn wished(thaw: &ThawPlan<'_>) -> f64 {
    thaw.plan.as_ref().map_or(0.9, |plan| plan.plan.wished)
}

/// `the pack`, `both packs`, `all five`
fn packs_words(count: usize) -> String {
    match count {
        1 => "the pack".to_owned(),
        2 => "both packs".to_owned(),
        many => format!("all {}", number_word(many)),
    }
}

fn said(visit: &Visit, thaw: &ThawPlan<'_>) -> Vec<Markup> {
    let mut said = Vec::new();
    if let Some(waiting) = thaw.waiting.as_ref().filter(|waiting| is_near(visit, waiting)) {
        let soft = visit.moments.band(waiting.if_now);
        said.push(html! { "Out now, they are soft " (soft.between()) ", four times in five." });
    }
    if let Some(slowest) = thaw.slowest().filter(|slowest| slowest.soft_now < SURE) {
        let since = visit.moments.time(&visit.zoned(slowest.out.at));
        let soft = visit.moments.band(slowest.soft);
        said.push(
            html! { "Out since " (since) ", the slowest is soft " (soft.between()) ", four times in five." },
        );
    }
    said.extend(in_water(visit, thaw));
    if !thaw.loose.is_empty() {
        let words = season::portions_words(&thaw.loose);
        said.push(html! { (words) ": in no pack, and nobody wrote how cold." });
    }
    said
}

/// What thaws in water: how long its surface is warm, and what the rule wants of it.
fn in_water(visit: &Visit, thaw: &ThawPlan<'_>) -> Option<Markup> {
    let water = thaw.thawing.iter().find(|pack| pack.out.method == Some(Method::ColdWater))?;
    let warm = Shown::stepped(water.thawed.warm(), 5.0, 0, "min");
    let limit = visit.units.temperature(Temperature::from_c(WARM_C), Grain::Forecast);
    let heat_s = thaw.plan.as_ref().map_or(0.0, |plan| (plan.left_min() - plan.plan.first_in()) * 60.0);
    let early = water.soft.high + EARLY_S < heat_s;
    Some(html! {
        "In the water its surface is above " (limit) " for " (warm.to()) "."
        @if early { " It is soft long before the heat, and the rule wants what thawed in water cooked at once." }
    })
}

/// Food held cold is at this or below, °C: the limit the surface's minutes are counted from.
const WARM_C: f64 = 5.0;
/// Seconds between soft and the heat that still are "at once".
const EARLY_S: f64 = 3600.0;

/// Whether "now" is within a day of the latest hour: long before it, hours from now say nothing.
pub(super) fn is_near(visit: &Visit, waiting: &ThawWaiting) -> bool {
    let by = waiting.out_by.as_ref();
    by.is_none_or(|by| by.timestamp().duration_since(visit.now().timestamp()).as_hours() < 24)
}

fn lines(visit: &Visit, thaw: &ThawPlan<'_>) -> Vec<Line> {
    let frozen = thaw.frozen.iter().map(|pack| {
        let place = pack.lying.as_ref().map_or_else(|| "place not written".to_owned(), |l| in_the(&l.place));
        let (soft, soft_band, chance) = match &thaw.waiting {
            Some(waiting) if !is_near(visit, waiting) => ("frozen".to_owned(), String::new(), String::new()),
            Some(waiting) => {
                let soft = visit.moments.band(waiting.if_now);
                (soft.middle.clone(), soft.dash(), in_100(waiting.chance_now))
            }
            None => Default::default(),
        };
        Line {
            name: pack.name.clone(),
            link: format!("/pack/{}", pack.slug),
            lies: place,
            soft,
            soft_band,
            chance,
        }
    });
    let thawing = thaw.thawing.iter().map(|pack| line(visit, pack));
    let opened = thaw.opened.iter().map(|pack| Line {
        name: pack.pack.name.clone(),
        link: format!("/pack/{}", pack.pack.slug),
        lies: format!("out since {}", visit.moments.time(&visit.zoned(pack.out.at))),
        soft: "opened".to_owned(),
        soft_band: visit.moments.time(&visit.zoned(pack.at)),
        chance: String::new(),
    });
    opened.chain(thawing).chain(frozen).collect()
}

fn line(visit: &Visit, thawing: &Thawing<'_>) -> Line {
    let soft = visit.moments.band(thawing.soft);
    let mass = visit.units.mass(thawing.pack.mass, Grain::Reading);
    Line {
        name: thawing.pack.name.clone(),
        link: format!("/pack/{}", thawing.pack.slug),
        lies: format!("{mass}, {}", in_the(&thawing.out.place)),
        soft: soft.middle.clone(),
        soft_band: soft.dash(),
        chance: in_100(thawing.chance),
    }
}

/// In tables a chance is its number alone.
fn in_100(share: f64) -> String {
    format!("{:.0} in 100", (share * 100.0).round().clamp(1.0, 99.0))
}

fn rescue(visit: &Visit, thaw: &ThawPlan<'_>) -> Option<RescueLine> {
    let rescue = thaw.waiting.as_ref()?.rescue.as_ref()?;
    let start_by = rescue.start_by.as_ref();
    Some(RescueLine {
        start_by: start_by.map_or_else(|| "no hour does".to_owned(), |by| visit.moments.time(by)),
        soft: soft_if_now(visit, rescue.if_now),
        chance: in_100(rescue.chance_now),
    })
}

fn soft_if_now(visit: &Visit, if_now: Band) -> String {
    visit.moments.band(if_now).dash()
}

fn narrow(thaw: &ThawPlan<'_>) -> Option<Markup> {
    let thawed = thaw.waiting.as_ref().map(|waiting| &waiting.thawed);
    let thawed = thawed.or_else(|| {
        thaw.slowest().filter(|slowest| slowest.soft_now < SURE).map(|slowest| &slowest.thawed)
    })?;
    let first = thawed.narrow.first()?;
    let share = html! { span class="n" { (format!("{:.0}\u{202f}%", first.share * 100.0)) } };
    Some(match first.input.as_str() {
        "thaw: temperature" if !is_read(thaw) => {
            html! { "Read the " (place(thaw)) ". Its own degree makes " (share) " of the width." }
        }
        "thickness" => html! { "Lay a ruler on the thickest. Its thickness makes " (share) " of the width." },
        "start" => html! { "Read the freezer they lie in. Where they start makes " (share) " of the width." },
        _ => html! {
            "How the air moves around them, and what they lie on, makes " (share) " of the width. A wire shelf and a hand’s breadth between packs are the quick end of it."
        },
    })
}

/// Whether the place's degree is known.
fn is_read(thaw: &ThawPlan<'_>) -> bool {
    if place(thaw) == thaw.fridge {
        thaw.fridge_read.is_some()
    } else {
        thaw.slowest().is_some_and(|slowest| slowest.is_read)
    }
}

/// A pack that lies where the rule does not allow it.
fn against(thaw: &ThawPlan<'_>) -> Option<String> {
    let wrong: Vec<String> = thaw
        .thawing
        .iter()
        .filter(|pack| matches!(pack.out.method, Some(Method::Counter | Method::WarmWater)))
        .map(|pack| pack.pack.name.clone())
        .collect();
    if wrong.is_empty() {
        return None;
    }
    let names = crate::words::and_list(&wrong);
    Some(format!(
        "{names}: written down as thawing where the rule does not allow it. Put {} in the fridge, or cook at once.",
        counted(wrong.len(), "it", "them").split(' ').next_back().unwrap_or("them")
    ))
}
