//! The plan in words.

use maud::{Markup, html};
use quantity::{Grain, Length, LengthUnit, Mass, Units};
use record::Aim;
use season::{AskedFrom, Plan, PlannedPortion, RollError};

use super::query::Found;
use super::{measure, says, wants};
use crate::house::Visit;
use crate::pages::shared::{aim_words, given_words, side, thread_of, want_line, want_more};
use crate::parts::Thread;
use crate::plot::piece::{Side, Slice};
use crate::plot::profile::Profile;
use crate::words::{Shown, and_list, counted, sentence_case};

/// The plan as it is shown.
pub(super) struct View {
    pub(super) title: String,
    pub(super) to: String,
    pub(super) slug: String,
    pub(super) thread: Thread,
    pub(super) answer: Markup,
    pub(super) said: Vec<String>,
    /// The plan, where there is one.
    pub(super) planned: Option<Planned>,
    pub(super) is_settled: bool,
    pub(super) units: FieldUnits,
    pub(super) ends: (String, String),
    /// Limits where nobody set any.
    pub(super) limits: (String, String),
    /// `Off the chuck end`
    pub(super) off: (String, String),
    pub(super) want_start: Vec<(String, String)>,
    pub(super) measure: MeasureStart,
}

/// What the form for measuring starts from.
pub(super) struct MeasureStart {
    pub(super) ends: (String, String),
    pub(super) slants: (String, String),
    pub(super) length: String,
    /// Name, label and what is known so far of the field for the weight.
    pub(super) weigh: (&'static str, &'static str, String),
    pub(super) slant_first: String,
    pub(super) slant_last: String,
    pub(super) values: Vec<(String, String)>,
    /// Whether it stands open.
    pub(super) open: bool,
}

/// Units of the fields of its forms.
pub(super) struct FieldUnits {
    pub(super) large: &'static str,
    pub(super) small: &'static str,
    pub(super) length: &'static str,
    /// Where a field takes the one or the other.
    pub(super) either: &'static str,
}

/// All that stands on the page once there is a plan.
pub(super) struct Planned {
    pub(super) side: Side,
    pub(super) sentence: String,
    pub(super) profiles: Vec<Profile>,
    /// What the other button says, and the want it changes to.
    pub(super) other: Option<String>,
    pub(super) wants: Vec<(String, String)>,
    pub(super) caption: String,
    pub(super) rows: Vec<Line>,
    pub(super) has_cap: bool,
    pub(super) has_weights: bool,
    /// The class of a column that gives way on the narrowest, where there are many.
    pub(super) spare: &'static str,
    /// Whether nothing is left to cut.
    pub(super) is_cut: bool,
    pub(super) gives_up: Vec<String>,
    pub(super) nearest: Vec<String>,
    pub(super) narrow: Option<String>,
    pub(super) cap: Option<String>,
    pub(super) basis: String,
    pub(super) figure: Box<dyn Fn(f64) -> String>,
}

/// A line of the table of marks.
pub(super) struct Line {
    pub(super) n: usize,
    pub(super) from: String,
    pub(super) to: String,
    pub(super) thick: String,
    /// What it weighs; its band, where it is not weighed yet.
    pub(super) weight: (String, Option<String>),
    pub(super) cap: String,
    pub(super) is_cut: bool,
}

pub(super) fn view(found: &Found<'_>, visit: &Visit) -> View {
    let (piece, units) = (found.piece, &visit.units);
    let word = piece.word.to_string();
    let plan = found.plan.as_ref();
    let asked = plan.map_or_else(|_| season::asked(&visit.state, piece), |plan| plan.asked.clone());
    let ends = plan.map_or_else(|_| ("first end".into(), "last end".into()), |plan| plan.ends.clone());
    View {
        title: format!("{word}, knife plan"),
        to: format!("/piece/{}/plan", piece.word.slug()),
        slug: piece.word.slug(),
        thread: thread_of(visit, piece),
        answer: plan.map_or_else(no_plan, |plan| answer(plan, units)),
        said: plan.map_or_else(|_| Vec::new(), |plan| said(plan, units)),
        is_settled: piece.plan.is_some(),
        units: FieldUnits::of(units),
        limits: limits(visit),
        off: (format!("Off the {}", ends.0), format!("Off the {}", ends.1)),
        want_start: wants::start(&asked, units),
        measure: measure_start(found, visit, &ends),
        planned: plan.ok().map(|plan| planned(plan, units)),
        ends,
    }
}

