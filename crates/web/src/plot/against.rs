//! Own against other, a row each: a dot for the one, a ring for the other, the line between is what was saved.

use super::rule::Rule;
use super::{dot, line, picture, row_name, text};
use maud::{Markup, html};

/// A row of the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its name, bold.
    pub name: String,
    /// One's own value and its figure.
    pub own: (f64, String),
    /// The other value and its figure, where it is known.
    pub other: Option<(f64, String)>,
}

const ROW: f64 = 46.0;

/// Rows over one rule that starts at zero, so that lengths compare.
#[must_use]
pub fn against(rows: &[Row], sentence: &str, figure: impl Fn(f64) -> String) -> Markup {
    let mut values = vec![0.0];
    values.extend(
        rows.iter().flat_map(|row| [Some(row.own.0), row.other.as_ref().map(|other| other.0)]).flatten(),
    );
    let (rule, graduation) = Rule::holding(&values);
    // Room on the right for a figure that begins at the last dot, on the narrowest phone too.
    let rule = rule.between(19.0, 86.0);
    let base = 14.0 + ROW * rows.len() as f64;
    let body = html! {
        @for (place, row) in rows.iter().enumerate() { (drawn(&rule, 30.0 + ROW * place as f64, row)) }
        (rule.draw(base, graduation, |value| Some(figure(value))))
    };
    picture(base + 30.0, sentence, &body)
}

fn drawn(rule: &Rule, y: f64, row: &Row) -> Markup {
    let own = rule.x(row.own.0);
    html! {
        (row_name(y + 5.0, &row.name, ""))
        @if let Some((value, figure)) = &row.other {
            @let other = rule.x(*value);
            (line((own, y), (other, y), "gb"))
            (dot(other, y, 5.0, "ring"))
            // Figures stand on the outer sides, so that two close ones keep apart.
            (text(own, y - 10.0, if other.0 >= own.0 { "e t" } else { "t" }, &row.own.1))
            (text(other, y - 10.0, if other.0 >= own.0 { "ti" } else { "e ti" }, figure))
        } @else {
            (text(own, y - 10.0, "m t", &row.own.1))
        }
        (dot(own, y, 5.0, "dot"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_without_the_other_value_has_its_dot_alone() {
        let row = |other| Row { name: "TARN".into(), own: (11.1, "11.10".into()), other };
        let drawn = against(&[row(Some((14.6, "14.62".into()))), row(None)], "Plates.", |value| {
            format!("{value:.0}")
        });
        let drawn = drawn.into_string();
        assert_eq!((drawn.matches("class=\"dot\"").count(), drawn.matches("class=\"ring\"").count()), (2, 1));
        assert!(drawn.contains(">0<"), "the rule starts at nothing");
    }
}
