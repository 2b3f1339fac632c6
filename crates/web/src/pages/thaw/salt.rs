//! Salt: a dose and an hour the cook gives; grams are dose times mass.

use maud::{Markup, html};
use quantity::{Grain, Mass};
use season::ThawPlan;

use super::acts::SALT;
use crate::house::Visit;
use crate::parts::{Choice, Field, Typed, entry_form};
use crate::words::{counted, number_word};

/// Salt as it is shown.
pub(super) struct Salting {
    said: Vec<String>,
    rows: Vec<(String, String, String)>,
    portions: Vec<String>,
    values: Typed,
    mass_unit: &'static str,
    crystals: Vec<(&'static str, &'static str)>,
}

pub(super) fn salting(visit: &Visit, thaw: &ThawPlan<'_>) -> Option<Salting> {
    let salt = &thaw.salt;
    if salt.waiting.is_empty() && salt.given.is_empty() {
        return None;
    }
    let dose = salt.dose_percent;
    let grams = |mass: Mass, percent: f64| {
        visit.units.mass(Mass::from_g((mass.g() * percent / 10.0).round() / 10.0), Grain::Reading)
    };
    let mut said = Vec::new();
    said.extend(given(visit, thaw));
    if !salt.waiting.is_empty() {
        let meat: Mass = salt.waiting.iter().map(|portion| portion.weighed.mass).sum();
        let usual = catalogue::salt_dose();
        said.push(match dose {
            Some(percent) => format!(
                "Your dose of {percent}\u{202f}% comes to {} on {}.",
                grams(meat, percent),
                counted(salt.waiting.len(), "portion", "portions")
            ),
            None => format!(
                "People give {} to {}\u{202f}% of the meat: {} to {} on {}.",
                usual.low_percent,
                usual.high_percent,
                grams(meat, usual.low_percent),
                grams(meat, usual.high_percent),
                counted(salt.waiting.len(), "portion", "portions")
            ),
        });
    }
    let per_portion = |percent: f64| {
        let row = |portion: &&record::Portion| {
            let mass = portion.weighed.mass;
            (portion.name(), visit.units.mass(mass, Grain::Reading), grams(mass, percent))
        };
        salt.waiting.iter().map(row).collect()
    };
    let start: Vec<(&str, String)> =
        dose.map(|percent| ("percent", percent.to_string())).into_iter().collect();
    Some(Salting {
        said,
        rows: dose.map(per_portion).unwrap_or_default(),
        portions: salt.waiting.iter().map(|portion| portion.id.to_string()).collect(),
        values: Typed::fresh(&start),
        mass_unit: if visit.units.pounds { "oz" } else { "g" },
        crystals: catalogue::crystals().iter().map(|c| (c.id.as_str(), c.name.as_str())).collect(),
    })
}

/// What was given, when.
fn given(visit: &Visit, thaw: &ThawPlan<'_>) -> Option<String> {
    let (_, at, _) = thaw.salt.given.last()?;
    let all: Option<Mass> = thaw.salt.given.iter().map(|(_, _, grams)| *grams).sum();
    let meat: Mass = thaw.salt.given.iter().map(|(portion, ..)| portion.weighed.mass).sum();
    let amount = match all {
        Some(all) => format!(
            ", {} in all, {:.1}\u{202f}% of the meat",
            visit.units.mass(Mass::from_g((all.g() * 10.0).round() / 10.0), Grain::Reading),
            all.g() / meat.g() * 100.0
        ),
        None => ", not weighed".to_owned(),
    };
    let count = number_word(thaw.salt.given.len());
    Some(format!("Salted at {}: {count}{amount}.", visit.moments.time(&visit.zoned(*at))))
}

impl Salting {
    pub(super) fn draw(&self, to: &str, typed: &Typed) -> Markup {
        let own = typed.of(SALT, &self.values);
        html! {
            @for words in &self.said { p class="said" { (words) } }
            @if !self.rows.is_empty() {
                table {
                    caption class="unseen" { "Salt by portion" }
                    thead { tr { th scope="col" { "Portion" } th scope="col" class="r" { "Weight" } th scope="col" class="r" { "Salt" } } }
                    tbody { @for (name, mass, grams) in &self.rows {
                        tr { th scope="row" { (name) } td class="r n" { (mass) } td class="r n" { (grams) } }
                    } }
                }
            }
            @if !self.portions.is_empty() {
                (entry_form(to, own, SALT, self.fields(own), html! { button class="press" { "Salted" } }))
            }
        }
    }

    fn fields(&self, typed: &Typed) -> Markup {
        let start = self.crystals.first().map_or("", |(id, _)| *id);
        html! {
            @for portion in &self.portions { input type="hidden" name="portion" value=(portion); }
            div class="fields" {
                (Field::number("percent", "Dose, of the meat").unit("%").unknown("not by dose").draw(typed))
                (Field::number("grams", "Or weighed, in all").unit(self.mass_unit).unknown("not weighed").draw(typed))
                (Choice { name: "crystal", label: "Salt", options: &self.crystals, start }.list(typed))
                (Field::when("when", "When").unknown("now").wide().draw(typed))
            }
        }
    }
}
