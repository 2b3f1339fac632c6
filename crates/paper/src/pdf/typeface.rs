//! The part of a typeface a document uses, embedded so that it prints anywhere and its text can be copied out.

use std::collections::BTreeMap;

use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Finish, Name, Pdf, Rect as Area, Ref, Str};
use subsetter::GlyphRemapper;
use ttf_parser::GlyphId;

use crate::PaperError;
use crate::drawing::{Drawing, Ink};
use crate::face::{Faces, Weight};

const IDENTITY: SystemInfo =
    SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"Identity"), supplement: 0 };

/// The letters of one typeface that stand on the pages of one document.
pub(super) struct Subset {
    pub(super) weight: Weight,
    /// Letter → shape in the font file, shape in the embedded font.
    letters: BTreeMap<char, (GlyphId, u16)>,
    file: Vec<u8>,
}

impl Subset {
    /// One subset for each typeface used.
    pub(super) fn of_pages(faces: &Faces, pages: &[Drawing]) -> Result<Vec<Self>, PaperError> {
        let used = Weight::ALL.into_iter().map(|weight| (weight, letters(pages, weight)));
        used.filter(|(_, letters)| !letters.is_empty())
            .map(|(weight, letters)| Self::of_letters(faces, weight, letters))
            .collect()
    }

    fn of_letters(faces: &Faces, weight: Weight, used: Vec<char>) -> Result<Self, PaperError> {
        let mut remapper = GlyphRemapper::new();
        let letters = used.into_iter().map(|letter| {
            let glyph = faces.of(weight).glyph(letter);
            (letter, (glyph, remapper.remap(glyph.0)))
        });
        let letters = letters.collect();
        let file = subsetter::subset(weight.file(), 0, &remapper)
            .map_err(|_| PaperError::Typeface(weight.name()))?;
        Ok(Self { weight, letters, file })
    }

    /// The name pages call the font by.
    pub(super) const fn resource(&self) -> Name<'static> {
        match self.weight {
            Weight::Regular => Name(b"Regular"),
            Weight::Bold => Name(b"Bold"),
        }
    }

    /// Text as the embedded font numbers its shapes, two bytes each.
    pub(super) fn encoded(&self, text: &str) -> Vec<u8> {
        let shapes = text.chars().map(|letter| self.letters.get(&letter).map_or(0, |(_, shape)| *shape));
        shapes.flat_map(u16::to_be_bytes).collect()
    }

    pub(super) fn write(&self, pdf: &mut Pdf, faces: &Faces, font: Ref, next: &mut impl FnMut() -> Ref) {
        let (descendant, descriptor, file, to_unicode) = (next(), next(), next(), next());
        let name = format!("{}+{}", self.tag(), self.weight.name());
        let name = Name(name.as_bytes());
        pdf.type0_font(font)
            .base_font(name)
            .encoding_predefined(Name(b"Identity-H"))
            .descendant_font(descendant)
            .to_unicode(to_unicode);
        self.write_widths(pdf, faces, descendant, descriptor, name);
        self.write_descriptor(pdf, faces, descriptor, file, name);
        pdf.stream(file, &self.file)
            .pair(Name(b"Length1"), i32::try_from(self.file.len()).unwrap_or(i32::MAX));
        pdf.cmap(to_unicode, &self.back_to_unicode());
    }

    fn write_widths(&self, pdf: &mut Pdf, faces: &Faces, id: Ref, descriptor: Ref, name: Name<'_>) {
        let mut font = pdf.cid_font(id);
        font.subtype(CidFontType::Type2).base_font(name).system_info(IDENTITY).font_descriptor(descriptor);
        font.cid_to_gid_map_predefined(Name(b"Identity"));
        let mut widths = font.widths();
        for (glyph, shape) in self.letters.values() {
            widths.same(*shape, *shape, (faces.of(self.weight).glyph_advance(*glyph) * 1000.0) as f32);
        }
        widths.finish();
        font.finish();
    }

    fn write_descriptor(&self, pdf: &mut Pdf, faces: &Faces, id: Ref, file: Ref, name: Name<'_>) {
        let face = faces.of(self.weight);
        let per_thousand = |units: i16| f32::from(units) * 1000.0 / f32::from(face.font.units_per_em());
        let bounds = face.font.global_bounding_box();
        pdf.font_descriptor(id)
            .name(name)
            .flags(FontFlags::SYMBOLIC)
            .bbox(Area::new(
                per_thousand(bounds.x_min),
                per_thousand(bounds.y_min),
                per_thousand(bounds.x_max),
                per_thousand(bounds.y_max),
            ))
            .italic_angle(0.0)
            .ascent(per_thousand(face.font.ascender()))
            .descent(per_thousand(face.font.descender()))
            .cap_height((face.cap_height * 1000.0) as f32)
            .stem_v(if self.weight == Weight::Bold { 165.0 } else { 90.0 })
            .font_file2(file);
    }

    fn back_to_unicode(&self) -> Vec<u8> {
        let mut map = UnicodeCmap::<u16>::new(Name(b"Letters"), IDENTITY);
        let mut told = Vec::new();
        for (letter, (_, shape)) in &self.letters {
            // Two letters may share one shape (a space and a no-break space): the first tells what it says.
            if !told.contains(shape) {
                told.push(*shape);
                map.pair(*shape, *letter);
            }
        }
        map.finish().to_vec()
    }

    /// Six capitals that differ where the letters differ (ISO 32000-1, 9.6.4), from a hash and so without chance.
    fn tag(&self) -> String {
        const PRIME: u64 = 0x0000_0100_0000_01b3;
        let fold = |hash: u64, letter: &char| (hash ^ u64::from(*letter)).wrapping_mul(PRIME);
        let mut hash = self.letters.keys().fold(0xcbf2_9ce4_8422_2325, fold);
        let mut capital = || {
            let letter = char::from(b'A' + (hash % 26) as u8);
            hash /= 26;
            letter
        };
        (0..6).map(|_| capital()).collect()
    }
}

/// Letters set in one typeface, each once, in order.
fn letters(pages: &[Drawing], weight: Weight) -> Vec<char> {
    let lines = pages.iter().flat_map(|page| &page.ink).filter_map(|ink| match ink {
        Ink::Text(line) if line.weight == weight => Some(&line.text),
        _ => None,
    });
    let mut letters: Vec<char> = lines.flat_map(|text| text.chars()).collect();
    letters.sort_unstable();
    letters.dedup();
    letters
}