impl FieldUnits {
    fn of(units: &Units) -> Self {
        let inches = units.length == LengthUnit::Inch;
        Self {
            large: if units.pounds { "lb" } else { "kg" },
            small: if units.pounds { "oz" } else { "g" },
            length: if inches { "in" } else { "mm" },
            either: match (units.pounds, inches) {
                (true, true) => "oz, in",
                (true, false) => "oz, mm",
                (false, true) => "g, in",
                (false, false) => "g, mm",
            },
        }
    }
}

fn limits(visit: &Visit) -> (String, String) {
    let set = |key: &str, usual: f64| {
        visit.units.length(Length::from_mm(visit.settings().number(key).unwrap_or(usual)))
    };
    (set("board.thinnest_mm", 20.0), set("board.thickest_mm", 65.0))
}

fn no_plan(error: &RollError) -> Markup {
    html! { "No plan yet: " (error.to_string()) "." }
}

fn answer(plan: &Plan, units: &Units) -> Markup {
    if !plan.plan.portions.is_empty() && plan.plan.portions.iter().all(|portion| portion.weighed) {
        let count = plan.plan.portions.len();
        let grams = range_of(plan, &|portion| portion.mass.median, &|kg| {
            units.mass(Mass::from_kg(kg), Grain::Reading)
        });
        let thick = range_of(plan, &|portion| portion.thickness.m(), &|m| units.length(Length::from_m(m)));
        return html! { strong { (sentence_case(&counted(count, "portion", "portions"))) } " are cut, " (grams) " each, " (thick) " thick." };
    }
    let ends = plan.plan.squared_off + plan.plan.left_over;
    let mince = units.mass(Mass::from_g(ends.g()), Grain::Forecast);
    let given: Vec<(String, String)> =
        (0..plan.asked.want.len()).filter_map(|place| given_words(plan, place, units)).collect();
    html! {
        @if given.is_empty() { "Not one portion fits what is wanted" }
        @for (place, (count, each)) in given.iter().enumerate() {
            @if place > 0 { "; " }
            strong { (count) } " " (each)
            @if given.len() == 1 { (runs(plan, units)) }
        }
        "; " (mince) " of ends to mince."
    }
}

/// `, 28 to 32 mm thick` for a weight; `, 455 to 512 g each` for a thickness.
fn runs(plan: &Plan, units: &Units) -> String {
    match plan.main.and_then(|main| plan.asked.want.get(main)).map(|want| want.aim) {
        Some(Aim::Portion(_)) => {
            let thick =
                range_of(plan, &|portion| portion.thickness.m(), &|m| units.length(Length::from_m(m)));
            format!(", {thick} thick")
        }
        Some(Aim::Thickness(_)) => {
            let shown = |kg: f64| units.mass(Mass::from_kg(kg), Grain::Forecast);
            format!(", {} each", range_of(plan, &|portion| portion.mass.median, &shown))
        }
        _ => String::new(),
    }
}

/// From the least to the most of all portions.
fn range_of(plan: &Plan, value: &dyn Fn(&PlannedPortion) -> f64, shown: &dyn Fn(f64) -> String) -> String {
    let values = plan.plan.portions.iter().map(value);
    let (low, high) =
        values.fold((f64::MAX, f64::MIN), |(low, high), value| (low.min(value), high.max(value)));
    range(shown, low, high)
}

/// `28 to 32 mm`, or `30 mm` where both read the same.
fn range(shown: &dyn Fn(f64) -> String, low: f64, high: f64) -> String {
    let (first, last) = (shown(low), shown(high));
    if first == last {
        return last;
    }
    match (first.rsplit_once('\u{202f}'), last.rsplit_once('\u{202f}')) {
        (Some((number, unit)), Some((_, same))) if unit == same => format!("{number} to {last}"),
        _ => format!("{first} to {last}"),
    }
}

