//! What a scale may be wrong by.

use crate::Grams;
use rust_decimal::Decimal;

/// Accuracy class of a scale (OIML R 76; the rows below as the UK's SI 1995/1907 prints them).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Class {
    /// Ordinary shop and kitchen scales.
    Three,
    /// Coarse scales.
    Four,
}

/// A scale: its class and its division.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Scale {
    /// Accuracy class.
    pub class: Class,
    /// The division e, the smallest step it shows.
    pub division: Grams,
}

impl Scale {
    /// The label of a piece: a shop's 15 kg scale with a division of 5 g (OIML's own example of class III).
    pub const SHOP: Self =
        Self { class: Class::Three, division: Grams::new(Decimal::from_parts(5, 0, 0, false, 0)) };
    /// A kitchen scale that shows single grams, taken as class III.
    pub const KITCHEN: Self = Self { class: Class::Three, division: Grams::new(Decimal::ONE) };

    /// The largest error allowed in service for this load: one, two or three divisions.
    ///
    /// Above the last row of the table the last row holds.
    ///
    /// # Source
    /// SI 1995/1907 (published): class III to 500 e, 2 000 e, 10 000 e; class IIII to 50, 200, 1 000; in service twice the
    /// initial limit.
    #[must_use]
    pub fn error_in_service(self, load: Grams) -> Grams {
        let steps = match self.class {
            Class::Three => [500, 2_000],
            Class::Four => [50, 200],
        };
        let divisions = steps
            .iter()
            .position(|&step| load.abs().g() <= self.division.g().saturating_mul(Decimal::from(step)))
            .map_or(3, |at| at as i64 + 1);
        Grams::new(self.division.g().saturating_mul(Decimal::from(divisions)))
    }

    /// The largest error allowed when the scale is verified: half of that in service.
    #[must_use]
    pub fn error_initially(self, load: Grams) -> Grams {
        Grams::new(self.error_in_service(load).g() / Decimal::TWO)
    }
}

/// The two scales a piece meets: the one behind its label and the one at the board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Scales {
    /// The scale of the piece as purchased.
    pub label: Scale,
    /// The scale of parts and purge.
    pub board: Scale,
}

impl Default for Scales {
    fn default() -> Self {
        Self { label: Scale::SHOP, board: Scale::KITCHEN }
    }
}
