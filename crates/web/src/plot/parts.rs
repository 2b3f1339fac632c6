//! Bars of parts: one bar as long as what was bought, the parts in order, and the same parts as money under it.

use super::{Percent, Px, line, picture, row_name};
use maud::{Markup, html};

/// How a part is filled; the order of the list tells them apart where the fill does not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// Tint: what is near.
    Tint,
    /// Solid ink: what lies in store.
    Solid,
    /// Meat that is not a portion.
    Meat,
    /// Fat.
    Fat,
    /// A paler ink: eaten.
    Gone,
    /// Plain: thrown away, purge, not explained.
    Plain,
}

impl Fill {
    fn class(self) -> &'static str {
        match self {
            Self::Tint => "sw",
            Self::Solid => "sk",
            Self::Meat => "sm",
            Self::Fat => "fat",
            Self::Gone => "sg",
            Self::Plain => "sq",
        }
    }
}

/// A part of a bar: its fill and its share of the whole, in the unit of the bar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// Fill.
    pub fill: Fill,
    /// Length, at least zero.
    pub length: f64,
}

/// The small square before a row of the list that names its fill.
#[must_use]
pub fn key(fill: Fill) -> Markup {
    html! { svg aria-hidden="true" { rect width="20" height="14" class=(fill.class()) {} } }
}

/// One bar, divided.
#[must_use]
pub fn bar(parts: &[Part], sentence: &str) -> Markup {
    picture(36.0, sentence, &segments(parts, 8.0))
}

/// Two bars of one length, grams over money, with hairlines from border to border.
#[must_use]
pub fn two_bars(
    grams: &[Part],
    grams_word: &str,
    money: &[Part],
    money_word: &str,
    sentence: &str,
) -> Markup {
    let (upper, lower) = (borders(grams), borders(money));
    let body = html! {
        (row_name(14.0, grams_word, ""))
        (segments(grams, 22.0))
        @for (above, below) in upper.iter().zip(&lower) {
            @if *above < 99.9 && *below < 99.9 {
                (line((Percent(*above), 44.0), (Percent(*below), 62.0), "ax"))
            }
        }
        (segments(money, 62.0))
        (row_name(102.0, money_word, ""))
    };
    picture(108.0, sentence, &body)
}

fn segments(parts: &[Part], y: f64) -> Markup {
    let ends = borders(parts);
    html! {
        @for (place, part) in parts.iter().enumerate() {
            @let start = if place == 0 { 0.0 } else { ends[place - 1] };
            @if ends[place] - start > 0.0 {
                rect x=(Percent(start)) y=(Px(y)) width=(Percent(ends[place] - start)) height="22"
                    class=(part.fill.class()) {}
            }
        }
    }
}

/// Where each part ends, per cent of the bar.
fn borders(parts: &[Part]) -> Vec<f64> {
    let whole: f64 = parts.iter().map(|part| part.length.max(0.0)).sum();
    let mut so_far = 0.0;
    parts
        .iter()
        .map(|part| {
            so_far += part.length.max(0.0);
            if whole > 0.0 { so_far / whole * 100.0 } else { 0.0 }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_fill_the_bar_in_order() {
        let parts = [
            Part { fill: Fill::Tint, length: 3800.0 },
            Part { fill: Fill::Solid, length: 1956.0 },
            Part { fill: Fill::Fat, length: 489.0 },
            Part { fill: Fill::Plain, length: 155.0 },
        ];
        let ends = borders(&parts);
        assert!((ends[0] - 59.375).abs() < 1e-9);
        assert!((ends[3] - 100.0).abs() < 1e-9);
        assert_eq!(bar(&parts, "A bar.").into_string().matches("<rect").count(), 4);
    }

    #[test]
    fn an_empty_or_negative_part_is_not_drawn() {
        let parts = [Part { fill: Fill::Plain, length: -7.0 }, Part { fill: Fill::Tint, length: 100.0 }];
        assert_eq!(bar(&parts, "A bar.").into_string().matches("<rect").count(), 1);
    }
}
