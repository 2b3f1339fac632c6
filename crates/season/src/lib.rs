//! Questions put to the record: joins the state with the planners.
