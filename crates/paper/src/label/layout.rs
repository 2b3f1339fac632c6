//! Where things stand on a label, mm from its top left corner.

use quantity::Mass;

use crate::PaperError;
use crate::code::{Code, QUIET_MODULES};
use crate::drawing::Drawing;
use crate::face::{Faces, Weight};
use crate::fit::Setter;
use crate::label::Label;
use crate::stock::Stock;

/// Side of the code.
const CODE: f64 = 14.0;
/// White around the code; more than the four modules a reader relies on, for a print head that smears.
const WHITE: f64 = 3.0;
/// Between two texts on one line.
const GAP: f64 = 2.5;
/// Largest and smallest em of the small lines. At 2.3 mm an x is 1.26 mm high.
const SMALL: (f64, f64) = (3.6, 2.3);
/// Distance of the small lines, in ems.
const LEADING: f64 = 1.15;

/// How far a g hangs below its line, in ems.
const HANGS: f64 = 0.24;

/// Places on one kind of label.
struct Places {
    left: f64,
    right: f64,
    /// Height of the word's and the places' capitals, and the lines they stand on.
    capitals: f64,
    word: f64,
    places: f64,
    /// Corner of the code.
    code: (f64, f64),
    /// The last small line stands here.
    last: f64,
}

/// The code stands at the lower right, mass and small lines left of it.
const ROLL: Places = Places {
    left: 2.8,
    right: 59.2,
    capitals: 12.0,
    word: 15.0,
    places: 29.4,
    code: (45.0, 33.0),
    last: 47.2,
};
/// The code stands at the upper right, mass under it, small lines across the foot.
const SHEET: Places = Places {
    left: 3.2,
    right: 60.3,
    capitals: 10.0,
    word: 13.0,
    places: 26.0,
    code: (46.3, 3.0),
    last: 34.9,
};

struct Setters<'a> {
    regular: Setter<'a>,
    bold: Setter<'a>,
}

pub(super) fn draw(faces: &Faces, label: &Label, stock: Stock) -> Result<Drawing, PaperError> {
    let set =
        Setters { regular: Setter::new(faces, Weight::Regular), bold: Setter::new(faces, Weight::Bold) };
    let code = label.url.as_deref().map(Code::of_address).transpose()?;
    let (width, height) = stock.size();
    let mut drawing = Drawing::new(width, height, label.spoken());
    match stock {
        Stock::Roll => draw_roll(&mut drawing, label, &set, code.is_some()),
        Stock::Sheet => draw_sheet(&mut drawing, label, &set, code.is_some()),
    }
    if let Some(code) = code {
        // 37 modules at most: their quiet zone of four is 1.5 mm, inside the white.
        debug_assert!(QUIET_MODULES * CODE / code.side as f64 <= WHITE);
        let (x, y) = match stock {
            Stock::Roll => ROLL.code,
            Stock::Sheet => SHEET.code,
        };
        drawing.fill(code.rects(x, y, CODE));
    }
    Ok(drawing)
}

fn draw_roll(drawing: &mut Drawing, label: &Label, set: &Setters, has_code: bool) {
    let at = &ROLL;
    let em = set.bold.em_for_capitals(at.capitals);
    drawing.text(set.bold.name(&label.word, at.left, at.word, em, at.right - at.left));
    drawing.text(set.bold.name(&label.places, at.left, at.places, em, at.right - at.left));
    let right = if has_code { at.code.0 - WHITE } else { at.right };
    let high = figure_height(label.mass);
    let (line, em) = (at.places + 2.3 + high, set.bold.em_for_capitals(high));
    drawing.text(set.bold.name(&label.weight(), at.left, line, em, right - at.left));
    draw_small(drawing, &label.small(), set, (at.left, right), (line + HANGS * em + 0.5, at.last));
}

