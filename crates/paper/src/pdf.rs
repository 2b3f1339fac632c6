//! Documents as PDF 1.7: paper sizes in points, text that can be copied out, and the wish not to be scaled.

mod typeface;

use pdf_writer::{Content, Finish, Name, Pdf, Rect as Area, Ref, Str, TextStr};

use crate::PaperError;
use crate::drawing::{Document, Drawing, Ink, Line};
use crate::face::Faces;
use typeface::Subset;

const POINTS_PER_MM: f64 = 72.0 / 25.4;

impl Document {
    /// The document as the bytes of a PDF file; the same document gives the same bytes.
    ///
    /// Paper size and every length are exact to the sixth digit. Viewers are asked not to scale (`PrintScaling
    /// None`), the title and the language are set, both typefaces are embedded as far as they are used, and text can
    /// be copied out.
    ///
    /// # Errors
    /// [`PaperError::Typeface`] if the program's own typeface is damaged.
    pub fn pdf(&self) -> Result<Vec<u8>, PaperError> {
        let faces = Faces::open()?;
        let subsets = Subset::of_pages(&faces, &self.pages)?;
        let mut ids = (1..).map(Ref::new);
        let mut next = || ids.next().unwrap_or(Ref::new(i32::MAX));
        let (catalog, tree, info) = (next(), next(), next());
        let fonts: Vec<(Ref, &Subset)> = subsets.iter().map(|subset| (next(), subset)).collect();
        let pages: Vec<(Ref, Ref, &Drawing)> = self.pages.iter().map(|page| (next(), next(), page)).collect();

        let mut pdf = Pdf::new();
        self.write_head(&mut pdf, catalog, tree, info);
        let kids = pages.iter().map(|(page, ..)| *page);
        pdf.pages(tree).kids(kids).count(i32::try_from(pages.len()).unwrap_or(i32::MAX));
        for (page, content, drawing) in pages {
            write_page(&mut pdf, drawing, (page, content, tree), &fonts);
        }
        for (font, subset) in &fonts {
            subset.write(&mut pdf, &faces, *font, &mut next);
        }
        Ok(pdf.finish())
    }

    fn write_head(&self, pdf: &mut Pdf, catalog: Ref, tree: Ref, info: Ref) {
        let mut head = pdf.catalog(catalog);
        head.pages(tree).lang(TextStr("en"));
        let mut viewer = head.viewer_preferences();
        viewer.display_doc_title(true);
        viewer.pair(Name(b"PrintScaling"), Name(b"None"));
        viewer.finish();
        head.finish();
        pdf.document_info(info).title(TextStr(&self.title)).creator(TextStr("gambrel"));
    }
}

fn write_page(
    pdf: &mut Pdf,
    drawing: &Drawing,
    (id, content, tree): (Ref, Ref, Ref),
    fonts: &[(Ref, &Subset)],
) {
    let mut page = pdf.page(id);
    page.media_box(Area::new(0.0, 0.0, points(drawing.width), points(drawing.height)));
    page.parent(tree).contents(content);
    let mut resources = page.resources();
    let mut names = resources.fonts();
    for (font, subset) in fonts {
        names.pair(subset.resource(), *font);
    }
    names.finish();
    resources.finish();
    page.finish();
    pdf.stream(content, &drawn(drawing, fonts));
}

/// The page's content: black, every number in points from the lower left corner.
fn drawn(drawing: &Drawing, fonts: &[(Ref, &Subset)]) -> Vec<u8> {
    let mut content = Content::new();
    content.set_fill_gray(0.0);
    for ink in &drawing.ink {
        match ink {
            Ink::Fill(rects) => {
                for rect in rects {
                    let bottom = drawing.height - rect.y - rect.height;
                    content.rect(points(rect.x), points(bottom), points(rect.width), points(rect.height));
                }
                content.fill_nonzero();
            }
            Ink::Text(line) => {
                if let Some((_, subset)) = fonts.iter().find(|(_, subset)| subset.weight == line.weight) {
                    write_line(&mut content, line, drawing.height, subset);
                }
            }
        }
    }
    content.finish().to_vec()
}

fn write_line(content: &mut Content, line: &Line, height: f64, subset: &Subset) {
    let matrix = [line.squeeze as f32, 0.0, 0.0, 1.0, points(line.x), points(height - line.baseline)];
    content.begin_text();
    content.set_font(subset.resource(), points(line.em));
    content.set_text_matrix(matrix);
    content.show(Str(&subset.encoded(&line.text)));
    content.end_text();
}

fn points(mm: f64) -> f32 {
    (mm * POINTS_PER_MM) as f32
}
