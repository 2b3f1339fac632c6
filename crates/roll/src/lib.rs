//! Mass along a piece, the knife plan and the board.

mod board;
mod curve;
mod error;
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
