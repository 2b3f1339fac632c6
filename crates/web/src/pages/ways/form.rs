//! What may be asked otherwise: the wished core, the oven's dial, which ways.

use maud::{Markup, html};
use quantity::{Grain, Temperature};
use record::Wish;
use season::{PortionWays, Road, WaysWish, scale};

use super::says::road_words;
use crate::house::Visit;
use crate::parts::{Choice, Field, Typed};
use crate::reading::Reading;
use crate::sent::Sent;

/// Names the form in its address.
pub(super) const ASK: &str = "ask";
/// Side by side on a page.
const MOST: usize = 4;

/// What the address asks, and the form as it shall stand again.
pub(super) fn read(sent: &Sent, visit: &Visit) -> (WaysWish, Typed) {
    let mut reading = Reading::new(sent, visit);
    let wish = reading.text("wish").map(Wish::Doneness);
    let core = reading.temperature("core_c", 40.0..=85.0).map(Wish::Core);
    let dial = reading.temperature("dial_c", 60.0..=250.0);
    let roads: Vec<Road> = sent.all("way").filter_map(Road::named).collect();
    if roads.len() > MOST {
        reading.refuse("way", "Four at most stand side by side. Take one away.");
    }
    let roads = roads.into_iter().take(MOST).collect();
    (WaysWish { wish: core.or(wish), dial, roads }, reading.into_typed())
}

/// The form as it is drawn.
pub(super) struct Form {
    words: Vec<String>,
    wish: String,
    degree: &'static str,
    dial: String,
    low: String,
    roads: Vec<(Road, String, bool)>,
}

pub(super) fn form(visit: &Visit, ways: &PortionWays<'_>) -> Form {
    let dial = ways
        .asked
        .low
        .medium_c
        .known()
        .map(|c| visit.units.temperature(Temperature::from_c(c), Grain::Forecast));
    Form {
        words: scale(&visit.state).words.iter().map(|word| word.word.clone()).collect(),
        wish: ways.wish.word.clone().unwrap_or_default(),
        degree: if visit.units.temperature == quantity::TemperatureUnit::Celsius { "°C" } else { "°F" },
        dial: dial
            .map(|shown| shown.chars().take_while(|c| c.is_ascii_digit()).collect())
            .unwrap_or_default(),
        low: ways.kitchen.low_name.clone(),
        roads: Road::ALL
            .into_iter()
            .filter(|road| !(ways.asked.whole && *road == Road::HotAlone))
            .map(|road| (road, road_words(ways, road), ways.asked.roads.contains(&road)))
            .collect(),
    }
}

impl Form {
    pub(super) fn draw(&self, to: &str, typed: &Typed) -> Markup {
        let words: Vec<(&str, &str)> = self.words.iter().map(|word| (word.as_str(), word.as_str())).collect();
        let dial = format!("Dial of the {}", self.low);
        let fresh = Typed::fresh(&[("dial_c", self.dial.clone())]);
        let typed = if typed.form() == ASK { typed } else { &fresh };
        html! {
            form method="get" action=(to) autocomplete="off" {
                input type="hidden" name="form" value=(ASK);
                div class="fields" {
                    (Choice { name: "wish", label: "Wish", options: &words, start: &self.wish }.list(typed))
                    (Field::number("core_c", "or its core").unit(self.degree).unknown("as the word").draw(typed))
                    (Field::number("dial_c", &dial).unit(self.degree).draw(typed))
                }
                fieldset class="group" {
                    legend { "Side by side, four at most" }
                    ul class="rows ticks" {
                        @for (road, words, asked) in &self.roads {
                            li { label class="one" {
                                input type="checkbox" name="way" value=(road.name()) checked[*asked];
                                span { b { (words) } }
                            } }
                        }
                    }
                    @if let Some(words) = typed.wrong("way") { span class="wrong" role="alert" { (words) } }
                }
                div class="acts" { button class="press" { "Put side by side" } }
            }
        }
    }
}
