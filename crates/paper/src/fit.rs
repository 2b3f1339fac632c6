//! Text made to fit: cleaned, squeezed, made smaller, cut, in this order, by the font's own advance widths.

use crate::drawing::Line;
use crate::face::{Face, Faces, Weight};

/// Below this share of their width bold capitals clog when printed by heat.
const TIGHTEST: f64 = 0.7;
/// A name made smaller than this share of its height no longer reads through frost, so the rest is cut instead.
const SMALLEST: f64 = 0.4;
/// Stands for a letter the font has no shape for.
const MISSING: char = '\u{fffd}';

/// Sets text in one typeface.
pub(crate) struct Setter<'a> {
    pub(crate) face: &'a Face,
    weight: Weight,
}

impl<'a> Setter<'a> {
    pub(crate) const fn new(faces: &'a Faces, weight: Weight) -> Self {
        Self { face: faces.of(weight), weight }
    }

    /// The em at which a flat capital is `height` mm high.
    pub(crate) fn em_for_capitals(&self, height: f64) -> f64 {
        height / self.face.cap_height
    }

    /// Width in mm of cleaned text.
    pub(crate) fn width(&self, text: &str, em: f64) -> f64 {
        self.face.width(&self.clean(text)) * em
    }

    /// A line of running text from `x`, cut with `…` where the room ends.
    pub(crate) fn running(&self, text: &str, x: f64, baseline: f64, em: f64, room: f64) -> Line {
        self.line(self.cut(&self.clean(text), room / em), x, baseline, em, 1.0)
    }

    /// A name whose height matters more than its width and whose end matters as much as its beginning: squeezed
    /// first, then made smaller, cut only when both are spent.
    pub(crate) fn name(&self, text: &str, x: f64, baseline: f64, em: f64, room: f64) -> Line {
        let text = self.clean(text);
        let share = room / (self.face.width(&text) * em);
        if share >= 1.0 {
            return self.line(text, x, baseline, em, 1.0);
        }
        if share >= TIGHTEST {
            return self.line(text, x, baseline, em, share);
        }
        let em = em * (share / TIGHTEST).max(SMALLEST);
        self.line(self.cut(&text, room / (em * TIGHTEST)), x, baseline, em, TIGHTEST)
    }

    fn line(&self, text: String, x: f64, baseline: f64, em: f64, squeeze: f64) -> Line {
        let width = self.face.width(&text) * em * squeeze;
        Line { x, baseline, em, squeeze, weight: self.weight, text, width }
    }

    /// The longest beginning of the text that leaves room for `…`; nothing where not even that fits.
    fn cut(&self, text: &str, room_ems: f64) -> String {
        // A hair of slack: a room computed from the same widths must not lose its last letter to rounding.
        let room = room_ems + 1e-9;
        if self.face.width(text) <= room {
            return text.to_owned();
        }
        let mut left = room - self.face.advance('…');
        if left < 0.0 {
            return String::new();
        }
        let kept = text.chars().take_while(|&letter| {
            left -= self.face.advance(letter);
            left >= 0.0
        });
        let mut kept: String = kept.collect();
        kept.truncate(kept.trim_end().len());
        kept.push('…');
        kept
    }

    /// One line of letters the typeface has: breaks become spaces, what has no width of its own is dropped, what has
    /// no shape is shown as missing.
    fn clean(&self, text: &str) -> String {
        let shown = text.chars().filter(|letter| !is_ignorable(*letter)).map(|letter| match letter {
            letter if letter.is_control() || letter.is_whitespace() && !self.face.has(letter) => ' ',
            letter if self.face.has(letter) => letter,
            _ => MISSING,
        });
        shown.collect::<String>().trim().to_owned()
    }
}

/// Characters that steer layout and have no shape (Unicode, `Default_Ignorable_Code_Point`): joiners, directions,
/// soft hyphens, variation selectors, tags. A direction mark must not survive, it could turn a number round.
const fn is_ignorable(letter: char) -> bool {
    matches!(letter,
        '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{115f}'..='\u{1160}' | '\u{17b4}'..='\u{17b5}' | '\u{180b}'..='\u{180f}'
        | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{3164}'
        | '\u{fe00}'..='\u{fe0f}' | '\u{feff}' | '\u{ffa0}' | '\u{fff0}'..='\u{fff8}' | '\u{1bca0}'..='\u{1bca3}'
        | '\u{1d173}'..='\u{1d17a}' | '\u{e0000}'..='\u{e0fff}')
}

#[cfg(test)]
mod tests {
    use super::*;

    fn with_bold(check: impl Fn(&Setter)) {
        let faces = Faces::open().unwrap();
        check(&Setter::new(&faces, Weight::Bold));
    }

    #[test]
    fn what_fits_is_left_alone() {
        with_bold(|bold| {
            let line = bold.name("TARN", 0.0, 0.0, 10.0, 100.0);
            assert_eq!((line.text.as_str(), line.squeeze, line.em), ("TARN", 1.0, 10.0));
        });
    }

    #[test]
    fn a_name_is_squeezed_before_it_shrinks_and_shrinks_before_it_is_cut() {
        with_bold(|bold| {
            let natural = bold.width("TARN", 10.0);
            let squeezed = bold.name("TARN", 0.0, 0.0, 10.0, natural * 0.8);
            assert!((squeezed.squeeze - 0.8).abs() < 1e-9 && squeezed.em == 10.0);
            let smaller = bold.name("TARN", 0.0, 0.0, 10.0, natural * 0.5);
            assert!(smaller.em < 10.0 && smaller.text == "TARN");
            let cut = bold.name("TARN", 0.0, 0.0, 10.0, natural * 0.2);
            assert!(cut.text.ends_with('…') && cut.text.starts_with('T'), "{}", cut.text);
            for line in [squeezed, smaller, cut] {
                assert!(line.width <= natural * 0.8 + 1e-9);
            }
        });
    }

    #[test]
    fn a_letter_without_a_shape_is_shown_as_missing() {
        with_bold(|bold| {
            assert_eq!(bold.clean("山 roll"), "\u{fffd} roll");
            assert_eq!(bold.clean("a\tb\u{202e}c\n"), "a bc");
        });
    }
}
