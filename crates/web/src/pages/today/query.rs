//! The day, as the record has it, with the steps of the suppers to come.

use season::{Step, Today};

use crate::house::Visit;

/// The day seen from this visit.
pub(super) fn today(visit: &Visit) -> Today<'_> {
    season::today(&visit.state, visit.now(), plates(visit))
}

/// The hour of each supper to come: its plates.
fn plates(visit: &Visit) -> Vec<Step> {
    let now = visit.now().timestamp();
    visit
        .state
        .suppers()
        .filter(|supper| supper.planned.serve.at.timestamp() >= now)
        .map(|supper| Step {
            at: visit.zoned(supper.planned.serve.at),
            what: "Supper on the plate".to_owned(),
            link: format!("/table/{}", supper.slug),
            done: false,
        })
        .collect()
}
