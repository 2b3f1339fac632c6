//! The piece from the side with its marks: cap darker on top, cut portions apart, the next mark thick with its pointer.

use super::rule::{Graduation, Rule};
use super::{Percent, Px, picture, text, upright};
use maud::{Markup, html};
use std::fmt::Write as _;

/// A height of the piece at a place along it, in mm from the named end before squaring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Height {
    /// Place.
    pub at_mm: f64,
    /// Height of the whole section.
    pub height_mm: f64,
    /// How much of that height the cap takes, from the top; zero where the cut has none.
    pub cap_mm: f64,
}

/// A portion as the plan or the knife has it, in mm from the squared end.
#[derive(Clone, Debug, PartialEq)]
pub struct Slice {
    /// Its number.
    pub n: u32,
    /// First face.
    pub from_mm: f64,
    /// Last face.
    pub to_mm: f64,
    /// Whether it is cut: then it stands apart.
    pub cut: bool,
}

/// All that the drawing of a piece needs.
#[derive(Clone, Debug, PartialEq)]
pub struct Side {
    /// Whole length before squaring, mm.
    pub length_mm: f64,
    /// What is squared off at the named end, mm: zero of the marks stands there.
    pub squared_first_mm: f64,
    /// Heights along the piece, at least two, in order.
    pub heights: Vec<Height>,
    /// Portions in order.
    pub slices: Vec<Slice>,
    /// The next mark and its word, `204 mm`.
    pub next: Option<(f64, String)>,
    /// Names of the two ends.
    pub ends: (String, String),
    /// The rule under it: places of main ticks in mm and how a figure is written.
    pub graduation: Graduation,
}

const TOP: f64 = 30.0;
const BOTTOM: f64 = 132.0;

/// The piece, true to scale in height against its own tallest place, with marks and a rule of its length.
#[must_use]
pub fn side(piece: &Side, sentence: &str, figure: impl Fn(f64) -> String) -> Markup {
    let along = Rule::new(0.0, piece.length_mm).between(0.0, 100.0);
    let x = |mm: f64| along.x(mm + piece.squared_first_mm);
    let last = piece.slices.last().map_or(0.0, |slice| slice.to_mm);
    let marks = Rule::new(0.0, last.max(1.0)).between(x(0.0).0, x(last.max(1.0)).0);
    let body = html! {
        (outline(piece))
        @for slice in &piece.slices {
            @if slice.cut {
                @let face = x(slice.to_mm);
                (upright(face, top_at(piece, slice.to_mm), BOTTOM, "gap0"))
                (upright(face, TOP, BOTTOM + 4.0, "gap"))
            } @else {
                (upright(x(slice.to_mm), TOP + 18.0, BOTTOM, "plan"))
            }
        }
        @for slice in &piece.slices {
            @let middle = x((slice.from_mm + slice.to_mm) / 2.0);
            (text(middle, 98.0, number_class(piece, slice), &slice.n.to_string()))
        }
        @if let Some((mark, word)) = &piece.next {
            (next_mark(x(*mark), word))
        }
        (marks.draw(BOTTOM + 10.0, piece.graduation, |mm| Some(figure(mm))))
        text x="0" y=(Px(BOTTOM + 52.0)) { (piece.ends.0) }
        text x="100%" y=(Px(BOTTOM + 52.0)) class="e" { (piece.ends.1) }
    };
    picture(BOTTOM + 58.0, sentence, &body)
}

/// Bold once it is cut; smaller where two digits would touch their neighbours on a phone.
fn number_class(piece: &Side, slice: &Slice) -> &'static str {
    let is_narrow = (slice.to_mm - slice.from_mm) / piece.length_mm < NARROW;
    match (slice.cut, is_narrow) {
        (true, false) => "m t",
        (false, false) => "m ti",
        (true, true) => "m t on",
        (false, true) => "m ti on",
    }
}

/// 22 px of 350.
const NARROW: f64 = 0.063;

fn next_mark(x: Percent, word: &str) -> Markup {
    html! {
        (upright(x, 24.0, BOTTOM + 14.0, "gb"))
        svg x=(x) y="14" overflow="visible" { path d="M-8 0H8L0 13Z" class="ptr" {} }
        (text(Percent(x.0.clamp(7.0, 93.0)), 8.0, "m ta", word))
    }
}

