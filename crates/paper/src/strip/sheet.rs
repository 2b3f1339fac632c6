//! One sheet of the strip, A4 across.

use quantity::LengthUnit;

use crate::drawing::{Drawing, Line, Rect};
use crate::face::{Faces, Weight};
use crate::fit::Setter;
use crate::stock::A4;
use crate::strip::Plan;
use crate::strip::ruler::Ruler;
use crate::strip::split::{PAST, Part};

/// Left edge of what is drawn: it and the longest sheet stay 15 mm clear of the edges of A4, and print on Letter too.
const LEFT: f64 = 18.0;
const RIGHT: f64 = 273.0;
/// Upper and lower edge of the strip; the ticks stand on the lower one, which is laid along the piece.
const TOP: f64 = 26.0;
const FOOT: f64 = 76.0;
/// Baselines inside the strip.
const PLACES: [f64; 2] = [TOP + 5.0, TOP + 10.0];
const NAMES: f64 = TOP + 27.0;
const FIGURES: f64 = FOOT - 9.2;
const CHECK_LINE: f64 = FOOT + 18.0;
/// Strokes: a mark, everything thinner.
const MARK: f64 = 0.6;
const THIN: f64 = 0.25;
/// Ems.
const NAME: f64 = 9.0;
const PLACE: f64 = 4.2;
const FIGURE: f64 = 3.4;
const PROSE: f64 = 3.8;
/// A stretch of a portion this long, mm, is named even where it is not most of it (a roast kept whole).
const NAMED_FROM: f64 = 40.0;
/// Between a line and the text beside it.
const BESIDE: f64 = 1.0;

pub(super) fn draw(faces: &Faces, plan: &Plan, parts: &[Part], sheet: usize) -> Drawing {
    let mut page = Page {
        plan,
        part: parts[sheet],
        number: sheet + 1,
        of: parts.len(),
        ruler: Ruler::of(plan.strip.units),
        regular: Setter::new(faces, Weight::Regular),
        bold: Setter::new(faces, Weight::Bold),
        drawing: Drawing::new(A4.1, A4.0, String::new()),
    };
    page.drawing.spoken = page.spoken();
    page.draw_outline();
    page.draw_ends();
    page.draw_ticks();
    page.draw_marks();
    page.draw_names();
    page.draw_shared_lines();
    page.draw_check_line();
    page.draw_prose();
    page.drawing
}

struct Page<'a> {
    plan: &'a Plan<'a>,
    part: Part,
    number: usize,
    of: usize,
    ruler: Ruler,
    regular: Setter<'a>,
    bold: Setter<'a>,
    drawing: Drawing,
}

