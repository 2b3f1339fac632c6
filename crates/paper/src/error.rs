//! What can stand against printing.

use thiserror::Error;

/// Why something cannot be drawn; each says what was found, what is allowed and what to do.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum PaperError {
    /// The address of a pack does not fit into a code a phone reads off frozen film.
    #[error(
        "the address has {found} characters and the code on a label holds {allowed}: \
         give the kitchen a shorter host name"
    )]
    CodeTooLong {
        /// Characters of the address.
        found: usize,
        /// Most characters of this kind the largest code allowed on a label holds.
        allowed: usize,
    },
    /// Printing was asked to start at a label the sheet does not have.
    #[error("the sheet has no label {found}: count from 1, left to right, then down, to {allowed}")]
    NoSuchLabel {
        /// The label asked for.
        found: usize,
        /// Labels on a sheet.
        allowed: usize,
    },
    /// No label was given.
    #[error("no label was given: name at least one pack")]
    NothingToPrint,
    /// A piece of no length, or longer than anything cut by hand on a board.
    #[error("the piece is {found_mm} mm long; a strip is drawn for {least_mm} to {most_mm} mm")]
    PieceLength {
        /// Length given, mm.
        found_mm: f64,
        /// Shortest piece, mm.
        least_mm: f64,
        /// Longest piece, mm.
        most_mm: f64,
    },
    /// A portion, or the squared face, that does not lie on the piece.
    #[error(
        "{what} runs from {from_mm} to {to_mm} mm, and the piece from 0 to {length_mm} mm: \
         marks are counted from the named end, before squaring"
    )]
    OffThePiece {
        /// The portion's name, or the squared end.
        what: String,
        /// Where it begins, mm from the named end.
        from_mm: f64,
        /// Where it ends, mm from the named end.
        to_mm: f64,
        /// Length of the piece, mm.
        length_mm: f64,
    },
    /// The typeface in the program cannot be read: a broken build, not a fault of the input.
    #[error("the built-in typeface {0} cannot be read: the program is damaged, install it again")]
    Typeface(&'static str),
}
