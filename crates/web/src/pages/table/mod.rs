//! The table: suppers, a new one planned, one supper's chain back from its hour.

pub(crate) mod hours;
pub(crate) mod law;
mod list;
mod plan_form;
pub(crate) mod supper;
#[cfg(test)]
pub(crate) mod testing;

pub(crate) use list::{show, write};
