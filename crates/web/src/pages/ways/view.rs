//! Ways side by side, in words.

use jiff::{SignedDuration, ZonedDateTime};
use maud::{Markup, html};
use quantity::{Grain, Length, Temperature};
use record::{Portion, Supper};
use season::{NoWays, PortionWays, Road, Way};

use super::chart;
use super::form::{Form, form};
use super::says::{self, minutes, percent, percents, road_words, slip};
use crate::house::Visit;
use crate::pages::table::hours::seen_from;
use crate::pages::table::law::{Law, law_of};
use crate::plot::slice::{Layer, rims, slice};
use crate::words::{Shown, chance};

/// The page as it is shown.
pub(super) struct View {
    pub(super) heading: String,
    pub(super) answer: Markup,
    pub(super) said: Option<String>,
    pub(super) slices: Vec<Cut>,
    pub(super) slices_note: String,
    pub(super) chart: Option<Markup>,
    pub(super) chart_note: String,
    pub(super) lines: Vec<Line>,
    /// Whether there is an hour to be ready at; else it is told how long each takes.
    pub(super) has_hour: bool,
    /// Roads without an answer, and why.
    pub(super) refused: Vec<(String, String)>,
    pub(super) narrow: Option<Markup>,
    pub(super) chill: Option<String>,
    pub(super) law: Option<(Law, String)>,
    pub(super) form: Option<Form>,
    /// Where the form asks again.
    pub(super) to: String,
    /// Back to where it came from.
    pub(super) back: (String, String),
}

/// A slice with what stands under it.
pub(super) struct Cut {
    pub(super) picture: Markup,
    pub(super) name: String,
    pub(super) is_planned: bool,
    pub(super) under: String,
}

/// A row of the tables.
pub(super) struct Line {
    pub(super) name: String,
    pub(super) is_planned: bool,
    pub(super) pull: String,
    pub(super) start: String,
    pub(super) ready: String,
    pub(super) ready_band: String,
    pub(super) slip: String,
    /// Minutes in the hot oven, or of smoke over a hot pan or flame.
    pub(super) on_hot: String,
    pub(super) grey: String,
    pub(super) grey_band: String,
    pub(super) lost: String,
    pub(super) lost_band: String,
    pub(super) peak: String,
    pub(super) peak_band: String,
}

pub(super) fn view(
    visit: &Visit,
    portion: &Portion,
    supper: Option<&Supper>,
    ways: Result<&PortionWays<'_>, &NoWays>,
) -> View {
    let slug = format!("{}-{}", portion.word.slug(), portion.n);
    let own = format!("/piece/{}/{}", portion.word.slug(), portion.n);
    let (to, back) = match supper {
        Some(supper) => (
            format!("/table/{}/ways/{slug}", supper.slug),
            ("The supper".to_owned(), format!("/table/{}", supper.slug)),
        ),
        None => (format!("{own}/ways"), (portion.name(), own)),
    };
    let ways = match ways {
        Ok(ways) => ways,
        Err(why) => return without(portion, why, to, back),
    };
    let hours = Hours::of(visit, ways);
    let known = says::known(ways);
    let wish = visit.units.temperature(ways.asked.wish, Grain::Forecast);
    View {
        heading: heading(visit, portion, ways, &wish),
        answer: says::answer(ways, &visit.units)
            .unwrap_or_else(|| html! { "None of these ways ends at " span class="n" { (wish) } "." }),
        said: (!known.is_empty()).then(|| says::shared(ways, &visit.units, &wish)),
        slices: known.iter().map(|(road, way)| cut(visit, ways, *road, way)).collect(),
        slices_note: slices_note(visit, &known),
        chart: (!known.is_empty()).then(|| chart::chart(visit, ways, &known, &hours)),
        chart_note: format!(
            "Thick: the middle. Thin: the upper face, cut off at {}. Bar with hooks: ready, four times in five.",
            visit.units.temperature(Temperature::from_c(crate::plot::ways::MOST_C), Grain::Forecast)
        ),
        lines: known.iter().map(|(road, way)| line(visit, ways, *road, way, &hours)).collect(),
        has_hour: ways.supper.is_some(),
        refused: refused(ways),
        narrow: says::narrow(ways),
        chill: says::chill(ways),
        law: pink(visit, ways, &known),
        form: Some(form(visit, ways)),
        to,
        back,
    }
}

fn without(portion: &Portion, why: &NoWays, to: String, back: (String, String)) -> View {
    View {
        heading: format!("{}: which way?", portion.name()),
        answer: html! { (portion.name()) " has no ways to compare: " (why) "." },
        said: None,
        slices: Vec::new(),
        slices_note: String::new(),
        chart: None,
        chart_note: String::new(),
        lines: Vec::new(),
        has_hour: false,
        refused: Vec::new(),
        narrow: None,
        chill: None,
        law: None,
        form: None,
        to,
        back,
    }
}

fn heading(visit: &Visit, portion: &Portion, ways: &PortionWays<'_>, wish: &str) -> String {
    let word = ways.wish.word.clone().unwrap_or_else(|| wish.to_owned());
    let hour = ways.supper.as_ref().map(|(_, serve)| format!(" at {}", seen_from(visit, serve).clock(serve)));
    format!("{}, {word}{}: which way?", portion.name(), hour.unwrap_or_default())
}

/// Hours of the clock where there is a supper, minutes before the plate where there is none.
pub(super) struct Hours<'a> {
    visit: &'a Visit,
    pub(super) serve: Option<ZonedDateTime>,
}

