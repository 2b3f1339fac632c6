//! Mass along a piece, the knife plan and the board.
//!
//! A roll of beef tapers, and nobody sees inside. [`Posterior`] says where the mass lies by what is known: the catalogue's
//! shape of the cut, the scale, the ruler, width and height at a few places, and every portion already weighed. [`plan`]
//! finds the marks that serve the wants best and says what had to be given up; after each weighed portion it is asked
//! again. [`learn`] folds the household's own pieces into the catalogue's shape.
//!
//! | known | error of the next portion's weight (ribeye, 38 mm) |
//! |---|---|
//! | cut, mass | 8 % |
//! | and length | 7 % |
//! | and three stations | 5 % |
//! | and two portions weighed | 4 % |
//!
//! These are what the model's own assumptions are worth (`tests/calibration`); the tapers are assumed, and every answer
//! that leans on one says so in [`KnifePlan::assumed`].
//!
//! Positions run from the end where the knife starts. Knows no record, no clock, no file.

mod board;
mod curve;
mod error;
mod frame;
mod gauss;
pub mod general;
mod given;
mod hats;
mod learn;
mod piece;
mod plan;
mod posterior;
mod prior;
mod programme;
mod shape;
mod summary;
mod table;
mod want;

pub use error::RollError;
pub use learn::{Learned, OwnPiece, OwnPortion, learn};
pub use piece::{End, Ends, Knife, Marking, Piece, Station, Weighed};
pub use plan::{Conflict, GivenUp, KnifePlan, Missed, Next, Portion, Work, plan, plan_with};
pub use posterior::{Foretold, Posterior};
pub use prior::Prior;
pub use want::{Count, FromEnd, Limits, Target, Tolerance, Want};

/// How answers are drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Settings {
    /// Members of the ensemble, where mass or length is not known.
    pub draws: usize,
    /// Its seed.
    pub seed: u64,
    /// Every input is taken as true; what is missing or a range is refused.
    pub exact: bool,
}

impl Default for Settings {
    fn default() -> Self {
        Self { draws: band::DRAWS, seed: band::SEED, exact: false }
    }
}
