//! A piece in words.

use catalogue::{Region, official_rule};
use maud::{Markup, html};
use quantity::{Grain, Mass, Temperature};
use record::{DateKind, Lip, Piece, Portion, Stage, Trim};
use season::{Heap, Judged, Standing, Whereabouts};

use super::query::Found;
use crate::house::Visit;
use crate::pages::shared::{
    self, Day, Ledger, cut_name, cut_unit_price, in_the, ledger_of, thread_of, whereabouts_words,
};
use crate::parts::Thread;
use crate::words::{Shown, and_list, counted, sentence_case};

/// A piece as it is shown.
pub(super) struct View {
    pub(super) title: String,
    pub(super) slug: String,
    pub(super) word: String,
    /// `TARN, ribeye roll, lip on`
    pub(super) heading: String,
    pub(super) answer: Markup,
    pub(super) said: Vec<String>,
    pub(super) thread: Thread,
    pub(super) ledger: Ledger,
    /// Portions with what became of them.
    pub(super) portions: Vec<PortionLine>,
    pub(super) days: Vec<Day>,
    pub(super) entries: usize,
    /// What is asked because it does not balance, or because a heap has no value.
    pub(super) asks: Vec<String>,
    /// The rule and what it means here, where it was taken in warm.
    pub(super) warm: Option<Warm>,
    pub(super) keeping: Vec<String>,
    pub(super) shared_with: String,
    pub(super) is_cut: bool,
    /// Pages where its next step is, the likeliest first.
    pub(super) next: Vec<(String, &'static str)>,
    pub(super) units: FieldUnits,
    /// What stands on its label so far, for the form that completes it.
    pub(super) label: Vec<(&'static str, String)>,
    pub(super) currency: String,
}

/// Units of the fields of its forms.
pub(super) struct FieldUnits {
    pub(super) large: &'static str,
    pub(super) small: &'static str,
    pub(super) length: &'static str,
    pub(super) degree: &'static str,
}

/// An official rule with its reading.
pub(super) struct Warm {
    pub(super) rule: String,
    pub(super) authority: String,
    pub(super) here: String,
}

/// A portion in the list.
pub(super) struct PortionLine {
    pub(super) name: String,
    pub(super) link: String,
    pub(super) mass: String,
    pub(super) thickness: String,
    pub(super) stands: String,
}

pub(super) fn view(found: &Found<'_>, visit: &Visit) -> View {
    let piece = found.piece;
    let ledger = ledger_of(visit, piece);
    let word = piece.word.to_string();
    View {
        title: word.clone(),
        slug: piece.word.slug(),
        heading: heading(visit, piece),
        answer: answer(found, &ledger, visit),
        said: said(found, &ledger, visit),
        thread: thread_of(visit, piece),
        portions: visit.state.portions_of(piece).map(|portion| portion_line(visit, portion)).collect(),
        days: shared::days(visit, found.entries.iter().copied()),
        entries: found.entries.len(),
        asks: asks(&ledger),
        warm: warm(visit, piece),
        keeping: keeping(visit, piece),
        shared_with: shared_with(piece),
        is_cut: !piece.portions.is_empty(),
        next: next(visit, piece),
        units: FieldUnits::of(visit),
        label: label(piece),
        currency: cut_unit_price(visit, piece.received.currency),
        word,
        ledger,
    }
}

/// Before the knife the plan, then the sealer, then the supper that waits for it, else the store.
fn next(visit: &Visit, piece: &Piece) -> Vec<(String, &'static str)> {
    let slug = piece.word.slug();
    if piece.portions.is_empty() {
        let page = |page: &str| format!("/piece/{slug}/{page}");
        return vec![(page("plan"), "Plan the knife"), (page("board"), "To the board")];
    }
    let mut pages = Vec::new();
    let bare = |portion: &Portion| portion.pack.is_none() && portion.gone().is_none();
    if visit.state.portions_of(piece).any(bare) {
        pages.push((format!("/piece/{slug}/pack"), "To the sealer"));
    }
    let now = visit.now().timestamp();
    let waits = |supper: &&record::Supper| {
        let planned = &supper.planned;
        let of_it =
            |id: &uuid::Uuid| visit.state.portion(*id).is_some_and(|portion| portion.piece == piece.id);
        planned.serve.at.timestamp() >= now && planned.portions.iter().any(of_it)
    };
    let soonest =
        visit.state.suppers().filter(waits).min_by_key(|supper| supper.planned.serve.at.timestamp());
    if let Some(supper) = soonest {
        pages.push((format!("/table/{}", supper.slug), "To its supper"));
    }
    pages.push(("/store".to_owned(), "To the store"));
    pages
}

impl FieldUnits {
    pub(super) fn of(visit: &Visit) -> Self {
        let units = &visit.units;
        Self {
            large: if units.pounds { "lb" } else { "kg" },
            small: if units.pounds { "oz" } else { "g" },
            length: if units.length == quantity::LengthUnit::Inch { "in" } else { "mm" },
            degree: if units.temperature == quantity::TemperatureUnit::Fahrenheit { "°F" } else { "°C" },
        }
    }
}

fn heading(visit: &Visit, piece: &Piece) -> String {
    let name = cut_name(visit.settings(), &piece.received.cut);
    let says_lip = name.contains("lip");
    let lip = match piece.received.lip {
        Some(Lip::On) if !says_lip => ", lip on",
        Some(Lip::Off) if !says_lip => ", lip off",
        _ => "",
    };
    format!("{}, {name}{lip}", piece.word)
}

fn answer(found: &Found<'_>, ledger: &Ledger, visit: &Visit) -> Markup {
    let grams = |mass: Mass| visit.units.mass(mass, Grain::Reading);
    if let Some(thrown) = &found.piece.discarded {
        return html! { "Thrown away " (visit.moments.when(&visit.zoned(thrown.at))) ": " (thrown.because) "." };
    }
    if found.piece.portions.is_empty() {
        let when = visit.moments.day_word(&visit.zoned(found.piece.at));
        return html! { (ledger.came_in) " for " strong { (ledger.paid) } ", bought " (when) "; " (if found.piece.parts.is_empty() { "nothing is cut yet" } else { "no portion is cut yet" }) "." };
    }
    let places = places(ledger);
    let listed: Vec<String> = places.iter().map(|(place, _)| place.clone()).collect();
    html! {
        "Of " (ledger.came_in) ", "
        @for (at, (place, mass)) in places.iter().enumerate() {
            @if at > 0 { (if at + 1 == listed.len() { " and " } else { ", " }) }
            strong { (grams(*mass)) } " " (are(at)) (place)
        }
        (tail(&ledger.figures.standing, visit))
    }
}

/// The verb stands with the first place only: `3 800 g are in the fridge and 1 956 g in the store`.
fn are(place: usize) -> &'static str {
    if place == 0 { "are " } else { "" }
}

/// Grams of what can be eaten by where they are: portions and kept heaps.
fn places(ledger: &Ledger) -> Vec<(String, Mass)> {
    let mut places: Vec<(String, Mass)> = Vec::new();
    for row in &ledger.figures.rows {
        let whereabouts = match &row.heap {
            Heap::Portions { whereabouts, .. } => whereabouts,
            Heap::Part {
                whereabouts: Some(whereabouts @ (Whereabouts::Out(_) | Whereabouts::Store(_))),
                ..
            } => whereabouts,
            _ => continue,
        };
        let words = whereabouts_words(whereabouts);
        match places.iter_mut().find(|(place, _)| *place == words) {
            Some((_, mass)) => *mass = *mass + row.mass,
            None => places.push((words, row.mass)),
        }
    }
    places
}

fn tail(standing: &Standing, visit: &Visit) -> Markup {
    let grams = |mass: Mass| visit.units.mass(Mass::from_g(mass.g().abs()), Grain::Reading);
    match standing {
        Standing::Balances { grams: left, .. } if left.g() == 0.0 => html! { "; nothing is missing." },
        Standing::Balances { grams: left, .. } => {
            html! { "; " strong { (grams(*left)) } " are not explained, inside the scales’ error." }
        }
        Standing::Missing { grams: left, on_the_board: true, .. } => {
            html! { "; " strong { (grams(*left)) } " are not weighed yet." }
        }
        Standing::Missing { grams: left, .. } => html! { "; " strong { (grams(*left)) } " are missing." },
        Standing::MoreOutThanIn { over } => {
            html! { "; " strong { (grams(*over)) } " more was weighed than came in." }
        }
        Standing::Uncut => html! { "." },
    }
}

fn said(found: &Found<'_>, ledger: &Ledger, visit: &Visit) -> Vec<String> {
    if let Some(judged) = &found.forecast {
        return vec![forecast(judged, visit, found.piece)];
    }
    let Some(plates) = &ledger.figures.plates else { return Vec::new() };
    let share = |part: f64, whole: f64| format!("{:.0}\u{202f}%", part / whole * 100.0);
    let paid = crate::words::band::plain(ledger.figures.paid.amount);
    let carry = crate::words::band::plain(plates.carry.amount);
    let mut said = vec![format!(
        "The plates carry {} of the {} paid: {} of the money on {} of the weight.",
        plates.carry,
        ledger.figures.paid,
        share(carry, paid),
        share(plates.mass.g(), ledger.figures.came_in.g())
    )];
    said.extend(ledger.sentences.iter().cloned());
    said
}

fn forecast(judged: &Judged, visit: &Visit, piece: &Piece) -> String {
    let currency = piece.received.currency;
    let price = shared::per_unit(visit, judged.per_kg);
    let shown = Shown::money(price, currency, false);
    let unit = shared::kilo_word(visit);
    let plates = judged.plates.map_or_else(String::new, |plates| {
        let plates = Shown::count(plates);
        let ends = if plates.is_sharp() { String::new() } else { format!(", {}", plates.between()) };
        format!(" It makes about {} plates{ends}.", plates.middle)
    });
    let trim = match piece.received.trim {
        Some(Trim::Bare) => "Trimmed bare",
        Some(Trim::ToSix) => "Trimmed to 6 mm",
        Some(Trim::AsPacked) => "Cut as it is packed",
        None => "However it is trimmed",
    };
    format!("{trim}, a trimmed {unit} comes to {}, four times in five.{plates}", shown.between())
}

fn portion_line(visit: &Visit, portion: &Portion) -> PortionLine {
    let (from, to) = (portion.weighed.from, portion.weighed.to);
    let thickness = portion.weighed.thickness.or_else(|| Some(to? - from?));
    let whereabouts = season::whereabouts(&visit.state, portion);
    let stands = match visit.state.stage(portion) {
        Stage::Pulled => "pulled".to_owned(),
        _ => whereabouts_words(&whereabouts),
    };
    let salted = portion.salted.last().is_some()
        && !matches!(whereabouts, Whereabouts::Eaten | Whereabouts::Discarded);
    PortionLine {
        name: portion.n.to_string(),
        link: format!("/piece/{}/{}", portion.word.slug(), portion.n),
        mass: visit.units.mass(portion.weighed.mass, Grain::Reading),
        thickness: thickness
            .map_or_else(|| "not measured".to_owned(), |thickness| visit.units.length(thickness)),
        stands: if salted { format!("{stands}, salted") } else { stands },
    }
}

fn asks(ledger: &Ledger) -> Vec<String> {
    let mut asks = Vec::new();
    if matches!(ledger.figures.standing, Standing::Missing { .. } | Standing::MoreOutThanIn { .. }) {
        asks.extend(ledger.standing.clone());
    }
    if !ledger.figures.unvalued.is_empty() {
        let names: Vec<String> =
            ledger.figures.unvalued.iter().map(|part| shared::part_name(*part, None)).collect();
        asks.push(format!(
            "{} has no value and counts as zero. What does a kilo of it replace?",
            sentence_case(&and_list(&names))
        ));
    }
    asks
}

/// A core above the limit on receipt: the rule first, then what is known here.
fn warm(visit: &Visit, piece: &Piece) -> Option<Warm> {
    let (at, core) = piece.measured.core?;
    let region = region(visit);
    let rule = official_rule("leaving-out", region)?;
    let limit = rule.limit()?;
    if core.c() <= limit.c() || !piece.portions.is_empty() {
        return None;
    }
    let degrees = |temperature: Temperature| visit.units.temperature(temperature, Grain::Reading);
    Some(Warm {
        rule: rule.words(visit.units.temperature),
        authority: rule.cited(),
        here: format!(
            "Its core read {} {}, above {}. How long it had been so is not known: only the hours could settle it. \
             Without them it is refused, or not eaten.",
            degrees(core),
            visit.moments.when(&visit.zoned(at)),
            degrees(limit)
        ),
    })
}

fn region(visit: &Visit) -> Region {
    match visit.settings().text("kitchen.rules") {
        Some("au") => Region::Au,
        _ => Region::Us,
    }
}

fn keeping(visit: &Visit, piece: &Piece) -> Vec<String> {
    let day = |day: jiff::civil::Date| day.strftime("%-d %B").to_string();
    let date = match &piece.received.date {
        None => "No date was on the bag.".to_owned(),
        Some(date) => match date.kind {
            DateKind::Pack => format!("Packed on {}.", day(date.day)),
            DateKind::Kill => format!("Slaughtered on {}.", day(date.day)),
            DateKind::UseBy => format!("Use by {}, says its bag.", day(date.day)),
            DateKind::SellBy => format!("Sell by {}, says its bag.", day(date.day)),
        },
    };
    let mut said = vec![date];
    if let Some((at, core)) = piece.measured.core {
        said.push(format!(
            "Core {} {}.",
            visit.units.temperature(core, Grain::Reading),
            visit.moments.when(&visit.zoned(at))
        ));
    }
    if let Some(lying) = piece.lying.as_ref().filter(|_| piece.portions.is_empty()) {
        said.push(format!(
            "It lies {} since {}.",
            in_the(&lying.place),
            visit.moments.time(&visit.zoned(lying.since))
        ));
    }
    said
}

fn shared_with(piece: &Piece) -> String {
    piece.received.shared_with.clone().unwrap_or_else(|| "Nobody, as far as it is written.".to_owned())
}

fn label(piece: &Piece) -> Vec<(&'static str, String)> {
    let received = &piece.received;
    let mut values: Vec<(&'static str, String)> = Vec::new();
    values.extend(received.trim.map(|trim| ("trim", trim.word().to_owned())));
    values.extend(received.lip.map(|lip| ("lip", lip.word().to_owned())));
    if let Some(date) = &received.date {
        values.push(("date_kind", date.kind.word().to_owned()));
        values.push(("date_day", date.day.to_string()));
    }
    values.extend(received.shared_with.clone().map(|who| ("shared_with", who)));
    values.extend(received.note.clone().map(|note| ("note", note)));
    values.extend(received.counter_price.map(|price| ("counter", price.per_kg().normalize().to_string())));
    values
}

/// `46 entries`
pub(super) fn entries_words(count: usize) -> String {
    format!(
        "{}, like ones folded. A struck line was written and later corrected; nothing is erased.",
        sentence_case(&counted(count, "entry", "entries"))
    )
}
