//! Why a table cannot be planned.

use heat::HeatError;
use thiserror::Error;

/// What stands against a plan: what was found, what is allowed, what to do.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum DinnerError {
    /// Nobody sits there.
    #[error("nobody sits at this table; give one seat or more")]
    NobodyEats,
    /// Fewer portions than seats.
    #[error(
        "{seats} at table and {portions} portions; set aside at least one a seat, or cut a portion in two before it is cooked"
    )]
    TooFewPortions {
        /// How many eat.
        seats: usize,
        /// How many portions there are.
        portions: usize,
    },
    /// Two seats chose one portion.
    #[error("{portion} is meant for two seats; allowed: one seat a portion")]
    PortionTwice {
        /// Its name.
        portion: String,
    },
    /// A seat chose a portion that is not there.
    #[error("seat {seat} chose portion {portion}, of {portions}; allowed: one of the portions of this table")]
    NoSuchPortion {
        /// The seat, from 0.
        seat: usize,
        /// Its choice, from 0.
        portion: usize,
        /// How many portions there are.
        portions: usize,
    },
    /// A wish outside what a table asks for.
    #[error("{seat} wants a core of {found_c:.0} °C; allowed: 40 to 85 °C")]
    Wish {
        /// Who.
        seat: String,
        /// The wish, °C.
        found_c: f64,
    },
    /// A chance that nothing can promise.
    #[error("a chance of {found} is asked for; allowed: 0.5 to 0.999")]
    Chance {
        /// What was asked for.
        found: f64,
    },
    /// The wish lies below what the sear alone makes of it.
    #[error(
        "{portions} at a core of {wish_c:.0} °C: searing and rest alone bring it to {least_c:.0} °C. Sear it shorter, or cut thicker"
    )]
    SearAloneIsTooMuch {
        /// Which portions.
        portions: String,
        /// The wish, °C.
        wish_c: f64,
        /// Where the sear alone ends, °C.
        least_c: f64,
    },
    /// The low place cannot bring it there.
    #[error(
        "{portions} at a core of {wish_c:.0} °C: a low place at {medium_c:.0} °C does not bring it there. Set it higher"
    )]
    TooLow {
        /// Which portions.
        portions: String,
        /// The wish, °C.
        wish_c: f64,
        /// The degree of the low place, °C.
        medium_c: f64,
    },
    /// The skin leaves the range of its figures in most evenings.
    #[error(
        "{portions}: on a hot place like this the skin passes 150 °C before the sear is over, beyond what meat's figures were measured for. Sear shorter, or cooler"
    )]
    SkinTooHot {
        /// Which portions.
        portions: String,
    },
    /// Heat has no answer.
    #[error(transparent)]
    Heat(#[from] HeatError),
}