fn said(plan: &Plan, units: &Units) -> Vec<String> {
    let mut said = Vec::new();
    let ahead: Vec<&PlannedPortion> = plan.plan.portions.iter().filter(|portion| !portion.weighed).collect();
    let cut = plan.plan.portions.len() - ahead.len();
    said.extend(how_sure(plan, &ahead, cut, units));
    said.extend(from_where(plan));
    if plan.plan.not_a_roll {
        said.push(
            "This cut is no single run of muscle: bands are wide, and it is better parted first.".to_owned(),
        );
    }
    said
}

/// How sure the weights are: that of the least sure portion, and of the surest where it differs much.
fn how_sure(plan: &Plan, ahead: &[&PlannedPortion], cut: usize, units: &Units) -> Option<String> {
    let width = |portion: &&&PlannedPortion| (portion.mass.high - portion.mass.low) / portion.mass.median;
    let widest = ahead.iter().max_by(|a, b| width(a).total_cmp(&width(b)))?;
    let surest = ahead.iter().min_by(|a, b| width(a).total_cmp(&width(b)))?;
    let band = |portion: &PlannedPortion| Shown::mass(units, portion.mass).between();
    let by_weight = matches!(plan.main.map(|main| plan.asked.want[main].aim), Some(Aim::Portion(_)));
    let after = if cut > 0 { format!("After {} ", weighings(cut)) } else { String::new() };
    let words = if by_weight && width(&surest) > 0.75 * width(&widest) {
        format!("each of them {}", band(widest))
    } else {
        format!("{} weighs {}, {} {}", called(widest, plan), band(widest), called(surest, plan), band(surest))
    };
    Some(format!(
        "{}, four times in five. Every weighing narrows the rest.",
        sentence_case(&format!("{after}{words}"))
    ))
}

fn called(portion: &PlannedPortion, plan: &Plan) -> String {
    match portion.number {
        1 => format!("the first, at the {},", plan.ends.0),
        number if number == plan.plan.portions.len() => format!("the last, at the {},", plan.ends.1),
        number => format!("portion {number}"),
    }
}

fn weighings(count: usize) -> String {
    counted(count, "weighing", "weighings")
}

fn from_where(plan: &Plan) -> Option<String> {
    match &plan.asked.from {
        AskedFrom::Settled => None,
        AskedFrom::LastTime(word) => {
            Some(format!("Nothing is settled yet: this is what was wanted of {word}."))
        }
        AskedFrom::Usual => {
            Some("Nothing is settled yet: this is what is usual. Say what is wanted below.".to_owned())
        }
    }
}

fn planned(plan: &Plan, units: &Units) -> Planned {
    let figure = side::figure(units);
    let has_weights = !is_one_weight(plan);
    let is_cut = plan.plan.portions.iter().all(|portion| portion.weighed);
    let has_cap = plan.plan.portions.iter().any(|portion| portion.cap_share.is_some());
    Planned {
        is_cut,
        spare: if has_cap && has_weights { " spare" } else { "" },
        side: side::side(plan, units, slices(plan), None),
        sentence: sentence(plan, units),
        profiles: if is_cut { Vec::new() } else { says::profiles(plan, units) },
        other: plan
            .other
            .as_ref()
            .filter(|_| !is_cut)
            .map(|other| format!("Keep {} instead", aim_words(other.want[other.changed].aim, units))),
        wants: plan
            .asked
            .want
            .iter()
            .map(|want| (want_line(want, units), want_more(want, &plan.ends, units)))
            .collect(),
        caption: caption(plan, units, has_weights),
        rows: plan.plan.portions.iter().map(|portion| line(plan, portion, units)).collect(),
        has_cap,
        has_weights,
        gives_up: if is_cut { Vec::new() } else { says::gives_up(plan, units) },
        nearest: plan.nearest.iter().map(|other| says::nearest_words(other, units)).collect(),
        narrow: says::narrow(plan, units),
        cap: says::cap(plan),
        basis: says::basis(plan),
        figure: Box::new(figure),
    }
}

