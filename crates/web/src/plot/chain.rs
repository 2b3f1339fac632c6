//! The chain against the clock: a row per doneness or per way, one ink line through all rows for the plate.

use super::gambrel::{Span, gambrel};
use super::rule::{Graduation, Rule};
use super::{Percent, Px, dot, hairline, line, picture, row_name, text, upright};
use maud::{Markup, html};

/// What lies on a row, in hours of the rule.
#[derive(Clone, Debug, PartialEq)]
pub enum Link {
    /// A dot: in, with its word, `in 17:38`.
    In(f64, String),
    /// A line: on the heat, or thawing.
    On(f64, f64),
    /// A gambrel: pulled or ready, with the word of its middle.
    Band(Span, String),
    /// A block: the sear, or an hour to salt in, with its word.
    Block(f64, f64, String),
    /// Dashes: rest, or standing open.
    Rest(f64, f64),
    /// A short blue stroke: the latest hour, with its word.
    Latest(f64, String),
}

/// A row of the chain.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its name, bold: `Medium rare`.
    pub name: String,
    /// Plain words after it: `TARN 1, 3, 4`.
    pub more: String,
    /// What lies on it, in order.
    pub links: Vec<Link>,
}

const ROW: f64 = 86.0;

/// Rows against one clock; `plate` is the ink line through them all with the word under it.
#[must_use]
pub fn chain(
    rule: Rule,
    graduation: Graduation,
    rows: &[Row],
    plate: Option<(f64, &str)>,
    sentence: &str,
    figure: impl Fn(f64) -> Option<String>,
) -> Markup {
    let base = ROW * rows.len() as f64 + 6.0;
    let near_plate =
        |hour: f64| plate.is_some_and(|(plate, _)| (rule.x(plate).0 - rule.x(hour).0).abs() < 13.0);
    let body = html! {
        @for (place, row) in rows.iter().enumerate() {
            @let y = ROW * place as f64;
            @if place > 0 { (hairline(y - 4.0)) }
            (row_name(y + 20.0, &row.name, &row.more))
            @for link in &row.links { (drawn(&rule, y + 46.0, link)) }
        }
        @if let Some((plate, word)) = plate {
            (upright(rule.x(plate), 4.0, base, "at"))
            (ending(rule.x(plate), base + 24.0, "t", word))
        }
        (rule.draw(base, graduation, |hour| if near_plate(hour) { None } else { figure(hour) }))
    };
    picture(base + 30.0, sentence, &body)
}

/// A clock's rule from one hour to another, graduated so that the figures fit a phone.
#[must_use]
pub fn clock(from: f64, to: f64) -> (Rule, Graduation) {
    let length = to - from;
    let (unit, main) = match length {
        length if length <= 3.5 => (0.25, 0.5),
        length if length <= 7.0 => (0.25, 1.0),
        length if length <= 14.0 => (0.5, 2.0),
        length if length <= 36.0 => (1.0, 6.0),
        _ => (6.0, 24.0),
    };
    (
        (Rule::new((from / unit).floor() * unit, (to / unit).ceil() * unit)).between(2.0, 98.0),
        Graduation { unit, main },
    )
}

fn drawn(rule: &Rule, y: f64, link: &Link) -> Markup {
    html! {
        @match link {
            Link::In(hour, word) => {
                (dot(rule.x(*hour), y, 5.0, "dot"))
                (ending(rule.x(*hour), y + 22.0, "ti", word))
            }
            Link::On(from, to) => (line((rule.x(*from), y), (rule.x(*to), y), "ln")),
            Link::Band(span, word) => {
                (gambrel(rule, y, *span))
                (ending(rule.x(span.middle), y + 22.0, "ta", word))
            }
            Link::Block(from, to, word) => {
                rect x=(rule.x(*from)) y=(Px(y - 7.0)) width=(Percent(rule.width(*from, *to).0.max(0.6)))
                    height="14" class="sk" {}
                (ending(Percent((rule.x(*from).0 + rule.x(*to).0) / 2.0), y + 22.0, "ti", word))
            }
            Link::Rest(from, to) => (line((rule.x(*from), y), (rule.x(*to), y), "thin dash")),
            Link::Latest(hour, word) => {
                (upright(rule.x(*hour), y - 8.0, y + 8.0, "gh"))
                (ending(rule.x(*hour), y - 12.0, "ta halo", word))
            }
        }
    }
}

/// A word centred on its place, or turned inward at either end.
fn ending(x: Percent, y: f64, class: &str, word: &str) -> Markup {
    let half = word.chars().count() as f64 * 1.05;
    let (anchor, place) = if x.0 + half > 102.0 {
        ("e", Percent(100.0))
    } else if x.0 - half < -2.0 {
        ("", Percent(0.0))
    } else {
        ("m", x)
    };
    text(place, y, &format!("{anchor} {class}"), word)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_holds_dot_line_band_block_and_rest() {
        let (rule, graduation) = clock(17.25, 19.75);
        let row = Row {
            name: "Well done".into(),
            more: "TARN 2".into(),
            links: vec![
                Link::In(17.63, "in 17:38".into()),
                Link::On(17.63, 18.95),
                Link::Band(Span::new(18.95, 19.07, 19.23), "19:04".into()),
                Link::Block(19.27, 19.37, "sear".into()),
                Link::Rest(19.37, 19.5),
            ],
        };
        let drawn = chain(rule, graduation, &[row], Some((19.5, "19:30")), "The chain.", |hour| {
            Some(format!("{hour}"))
        })
        .into_string();
        for class in ["dot", "ln", "gb", "sk", "thin dash", "at"] {
            assert!(drawn.contains(&format!("class=\"{class}\"")), "{class} in {drawn}");
        }
        assert!(!drawn.contains(">19.5<"), "the plate's own word stands there");
    }

    #[test]
    fn a_clock_of_a_night_has_six_hour_figures() {
        let (_, graduation) = clock(18.0, 44.0);
        assert_eq!(graduation.main, 6.0);
    }
}
