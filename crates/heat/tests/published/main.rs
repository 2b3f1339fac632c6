//! Checks against things outside the house, one file a source.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a check that cannot set up its case has failed"
)]

mod conduction_example;
mod conduction_series;
mod cook_case;
mod docs_rows;
mod hand_methods;
mod loss;
mod myoglobin;
mod ordering;
mod pan_behaviour;
mod pasteurisation;
mod property_computed;
mod property_rows;
mod reference_brick;
mod reference_slab;
mod rows;
mod semi_infinite;
mod sous_vide;
mod stefan_neumann;
mod thawing_observation;
