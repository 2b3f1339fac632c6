//! Checks against things outside the house, one file a source.

mod conduction_series;
mod cook_case;
mod property_computed;
mod reference_slab;
mod stefan_neumann;
