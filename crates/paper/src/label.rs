//! The label of a pack: what a person reads through frost, and a code for what it cannot hold.

mod layout;

use quantity::{Grain, Length, Mass, Units};

use crate::PaperError;
use crate::drawing::{Document, Drawing};
use crate::face::Faces;
use crate::stock::{A4, LABELS, Printing, Stock, corner};

/// What stands on the label of one pack.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// The piece's word: `TARN`.
    pub word: String,
    /// The places in the pack or the loose part: `4`, `11+12`, `trim`.
    pub places: String,
    /// Mass of the meat; where nobody weighed it the label says so.
    pub mass: Option<Mass>,
    /// Cut, and single or pair: `ribeye, pair`.
    pub what: String,
    /// Thickness, if it has one.
    pub thickness: Option<Length>,
    /// Dates and salt, a line each, day before month before year: `frozen on 5 Jul 2026`, `not salted`.
    pub lines: Vec<String>,
    /// The address of the pack's page, for the code; without one there is no code.
    pub url: Option<String>,
    /// Units to write mass and thickness in.
    pub units: Units,
}

/// Draws one label at true size.
///
/// The word stands over the places, both 12 mm high on the roll and 10 mm on the sheet as far as their width allows:
/// any four letters and any pair of two-digit places do. Mass figures are 4 mm high up to a kilo and 6 mm above
/// (figure heights of Directive 76/211/EEC, from memory), the code is 14 mm with at least 3 mm of white around it,
/// and the smallest letters have an x-height above 1.2 mm (Regulation (EU) 1169/2011, from memory).
///
/// # Errors
/// [`PaperError::CodeTooLong`] if the address does not fit into the code.
pub fn label(label: &Label, stock: Stock) -> Result<Drawing, PaperError> {
    layout::draw(&Faces::open()?, label, stock)
}

/// Draws many labels: a page each on the roll, 21 a page on sheets.
///
/// # Errors
/// [`PaperError::NothingToPrint`] without a label, [`PaperError::NoSuchLabel`] if the sheet has no label to start at,
/// [`PaperError::CodeTooLong`] if an address does not fit into the code.
pub fn labels(labels: &[Label], printing: Printing) -> Result<Document, PaperError> {
    let faces = Faces::open()?;
    let drawn: Vec<Drawing> =
        labels.iter().map(|label| layout::draw(&faces, label, printing.stock())).collect::<Result<_, _>>()?;
    let first = labels.first().ok_or(PaperError::NothingToPrint)?;
    let title = match labels {
        [_] => format!("Label {}", first.name()),
        _ => format!("{} labels from {}", labels.len(), first.name()),
    };
    let pages = match printing {
        Printing::Roll => drawn,
        Printing::Sheet { from } => sheets(&drawn, from)?,
    };
    Ok(Document { title, pages })
}

fn sheets(labels: &[Drawing], from: usize) -> Result<Vec<Drawing>, PaperError> {
    if !(1..=LABELS).contains(&from) {
        return Err(PaperError::NoSuchLabel { found: from, allowed: LABELS });
    }
    let mut sheets = Vec::new();
    let mut sheet = Drawing::new(A4.0, A4.1, String::new());
    for (count, label) in labels.iter().enumerate() {
        let place = (from - 1 + count) % LABELS;
        if place == 0 && count > 0 {
            sheets.push(std::mem::replace(&mut sheet, Drawing::new(A4.0, A4.1, String::new())));
        }
        let (x, y) = corner(place);
        sheet.place(label, x, y);
    }
    sheets.push(sheet);
    Ok(sheets)
}

impl Label {
    /// What the pack is called: `TARN 11+12`.
    #[must_use]
    pub fn name(&self) -> String {
        format!("{} {}", self.word, self.places).trim().to_owned()
    }

    /// The label read out: everything on it in one sentence.
    #[must_use]
    pub fn spoken(&self) -> String {
        let mut parts = vec![self.name(), self.weight()];
        parts.extend(self.small());
        parts.retain(|part| !part.trim().is_empty());
        format!("Label: {}.", parts.join(", "))
    }

    fn weight(&self) -> String {
        self.mass.map_or_else(|| "not weighed".to_owned(), |mass| self.units.mass(mass, Grain::Reading))
    }

    /// The small lines in their order: what and how thick, then dates and salt.
    fn small(&self) -> Vec<String> {
        let thickness = self.thickness.map(|thickness| self.units.length(thickness));
        let what = [self.what.clone(), thickness.unwrap_or_default()];
        let what: Vec<String> = what.into_iter().filter(|part| !part.trim().is_empty()).collect();
        let mut small = vec![what.join(", ")];
        small.extend(self.lines.iter().cloned());
        small.retain(|line| !line.trim().is_empty());
        small
    }
}
