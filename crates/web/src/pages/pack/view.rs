//! The sealer in words.

use maud::{Markup, PreEscaped, html};
use quantity::{Grain, Length, Mass, Units};
use record::PlaceKind;
use season::{Bag, Lot, Member};

use super::bags;
use super::label::{Base, STOCKS};
use super::query::Found;
use crate::house::Visit;
use crate::pages::shared::places::{Offered, first_of, offered};
use crate::pages::shared::{part_name, thread_of};
use crate::papers;
use crate::parts::Thread;
use crate::plot::pairs::Pair;
use crate::words::{counted, number_word, sentence_case};

/// The sealer as it is shown.
pub(super) struct View {
    pub(super) title: String,
    pub(super) heading: String,
    pub(super) to: String,
    /// Where the bag at hand is sealed: with what was asked for instead.
    pub(super) seal_to: String,
    pub(super) slug: String,
    pub(super) thread: Thread,
    pub(super) answer: Markup,
    pub(super) said: Vec<String>,
    pub(super) next: Option<Bagging>,
    pub(super) label: Option<Label>,
    pub(super) pairs: Vec<Pair>,
    pub(super) pairs_sentence: String,
    pub(super) pairs_caption: Option<String>,
    pub(super) rows: Vec<Line>,
    pub(super) total: (String, String),
    pub(super) heaps: Vec<HeapLine>,
    pub(super) lot: Option<String>,
    pub(super) places: Vec<Offered>,
    /// The place it starts from.
    pub(super) place: String,
    pub(super) unit: &'static str,
    pub(super) bag_start: Vec<(&'static str, String)>,
    pub(super) figure: Box<dyn Fn(f64) -> String>,
}

/// The bag at hand.
pub(super) struct Bagging {
    /// Ids of its portions.
    pub(super) portions: Vec<String>,
    pub(super) start: Vec<(&'static str, String)>,
    /// Other partners for its first portion: place and how far apart.
    pub(super) partners: Vec<(u32, String)>,
    pub(super) first: u32,
    pub(super) is_pair: bool,
}

/// A label with its pictures.
pub(super) struct Label {
    /// `TARN 11+12`
    pub(super) name: String,
    pub(super) slug: String,
    pub(super) pictures: Vec<Picture>,
    pub(super) by_hand: String,
    pub(super) packs: usize,
    /// What stands against its code.
    pub(super) warning: Option<String>,
}

/// A label on one stock.
pub(super) struct Picture {
    pub(super) svg: PreEscaped<String>,
    pub(super) on: &'static str,
    pub(super) caption: &'static str,
}

/// A line of the table of bags.
pub(super) struct Line {
    pub(super) name: String,
    pub(super) link: Option<String>,
    pub(super) mass: String,
    pub(super) apart: String,
    pub(super) state: &'static str,
    pub(super) now: bool,
}

/// A heap that waits.
pub(super) struct HeapLine {
    pub(super) id: String,
    pub(super) name: String,
}

impl View {
    /// Choices of the list of places.
    pub(super) fn places(&self) -> Vec<(&str, &str)> {
        let mut all: Vec<(&str, &str)> =
            self.places.iter().map(|place| (place.name.as_str(), place.name.as_str())).collect();
        all.push(("-", "not put away yet"));
        all
    }
}

pub(super) fn view(found: &Found<'_>, visit: &Visit, base: &Base) -> View {
    let (piece, packing, units) = (found.piece, &found.packing, &visit.units);
    let word = piece.word.to_string();
    let slug = piece.word.slug();
    let places = offered(visit);
    let place = place(found, visit);
    let bag_start = bag_start(found);
    View {
        title: format!("{word} at the sealer"),
        heading: format!("{word} at the sealer: which go together?"),
        to: format!("/piece/{slug}/pack"),
        seal_to: format!("/piece/{slug}/pack{}", found.tail),
        thread: thread_of(visit, piece),
        answer: answer(found, visit),
        said: said(found),
        next: packing.next.as_ref().map(|bag| bagging(found, bag, units, &bag_start)),
        label: label(found, visit, base),
        pairs: bags::pairs(found),
        pairs_sentence: bags::pairs_sentence(found, units),
        pairs_caption: bags::widest(found, units),
        rows: bags::rows(found, units),
        total: bags::total(found, units),
        heaps: packing
            .heaps
            .iter()
            .map(|part| HeapLine {
                id: part.id.to_string(),
                name: format!(
                    "{}, {}",
                    sentence_case(&part_name(part.weighed.part, part.weighed.name.as_deref())),
                    units.mass(part.weighed.mass, Grain::Reading)
                ),
            })
            .collect(),
        lot: lot(&packing.lot, packing.ahead.len()),
        places,
        place,
        unit: if units.pounds { "oz" } else { "g" },
        bag_start,
        figure: Box::new(thickness_figure(&bags::pairs(found), units)),
        slug,
    }
}

/// A figure on the rule of thickness: tenths where the rule is shorter than a few millimetres.
fn thickness_figure(pairs: &[Pair], units: &Units) -> impl Fn(f64) -> String + use<> {
    let units = *units;
    let all = pairs.iter().flat_map(|pair| [pair.thickness.0, pair.thickness.1]);
    let (low, high) = all.fold((f64::MAX, f64::MIN), |(low, high), mm| (low.min(mm), high.max(mm)));
    let decimals = usize::from(high - low < 4.0);
    move |mm| match units.length {
        quantity::LengthUnit::Millimetre => format!("{mm:.decimals$}"),
        quantity::LengthUnit::Inch => format!("{:.1}", Length::from_mm(mm).inch()),
    }
}

/// Where the last pack of the piece went, else the first freezer.
fn place(found: &Found<'_>, visit: &Visit) -> String {
    let last = found.packing.sealed.iter().max_by_key(|sealed| sealed.pack.number);
    let last = last.and_then(|sealed| sealed.pack.lying.as_ref()).map(|lying| lying.place.clone());
    last.unwrap_or_else(|| first_of(visit, PlaceKind::Freezer))
}

/// What a form starts from: lot and seals as for the last bag.
fn bag_start(found: &Found<'_>) -> Vec<(&'static str, String)> {
    let last = found.packing.sealed.iter().max_by_key(|sealed| sealed.pack.number).map(|sealed| sealed.pack);
    let mut start = Vec::new();
    start.extend(found.packing.lot.name.clone().map(|lot| ("bag_lot", lot)));
    start.extend(last.and_then(|pack| pack.sealed.sealed).map(|seals| ("sealed", seals.to_string())));
    start.extend(last.and_then(|pack| pack.lying.as_ref()?.spot.clone()).map(|spot| ("spot", spot)));
    start
}

fn answer(found: &Found<'_>, visit: &Visit) -> Markup {
    let (units, word) = (&visit.units, found.piece.word);
    let Some(bag) = &found.packing.next else {
        return match (found.packing.sealed.len(), found.piece.portions.is_empty()) {
            (_, true) => html! { "Nothing is cut yet. Bags are filled once portions are weighed." },
            (0, false) => html! { "Nothing waits for a bag." },
            (count, false) => {
                html! { "All is packed: " strong { (counted(count, "bag", "bags")) } " sealed." }
            }
        };
    };
    let mass = units.mass(bag.mass, Grain::Reading);
    match bag.portions.as_slice() {
        [one, other] => html! {
            strong { (word) " " (one.portion.n) " with " (other.portion.n) }
            ": " (alike(bag, units)) strong { (mass) } " in one bag."
        },
        _ => html! {
            strong { (word) " " (bag.portions.first().map_or(0, |member| member.portion.n)) }
            " alone: " (thick(&bag.portions, units)) strong { (mass) } " in its bag."
        },
    }
}

/// `both 31 mm thick, 3 g apart. `
fn alike(bag: &Bag<'_>, units: &Units) -> String {
    let [one, other] = bag.portions.as_slice() else { return String::new() };
    let grams = (one.portion.weighed.mass.g() - other.portion.weighed.mass.g()).abs();
    let grams = format!("{} apart", units.mass(Mass::from_g(grams), Grain::Reading));
    match (one.thickness, other.thickness) {
        (Some(a), Some(b)) => {
            let (a, b) = (units.length(a.length()), units.length(b.length()));
            if a == b {
                format!("both {a} thick, {grams}. ")
            } else {
                format!("{a} and {b} thick, {grams}. ")
            }
        }
        _ => format!("{grams}. "),
    }
}

fn thick(portions: &[Member<'_>], units: &Units) -> String {
    match portions.first().and_then(|member| member.thickness) {
        Some(thickness) => format!("{} thick, ", units.length(thickness.length())),
        None => String::new(),
    }
}

fn said(found: &Found<'_>) -> Vec<String> {
    let mut said = Vec::new();
    match &found.packing.next {
        Some(bag) if bag.twins => said.push("They are twins, cut to be alike.".to_owned()),
        Some(bag) if bag.portions.len() == 2 => said.push("Like thickness thaws and cooks alike.".to_owned()),
        Some(_) | None => {}
    }
    let loose = found.instead.first.is_some_and(|first| {
        found.packing.sealed.iter().any(|sealed| {
            sealed.pack.leaker.is_some() && sealed.portions.iter().any(|m| m.portion.n == first)
        })
    });
    if loose {
        said.push("Its bag came loose; the new one takes its place.".to_owned());
    }
    said
}

fn bagging(found: &Found<'_>, bag: &Bag<'_>, units: &Units, start: &[(&'static str, String)]) -> Bagging {
    let salted = bag.portions.iter().any(|member| !member.portion.salted.is_empty());
    let mut start = start.to_vec();
    if salted {
        start.push(("salted", "yes".to_owned()));
    }
    Bagging {
        portions: bag.portions.iter().map(|member| member.portion.id.to_string()).collect(),
        start,
        partners: partners(found, bag, units),
        first: bag.portions.first().map_or(0, |member| member.portion.n),
        is_pair: bag.portions.len() == 2,
    }
}

/// Every other portion that waits, the likest first.
fn partners(found: &Found<'_>, bag: &Bag<'_>, units: &Units) -> Vec<(u32, String)> {
    let Some(first) = bag.portions.first() else { return Vec::new() };
    let taken: Vec<u32> = bag.portions.iter().map(|member| member.portion.n).collect();
    let waiting = found.packing.ahead.iter().flat_map(|bag| &bag.portions);
    let mm = |member: &Member<'_>| member.thickness.map_or(0.0, |thickness| thickness.length().mm());
    let mut others: Vec<(f64, u32)> = waiting
        .filter(|member| !taken.contains(&member.portion.n))
        .map(|member| ((mm(member) - mm(first)).abs(), member.portion.n))
        .collect();
    others.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    others
        .into_iter()
        .map(|(apart, n)| (n, format!("{} apart", bags::apart_words(Length::from_mm(apart), units))))
        .collect()
}

/// The label of the pack sealed last.
fn label(found: &Found<'_>, visit: &Visit, base: &Base) -> Option<Label> {
    let last = found.packing.sealed.iter().max_by_key(|sealed| sealed.pack.number)?;
    let label = papers::label(&visit.state, last.pack, visit.now(), base.address.as_deref());
    let set = visit.settings().text("label.on");
    let pictures = STOCKS
        .iter()
        .filter(|(_, on)| set.is_none_or(|set| set == *on))
        .filter_map(|(stock, on)| {
            let svg = papers::label_svg(&label, *stock).ok()?;
            let caption = match *on {
                "roll" => "Roll of 62 mm, cut at 50.",
                _ => "Sheet of 21, 63.5 × 38.1 mm.",
            };
            Some(Picture { svg: PreEscaped(svg), on, caption })
        })
        .collect();
    Some(Label {
        name: last.pack.name.clone(),
        slug: last.pack.slug.clone(),
        pictures,
        by_hand: papers::by_hand(&visit.state, last.pack),
        packs: found.packing.sealed.len(),
        warning: base.is_here_only.then(|| {
            "Opened like this, the code leads to this machine only. Open the page by the house’s own address before printing, and a phone can follow it.".to_owned()
        }),
    })
}

/// `One of 31 came loose so far, MOOR 5. Expect none, perhaps one, among these eight.`
fn lot(lot: &Lot, ahead: usize) -> Option<String> {
    if lot.sealed == 0 {
        return None;
    }
    let so_far = match (lot.loose, &lot.last_loose) {
        (0, _) => format!("None of {} came loose so far.", lot.sealed),
        (1, Some(name)) => format!("One of {} came loose so far, {name}.", lot.sealed),
        (count, Some(name)) => {
            format!(
                "{} of {} came loose so far, the last {name}.",
                sentence_case(&number_word(count as usize)),
                lot.sealed
            )
        }
        (count, None) => format!("{count} of {} came loose so far.", lot.sealed),
    };
    let bags = u32::try_from(ahead).unwrap_or(0);
    if bags == 0 {
        return Some(so_far);
    }
    let expected = lot.expected(bags);
    let word = |count: u32| if count == 0 { "none".to_owned() } else { number_word(count as usize) };
    let these =
        if bags == 1 { "with this one".to_owned() } else { format!("among these {}", number_word(ahead)) };
    Some(if expected.likely == expected.at_most {
        format!("{so_far} Expect {} {these}.", word(expected.likely))
    } else {
        format!("{so_far} Expect {}, perhaps {}, {these}.", word(expected.likely), word(expected.at_most))
    })
}