impl Page<'_> {
    /// Where a place of the piece lies on this sheet.
    fn x(&self, place: f64) -> f64 {
        LEFT + place - self.part.begin
    }

    fn shows(&self, place: f64) -> bool {
        (self.part.begin..=self.part.end).contains(&place)
    }

    fn place(&self, mm: f64) -> String {
        self.ruler.place(mm, self.plan.strip.units)
    }

    fn draw_outline(&mut self) {
        let (left, right) = (self.x(self.part.begin), self.x(self.part.end));
        self.drawing.fill(vec![
            Rect::level(left, right, TOP, THIN),
            Rect::level(left, right, FOOT, THIN),
            Rect::upright(left, TOP, FOOT, THIN),
            Rect::upright(right, TOP, FOOT, THIN),
        ]);
    }

    /// The ends of the piece are named outside the strip, with the way they lie.
    fn draw_ends(&mut self) {
        let (left, right) = (self.x(self.part.begin), self.x(self.part.end));
        let (baseline, room) = (TOP - 2.5, (RIGHT - LEFT) / 2.0);
        let mut taken = f64::MIN;
        if self.part.shared_before.is_none() {
            let line =
                self.bold.running(&format!("← {}", self.plan.strip.from_end), left, baseline, PROSE, room);
            taken = line.x + line.width + 2.0 * BESIDE;
            self.drawing.text(line);
        }
        if self.part.shared_after.is_none() {
            let line =
                self.bold.running(&format!("{} →", self.plan.strip.far_end), right, baseline, PROSE, room);
            let x = (right - line.width).max(LEFT);
            // On a short piece the two names stand over each other.
            let baseline = if x < taken { baseline - 1.3 * PROSE } else { baseline };
            self.drawing.text(Line { x, baseline, ..line });
        }
    }

    fn draw_ticks(&mut self) {
        let (begin, end) = (self.part.begin, self.part.end);
        self.drawing.fill(self.ruler.ticks(begin, end, self.x(0.0), FOOT));
        let strokes = self.strokes();
        for (place, figure) in self.ruler.figures(begin, end) {
            let wide = self.regular.width(&figure, FIGURE);
            let taken: Vec<(f64, f64)> = strokes.iter().map(|x| (x - MARK, x + MARK)).collect();
            if let Some(x) = self.beside(self.x(place), wide, THIN, &taken) {
                self.drawing.text(self.regular.running(&figure, x, FIGURES, FIGURE, wide));
            }
        }
    }

    fn draw_marks(&mut self) {
        let marks: Vec<f64> = self.plan.marks.iter().copied().filter(|mark| self.shows(*mark)).collect();
        self.drawing.fill(marks.iter().map(|mark| Rect::upright(self.x(*mark), TOP, FOOT, MARK)).collect());
        // A place is written to the right of its mark, else to the left, else a row lower, else not: marks that
        // close are read off the ticks.
        let mut rows = PLACES.map(|baseline| (baseline, Vec::new()));
        let strokes: Vec<(f64, f64)> = self.strokes().iter().map(|x| (x - MARK, x + MARK)).collect();
        for mark in marks {
            let text = self.place(mark);
            let wide = self.bold.width(&text, PLACE);
            let free = rows.iter_mut().find_map(|(baseline, written)| {
                let taken: Vec<_> = strokes.iter().chain(written.iter()).copied().collect();
                let x = self.beside(self.x(mark), wide, MARK, &taken)?;
                written.push((x, x + wide));
                Some((x, *baseline))
            });
            if let Some((x, baseline)) = free {
                self.drawing.text(self.bold.running(&text, x, baseline, PLACE, wide));
            }
        }
    }

    /// Names stand between their faces; of a portion that two sheets share, on the sheet that holds most of it.
    fn draw_names(&mut self) {
        let begin = self.part.shared_before.unwrap_or(self.part.begin);
        let end = self.part.shared_after.unwrap_or(self.part.end);
        for (from, to, name) in &self.plan.portions {
            let (left, right) = (from.max(begin), to.min(end));
            let most = ((to - from) / 2.0 - 1e-9).min(NAMED_FROM);
            let room = right - left - MARK - 2.0 * BESIDE;
            if room > 0.0 && right - left >= most {
                let line = self.bold.name(name, 0.0, NAMES, NAME, room);
                let middle = self.x((left + right) / 2.0);
                self.drawing.text(Line { x: middle - line.width / 2.0, ..line });
            }
        }
    }

    fn draw_shared_lines(&mut self) {
        let before = self.part.shared_before.map(|line| (line, self.number - 1));
        let after = self.part.shared_after.map(|line| (line, self.number + 1));
        for (line, other) in before.into_iter().chain(after) {
            let x = self.x(line);
            self.drawing.fill(dashes(x));
            let text = format!("{} on sheet {other}", self.place(line));
            let wide = self.regular.width(&text, FIGURE);
            let left = (x - wide / 2.0).clamp(LEFT, RIGHT - wide);
            self.drawing.text(self.regular.running(&text, left, FOOT + 5.0, FIGURE, wide));
        }
    }

    fn draw_check_line(&mut self) {
        let (left, right) = (LEFT, LEFT + 100.0);
        self.drawing.fill(vec![
            Rect::level(left, right, CHECK_LINE, MARK),
            Rect::upright(left, CHECK_LINE - 3.0, CHECK_LINE + 3.0, THIN),
            Rect::upright(right, CHECK_LINE - 3.0, CHECK_LINE + 3.0, THIN),
        ]);
        let hundred = match self.plan.strip.units.length {
            LengthUnit::Millimetre => "100 mm".to_owned(),
            LengthUnit::Inch => format!("100 mm, {} in", self.place(100.0)),
        };
        let text = format!("Measure this line: {hundred} between the strokes, or the sheet is not 1:1.");
        let x = right + 3.0;
        self.drawing.text(self.bold.running(&text, x, CHECK_LINE + 1.4, PROSE, RIGHT - x));
    }

    fn draw_prose(&mut self) {
        for (line, text) in self.prose().iter().enumerate() {
            let baseline = CHECK_LINE + 14.0 + line as f64 * PROSE * 1.5;
            let set = if line == 0 { &self.bold } else { &self.regular };
            let line = set.running(text, LEFT, baseline, PROSE, RIGHT - LEFT);
            self.drawing.text(line);
        }
    }

    fn prose(&self) -> Vec<String> {
        let strip = self.plan.strip;
        let mut prose = vec![format!("{}, sheet {} of {}.", self.counted_from(), self.number, self.of)];
        prose.push("Print at 100 %, not fitted to the page. Cut along the outline and lay the edge with the ticks along the piece.".into());
        if let Some(line) = self.part.shared_before {
            let (place, before) = (self.place(line), self.number - 1);
            prose.push(format!(
                "Lay the dashed {place} on the dashed {place} of sheet {before}: the two sheets overlap by {} mm.",
                2.0 * PAST
            ));
        } else if self.plan.begin < 0.0 {
            prose.push("0 is the squared face: cut it first, then lay the 0 on it.".into());
        } else {
            prose.push(format!("0 is the face of the {}.", strip.from_end));
        }
        prose.push(strip.note.clone());
        prose.retain(|line| !line.trim().is_empty());
        prose
    }

    fn counted_from(&self) -> String {
        let squared = if self.plan.begin < 0.0 { "squared " } else { "" };
        let unit = match self.plan.strip.units.length {
            LengthUnit::Millimetre => "millimetres",
            LengthUnit::Inch => "inches",
        };
        format!("{}, {unit} from the {squared}{}", self.plan.strip.word, self.plan.strip.from_end)
    }

    fn spoken(&self) -> String {
        let marks: Vec<String> =
            self.plan.marks.iter().filter(|mark| self.shows(**mark)).map(|mark| self.place(*mark)).collect();
        format!("Marking strip, {}: marks at {}.", self.prose().join(" "), marks.join(", "))
    }

    /// Everything upright a text must not cross: marks, shared lines, the outline's ends.
    fn strokes(&self) -> Vec<f64> {
        let marks = self.plan.marks.iter().copied();
        let shared = self.part.shared_before.into_iter().chain(self.part.shared_after);
        let ends = [self.part.begin, self.part.end];
        marks
            .chain(shared)
            .chain(ends)
            .filter(|place| self.shows(*place))
            .map(|place| self.x(place))
            .collect()
    }

    /// Where a text of this width finds room beside a stroke at `x`: right of it, else left, else nowhere.
    fn beside(&self, x: f64, wide: f64, stroke: f64, taken: &[(f64, f64)]) -> Option<f64> {
        let away = stroke / 2.0 + BESIDE;
        let sheet = (self.x(self.part.begin), self.x(self.part.end));
        [x + away, x - away - wide].into_iter().find(|left| {
            let right = left + wide;
            let inside = *left >= sheet.0 && right <= sheet.1;
            inside && taken.iter().all(|(from, to)| right <= *from || *left >= *to)
        })
    }
}

/// A dashed upright at `x`, over the whole strip.
fn dashes(x: f64) -> Vec<Rect> {
    const DASH: f64 = 2.0;
    let count = ((FOOT - TOP) / (2.0 * DASH)).ceil() as usize;
    let tops = (0..count).map(|dash| TOP + dash as f64 * 2.0 * DASH);
    tops.map(|top| Rect::upright(x, top, (top + DASH).min(FOOT), THIN)).collect()
}
