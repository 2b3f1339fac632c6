//! A rule of months with today on it, and on each pack's own line how long it has lain and what still bounds it.

use super::gambrel::{Span, gambrel};
use super::rule::Rule;
use super::{Percent, line, picture, text, upright};
use maud::{Markup, html};

/// A year and a half or more of months; places are days from its first.
#[derive(Clone, Debug, PartialEq)]
pub struct Calendar {
    rule: Rule,
    /// Today.
    pub today: f64,
    /// Where each month begins and, where it is to be named, its name.
    pub months: Vec<(f64, Option<String>)>,
}

/// What is known of one pack, in days of the calendar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lain {
    /// Since when.
    pub since: f64,
    /// What bounds it.
    pub until: Option<Until>,
}

/// What bounds the time a pack lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Until {
    /// A rule's span, from and to: it has no middle, and says nothing of how likely.
    Rule(f64, f64),
    /// A forecast.
    Band(Span),
}

impl Until {
    fn low(self) -> f64 {
        match self {
            Self::Rule(low, _) | Self::Band(Span { low, .. }) => low,
        }
    }
}

impl Calendar {
    /// A calendar of `days` days.
    #[must_use]
    pub fn new(days: f64, today: f64, months: Vec<(f64, Option<String>)>) -> Self {
        Self { rule: Rule::new(0.0, days).between(0.0, 100.0), today, months }
    }

    /// The head over the lines: month ticks, some names, today.
    #[must_use]
    pub fn head(&self) -> Markup {
        let today = self.rule.x(self.today);
        let body = html! {
            @for (day, name) in &self.months {
                @let x = self.rule.x(*day);
                (upright(x, 22.0, if name.is_some() { 31.0 } else { 27.0 }, "ax"))
                @if let Some(name) = name.as_ref().filter(|_| (x.0 - today.0).abs() > 14.0) {
                    (text(x, 14.0, "m on", name))
                }
            }
            (line((Percent(0.0), 22.0), (Percent(100.0), 22.0), "ax"))
            (text(Percent(today.0.clamp(7.5, 92.5)), 14.0, "m on t", "today"))
        };
        html! { svg class="draw cal" height="34" aria-hidden="true" { (body) } }
    }

    /// The line of one pack.
    #[must_use]
    pub fn line(&self, lain: Lain, sentence: &str) -> Markup {
        let (since, today) = (self.rule.x(lain.since), self.rule.x(self.today));
        let body = html! {
            (line((since, 16.0), (today, 16.0), "ln"))
            @if let Some(until) = lain.until {
                @if until.low() > self.today { (line((today, 16.0), (self.rule.x(until.low()), 16.0), "thin dash")) }
                @match until {
                    Until::Rule(low, high) => (span(&self.rule, low, high)),
                    Until::Band(band) => (gambrel(&self.rule, 16.0, band)),
                }
            }
            (upright(today, 2.0, 28.0, "at"))
        };
        picture(30.0, sentence, &body)
    }
}

/// The span of a rule: two ends and what lies between.
fn span(rule: &Rule, low: f64, high: f64) -> Markup {
    let (low, high) = (rule.x(low), rule.x(high));
    html! {
        (line((low, 16.0), (high, 16.0), "ax"))
        (upright(low, 11.0, 21.0, "at"))
        (upright(high, 11.0, 21.0, "at"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_that_would_run_into_today_is_left_away() {
        let months = vec![(0.0, Some("Apr".into())), (30.0, None), (100.0, Some("Jul".into()))];
        let drawn = Calendar::new(400.0, 110.0, months).head().into_string();
        assert!(drawn.contains("Apr") && !drawn.contains("Jul") && drawn.contains("today"));
    }

    #[test]
    fn without_a_bound_only_the_time_it_has_lain_is_drawn() {
        let calendar = Calendar::new(400.0, 110.0, vec![]);
        let drawn = calendar.line(Lain { since: 20.0, until: None }, "Frozen 20 April.").into_string();
        assert!(!drawn.contains("gb") && drawn.contains("ln"));
    }
}
