//! The marking strip: the knife plan at 1:1, to be cut out and laid along the piece.

mod ruler;
mod sheet;
mod split;

use quantity::{Length, Units};

use crate::PaperError;
use crate::drawing::{Document, Drawing};
use crate::face::Faces;
use ruler::Ruler;
use split::split;

/// A knife plan to be printed at 1:1. All places are counted from the named end of the piece as it lies there,
/// before the end is squared.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// The piece's word: `TARN`.
    pub word: String,
    /// The end that places are counted from: `chuck end`.
    pub from_end: String,
    /// The other end: `loin end`.
    pub far_end: String,
    /// Length of the piece.
    pub length: Length,
    /// How much is cut off to square the named end; the printed numbers count from there.
    pub squared_off: Length,
    /// What is cut, in order; both faces of each are marked.
    pub portions: Vec<Portion>,
    /// One sentence more, such as when it was planned.
    pub note: String,
    /// Units to write the marks in, and to graduate the strip in.
    pub units: Units,
}

/// One portion on the strip.
#[derive(Clone, Debug, PartialEq)]
pub struct Portion {
    /// Its place or name: `7`, `roast`.
    pub name: String,
    /// Its first face, from the named end.
    pub from: Length,
    /// Its other face.
    pub to: Length,
}

/// Shortest and longest piece a strip is drawn for, mm: the longest is two metres, more than a whole loin.
const LENGTH_MM: (f64, f64) = (10.0, 2000.0);
/// Places closer than this, mm, are one mark.
const SAME_MARK: f64 = 0.05;

/// Draws the strip across as many A4 sheets as it needs.
///
/// Each sheet carries millimetre ticks (sixteenths of an inch in US units), a long line a mark with its place
/// counted from the squared face, the portions between them, a cutting outline, and a 100 mm line to hold a ruler
/// against. Two sheets share a dashed line, and overlap by 12 mm there, which the sheet says.
///
/// # Errors
/// [`PaperError::PieceLength`] for a piece no strip is drawn for, [`PaperError::OffThePiece`] for a portion that
/// does not lie on it.
pub fn strip(strip: &Strip) -> Result<Document, PaperError> {
    let faces = Faces::open()?;
    let plan = Plan::read(strip)?;
    let parts = split(plan.begin, plan.end, Ruler::of(strip.units).long());
    let pages: Vec<Drawing> =
        (0..parts.len()).map(|sheet| sheet::draw(&faces, &plan, &parts, sheet)).collect();
    Ok(Document { title: format!("{}, marking strip", strip.word), pages })
}

/// A strip that has been checked, in mm from the squared face.
struct Plan<'a> {
    strip: &'a Strip,
    begin: f64,
    end: f64,
    marks: Vec<f64>,
    portions: Vec<(f64, f64, &'a str)>,
}

impl<'a> Plan<'a> {
    fn read(strip: &'a Strip) -> Result<Self, PaperError> {
        let length = strip.length.mm();
        if !(LENGTH_MM.0..=LENGTH_MM.1).contains(&length) {
            let (least_mm, most_mm) = LENGTH_MM;
            return Err(PaperError::PieceLength { found_mm: length, least_mm, most_mm });
        }
        let zero = strip.squared_off.mm();
        on_the_piece("the squared end", 0.0, zero, length, true)?;
        let mut marks = vec![0.0];
        let mut portions = Vec::with_capacity(strip.portions.len());
        for portion in &strip.portions {
            let (from, to) = (portion.from.mm(), portion.to.mm());
            on_the_piece(&portion.name, from, to, length, false)?;
            marks.extend([from - zero, to - zero]);
            portions.push((from - zero, to - zero, portion.name.as_str()));
        }
        marks.sort_by(f64::total_cmp);
        marks.dedup_by(|next, kept| (*next - *kept).abs() < SAME_MARK);
        Ok(Self { strip, begin: -zero, end: length - zero, marks, portions })
    }
}

fn on_the_piece(what: &str, from: f64, to: f64, length: f64, empty: bool) -> Result<(), PaperError> {
    let ordered = if empty { from <= to } else { from < to };
    if ordered && from >= -SAME_MARK && to <= length + SAME_MARK {
        return Ok(());
    }
    Err(PaperError::OffThePiece { what: what.to_owned(), from_mm: from, to_mm: to, length_mm: length })
}