/// Body and cap as two closed curves on the piece's own millimetres, stretched to the width of the drawing.
fn outline(piece: &Side) -> Markup {
    let tallest = tallest(piece);
    let (mut body, mut cap, mut under) = (String::new(), String::new(), String::new());
    for height in &piece.heights {
        let top = tallest - height.height_mm;
        // Writing to a String cannot fail.
        let _ = write!(body, " L{:.1} {:.1}", height.at_mm, top);
        let _ = write!(cap, " L{:.1} {:.1}", height.at_mm, top);
        under.insert_str(0, &format!(" L{:.1} {:.1}", height.at_mm, top + height.cap_mm));
    }
    let length = piece.length_mm;
    let has_cap = piece.heights.iter().any(|height| height.cap_mm > 0.0);
    html! {
        svg x="0" y=(Px(TOP)) width="100%" height=(Px(BOTTOM - TOP)) preserveAspectRatio="none"
            viewBox={ "0 0 " (Px(length)) " " (Px(tallest)) } {
            path class="meat" d={ "M0 " (Px(tallest)) (body) " L" (Px(length)) " " (Px(tallest)) "Z" } {}
            @if has_cap { path class="cap" d={ "M" (cap.trim_start_matches(" L")) (under) "Z" } {} }
        }
    }
}

fn tallest(piece: &Side) -> f64 {
    piece.heights.iter().map(|height| height.height_mm).fold(1.0, f64::max)
}

/// Where the top of the piece lies at a mark, px.
fn top_at(piece: &Side, mark_mm: f64) -> f64 {
    let at = mark_mm + piece.squared_first_mm;
    let height = piece
        .heights
        .windows(2)
        .find(|pair| pair[0].at_mm <= at && at <= pair[1].at_mm)
        .map(|pair| {
            let share = (at - pair[0].at_mm) / (pair[1].at_mm - pair[0].at_mm).max(f64::MIN_POSITIVE);
            pair[0].height_mm + share * (pair[1].height_mm - pair[0].height_mm)
        })
        .or_else(|| piece.heights.last().map(|height| height.height_mm))
        .unwrap_or(1.0);
    BOTTOM - (BOTTOM - TOP) * height / tallest(piece)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn roll() -> Side {
        let height = |at_mm, height_mm, cap_mm| Height { at_mm, height_mm, cap_mm };
        let slice = |n, from_mm, to_mm, cut| Slice { n, from_mm, to_mm, cut };
        Side {
            length_mm: 100.0,
            squared_first_mm: 10.0,
            heights: vec![height(0.0, 40.0, 10.0), height(50.0, 50.0, 5.0), height(100.0, 20.0, 0.0)],
            slices: vec![slice(1, 0.0, 30.0, true), slice(2, 30.0, 60.0, false)],
            next: Some((60.0, "60 mm".into())),
            ends: ("chuck end".into(), "loin end".into()),
            graduation: Graduation { unit: 10.0, main: 50.0 },
        }
    }

    #[test]
    fn cut_portions_stand_apart_and_planned_ones_are_dashed() {
        let drawn = side(&roll(), "The roll.", |mm| format!("{mm:.0}")).into_string();
        assert_eq!(drawn.matches("class=\"gap\"").count(), 1);
        assert_eq!(drawn.matches("class=\"plan\"").count(), 1);
        assert_eq!(drawn.matches("class=\"cap\"").count(), 1);
        assert_eq!(drawn.matches("class=\"ptr\"").count(), 1);
        assert!(drawn.contains("chuck end") && drawn.contains(">50<"));
    }

    #[test]
    fn a_piece_without_a_cap_has_one_curve() {
        let mut plain = roll();
        plain.heights.iter_mut().for_each(|height| height.cap_mm = 0.0);
        assert!(!side(&plain, "", |mm| format!("{mm:.0}")).into_string().contains("class=\"cap\""));
    }

    #[test]
    fn the_edge_of_a_cut_starts_at_the_top_of_the_meat() {
        let tall = top_at(&roll(), 40.0);
        assert!((tall - TOP).abs() < 1e-9, "at 50 mm it is as tall as it gets, {tall}");
        assert!(top_at(&roll(), 90.0) > tall);
    }
}
