//! Step lines under the piece on its own millimetres: what one plan lets run along it, first and last value on the line.

use super::{Percent, Px, hairline, row_name, rule::Rule, text};
use maud::{Markup, html};
use std::fmt::Write as _;

/// A value that holds over a length of the piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tread {
    /// From, mm.
    pub from_mm: f64,
    /// To, mm.
    pub to_mm: f64,
    /// The value, in any unit.
    pub value: f64,
}

/// A step line with its name.
#[derive(Clone, Debug, PartialEq)]
pub struct Profile {
    /// What is kept: `Keep 380 g`.
    pub kept: String,
    /// What runs: `thickness runs`.
    pub runs: String,
    /// The treads in order.
    pub treads: Vec<Tread>,
    /// The first value as it is shown.
    pub first: String,
    /// The last value as it is shown.
    pub last: String,
}

const ROW: f64 = 102.0;
const CURVE: f64 = 40.0;

/// Height of [`profiles`] in px.
#[must_use]
pub fn height(count: usize) -> f64 {
    ROW * count as f64
}

/// Step lines one under the other, from `top` px on; `along` is the rule of the piece's length in mm.
#[must_use]
pub fn profiles(along: &Rule, top: f64, lines: &[Profile]) -> Markup {
    html! {
        @for (place, profile) in lines.iter().enumerate() {
            @let y = top + ROW * place as f64;
            @if place > 0 { (hairline(y)) }
            (row_name(y + 22.0, &profile.kept, &profile.runs))
            (steps(along, y + 54.0, profile))
        }
    }
}

fn steps(along: &Rule, y: f64, profile: &Profile) -> Markup {
    let values = profile.treads.iter().map(|tread| tread.value);
    let (low, high) =
        values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)));
    let span = if high > low { high - low } else { 1.0 };
    let level = |value: f64| CURVE * (1.0 - (value - low) / span);
    let mut path = String::new();
    for (place, tread) in profile.treads.iter().enumerate() {
        let step = if place == 0 { "M" } else { " L" };
        // Writing to a String cannot fail.
        let _ = write!(
            path,
            "{step}{:.1} {:.1} L{:.1} {:.1}",
            tread.from_mm - along.low(),
            level(tread.value),
            tread.to_mm - along.low(),
            level(tread.value)
        );
    }
    let (Some(first), Some(last)) = (profile.treads.first(), profile.treads.last()) else {
        return html! {};
    };
    // A figure stands on the open side of its step: under a low start, over a high one.
    let beside =
        |value: f64| if level(value) > CURVE / 2.0 { level(value) - 6.0 } else { level(value) + 17.0 };
    let width = along.high() - along.low();
    html! {
        svg x="0" y=(Px(y)) width="100%" height=(Px(CURVE)) preserveAspectRatio="none"
            viewBox={ "0 0 " (Px(width)) " " (Px(CURVE)) } { path d=(path) class="ln" {} }
        (text(along.x(first.from_mm), y + beside(first.value), "t halo", &profile.first))
        (text(Percent(along.x(last.to_mm).0.min(100.0)), y + beside(last.value), "e t halo", &profile.last))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_steps_at_each_mark() {
        let tread = |from_mm, to_mm, value| Tread { from_mm, to_mm, value };
        let profile = Profile {
            kept: "Keep 380 g".into(),
            runs: "thickness runs".into(),
            treads: vec![tread(0.0, 28.0, 28.0), tread(28.0, 58.0, 30.0)],
            first: "28 mm".into(),
            last: "30 mm".into(),
        };
        let along = Rule::new(0.0, 60.0).between(0.0, 100.0);
        let drawn = profiles(&along, 0.0, &[profile]).into_string();
        assert!(drawn.contains("M0.0 40.0 L28.0 40.0 L28.0 0.0 L58.0 0.0"), "{drawn}");
        assert!(drawn.contains("28 mm") && drawn.contains("30 mm"));
    }
}
