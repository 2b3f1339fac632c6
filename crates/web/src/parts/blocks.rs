//! The answer, sentences, sections, rows, official rules, verdicts, what would narrow an answer.

use maud::{Markup, Render, html};

/// The large sentence under the heading; mark its readings with `strong`.
#[must_use]
pub fn answer(words: impl Render) -> Markup {
    html! { p class="answer" { (words) } }
}

/// A sentence in the serif.
#[must_use]
pub fn said(words: impl Render) -> Markup {
    html! { p class="said" { (words) } }
}

/// A section with its heading; `id` is unique on the page.
#[must_use]
pub fn section(id: &str, heading: &str, body: impl Render) -> Markup {
    html! {
        section aria-labelledby=(id) {
            h2 id=(id) { (heading) }
            (body)
        }
    }
}

/// A row of buttons; the first is the page's entry.
#[must_use]
pub fn acts(buttons: impl Render) -> Markup {
    html! { div class="acts" { (buttons) } }
}

/// A link or plain words in a list of rows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Where it leads, if anywhere.
    pub link: Option<String>,
    /// What it says.
    pub words: String,
    /// A second line, smaller.
    pub more: Option<String>,
}

/// A list of rows.
#[must_use]
pub fn rows(items: &[Row]) -> Markup {
    html! {
        ul class="rows" {
            @for item in items {
                li { (row(item.link.as_deref(), html! { span { (item.words) @if let Some(more) = &item.more { small { (more) } } } })) }
            }
        }
    }
}

/// Rows of an hour and an act; the first is next.
#[must_use]
pub fn steps(items: &[(String, Row)]) -> Markup {
    html! {
        ol class="rows steps" {
            @for (place, (time, item)) in items.iter().enumerate() {
                li class=[(place == 0).then_some("now")] {
                    (row(item.link.as_deref(), html! {
                        time { (time) }
                        span { (item.words) @if let Some(more) = &item.more { small { (more) } } }
                    }))
                }
            }
        }
    }
}

/// One row: a link where it leads somewhere.
#[must_use]
pub fn row(link: Option<&str>, body: impl Render) -> Markup {
    html! {
        @match link {
            Some(link) => a class="row" href=(link) { (body) },
            None => div class="row" { (body) },
        }
    }
}

/// An official rule in our words, under it its authority. What it means here is a sentence of its own, outside.
#[must_use]
pub fn law(rule: &str, authority: &str) -> Markup {
    html! {
        div class="law" {
            p { (rule) }
            cite { (authority) }
        }
    }
}

/// A verdict: one word in the largest serif, with a full stop.
#[must_use]
pub fn verdict(word: &str) -> Markup {
    html! { p class="verdict" { (word) "." } }
}

/// The one measurement that would narrow the answer, beside a double line. Its field stands under it.
#[must_use]
pub fn narrow(sentence: impl Render) -> Markup {
    html! { p class="said narrow" { (sentence) } }
}

/// What is overdue or refused: an amber line on the left.
#[must_use]
pub fn overdue(words: impl Render) -> Markup {
    html! { span class="heed" { (words) } }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rule_and_its_authority_stand_together_without_quotation_marks() {
        let drawn = law("Whole steaks: 62.8 °C and three minutes’ rest.", "US Department of Agriculture")
            .into_string();
        assert_eq!(
            drawn,
            "<div class=\"law\"><p>Whole steaks: 62.8 °C and three minutes’ rest.</p>\
             <cite>US Department of Agriculture</cite></div>"
        );
    }

    #[test]
    fn only_a_row_that_leads_somewhere_is_a_link() {
        let plain = Row { link: None, words: "Nothing".into(), more: None };
        let led = Row { link: Some("/store".into()), ..plain.clone() };
        let drawn = rows(&[plain, led]).into_string();
        assert_eq!(drawn.matches("<a ").count(), 1);
        assert_eq!(drawn.matches("class=\"row\"").count(), 2);
    }
}
