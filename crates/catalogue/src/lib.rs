//! What the trade agrees on, each figure with its source: cuts, constituents, media, wraps, doneness, official rules.
//!
//! The figures stand in TOML files under `catalogue/` at the root of the repository, one file a subject, embedded when
//! the program is built and parsed once. Nothing else in the house knows those files. Every row names a [`Source`] of
//! `sources.toml`; a row that is a prior carries a [`Mark`] too, and an answer that leans on it says so.

mod constituents;
mod load;
mod source;

pub use constituents::{
    Constituent, ConstituentRow, Figure, Figures, ThermalProperty, constituents, figures,
};
pub use source::{Mark, Source, Status, source};
