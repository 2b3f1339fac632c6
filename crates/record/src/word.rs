//! The four-letter word a piece is called by.

use crate::words::WORDS;
use std::fmt;

/// Four capital letters, as `TARN`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Word([u8; 4]);

impl Word {
    /// Reads a word in either case; nothing unless it is four letters A to Z.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let letters: [u8; 4] = text.trim().as_bytes().try_into().ok()?;
        letters
            .iter()
            .all(u8::is_ascii_alphabetic)
            .then(|| Self(letters.map(|letter| letter.to_ascii_uppercase())))
    }

    /// The word as addresses have it, `tarn`.
    #[must_use]
    pub fn slug(&self) -> String {
        self.to_string().to_ascii_lowercase()
    }

    /// Whether one rubbed letter could turn one into the other.
    #[must_use]
    pub fn is_like(&self, other: &Self) -> bool {
        self.0.iter().zip(other.0).filter(|(a, b)| **a != *b).count() < 2
    }

    /// The first word of the fixed list that is unlike every word in use.
    pub(crate) fn next_free<'w>(used: impl Iterator<Item = &'w Self> + Clone) -> Option<Self> {
        WORDS
            .iter()
            .filter_map(|word| Self::read(word))
            .find(|word| used.clone().all(|other| !word.is_like(other)))
    }
}

impl Default for Word {
    /// The word of nothing, which no piece has.
    fn default() -> Self {
        Self(*b"----")
    }
}

impl fmt::Display for Word {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|letter| write!(f, "{}", char::from(*letter)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn a_rubbed_letter_never_makes_another_word() {
        assert!(WORDS.len() >= 200, "{}", WORDS.len());
        let words: Vec<Word> = WORDS.iter().map(|word| Word::read(word).unwrap()).collect();
        for (place, one) in words.iter().enumerate() {
            assert_eq!(one.to_string(), WORDS[place], "four capital letters");
            for other in &words[..place] {
                assert!(!one.is_like(other), "{one} and {other}");
            }
        }
    }

    /// First names in use in English, German or French that are also words a list like this would pick (from memory).
    /// It cannot prove that no name is in the list; it keeps those that were taken out from coming back.
    #[test]
    fn none_is_a_name() {
        let names = "ANNE ARIA AURA BECK BETH BILL CARL CLAY DALE DAWN DEAN DORY DREW EMMA ERIC EVAN FAYE FERN FORD \
                     GLEN GREG HANS HOPE HUGO IRIS IVAN JACK JADE JANE JEAN JOHN JUDE JUNE KARL KATE KENT KURT LANE \
                     LARS LENA LEON LILY LINN LISA LOLA LUCA LUKE MARA MARC MARK MAUD MAYA MICA MIKE MILA MINA NEIL \
                     NICK NINA NOAH NORA NOVA OLGA OMAR OPAL OTTO PAGE PAUL PIER REED ROSE ROSS RUBY RUTH RYAN SAGE \
                     SARA SEAN THEO TINA TOBY TODD TONY VERA WADE WREN YVES ZARA ZION";
        let names: BTreeSet<&str> = names.split_whitespace().collect();
        let found: Vec<&&str> = WORDS.iter().filter(|word| names.contains(**word)).collect();
        assert!(found.is_empty(), "{found:?}");
    }

    #[test]
    fn words_are_given_out_in_order_and_skip_what_is_like_one_in_use() {
        let used = [Word::read("tarn").unwrap(), Word::read("dust").unwrap()];
        // DUSK is one letter from DUST, which somebody chose.
        assert_eq!(Word::next_free(used.iter()).unwrap().to_string(), "KELP");
        assert_eq!(Word::read("TAR"), None);
        assert_eq!(Word::read("TÄRN"), None);
        assert_eq!(Word::read("TAR1"), None);
    }
}
