//! Pairs on one rule of thickness: two dots and a line each, the pair at hand in blue.

use super::rule::Rule;
use super::{Px, dot, line, picture};
use maud::{Markup, html};

/// Two portions that share a bag.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    /// Their name, `11+12`.
    pub name: String,
    /// Thickness of the one and of the other, in the rule's unit.
    pub thickness: (f64, f64),
    /// Whether it is the pair at hand.
    pub now: bool,
}

const ROW: f64 = 19.0;

/// A line a pair over one rule, first pair at the bottom.
#[must_use]
pub fn pairs(pairs: &[Pair], sentence: &str, figure: impl Fn(f64) -> String) -> Markup {
    let values: Vec<f64> = pairs.iter().flat_map(|pair| [pair.thickness.0, pair.thickness.1]).collect();
    let (rule, graduation) = Rule::holding(&values);
    let rule = rule.between(4.0, 96.0);
    let base = 17.0 + ROW * pairs.len() as f64;
    let body = html! {
        (rule.draw(base, graduation, |value| Some(figure(value))))
        @for (place, pair) in pairs.iter().enumerate() {
            (drawn(&rule, base - 14.0 - ROW * place as f64, pair))
        }
    };
    picture(base + 30.0, sentence, &body)
}

fn drawn(rule: &Rule, y: f64, pair: &Pair) -> Markup {
    let (thin, thick) = (pair.thickness.0.min(pair.thickness.1), pair.thickness.0.max(pair.thickness.1));
    let (low, high) = (rule.x(thin), rule.x(thick));
    let (bar, point, radius, word) =
        if pair.now { ("gb", "ptr", 5.0, "ta") } else { ("thin", "dot", 4.0, "") };
    // The name stands on the side with more room.
    let inside = high.0 > 62.0;
    html! {
        (line((low, y), (high, y), bar))
        (dot(low, y, radius, point))
        (dot(high, y, radius, point))
        svg x=(if inside { low } else { high }) y=(Px(y)) overflow="visible" {
            text x=(if inside { "-10" } else { "10" }) y="5" class={ (if inside { "e " } else { "" }) (word) } {
                (pair.name)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_dots_and_a_line_each() {
        let pair = |name: &str, one, other, now| Pair { name: name.into(), thickness: (one, other), now };
        let drawn =
            pairs(&[pair("1+2", 28.4, 28.8, false), pair("11+12", 31.1, 31.1, true)], "Pairs.", |mm| {
                format!("{mm:.1}")
            })
            .into_string();
        assert_eq!(drawn.matches("<circle").count(), 4);
        assert_eq!(drawn.matches("class=\"ptr\"").count(), 2);
        assert!(drawn.contains("1+2") && drawn.contains("11+12"));
    }
}
