//! Why a piece cannot be reckoned.

use crate::Grams;
use rust_decimal::Decimal;
use thiserror::Error;

/// The number an error is about, so that a form or a page can point at it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// The piece's mass.
    PieceMass,
    /// The piece's price or total.
    PiecePrice,
    /// The purge.
    Purge,
    /// The list of parts as a whole.
    Parts,
    /// The mass of the part with this place in the list.
    PartMass(usize),
    /// The value of the part with this place in the list.
    PartValue(usize),
    /// The counter's price.
    Counter,
    /// The costs beyond the piece.
    Costs,
    /// How many bags.
    Bags,
    /// The cooking loss or cooked mass.
    Cooked,
    /// The waste after cooking.
    CookedWaste,
    /// The size of a portion.
    Portion,
    /// A division of the scales.
    Division,
    /// The yield prior.
    Prior,
}

/// Why a piece cannot be reckoned; each names the number to change.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum WorthError {
    /// A number no piece of meat has.
    #[error("{what} is {found}; allowed: {allowed}")]
    OutOfRange {
        /// Which number.
        place: Place,
        /// Its name in words.
        what: &'static str,
        /// What it was.
        found: Decimal,
        /// What it may be.
        allowed: &'static str,
    },
    /// No part is used as portions, so no cost per kilo exists.
    #[error(
        "nothing is used as portions, so there is no kilo to carry the cost; give one part the use \"portion\""
    )]
    NoPortions,
    /// The parts weigh more than the piece did.
    #[error(
        "the parts and the purge weigh {out} g, {over} g more than the piece's {bought} g, and the scales together can be wrong by \
         {limit} g; one of them was weighed twice or with its tray"
    )]
    MoreOutThanIn {
        /// Grams of parts and purge together.
        out: Decimal,
        /// Grams of the piece.
        bought: Decimal,
        /// Grams too many.
        over: Decimal,
        /// What the scales allow.
        limit: Decimal,
    },
    /// Meat gains nothing by cooking.
    #[error(
        "the portions weighed {raw} g raw, so they cannot weigh {cooked} g cooked; allowed: at most {raw} g"
    )]
    CookedHeavier {
        /// Grams raw.
        raw: Decimal,
        /// Grams cooked.
        cooked: Decimal,
    },
    /// More was carved off than there was.
    #[error("{waste} g carved off leaves nothing of {cooked} g cooked; allowed: less than {cooked} g")]
    NothingCarved {
        /// Grams thrown away.
        waste: Decimal,
        /// Grams cooked.
        cooked: Decimal,
    },
    /// Bags have a price but no number.
    #[error("bags have a price but no number; say how many bags, or how much a portion weighs")]
    HowManyBags,
    /// The yield prior leaves no share for portions.
    #[error(
        "a yield prior needs a portion share between 0 and 1 and a spread above 0; found {mean} and {sd}"
    )]
    BadPrior {
        /// Mean share of portions.
        mean: f64,
        /// Its spread.
        sd: f64,
    },
    /// A number too large for exact decimals.
    #[error("the amounts are too large to be reckoned exactly")]
    TooLarge,
}

impl WorthError {
    /// The number to look at.
    #[must_use]
    pub fn place(&self) -> Place {
        match self {
            Self::OutOfRange { place, .. } => *place,
            Self::NoPortions => Place::Parts,
            Self::MoreOutThanIn { .. } | Self::TooLarge => Place::PieceMass,
            Self::CookedHeavier { .. } => Place::Cooked,
            Self::NothingCarved { .. } => Place::CookedWaste,
            Self::HowManyBags => Place::Bags,
            Self::BadPrior { .. } => Place::Prior,
        }
    }
}

/// The largest mass reckoned: a tonne, more than any piece of one animal.
pub(crate) const MOST_GRAMS: Grams = Grams::new(Decimal::from_parts(1_000_000, 0, 0, false, 0));
/// The largest amount reckoned.
pub(crate) const MOST_MONEY: Decimal = Decimal::from_parts(1_000_000_000, 0, 0, false, 0);
