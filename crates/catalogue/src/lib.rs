//! What the trade agrees on, each figure with its source: cuts, constituents, media, wraps, doneness, official rules.
//!
//! The figures stand in TOML files under `catalogue/` at the root of the repository, one file a subject, embedded when
//! the program is built and parsed once. Nothing else in the house knows those files. Every row names a [`Source`] of
//! `sources.toml`; a row that is a prior carries a [`Mark`] too, and an answer that leans on it says so.

mod basis;
mod compositions;
mod constituents;
mod cuts;
mod doneness;
mod load;
mod media;
mod organisms;
mod profiles;
mod roasts;
mod rules;
mod salts;
mod source;
mod storage;
mod tolerances;
mod wraps;
mod yields;

pub use basis::Basis;
pub use compositions::{CutComposition, composition, compositions};
pub use constituents::{
    Constituent, ConstituentRow, Figure, Figures, ThermalProperty, constituents, figures,
};
pub use cuts::{Cut, EndsPrior, Feature, LengthPrior, MassPrior, Names, SectionPrior, SharePrior, cut, cuts};
pub use doneness::{DonenessScale, DonenessWord, doneness_scale, doneness_scales};
pub use media::{
    Door, Drying, DryingFace, Law, Medium, MediumKind, Over, PlateReserve, Prior, SteakPrior, door,
    drying_face, media, medium, over, steak_prior,
};
pub use organisms::{Organism, organisms};
pub use profiles::{
    KNOTS, KnifePrior, LearnedFigure, MuscleShare, Profile, Roughness, Worth, knife, muscle_share, profile,
    roughness, worth_of,
};
pub use roasts::{RoastPrior, roast_model_share, roast_prior};
pub use rules::{OfficialRule, Region, official_rule, official_rules};
pub use salts::{Crystal, SaltDose, crystals, salt_dose};
pub use source::{Mark, Source, Status, source};
pub use storage::{Keeps, Kept, keeps};
pub use tolerances::{density_at_fat_share, portion_mass_tolerance, portion_thickness_tolerance};
pub use wraps::{Wrap, wrap, wraps};
pub use yields::{Trim, YieldPrior, yield_prior, yields};
