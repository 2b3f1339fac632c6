//! What came of it: a short form, a line a portion.

use maud::{Markup, html};
use quantity::{Grain, TemperatureUnit};
use record::{Outcome, Portion, Served};
use season::{SupperServed, scale};

use super::acts::CAME;
use crate::house::Visit;
use crate::parts::{Field, Typed, entry_form};
use crate::words::{counted, sentence_case};

/// What is written, and what waits.
pub(super) struct Came {
    /// Lines of what is written down.
    pub(super) written: Vec<(String, String)>,
    waiting: Vec<(String, String)>,
    words: Vec<String>,
    degree: &'static str,
}

/// What becomes of a portion, by entry word and as people say it.
pub(crate) const OUTCOMES: [(&str, &str); 3] =
    [("eaten", "eaten"), ("spare", "left over"), ("discarded", "thrown away")];

pub(super) fn came(visit: &Visit, served: &SupperServed<'_>) -> Came {
    let written = served.plates.iter().filter_map(|plate| {
        let entry = plate.served?;
        Some((plate.portion.name(), served_words(visit, &entry.served)))
    });
    let is_waiting = |portion: &Portion| portion.gone().is_none() && portion.served.is_empty();
    let waiting = served
        .plates
        .iter()
        .filter(|plate| plate.served.is_none() && is_waiting(plate.portion))
        .map(|plate| (plate.portion.id.to_string(), plate.portion.name()));
    Came {
        written: written.collect(),
        waiting: waiting.collect(),
        words: scale(&visit.state).words.iter().map(|word| word.word.clone()).collect(),
        degree: degree(visit),
    }
}

/// `°C`
pub(crate) fn degree(visit: &Visit) -> &'static str {
    match visit.units.temperature {
        TemperatureUnit::Celsius => "°C",
        TemperatureUnit::Fahrenheit => "°F",
    }
}

/// `eaten, core 54 °C, medium rare. The best of the season.`
pub(crate) fn served_words(visit: &Visit, served: &Served) -> String {
    let outcome = match served.outcome {
        Outcome::Eaten => "eaten",
        Outcome::Spare => "left over",
        Outcome::Discarded => "thrown away",
    };
    let core = served.core.map(|core| format!("core {}", visit.units.temperature(core, Grain::Reading)));
    let parts: Vec<String> =
        [Some(outcome.to_owned()), core, served.doneness.clone()].into_iter().flatten().collect();
    let note = served.note.as_ref().map_or_else(String::new, |note| format!(". {}", sentence_case(note)));
    parts.join(", ") + &note
}

/// The answer of a supper of which something is written.
pub(super) fn answer(served: &SupperServed<'_>) -> Markup {
    let parts: Vec<String> =
        [(served.eaten, "eaten"), (served.spare, "left over"), (served.discarded, "thrown away")]
            .into_iter()
            .filter(|(count, _)| *count > 0)
            .map(|(count, word)| format!("{} {word}", crate::words::number_word(count)))
            .collect();
    let waiting = match served.waiting() {
        0 => String::new(),
        count => format!(" Nothing is written of {}.", counted(count, "portion", "portions")),
    };
    html! { (sentence_case(&parts.join(", "))) "." (waiting) }
}

impl Came {
    /// Whether nothing waits to be written.
    pub(super) fn is_whole(&self) -> bool {
        self.waiting.is_empty()
    }

    /// The unit a core is typed in.
    pub(super) fn degree(&self) -> &'static str {
        self.degree
    }

    /// The list of what is written, and the form of what is not.
    pub(super) fn draw(&self, to: &str, typed: &Typed) -> Markup {
        let fresh = Typed::default();
        let typed = typed.of(CAME, &fresh);
        html! {
            @if !self.written.is_empty() {
                dl class="facts" { @for (name, words) in &self.written { div { dt { (name) } dd { (words) } } } }
            }
            @if !self.waiting.is_empty() {
                (entry_form(to, typed, CAME, self.fields(typed), html! { button class="press" { "Write it down" } }))
            }
        }
    }

    fn fields(&self, typed: &Typed) -> Markup {
        html! {
            div class="plates" {
                @for (id, name) in &self.waiting { (self.plate(id, name, typed)) }
            }
            div class="fields" { (Field::note("note", "A sentence about the evening").unknown("nothing to say").draw(typed)) }
        }
    }

    fn plate(&self, id: &str, name: &str, typed: &Typed) -> Markup {
        let (outcome, core, done) = (format!("{id}_outcome"), format!("{id}_core"), format!("{id}_doneness"));
        let chosen = typed.get(&outcome).unwrap_or_default();
        let as_served = typed.get(&done).unwrap_or_default();
        html! {
            div class="plate" {
                input type="hidden" name="portion" value=(id);
                b { (name) }
                div class="take" { select name=(outcome) aria-label={ "What became of " (name) } {
                    option value="" selected[chosen.is_empty()] { "not yet" }
                    @for (value, words) in OUTCOMES { option value=(value) selected[chosen == value] { (words) } }
                } }
                div class="take" {
                    input name=(core) type="text" inputmode="decimal" autocomplete="off" placeholder="core"
                        value=(typed.get(&core).unwrap_or_default()) aria-label={ "Core of " (name) " when cut" };
                    span { (self.degree) }
                }
                div class="take" { select name=(done) aria-label={ "Doneness of " (name) " as served" } {
                    option value="" selected[as_served.is_empty()] { "doneness" }
                    @for word in &self.words { option value=(word) selected[as_served == word.as_str()] { (word) } }
                } }
                @if let Some(words) = typed.wrong(&core) { span class="wrong" { (words) } }
            }
        }
    }
}
