//! Several bands on one rule, a row each, against another value: prices at the case, hours against a limit.

use super::gambrel::{Span, other_value, with_figure};
use super::rule::{Graduation, Rule};
use super::{picture, row_name};
use maud::{Markup, html};

/// A row of the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its name, bold.
    pub name: String,
    /// A few plain words after it, at the left; keep them short enough for a fifth of a phone's width.
    pub more: String,
    /// The band, in the rule's unit.
    pub span: Span,
    /// The middle as it is shown.
    pub figure: String,
}

/// Another value on the same rule.
#[derive(Clone, Debug, PartialEq)]
pub struct Other {
    /// The value.
    pub at: f64,
    /// Its word, `counter 38.50`.
    pub word: String,
}

const ROW: f64 = 54.0;

/// Rows of gambrels over one rule that holds them all and the other value.
#[must_use]
pub fn bands(rows: &[Row], other: Option<&Other>, sentence: &str, figure: impl Fn(f64) -> String) -> Markup {
    let mut values: Vec<f64> = rows.iter().flat_map(|row| [row.span.low, row.span.high]).collect();
    values.extend(other.map(|other| other.at));
    let (rule, graduation) = Rule::holding(&values);
    bands_on(rule, graduation, rows, other, sentence, figure)
}

/// The same on a rule that is given, so that several pictures share one.
#[must_use]
pub fn bands_on(
    rule: Rule,
    graduation: Graduation,
    rows: &[Row],
    other: Option<&Other>,
    sentence: &str,
    figure: impl Fn(f64) -> String,
) -> Markup {
    let rule = rule.between(20.0, 97.0);
    let base = 34.0 + ROW * rows.len() as f64;
    let body = html! {
        @if let Some(other) = other { (other_value(&rule, other.at, 22.0, base, &other.word)) }
        @for (place, row) in rows.iter().enumerate() {
            @let y = 58.0 + ROW * place as f64;
            (row_name(y + 5.0, &row.name, &row.more))
            (with_figure(&rule, y, row.span, &row.figure))
        }
        (rule.draw(base, graduation, |value| Some(figure(value))))
    };
    picture(base + 30.0, sentence, &body)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_for_each_and_one_line_for_the_other() {
        let row = |name: &str, low, middle, high| Row {
            name: name.into(),
            more: "6.40 kg".into(),
            span: Span::new(low, middle, high),
            figure: format!("{middle:.2}"),
        };
        let rows = [row("A", 28.6, 29.6, 30.7), row("B", 29.4, 30.5, 31.8)];
        let counter = Other { at: 38.5, word: "counter 38.50".into() };
        let drawn = bands(&rows, Some(&counter), "Prices.", |value| format!("{value:.0}")).into_string();
        assert_eq!(drawn.matches("class=\"gb\"").count(), 2);
        assert_eq!(drawn.matches("class=\"at\"").count(), 1);
        assert!(drawn.contains(">28<") && drawn.contains(">40<"));
    }
}
