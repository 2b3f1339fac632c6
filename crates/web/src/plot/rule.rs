//! The rule: a base line, a short tick per unit, a long tick and a figure per main unit.

use super::{Percent, Px, line, upright};
use maud::{Markup, html};

/// A length of rule: values of one unit laid between two places of the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rule {
    low: f64,
    high: f64,
    left: f64,
    right: f64,
}

/// How a rule is graduated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Graduation {
    /// A short tick each.
    pub unit: f64,
    /// A long tick and a figure each; a whole number of units.
    pub main: f64,
}

impl Rule {
    /// A rule from `low` to `high` over the width less 3 % on either side, where half a figure stands over.
    #[must_use]
    pub fn new(low: f64, high: f64) -> Self {
        let high = if high > low { high } else { low + 1.0 };
        Self { low, high, left: 3.0, right: 97.0 }
    }

    /// The rule that holds all `values` and ends on main ticks, with the graduation that gives it four to eight figures.
    /// Values that are not numbers are left out; with none at all it runs from 0 to 1.
    #[must_use]
    pub fn holding(values: &[f64]) -> (Self, Graduation) {
        let finite = values.iter().copied().filter(|value| value.is_finite());
        let (low, high) =
            finite.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)));
        if low > high {
            return (Self::new(0.0, 1.0), Graduation { unit: 0.5, main: 1.0 });
        }
        let span = (high - low).max(f64::EPSILON.max(high.abs() * 0.02));
        let graduation = Graduation::for_span(span);
        let main = graduation.main;
        let floor = (low / main).floor() * main;
        let ceiling = (high / main).ceil() * main;
        (Self::new(floor, if ceiling > floor { ceiling } else { floor + main }), graduation)
    }

    /// The same rule between two other places, per cent of the width.
    #[must_use]
    pub fn between(self, left: f64, right: f64) -> Self {
        Self { left, right, ..self }
    }

    /// First value.
    #[must_use]
    pub fn low(&self) -> f64 {
        self.low
    }

    /// Last value.
    #[must_use]
    pub fn high(&self) -> f64 {
        self.high
    }

    /// Where a value stands; beyond the ends it stays at the end.
    #[must_use]
    pub fn x(&self, value: f64) -> Percent {
        let share = ((value - self.low) / (self.high - self.low)).clamp(0.0, 1.0);
        Percent(self.left + share * (self.right - self.left))
    }

    /// Width of a span of values, per cent of the drawing.
    #[must_use]
    pub fn width(&self, from: f64, to: f64) -> Percent {
        Percent((self.x(to).0 - self.x(from).0).max(0.0))
    }

    /// Draws the rule at height `y`; `figure` gives the word under a main tick, or nothing.
    #[must_use]
    pub fn draw(&self, y: f64, graduation: Graduation, figure: impl Fn(f64) -> Option<String>) -> Markup {
        let steps_per_main = (graduation.main / graduation.unit).round().max(1.0) as i64;
        let first = (self.low / graduation.unit - 1e-9).ceil() as i64;
        let last = (self.high / graduation.unit + 1e-9).floor() as i64;
        html! {
            (line((self.x(self.low), y), (self.x(self.high), y), "ax"))
            @for step in first..=last {
                @let value = step as f64 * graduation.unit;
                @let is_main = step.rem_euclid(steps_per_main) == 0;
                (upright(self.x(value), y, if is_main { y + 9.0 } else { y + 5.0 }, "ax"))
                @if is_main && let Some(words) = figure(value) {
                    text x=(self.x(value)) y=(Px(y + 24.0)) class="m" { (words) }
                }
            }
        }
    }
}

impl Graduation {
    /// Steps of 1, 2 or 5 times a power of ten that put four to eight figures on a span.
    #[must_use]
    pub fn for_span(span: f64) -> Self {
        let rough = span.max(f64::MIN_POSITIVE) / 7.0;
        let power = 10f64.powf(rough.log10().floor());
        let (times, parts) = match rough / power {
            ratio if ratio <= 1.0 => (1.0, 2.0),
            ratio if ratio <= 2.0 => (2.0, 2.0),
            ratio if ratio <= 5.0 => (5.0, 5.0),
            _ => (10.0, 2.0),
        };
        Self { unit: power * times / parts, main: power * times }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_stands_where_its_share_of_the_rule_is() {
        let rule = Rule::new(15.0, 20.0);
        assert_eq!(rule.x(15.0), Percent(3.0));
        assert_eq!(rule.x(20.0), Percent(97.0));
        assert!((rule.x(17.25).0 - 45.3).abs() < 0.01);
        assert_eq!(rule.x(99.0), Percent(97.0));
    }

    #[test]
    fn a_rule_that_holds_its_values_ends_on_figures() {
        let rows: [(&[f64], f64, f64, f64); 4] = [
            (&[28.4, 33.0, 38.5], 28.0, 40.0, 2.0),
            (&[0.0, 9.0], 0.0, 10.0, 2.0),
            (&[380.0], 380.0, 382.0, 2.0),
            (&[-19.4, -17.0], -19.5, -17.0, 0.5),
        ];
        for (values, low, high, main) in rows {
            let (rule, graduation) = Rule::holding(values);
            assert!((rule.low() - low).abs() < 1e-9, "{values:?} starts at {}", rule.low());
            assert!((rule.high() - high).abs() < 1e-9, "{values:?} ends at {}", rule.high());
            assert!((graduation.main - main).abs() < 1e-9, "{values:?} steps by {}", graduation.main);
        }
    }

    #[test]
    fn nothing_to_hold_is_still_a_rule() {
        let (rule, graduation) = Rule::holding(&[f64::NAN]);
        assert_eq!((rule.low(), rule.high()), (0.0, 1.0));
        let drawn = rule.draw(10.0, graduation, |value| Some(value.to_string())).into_string();
        assert_eq!(drawn.matches("<line").count(), 4);
        assert_eq!(drawn.matches("<text").count(), 2);
    }

    #[test]
    fn four_to_eight_figures_whatever_the_span() {
        for tenth in 1..2000 {
            let span = f64::from(tenth) / 10.0;
            let figures = (span / Graduation::for_span(span).main).floor() as i32 + 1;
            assert!((2..=8).contains(&figures), "{span} has {figures}");
        }
    }
}
