//! The two typefaces and what is measured on them.

use ttf_parser::GlyphId;

use crate::PaperError;

/// Which of the two typefaces a line is set in.
///
/// Both are DejaVu Sans Condensed: wide enough a repertoire for most names people write, narrow enough that a pair of
/// numbers stands 12 mm high on a 62 mm roll.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Weight {
    /// Book weight.
    Regular,
    /// Bold.
    Bold,
}

impl Weight {
    /// Both, in the order they are embedded.
    pub(crate) const ALL: [Self; 2] = [Self::Regular, Self::Bold];

    /// The name printers know the typeface by.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Regular => "DejaVuSansCondensed",
            Self::Bold => "DejaVuSansCondensed-Bold",
        }
    }

    /// The whole font file.
    pub(crate) fn file(self) -> &'static [u8] {
        match self {
            Self::Regular => dejavu::sans_condensed::regular(),
            Self::Bold => dejavu::sans_condensed::bold(),
        }
    }
}

/// Both typefaces, opened.
pub(crate) struct Faces {
    regular: Face,
    bold: Face,
}

impl Faces {
    pub(crate) fn open() -> Result<Self, PaperError> {
        Ok(Self { regular: Face::open(Weight::Regular)?, bold: Face::open(Weight::Bold)? })
    }

    pub(crate) const fn of(&self, weight: Weight) -> &Face {
        match weight {
            Weight::Regular => &self.regular,
            Weight::Bold => &self.bold,
        }
    }
}

/// One typeface, opened; lengths in ems.
pub(crate) struct Face {
    pub(crate) font: ttf_parser::Face<'static>,
    /// Height of a flat capital, the height every size on paper is stated in.
    pub(crate) cap_height: f64,
}

impl Face {
    fn open(weight: Weight) -> Result<Self, PaperError> {
        let damaged = || PaperError::Typeface(weight.name());
        let font = ttf_parser::Face::parse(weight.file(), 0).map_err(|_| damaged())?;
        // From the outline of H: this font's OS/2 table is too old to state its capitals' height.
        let outline =
            font.glyph_index('H').and_then(|glyph| font.glyph_bounding_box(glyph)).ok_or_else(damaged)?;
        let cap_height = f64::from(outline.y_max) / f64::from(font.units_per_em());
        Ok(Self { font, cap_height })
    }

    pub(crate) fn has(&self, letter: char) -> bool {
        self.font.glyph_index(letter).is_some()
    }

    /// The shape of a letter; the font's own "missing" shape where it has none.
    pub(crate) fn glyph(&self, letter: char) -> GlyphId {
        self.font.glyph_index(letter).unwrap_or_default()
    }

    pub(crate) fn advance(&self, letter: char) -> f64 {
        self.glyph_advance(self.glyph(letter))
    }

    pub(crate) fn glyph_advance(&self, glyph: GlyphId) -> f64 {
        f64::from(self.font.glyph_hor_advance(glyph).unwrap_or_default())
            / f64::from(self.font.units_per_em())
    }

    pub(crate) fn width(&self, text: &str) -> f64 {
        text.chars().map(|letter| self.advance(letter)).sum()
    }
}
