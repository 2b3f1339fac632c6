//! Questions put to the record: joins the state with the planners.

mod steps;

pub use steps::Step;
