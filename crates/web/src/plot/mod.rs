//! The drawings: one rule graduated in the unit of the question, bands as small gambrels, and the pictures made of them.
//!
//! Every drawing is an SVG made on the server. A drawing along one axis has no `viewBox`: x stands in per cent of the
//! width and y and type in px, so that type keeps its size from a phone of 320 px to a laptop. Colours are classes, so
//! that the dark and the printed page follow. [`picture`] takes the one sentence that says the same in words; the same
//! numbers must stand in text nearby.
//!
//! | drawing | answers | module |
//! |---|---|---|
//! | rule, ticks | where on the unit | [`rule`] |
//! | gambrel | how sure | [`gambrel`] |
//! | hours to come | what next, and when | [`day`] |
//! | bands in rows | which of several; against a limit | [`bands`] |
//! | own against other | what was saved | [`against`] |
//! | bars of parts | where the grams and the money are | [`parts`] |
//! | the piece | where the marks are | [`piece`] |
//! | step lines | what runs along the piece | [`profile`] |
//! | pairs | which go together | [`pairs`] |
//! | chain | what starts when | [`chain`] |
//! | months | how long it has lain | [`months`] |
//! | dots | which degree is which word | [`dots`] |
//! | ways | which way, on one clock | [`ways`] |
//! | slice | how grey, how pink | [`mod@slice`] |

pub mod against;
pub mod bands;
pub mod chain;
pub mod day;
pub mod dots;
pub mod gambrel;
pub mod months;
pub mod pairs;
pub mod parts;
pub mod piece;
pub mod profile;
pub mod rule;
pub mod slice;
pub mod ways;

use maud::{Markup, Render, html};

/// A place or length in per cent of a drawing's width, printed to a hundredth: `12.40%`.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Percent(pub f64);

impl Render for Percent {
    fn render_to(&self, buffer: &mut String) {
        use std::fmt::Write as _;
        // Writing to a String cannot fail.
        let _ = write!(buffer, "{:.2}%", self.0);
    }
}

/// A height or a vertical place in px, printed without needless digits.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Px(pub f64);

impl Render for Px {
    fn render_to(&self, buffer: &mut String) {
        use std::fmt::Write as _;
        // Writing to a String cannot fail.
        let _ = write!(buffer, "{}", (self.0 * 10.0).round() / 10.0);
    }
}

/// A drawing as wide as its column and `height` px high; `sentence` says the answer and its band in words.
#[must_use]
pub fn picture(height: f64, sentence: &str, body: &Markup) -> Markup {
    html! {
        svg class="draw" height=(Px(height)) role="img" aria-label=(sentence) { (body) }
    }
}

/// A piece of text at a place.
#[must_use]
pub fn text(x: Percent, y: f64, class: &str, words: &str) -> Markup {
    html! { text x=(x) y=(Px(y)) class=(class) { (words) } }
}

/// A straight line between two places.
#[must_use]
pub fn line(from: (Percent, f64), to: (Percent, f64), class: &str) -> Markup {
    html! { line x1=(from.0) y1=(Px(from.1)) x2=(to.0) y2=(Px(to.1)) class=(class) {} }
}

/// An upright line at one place.
#[must_use]
pub fn upright(x: Percent, top: f64, bottom: f64, class: &str) -> Markup {
    line((x, top), (x, bottom), class)
}

/// A dot of `radius` px.
#[must_use]
pub fn dot(x: Percent, y: f64, radius: f64, class: &str) -> Markup {
    html! { circle cx=(x) cy=(Px(y)) r=(Px(radius)) class=(class) {} }
}

/// A hairline across the whole drawing, between two rows.
#[must_use]
pub fn hairline(y: f64) -> Markup {
    line((Percent(0.0), y), (Percent(100.0), y), "gl")
}

/// The name of a row: a bold word, then plain ones.
#[must_use]
pub fn row_name(y: f64, bold: &str, plain: &str) -> Markup {
    html! {
        text x="0" y=(Px(y)) class="ti" { tspan class="t" { (bold) } @if !plain.is_empty() { "  " (plain) } }
    }
}

/// Where a word centred on `x` should be anchored so that it stays inside the drawing: its class and its place.
/// `letters` is its length; a letter is taken as 2 % of the narrowest drawing (7 px of 340).
#[must_use]
pub fn anchored(x: Percent, letters: usize) -> (&'static str, Percent) {
    let half = letters as f64;
    if x.0 + half > 103.0 {
        ("e", Percent(100.0))
    } else if x.0 - half < -3.0 {
        ("", Percent(0.0))
    } else {
        ("m", x)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_picture_is_an_image_with_its_sentence() {
        let drawn = picture(36.0, "A bar of 6 400 grams.", &upright(Percent(50.0), 4.0, 30.0, "at"));
        assert_eq!(
            drawn.into_string(),
            "<svg class=\"draw\" height=\"36\" role=\"img\" aria-label=\"A bar of 6 400 grams.\">\
             <line x1=\"50.00%\" y1=\"4\" x2=\"50.00%\" y2=\"30\" class=\"at\"></line></svg>"
        );
    }

    #[test]
    fn a_long_word_at_the_edge_is_turned_inward() {
        assert_eq!(anchored(Percent(97.0), 5), ("m", Percent(97.0)));
        assert_eq!(anchored(Percent(97.0), 12), ("e", Percent(100.0)));
        assert_eq!(anchored(Percent(2.0), 12), ("", Percent(0.0)));
    }
}
