//! What cannot be planned, and why.

use quantity::{Length, Mass};
use thiserror::Error;

/// Why there is no plan. Each names what was found and what is allowed.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum RollError {
    /// Not a catalogue name.
    #[error("cut \"{found}\" is not in the catalogue")]
    UnknownCut {
        /// The name given.
        found: String,
    },
    /// The catalogue has no shape of it.
    #[error(
        "{cut} is no single run of muscle: the catalogue has no shape to slice it by; part it first and plan its muscles"
    )]
    NotSliced {
        /// Its catalogue name.
        cut: String,
    },
    /// No length given, and the catalogue has none.
    #[error("the length is missing, and the catalogue has none for {cut}; measure it from tip to tip")]
    LengthNeeded {
        /// Its catalogue name.
        cut: String,
    },
    /// Answers without bands were asked for, but a number is missing or a range.
    #[error("{what} is not one number; without bands every input must be")]
    NotExact {
        /// Which input.
        what: &'static str,
    },
    /// A number that no piece can have.
    #[error("{what} is {found}; allowed: {allowed}")]
    Impossible {
        /// Which number.
        what: String,
        /// What was found, with its unit.
        found: String,
        /// What would do, with its unit.
        allowed: String,
    },
    /// The limits leave nothing between them.
    #[error("the thickest allowed, {:.1} mm, is below the thinnest, {:.1} mm, so no portion can be cut", thickest.mm(), thinnest.mm())]
    LimitsCrossed {
        /// The lower limit.
        thinnest: Length,
        /// The upper limit.
        thickest: Length,
    },
    /// A wished thickness lies outside the limits.
    #[error("{want} is {:.1} mm thick; allowed by the limits: {:.1} to {:.1} mm", target.mm(), thinnest.mm(), thickest.mm())]
    TargetOutsideLimits {
        /// The want's name.
        want: String,
        /// Its thickness.
        target: Length,
        /// The lower limit.
        thinnest: Length,
        /// The upper limit.
        thickest: Length,
    },
    /// Squaring would leave nothing.
    #[error("squaring takes {:.0} and {:.0} mm off a piece of {:.0} mm; allowed: together less than its length", first.mm(), last.mm(), length.mm())]
    EndsMeet {
        /// Slant at the first end.
        first: Length,
        /// Slant at the last end.
        last: Length,
        /// Length of the piece.
        length: Length,
    },
    /// A station beside the piece.
    #[error("station {number} stands at {:.0} mm; allowed: 0 to {:.0} mm, the length of the piece", at.mm(), length.mm())]
    StationOff {
        /// Which one, counted from 1.
        number: usize,
        /// Where it stands.
        at: Length,
        /// Length of the piece.
        length: Length,
    },
    /// The catalogue cannot turn a section of this cut into grams.
    #[error(
        "width and height say nothing about {cut}: the catalogue has no shape factor for it; leave the stations out"
    )]
    NoSection {
        /// Its catalogue name.
        cut: String,
    },
    /// A box that cannot hold the section the scale and ruler ask for.
    #[error("station {number}, {:.0} × {:.0} mm, holds at most {holds_g_mm:.1} g a millimetre, but mass and length ask for {needs_g_mm:.1}; measure it again, or the length", width.mm(), height.mm())]
    StationTooSmall {
        /// Which one, counted from 1.
        number: usize,
        /// Its width.
        width: Length,
        /// Its height.
        height: Length,
        /// What the box would hold if meat filled it.
        holds_g_mm: f64,
        /// What the piece must have there at the least.
        needs_g_mm: f64,
    },
    /// A box far too large for the piece.
    #[error("station {number}, {:.0} × {:.0} mm, makes {makes_g_mm:.1} g a millimetre where mass and length allow {allows_g_mm:.1}; a slip of the unit?", width.mm(), height.mm())]
    StationTooLarge {
        /// Which one, counted from 1.
        number: usize,
        /// Its width.
        width: Length,
        /// Its height.
        height: Length,
        /// What it would make.
        makes_g_mm: f64,
        /// What the piece can have there at the most.
        allows_g_mm: f64,
    },
    /// A weighed portion no such piece can have given.
    #[error("portion {number} weighed {:.0} g between its marks, where {:.0} to {:.0} g can be; a wrong mark, or another portion?", mass.g(), low.g(), high.g())]
    WeighedUnlikely {
        /// Which one, counted from 1.
        number: usize,
        /// What the scale said.
        mass: Mass,
        /// The least it can be.
        low: Mass,
        /// The most it can be.
        high: Mass,
    },
    /// More portions weighed than the plan holds, without their marks.
    #[error("{found} portions were weighed, but the plan has {planned}; give the marks of the others")]
    WeighedTooMany {
        /// How many were weighed.
        found: usize,
        /// How many the plan has.
        planned: usize,
    },
    /// Twins come in pairs.
    #[error("{want} asks for {count} portions as twins; allowed: an even number")]
    TwinsOdd {
        /// The want's name.
        want: String,
        /// Its count.
        count: u32,
    },
    /// A list of wants so long that proving the best plan would take minutes.
    #[error(
        "the wants together make {transitions} ways to go on; allowed: {allowed}; write \"max\" for the largest count, or put wants of one kind together"
    )]
    TooManyWays {
        /// What this would be.
        transitions: u64,
        /// The most that is tried.
        allowed: u64,
    },
}
