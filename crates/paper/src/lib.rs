//! What goes on paper: pack labels and the 1:1 marking strip, as PDF for the printer and SVG for the page.
//!
//! Everything is laid out once, in millimetres, as a [`Drawing`]: filled rectangles and lines of text, nothing else,
//! all of it black. Two renderers turn a drawing into a PDF page or an SVG image; neither moves, measures or decides
//! anything, so the label on the screen is the label on the bag.
//!
//! | asked for | from | on | answer |
//! |---|---|---|---|
//! | [`label`] | [`Label`] | one [`Stock`] | a [`Drawing`] at true size |
//! | [`labels`] | many [`Label`]s | [`Printing::Roll`], [`Printing::Sheet`] | a [`Document`], a page a label or 21 a
//! page |
//! | [`strip`] | [`Strip`] | A4 across | a [`Document`], as many sheets as the piece is long |
//!
//! # Holds
//! - Lengths on paper are true to 0.1 mm when the printer is told not to scale; the PDF asks for that, and every
//!   strip carries a 100 mm line, because printers scale all the same.
//! - No text leaves its place: what is too long is first squeezed, then made smaller, then cut with `…`, by the
//!   font's own advance widths.
//! - A character the font has no shape for shows as `�`, never as nothing. Scripts that join or run right to left are
//!   set letter by letter from the left: readable to someone who knows them, not beautiful.
//! - Same input, same bytes: no clock and no random number reaches a file.
//!
//! # Example
//! ```
//! use paper::{Label, Printing, Stock};
//! use quantity::{Length, Mass, Units};
//!
//! let label = Label {
//!     word: "TARN".into(),
//!     places: "11+12".into(),
//!     mass: Some(Mass::from_g(763.0)),
//!     what: "ribeye, pair".into(),
//!     thickness: Some(Length::from_mm(31.0)),
//!     lines: vec!["packed 5 Jul 2026".into(), "not salted".into()],
//!     url: Some("http://kitchen.local:8080/pack/tarn-11-12".into()),
//!     units: Units::METRIC,
//! };
//! let on_the_page = paper::label(&label, Stock::Roll)?.svg()?;
//! assert!(on_the_page.starts_with("<svg"));
//! let to_the_printer = paper::labels(&[label], Printing::Sheet { from: 4 })?.pdf()?;
//! assert!(to_the_printer.starts_with(b"%PDF-1.7"));
//! # Ok::<(), paper::PaperError>(())
//! ```

mod code;
mod drawing;
mod error;
mod face;
mod fit;
mod label;
mod pdf;
mod stock;
mod strip;
mod svg;

pub use drawing::{Document, Drawing, Ink, Line, Rect};
pub use error::PaperError;
pub use face::Weight;
pub use label::{Label, label, labels};
pub use stock::{Printing, Stock};
pub use strip::{Portion, Strip, strip};

/// The licence of the two typefaces that are embedded in the program and in every PDF (DejaVu Sans Condensed and its
/// bold), to be shown wherever the program shows its own.
pub const FONT_LICENCE: &str = include_str!("../fonts/LICENSE-DejaVu.txt");
