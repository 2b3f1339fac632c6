//! What cannot be computed, and why.

use thiserror::Error;

/// Why a question about heat has no answer: what was found, what is allowed, what to do.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum HeatError {
    /// A property was asked for outside the range its figures were fitted over.
    #[error(
        "{stage}: {property} was needed at {found_c:.1} °C, outside the range its figures were fitted over, \
         {low_c:.0} to {high_c:.0} °C; bring the medium nearer, let the surface evaporate, or give constants of your own"
    )]
    OutsideFit {
        /// The stage it happened in, or `properties`.
        stage: String,
        /// The property.
        property: &'static str,
        /// What was asked for, °C.
        found_c: f64,
        /// Lower end of the fit, °C.
        low_c: f64,
        /// Upper end of the fit, °C.
        high_c: f64,
    },
    /// A number is outside what makes sense.
    #[error("{what} is {}, allowed: {low} to {high} {unit}; {hint}", told(*found))]
    OutOfRange {
        /// The number, in words.
        what: String,
        /// What was found, in `unit`.
        found: f64,
        /// Least allowed, in `unit`.
        low: f64,
        /// Most allowed, in `unit`.
        high: f64,
        /// The unit of the three numbers.
        unit: &'static str,
        /// What to do.
        hint: &'static str,
    },
    /// Mass shares that do not make a piece of meat.
    #[error(
        "the mass shares of water, protein, fat, carbohydrate and ash sum to {sum:.3}, allowed: 0.95 to 1.05; \
         give shares of one, not percent"
    )]
    Shares {
        /// Their sum.
        sum: f64,
    },
    /// Rows that must rise do not.
    #[error("{what}: row {row} does not lie after the row before it; rows must rise")]
    NotRising {
        /// The table or series.
        what: String,
        /// The first row (from 1) that breaks the order.
        row: usize,
    },
    /// Rows that belong together have different lengths, or are too few.
    #[error("{what}: {found} rows, needed: {needed}")]
    Rows {
        /// The table or series.
        what: String,
        /// Rows found.
        found: usize,
        /// Rows needed, in words.
        needed: &'static str,
    },
    /// No stage was given.
    #[error("no stage was given: a cook needs at least one")]
    NoStage,
    /// A name the catalogue does not know.
    #[error("{kind} \"{name}\" is not in the catalogue; known: {known}")]
    Unknown {
        /// Medium, wrap or cut.
        kind: &'static str,
        /// What was asked for.
        name: String,
        /// The names it knows.
        known: String,
    },
    /// The solver could not go on: a fault of ours, not of the question.
    #[error("{stage}: the solver could not go on after {time_s:.1} s; please report the form that led here")]
    Stuck {
        /// The stage.
        stage: String,
        /// How far it came within that stage, s.
        time_s: f64,
    },
}

/// A number that was never given is told as such.
fn told(found: f64) -> String {
    if found.is_nan() { "missing".to_owned() } else { found.to_string() }
}

impl HeatError {
    /// Checks that a number is finite and between two limits.
    pub(crate) fn check(
        what: impl std::fmt::Display,
        found: f64,
        (low, high): (f64, f64),
        unit: &'static str,
        hint: &'static str,
    ) -> Result<(), Self> {
        if found >= low && found <= high {
            return Ok(());
        }
        Err(Self::OutOfRange { what: what.to_string(), found, low, high, unit, hint })
    }
}
