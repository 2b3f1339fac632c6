//! The paper: a common roll and a common sheet, with the sizes their makers state.

/// What one label is printed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stock {
    /// 62 mm continuous roll, cut at 50 mm.
    Roll,
    /// One 63.5 × 38.1 mm label of a sheet.
    Sheet,
}

/// How a batch of labels goes to the printer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Printing {
    /// A page a label, on the roll.
    Roll,
    /// 21 labels to an A4 sheet, of which the first `from - 1` are gone already.
    Sheet {
        /// Where to start, counted from 1, left to right, then down.
        from: usize,
    },
}

impl Printing {
    /// What each label is printed on.
    #[must_use]
    pub const fn stock(self) -> Stock {
        match self {
            Self::Roll => Stock::Roll,
            Self::Sheet { .. } => Stock::Sheet,
        }
    }
}

impl Stock {
    /// Width and height of a label, mm.
    ///
    /// Roll: 62 mm of which 58.9 mm take print, the trade size of 300 dpi label printers (common practice). Sheet:
    /// the label-stock definitions of an open office suite, 63.5 × 38.1 mm, 21 up (published).
    #[must_use]
    pub const fn size(self) -> (f64, f64) {
        match self {
            Self::Roll => (62.0, 50.0),
            Self::Sheet => (63.5, 38.1),
        }
    }
}

/// A4, mm (ISO 216).
pub(crate) const A4: (f64, f64) = (210.0, 297.0);

/// Labels on a sheet and across it; source as for [`Stock::size`].
pub(crate) const LABELS: usize = 21;
const ACROSS: usize = 3;
const MARGIN: (f64, f64) = (7.2, 15.15);
const PITCH: (f64, f64) = (66.04, 38.1);

/// The corner of a label on its sheet, mm; places counted from 0, left to right, then down.
pub(crate) fn corner(place: usize) -> (f64, f64) {
    let (column, row) = ((place % ACROSS) as f64, (place / ACROSS) as f64);
    (MARGIN.0 + PITCH.0 * column, MARGIN.1 + PITCH.1 * row)
}