fn slices(plan: &Plan) -> Vec<Slice> {
    let from_zero = |length: Length| (length - plan.zero).mm();
    let portions = plan.plan.portions.iter();
    portions
        .map(|portion| Slice {
            n: u32::try_from(portion.number).unwrap_or(u32::MAX),
            from_mm: from_zero(portion.from),
            to_mm: from_zero(portion.to),
            cut: portion.weighed,
        })
        .collect()
}

fn sentence(plan: &Plan, units: &Units) -> String {
    let marks: Vec<String> =
        plan.plan.portions.iter().map(|portion| units.length(portion.to - plan.zero)).collect();
    format!(
        "The piece from the side, {} long. Portions end at {}, from the squared {}.",
        units.length(plan.plan.length),
        and_list(&marks),
        plan.ends.0
    )
}

fn line(plan: &Plan, portion: &PlannedPortion, units: &Units) -> Line {
    let shown = Shown::mass(units, portion.mass);
    Line {
        n: portion.number,
        from: bare(units.length(portion.from - plan.zero)),
        to: bare(units.length(portion.to - plan.zero)),
        thick: units.length(portion.thickness),
        weight: (shown.middle.clone(), (!portion.weighed).then(|| shown.dash())),
        cap: portion.cap_share.map_or_else(String::new, |share| format!("{:.0}\u{202f}%", share * 100.0)),
        is_cut: portion.weighed,
    }
}

/// Whether every portion is expected to weigh what is wished, so that one figure says it.
fn is_one_weight(plan: &Plan) -> bool {
    let [want] = plan.asked.want.as_slice() else { return false };
    let Aim::Portion(wish) = want.aim else { return false };
    plan.plan.portions.iter().all(|portion| (portion.mass.median / wish.kg() - 1.0).abs() < 0.015)
}

/// The number alone, where the unit stands in the same row.
fn bare(shown: String) -> String {
    shown.rsplit_once('\u{202f}').map_or(shown.clone(), |(number, _)| number.to_owned())
}

fn caption(plan: &Plan, units: &Units, has_weights: bool) -> String {
    let last = plan.plan.marks.last().copied().unwrap_or_default();
    let (first, off) = (plan.zero, plan.plan.length - last);
    let mut words = format!("From the squared {}; ", plan.ends.0);
    words.push_str(&format!(
        "{} squared off before 0, {} after {}",
        units.length(first),
        units.length(off),
        units.length(last - plan.zero)
    ));
    if let (false, [want]) = (has_weights, plan.asked.want.as_slice()) {
        words.push_str(&format!(". Each about {}", aim_words(want.aim, units)));
    }
    words
}

fn measure_start(found: &Found<'_>, visit: &Visit, ends: &(String, String)) -> MeasureStart {
    let (measured, units) = (&found.piece.measured, &visit.units);
    let length =
        |length: Option<Length>| length.map_or("not measured".to_owned(), |length| units.length(length));
    let slant = |slant: Option<Length>| slant.map_or("not read".to_owned(), |slant| units.length(slant));
    let places = match &found.plan {
        Ok(plan) => [0.1, 0.5, 0.9].map(|share| plan.plan.length * share).to_vec(),
        Err(_) => Vec::new(),
    };
    let bare = |at: Length| {
        let shown = units.length(at);
        shown.rsplit_once('\u{202f}').map_or(shown.clone(), |(number, _)| number.to_owned())
    };
    MeasureStart {
        slants: (format!("Slant, {}", ends.0), format!("Slant, {}", ends.1)),
        length: length(measured.length),
        weigh: match measured.bag_off {
            None => ("bag_off", "Weight, bag off", "not weighed".to_owned()),
            Some(_) => ("on_board", "Weight now, trimmed", units.large(season::board_mass(found.piece))),
        },
        slant_first: slant(measured.slant_first),
        slant_last: slant(measured.slant_last),
        values: measure::start(ends, &measured.stations, &places, bare),
        open: measured.length.is_none(),
        ends: ends.clone(),
    }
}
