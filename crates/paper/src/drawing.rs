//! The one layout model: black rectangles and lines of text, in millimetres from the top left corner.

use crate::face::Weight;

/// A page or a label: its size and everything printed on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Width of the paper, mm.
    pub width: f64,
    /// Height of the paper, mm.
    pub height: f64,
    /// The drawing in one sentence, for who hears it instead of seeing it.
    pub spoken: String,
    /// What is printed, in reading order.
    pub ink: Vec<Ink>,
}

/// Something printed.
#[derive(Clone, Debug, PartialEq)]
pub enum Ink {
    /// Filled rectangles that belong together: a bar, a row of ticks, the dark modules of a code.
    Fill(Vec<Rect>),
    /// One line of text.
    Text(Line),
}

/// A filled rectangle, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rect {
    /// Left edge.
    pub x: f64,
    /// Top edge.
    pub y: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

/// One line of text, already cut to fit, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Left end of the first letter's advance.
    pub x: f64,
    /// The line the letters stand on.
    pub baseline: f64,
    /// Size of the em.
    pub em: f64,
    /// Horizontal scale: 1 as designed, less when squeezed.
    pub squeeze: f64,
    /// Typeface.
    pub weight: Weight,
    /// The letters, each of which the typeface has.
    pub text: String,
    /// Sum of the advance widths as printed.
    pub width: f64,
}

/// Pages that go to the printer together.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// Title shown by the reader of the file.
    pub title: String,
    /// One drawing a page.
    pub pages: Vec<Drawing>,
}

impl Drawing {
    pub(crate) const fn new(width: f64, height: f64, spoken: String) -> Self {
        Self { width, height, spoken, ink: Vec::new() }
    }

    pub(crate) fn fill(&mut self, rects: Vec<Rect>) {
        if !rects.is_empty() {
            self.ink.push(Ink::Fill(rects));
        }
    }

    pub(crate) fn text(&mut self, line: Line) {
        if !line.text.is_empty() {
            self.ink.push(Ink::Text(line));
        }
    }

    /// Puts another drawing's ink onto this one, its corner at (x, y).
    pub(crate) fn place(&mut self, other: &Self, x: f64, y: f64) {
        self.ink.extend(other.ink.iter().map(|ink| ink.moved(x, y)));
    }
}

impl Ink {
    fn moved(&self, x: f64, y: f64) -> Self {
        match self {
            Self::Fill(rects) => Self::Fill(rects.iter().map(|rect| rect.moved(x, y)).collect()),
            Self::Text(line) => {
                Self::Text(Line { x: line.x + x, baseline: line.baseline + y, ..line.clone() })
            }
        }
    }
}

impl Rect {
    pub(crate) const fn new(x: f64, y: f64, width: f64, height: f64) -> Self {
        Self { x, y, width, height }
    }

    /// An upright stroke centred on `x`, so that what is measured is its middle.
    pub(crate) fn upright(x: f64, top: f64, bottom: f64, stroke: f64) -> Self {
        Self::new(x - stroke / 2.0, top, stroke, bottom - top)
    }

    /// A level stroke centred on `y`.
    pub(crate) fn level(left: f64, right: f64, y: f64, stroke: f64) -> Self {
        Self::new(left, y - stroke / 2.0, right - left, stroke)
    }

    fn moved(&self, x: f64, y: f64) -> Self {
        Self { x: self.x + x, y: self.y + y, ..*self }
    }
}
