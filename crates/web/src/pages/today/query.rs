//! The day, as the record has it, with the steps of the suppers to come.

use season::Today;

use crate::house::Visit;

/// The day seen from this visit.
pub(super) fn today(visit: &Visit) -> Today<'_> {
    let steps = season::next_steps(&visit.state, &visit.plans, visit.now());
    season::today(&visit.state, visit.now(), steps)
}
