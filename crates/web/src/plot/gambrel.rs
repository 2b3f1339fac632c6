//! The band as a small gambrel: a bar for four times in five, two hooks down at its ends, one upright for the middle.

use super::{Percent, line, rule::Rule, text, upright};
use maud::{Markup, html};

/// A band on a rule, in the rule's unit: `low` to `high` holds four times in five.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// Lower end.
    pub low: f64,
    /// Middle.
    pub middle: f64,
    /// Upper end.
    pub high: f64,
}

impl Span {
    /// A band from its three values.
    #[must_use]
    pub const fn new(low: f64, middle: f64, high: f64) -> Self {
        Self { low, middle, high }
    }
}

/// The gambrel with its bar at height `y`: hooks reach 8 px down, the upright 11 px up.
#[must_use]
pub fn gambrel(rule: &Rule, y: f64, span: Span) -> Markup {
    let (low, middle, high) = (rule.x(span.low), rule.x(span.middle), rule.x(span.high));
    html! {
        (line((low, y), (high, y), "gb"))
        (upright(low, y - 2.0, y + 8.0, "gh"))
        (upright(high, y - 2.0, y + 8.0, "gh"))
        (upright(middle, y - 11.0, y + 2.0, "gh"))
    }
}

/// The gambrel with the figure of its middle above it.
#[must_use]
pub fn with_figure(rule: &Rule, y: f64, span: Span, figure: &str) -> Markup {
    html! {
        (gambrel(rule, y, span))
        (text(rule.x(span.middle), y - 16.0, "t m", figure))
    }
}

/// Another value on the same rule (counter price, dinner hour, limit): an ink line of full height with its word on top,
/// turned inward where it would leave the drawing.
#[must_use]
pub fn other_value(rule: &Rule, value: f64, top: f64, bottom: f64, word: &str) -> Markup {
    let x = rule.x(value);
    let (anchor, place) = if x.0 > 70.0 {
        ("e t", x)
    } else if x.0 < 30.0 {
        ("t", x)
    } else {
        ("m t", x)
    };
    html! {
        (upright(x, top, bottom, "at"))
        (text(Percent(place.0), top - 8.0, anchor, word))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bar_two_hooks_and_one_upright() {
        let drawn = gambrel(&Rule::new(26.0, 40.0), 58.0, Span::new(28.6, 29.6, 30.7)).into_string();
        assert_eq!(drawn.matches("class=\"gb\"").count(), 1);
        assert_eq!(drawn.matches("class=\"gh\"").count(), 3);
    }

    #[test]
    fn a_word_near_the_right_edge_ends_at_its_line() {
        let drawn = other_value(&Rule::new(26.0, 40.0), 38.5, 22.0, 196.0, "counter 38.50").into_string();
        assert!(drawn.contains("class=\"e t\""), "{drawn}");
    }
}
