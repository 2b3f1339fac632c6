//! Hours of a supper: told from the evening it is, so that a plan for a day two weeks ahead still has hours.

use jiff::ZonedDateTime;
use maud::{Markup, html};
use season::Step;

use crate::house::Visit;
use crate::words::{Moments, sentence_case};

/// Writes hours as seen from a supper: those of its day bare, those of the days around it with their weekday.
pub(crate) fn seen_from(visit: &Visit, serve: &ZonedDateTime) -> Moments {
    Moments::new(serve.clone(), visit.units.clock)
}

/// `Saturday`, within the week; else `Saturday 1 August`.
pub(crate) fn day_of(visit: &Visit, serve: &ZonedDateTime) -> String {
    let days = serve.date().since(visit.now().date()).map_or(99, |span| span.get_days());
    let is_near = (-1..7).contains(&days);
    serve.strftime(if is_near { "%A" } else { "%A %-d %B" }).to_string()
}

/// What was done, by the hour; nothing of it is next.
pub(crate) fn past(visit: &Visit, steps: &[Step]) -> Markup {
    html! {
        ol class="rows steps past" {
            @for step in steps.iter().filter(|step| step.done) {
                li { div class="row" { time { (visit.moments.time(&step.at)) } span { (sentence_case(&step.what)) } } }
            }
        }
    }
}
