//! The day, as the record has it, with the steps of the suppers to come.

use season::Today;

use crate::house::Visit;

/// The day with what the next supper promises.
pub(super) struct Found<'v> {
    pub(super) today: Today<'v>,
    /// How sure it is that all eat at the hour; nothing where no plan can be made.
    pub(super) chance: Option<f64>,
}

/// The day seen from this visit.
pub(super) fn found(visit: &Visit) -> Found<'_> {
    let steps = season::next_steps(&visit.state, &visit.plans, visit.now());
    let today = season::today(&visit.state, visit.now(), steps);
    let plan = today
        .supper
        .and_then(|supper| season::supper_plan(&visit.state, &visit.plans, supper, visit.now()).ok());
    Found { chance: plan.map(|plan| plan.chance_now()), today }
}
