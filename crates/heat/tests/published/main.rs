//! Checks against things outside the house, one file a source.

mod reference_slab;
