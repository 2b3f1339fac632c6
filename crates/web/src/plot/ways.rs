//! Ways on one clock: a row each, the core thick, the upper face thin, when it is ready as a gambrel under the curve.

use super::gambrel::{Span, gambrel};
use super::rule::{Graduation, Rule};
use super::{Percent, Px, anchored, dot, hairline, line, picture, text, upright};
use maud::{Markup, html};
use std::fmt::Write as _;

/// A way, in hours of the rule and °C.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its name.
    pub name: String,
    /// Core over time.
    pub core: Vec<(f64, f64)>,
    /// Upper face over time.
    pub face: Vec<(f64, f64)>,
    /// The word of its start: `in 18:22`.
    pub start: String,
    /// When it is ready.
    pub ready: Span,
    /// The word of the middle of that.
    pub ready_word: String,
    /// The core on the plate, in figures.
    pub peak_word: String,
}

const ROW: f64 = 136.0;
/// Height of a curve.
const HIGH: f64 = 92.0;
/// Curves are cut off here, °C: a face that sears would flatten all the rest.
pub const MOST_C: f64 = 80.0;

/// Rows against one clock; `plate` is the ink line through them all with the word under it.
#[must_use]
pub fn ways(
    rule: Rule,
    graduation: Graduation,
    rows: &[Row],
    plate: (f64, &str),
    sentence: &str,
    figure: impl Fn(f64) -> Option<String>,
) -> Markup {
    let base = ROW * rows.len() as f64 + 4.0;
    let least = rows.iter().flat_map(|row| &row.core).map(|(_, c)| *c).fold(0.0, f64::min);
    let near_plate = |hour: f64| (rule.x(plate.0).0 - rule.x(hour).0).abs() < 13.0;
    let body = html! {
        @for (place, row) in rows.iter().enumerate() {
            @let y = ROW * place as f64;
            @if place > 0 { (hairline(y - 4.0)) }
            (drawn(&rule, y, least, row, plate.0))
        }
        (upright(rule.x(plate.0), 4.0, base, "at"))
        (text(rule.x(plate.0), base + 24.0, "m t", plate.1))
        (rule.draw(base, graduation, |hour| if near_plate(hour) { None } else { figure(hour) }))
    };
    picture(base + 30.0, sentence, &body)
}

fn drawn(rule: &Rule, y: f64, least: f64, row: &Row, plate: f64) -> Markup {
    let top = y + 26.0;
    let level = |celsius: f64| HIGH * (1.0 - (celsius.min(MOST_C) - least) / (MOST_C - least));
    let (left, right) = (rule.x(rule.low()), rule.x(rule.high()));
    let across = |hour: f64| 1000.0 * (rule.x(hour).0 - left.0) / (right.0 - left.0);
    let path = |curve: &[(f64, f64)]| {
        let mut path = String::new();
        for (place, (hour, celsius)) in curve.iter().enumerate() {
            // Writing to a String cannot fail.
            let _ = write!(
                path,
                "{}{:.1} {:.1}",
                if place == 0 { "M" } else { "L" },
                across(*hour),
                level(*celsius)
            );
        }
        path
    };
    let (begin, end) = (row.core.first().copied(), row.core.last().copied());
    html! {
        text x="0" y=(Px(y + 20.0)) class="ti" { tspan class="t" { (row.name) } }
        svg x=(left) y=(Px(top)) width=(Percent(right.0 - left.0)) height=(Px(HIGH)) viewBox={ "0 0 1000 " (Px(HIGH)) } preserveAspectRatio="none" {
            path d=(path(&row.face)) class="ln thin" {}
            path d=(path(&row.core)) class="ln" {}
        }
        @if let Some((hour, celsius)) = begin {
            @let (anchor, x) = anchored(rule.x(hour), row.start.chars().count());
            (dot(rule.x(hour), top + level(celsius), 5.0, "dot"))
            (text(x, top + level(celsius) - 12.0, &format!("{anchor} ti halo"), &row.start))
        }
        @if let Some((hour, celsius)) = end {
            (line((rule.x(hour), top + level(celsius)), (rule.x(plate), top + level(celsius)), "thin dash"))
            (text(Percent(rule.x(plate).0 + 1.5), top + level(celsius) + 5.0, "halo", &row.peak_word))
        }
        (gambrel(rule, y + 122.0, row.ready))
        (text(Percent(rule.x(row.ready.low).0 - 1.5), y + 127.0, "e ta", &row.ready_word))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plot::chain::clock;

    #[test]
    fn a_row_holds_both_curves_its_start_and_when_it_is_ready() {
        let (rule, graduation) = clock(18.0, 19.75);
        let row = Row {
            name: "Low, then sear".into(),
            core: vec![(18.4, 4.0), (19.0, 40.0), (19.4, 55.0)],
            face: vec![(18.4, 4.0), (19.0, 60.0), (19.4, 52.0)],
            start: "in 18:22".into(),
            ready: Span::new(19.2, 19.4, 19.5),
            ready_word: "19:25".into(),
            peak_word: "55".into(),
        };
        let drawn =
            ways(rule, graduation, &[row], (19.5, "19:30"), "One way.", |hour| Some(format!("{hour}")));
        let drawn = drawn.into_string();
        assert_eq!(drawn.matches("<path").count(), 2);
        for words in ["in 18:22", "19:25", "19:30", "class=\"gb\"", "class=\"at\""] {
            assert!(drawn.contains(words), "{words} in {drawn}");
        }
    }
}