impl<'a> Hours<'a> {
    fn of(visit: &'a Visit, ways: &PortionWays<'_>) -> Self {
        Self { visit, serve: ways.supper.as_ref().map(|(_, serve)| serve.clone()) }
    }

    pub(super) fn at(&self, before_min: f64) -> Option<ZonedDateTime> {
        let seconds = SignedDuration::from_secs((before_min * 60.0).round() as i64);
        self.serve.as_ref().and_then(|serve| serve.checked_sub(seconds).ok())
    }

    /// `18:22`, or `75 min before`.
    pub(super) fn word(&self, before_min: f64) -> String {
        match &self.serve {
            Some(_) => self.start(before_min),
            None => format!("{} before", self.start(before_min)),
        }
    }

    /// `18:22`, or `75 min` before the plate.
    fn start(&self, before_min: f64) -> String {
        match (self.at(before_min), &self.serve) {
            (Some(at), Some(serve)) => seen_from(self.visit, serve).time(&at),
            _ => minutes(&self.visit.units, before_min.round()),
        }
    }

    /// `19:21–19:29`, or `46–75 min`.
    pub(super) fn band(&self, way: &Way) -> (String, String) {
        match &self.serve {
            Some(serve) => {
                let shown = seen_from(self.visit, serve).band(way.ready_before.times(-60.0));
                let dash = shown.dash();
                (shown.middle, dash)
            }
            None => {
                let shown = Shown::stepped(way.takes, 1.0, 0, "min");
                let dash = format!("{}\u{202f}min", shown.dash());
                (minutes(&self.visit.units, way.takes.median.round()), dash)
            }
        }
    }
}

fn line(visit: &Visit, ways: &PortionWays<'_>, road: Road, way: &Way, hours: &Hours<'_>) -> Line {
    let (ready, ready_band) = hours.band(way);
    let peak = Shown::temperature(&visit.units, way.peak);
    let degree = |at: Temperature| visit.units.temperature(at, Grain::Forecast);
    let pull = match way.bath {
        Some(bath) => format!("bath at {}", degree(bath)),
        None => format!("pull at {}", degree(way.pull)),
    };
    Line {
        name: road_words(ways, road),
        is_planned: Some(road) == ways.planned,
        pull: if way.never > 0.02 { format!("{pull}, reached {}", chance(1.0 - way.never)) } else { pull },
        start: hours.start(way.in_before),
        ready,
        ready_band,
        slip: format!("+{}", slip(&visit.units, way.slip.median)),
        on_hot: format!(
            "{} {}",
            if ways.asked.whole { "hot oven" } else { "smoke" },
            minutes(&visit.units, way.on_hot.median.round())
        ),
        grey: percent(way.grey.median),
        grey_band: percents(way.grey),
        lost: percent(way.lost.median),
        lost_band: percents(way.lost),
        peak_band: peak.dash(),
        peak: peak.middle,
    }
}

fn cut(visit: &Visit, ways: &PortionWays<'_>, road: Road, way: &Way) -> Cut {
    let thick_mm = way.thick_m * 1000.0;
    let layers: Vec<Layer> =
        way.section.iter().map(|slice| Layer { depth: slice.depth, turned: slice.denatured }).collect();
    let (upper, lower) = rims(&layers, season::GREY);
    let rim = |share: f64| visit.units.length(Length::from_mm(share * thick_mm));
    let sentence = format!(
        "{}: grey {} under the upper face and {} under the lower, of {}.",
        road_words(ways, road),
        rim(upper),
        rim(lower),
        visit.units.length(Length::from_mm(thick_mm))
    );
    Cut {
        picture: slice(road.name(), thick_mm, &layers, season::GREY, &sentence),
        name: road_words(ways, road),
        is_planned: Some(road) == ways.planned,
        under: format!("grey {}, loses {}", percent(way.grey.median), percent(way.lost.median)),
    }
}

fn slices_note(visit: &Visit, known: &[(Road, &Way)]) -> String {
    let thick_m = known.first().map_or(0.0, |(_, way)| way.thick_m);
    format!(
        "Across the thickness, {}. Hatched: grey, where {} of the red is gone; what is not hatched pales by degrees.",
        visit.units.length(Length::from_m(thick_m)),
        percent(season::GREY)
    )
}

fn refused(ways: &PortionWays<'_>) -> Vec<(String, String)> {
    let of = |(road, way): &(Road, Result<Way, season::DinnerError>)| {
        way.as_ref().err().map(|why| (road_words(ways, *road), why.to_string()))
    };
    ways.answer.ways.iter().filter_map(of).collect()
}

/// The official minimum, where any way stays below it.
fn pink(visit: &Visit, ways: &PortionWays<'_>, known: &[(Road, &Way)]) -> Option<(Law, String)> {
    let rule = catalogue::official_rule("consumer-minimum-whole", crate::pages::table::law::region(visit))?;
    let limit = rule.limit()?;
    known.iter().find(|(_, way)| way.peak.low < limit.c())?;
    let bath = if ways.answer.ways.iter().any(|(road, _)| *road == Road::Bath) {
        " A bath below it is warm, not pasteurised."
    } else {
        ""
    };
    let here = format!(
        "These may stay below it: a cook’s choice for whole steaks, never pierced, never minced.{bath} For anyone pregnant, very young, old or ill: cook to {}.",
        visit.units.temperature(Temperature::from_c(limit.c()), Grain::Reading)
    );
    Some((law_of(visit, "consumer-minimum-whole")?, here))
}
