//! A supper planned back from its hour: what starts when, for whom, and how sure that is.

mod asked;
mod hours;
mod kitchen;
mod served;
#[cfg(test)]
mod tests;

pub use asked::{Missing, SupperAsked, USUAL_WISH, WishWord, moved_key, scale, supper_asked};
pub(crate) use asked::{core, last_read, start_c, thickness_m, wish_word};
pub use hours::{LATE_MIN, SupperPlan};
pub use kitchen::Kitchen;
pub(crate) use kitchen::kitchen;
pub use served::{PlateServed, SupperServed, supper_served};

use crate::Plans;
use dinner::DinnerError;
use jiff::ZonedDateTime;
use record::{State, Supper};
use thiserror::Error;

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum NoSupperPlan {
    /// The record does not say enough.
    #[error("{0}")]
    Missing(Missing),
    /// What it says cannot be planned.
    #[error(transparent)]
    Cannot(#[from] DinnerError),
}

/// The plan of a supper as the record stands at `now`.
///
/// # Errors
/// [`NoSupperPlan`] says what is missing, or why what is asked for cannot be.
pub fn supper_plan<'s>(
    state: &'s State,
    plans: &Plans,
    supper: &'s Supper,
    now: &ZonedDateTime,
) -> Result<SupperPlan<'s>, NoSupperPlan> {
    let asked = supper_asked(state, supper, now).map_err(NoSupperPlan::Missing)?;
    let plan = plans.supper(&asked.table)?;
    Ok(SupperPlan::new(supper, asked, plan, now))
}
