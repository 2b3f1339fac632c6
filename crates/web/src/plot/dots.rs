//! A scale of words as dots on one rule: which degree is which doneness.

use super::rule::Rule;
use super::{dot, picture, text, upright};
use maud::{Markup, html};

/// A word at a value.
#[derive(Clone, Debug, PartialEq)]
pub struct Dot {
    /// The value, in the rule's unit.
    pub at: f64,
    /// The value as it is shown.
    pub figure: String,
    /// The word.
    pub word: String,
}

/// Dots with their figures above and, where `chosen`, their words below, in two lines so that neighbours keep apart.
#[must_use]
pub fn dots(rule: &Rule, unit: f64, dots: &[Dot], chosen: bool, sentence: &str) -> Markup {
    let (mark, figure) = if chosen { ("ptr", "m ta") } else { ("dot", "m ti") };
    let ticks = ((rule.high() - rule.low()) / unit).round() as i64;
    let base = 30.0;
    let body = html! {
        (super::line((rule.x(rule.low()), base), (rule.x(rule.high()), base), "ax"))
        @for step in 0..=ticks { (upright(rule.x(rule.low() + step as f64 * unit), base, base + 5.0, "ax")) }
        @for (place, point) in dots.iter().enumerate() {
            @let x = rule.x(point.at);
            (dot(x, base, 5.0, mark))
            (text(x, base - 12.0, figure, &point.figure))
            @if chosen { (text(x, if place % 2 == 0 { base + 22.0 } else { base + 40.0 }, "m", &point.word)) }
        }
    };
    picture(if chosen { 78.0 } else { 40.0 }, sentence, &body)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_stand_under_the_chosen_scale_only() {
        let rare = Dot { at: 50.0, figure: "50".into(), word: "rare".into() };
        let rule = Rule::new(48.0, 80.0).between(0.0, 100.0);
        let chosen = dots(&rule, 4.0, std::slice::from_ref(&rare), true, "Rare 50.").into_string();
        assert!(chosen.contains(">rare<"));
        assert!(!dots(&rule, 4.0, &[rare], false, "Rare 50.").into_string().contains(">rare<"));
    }
}
