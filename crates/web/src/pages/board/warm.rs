//! The time on the board in words.

use catalogue::{Region, official_rule};

use super::query::Found;
use super::view::Warm;
use crate::house::Visit;

pub(super) fn warm(found: &Found<'_>, visit: &Visit) -> Warm {
    let Some(warm) = &found.board.warm else {
        let is_begun = !found.board.cut.is_empty() || !found.board.heaps.is_empty();
        return if is_begun { Warm::Over } else { Warm::Cold };
    };
    let since = visit.moments.time(&visit.zoned(warm.since));
    let by = visit.moments.time(&warm.back_by);
    let limit = visit.units.span(warm.limit);
    let region = if visit.settings().text("kitchen.rules") == Some("au") { Region::Au } else { Region::Us };
    let rule = official_rule("leaving-out", region).filter(|_| !warm.own);
    let said = if warm.own {
        format!("On the board since {since}; your own limit is {limit}.")
    } else {
        format!("On the board since {since}.")
    };
    Warm::Out {
        heading: if warm.over {
            format!("Overdue: back in the cold by {by}")
        } else {
            format!("Back in the cold by {by}")
        },
        said: if warm.over {
            format!("{said} What is cut goes into the fridge now, the rest after it.")
        } else {
            said
        },
        law: rule.map(|rule| (rule.words(visit.units.temperature), rule.cited())),
        over: warm.over,
        place: fridge(visit),
    }
}

/// The kitchen's fridge: as set up, else the word itself.
fn fridge(visit: &Visit) -> String {
    let settings = visit.settings();
    settings
        .names("place")
        .into_iter()
        .find(|key| settings.text(&format!("place.{key}.kind")) == Some("fridge"))
        .map_or("fridge".to_owned(), |key| {
            settings.text(&format!("place.{key}.name")).map_or_else(|| key.replace('-', " "), str::to_owned)
        })
}
