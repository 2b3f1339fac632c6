//! Drawings as SVG, at true size, letters as outlines: the page shows the print whatever fonts the device has.

use std::fmt::Write;

use ttf_parser::OutlineBuilder;

use crate::PaperError;
use crate::drawing::{Drawing, Ink, Line, Rect};
use crate::face::{Face, Faces};

impl Drawing {
    /// The drawing as one `<svg>` element, its width and height in mm, `role="img"` with the spoken sentence.
    ///
    /// The paper has the class `stock`, everything printed the class `stamp`; without a style sheet it is white with
    /// black on it. Letters are drawn from the outlines the PDF embeds.
    ///
    /// # Errors
    /// [`PaperError::Typeface`] if the program's own typeface is damaged.
    pub fn svg(&self) -> Result<String, PaperError> {
        let faces = Faces::open()?;
        let (width, height) = (short(self.width, 3), short(self.height, 3));
        let spoken = escaped(&self.spoken);
        let mut svg = format!(
            "<svg class=\"paper\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\" role=\"img\" \
             aria-label=\"{spoken}\"><rect class=\"stock\" fill=\"#fff\" width=\"{width}\" height=\"{height}\"/>"
        );
        for ink in &self.ink {
            let (path, edges) = match ink {
                // Modules of a code and ticks must not turn grey at their seams on a screen.
                Ink::Fill(rects) => (filled(rects), " shape-rendering=\"crispEdges\""),
                Ink::Text(line) => (outlined(line, faces.of(line.weight)), ""),
            };
            push(&mut svg, format_args!("<path class=\"stamp\"{edges} d=\"{path}\"/>"));
        }
        svg.push_str("</svg>");
        Ok(svg)
    }
}

fn filled(rects: &[Rect]) -> String {
    let mut path = String::new();
    for rect in rects {
        let [x, y, width, height] = [rect.x, rect.y, rect.width, rect.height].map(|mm| short(mm, 3));
        push(&mut path, format_args!("M{x} {y}h{width}v{height}h-{width}z"));
    }
    path
}

fn outlined(line: &Line, face: &Face) -> String {
    let scale = line.em / f64::from(face.font.units_per_em());
    let mut pen = Pen {
        path: String::new(),
        x: line.x,
        baseline: line.baseline,
        across: scale * line.squeeze,
        up: scale,
    };
    for letter in line.text.chars() {
        let glyph = face.glyph(letter);
        face.font.outline_glyph(glyph, &mut pen);
        pen.x += face.glyph_advance(glyph) * line.em * line.squeeze;
    }
    pen.path
}

/// Draws a glyph's outline, in font units with y up, onto the paper, in mm with y down.
struct Pen {
    path: String,
    x: f64,
    baseline: f64,
    across: f64,
    up: f64,
}

impl Pen {
    fn at(&self, x: f32, y: f32) -> String {
        // A hundredth is finer than any print head, and the page a fifth lighter for it.
        let (x, y) = (self.x + f64::from(x) * self.across, self.baseline - f64::from(y) * self.up);
        format!("{} {}", short(x, 2), short(y, 2))
    }
}

impl OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        let to = self.at(x, y);
        push(&mut self.path, format_args!("M{to}"));
    }
    fn line_to(&mut self, x: f32, y: f32) {
        let to = self.at(x, y);
        push(&mut self.path, format_args!("L{to}"));
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        let (by, to) = (self.at(x1, y1), self.at(x, y));
        push(&mut self.path, format_args!("Q{by} {to}"));
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let (by, and, to) = (self.at(x1, y1), self.at(x2, y2), self.at(x, y));
        push(&mut self.path, format_args!("C{by} {and} {to}"));
    }
    fn close(&mut self) {
        self.path.push('z');
    }
}

/// A length in mm to so many decimals, without trailing zeros.
fn short(mm: f64, decimals: usize) -> String {
    let text = format!("{mm:.decimals$}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0".to_owned() } else { short.to_owned() }
}

/// Text inside a double-quoted attribute; characters XML has no place for are left out.
fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            letter if letter.is_control() || matches!(letter, '\u{fffe}' | '\u{ffff}') => safe.push(' '),
            letter => safe.push(letter),
        }
    }
    safe
}

fn push(to: &mut String, text: std::fmt::Arguments<'_>) {
    // Writing into a String cannot fail.
    let _ = to.write_fmt(text);
}