fn draw_sheet(drawing: &mut Drawing, label: &Label, set: &Setters, has_code: bool) {
    let at = &SHEET;
    let em = set.bold.em_for_capitals(at.capitals);
    let beside_code = if has_code { at.code.0 - WHITE - at.left } else { at.right - at.left };
    drawing.text(set.bold.name(&label.word, at.left, at.word, em, beside_code));

    // Places and mass share a line: the mass gives way first, but only a little, and the places take what it leaves.
    let figures = set.bold.em_for_capitals(figure_height(label.mass));
    let weight = label.weight();
    let natural = set.bold.width(&weight, figures);
    let all = at.right - at.left - GAP;
    let wanted = set.bold.width(&label.places, em).min(beside_code);
    let room = natural.min((all - wanted).max(natural * 0.8)).min(all * 0.6);
    drawing.text(set.bold.name(&label.places, at.left, at.places, em, beside_code.min(all - room)));
    let mut mass = set.bold.name(&weight, 0.0, at.places, figures, room);
    mass.x = at.right - mass.width;
    drawing.text(mass);

    draw_small(drawing, &label.small(), set, (at.left, at.right), (at.places + 1.7, at.last));
}

/// Height of mass figures: 4 mm up to 1000 g, 6 mm above (Directive 76/211/EEC, Annex I 3.1, from memory).
fn figure_height(mass: Option<Mass>) -> f64 {
    if mass.is_some_and(|mass| mass.g() > 1000.0) { 6.0 } else { 4.0 }
}

/// The small lines between `top` and the foot, neighbours joined where that lets all be larger. Where they do not
/// fit at the smallest em they are cut at their ends, and seen to be cut.
fn draw_small(drawing: &mut Drawing, lines: &[String], set: &Setters, across: (f64, f64), down: (f64, f64)) {
    let (left, room, last) = (across.0, across.1 - across.0, down.1);
    let largest = |lines: &Vec<String>| {
        let high = set.regular.face.cap_height + LEADING * (lines.len().max(1) - 1) as f64;
        let wide = lines.iter().map(|line| set.regular.width(line, 1.0)).fold(f64::EPSILON, f64::max);
        // Height must be kept, so a setting too high for the smallest em is out; one too wide is cut.
        let by_height = (last - down.0) / high;
        if by_height < SMALL.1 { 0.0 } else { by_height.min(room / wide).min(SMALL.0) }
    };
    let settings = joined(lines).into_iter().map(|lines| (largest(&lines), lines));
    let Some((em, lines)) = settings.max_by(|a, b| a.0.total_cmp(&b.0)) else { return };
    let em = em.max(SMALL.1);
    for (line, up) in lines.iter().zip((0..lines.len()).rev()) {
        let baseline = last - up as f64 * em * LEADING;
        drawing.text(set.regular.running(line, left, baseline, em, room));
    }
}

/// Every way to join neighbouring lines, the fewest lines first, so that of equals the last, with more lines, is
/// taken.
fn joined(lines: &[String]) -> Vec<Vec<String>> {
    /// Beyond this many the last takes the rest: all ways of six are 32.
    const MOST: usize = 6;
    let (kept, surplus) = lines.split_at(lines.len().min(MOST));
    let mut kept = kept.to_vec();
    if let Some(last) = kept.last_mut() {
        for line in surplus {
            last.push_str(", ");
            last.push_str(line);
        }
    }
    let breaks = kept.len().saturating_sub(1);
    let mut ways: Vec<Vec<String>> = (0..1_usize << breaks)
        .map(|broken| {
            let mut way: Vec<String> = Vec::new();
            for (place, line) in kept.iter().enumerate() {
                match way.last_mut() {
                    Some(last) if broken >> (place - 1) & 1 == 0 => {
                        last.push_str(", ");
                        last.push_str(line);
                    }
                    _ => way.push(line.clone()),
                }
            }
            way
        })
        .collect();
    ways.sort_by_key(Vec::len);
    ways
}
