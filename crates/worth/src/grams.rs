//! Grams and prices per mass as exact decimals, so that a ledger closes to the last digit.

use rust_decimal::Decimal;
use std::iter::Sum;
use std::ops::{Add, Neg, Sub};

/// Grams in a pound: exact by definition (international yard and pound, 1959).
const GRAMS_PER_LB: Decimal = Decimal::from_parts(45_359_237, 0, 0, false, 5);
/// Grams in an ounce: a sixteenth of a pound, exact.
const GRAMS_PER_OZ: Decimal = Decimal::from_parts(2_579_719_349, 6, 0, false, 9);
const GRAMS_PER_KG: Decimal = Decimal::ONE_THOUSAND;

/// An exact mass in grams.
///
/// Sums saturate instead of overflowing; [`crate::worth`] refuses anything near that size.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Grams(Decimal);

impl Grams {
    /// Nothing.
    pub const ZERO: Self = Self(Decimal::ZERO);

    /// From grams.
    #[must_use]
    pub const fn new(grams: Decimal) -> Self {
        Self(grams)
    }
    /// From kilograms.
    #[must_use]
    pub fn from_kg(kilograms: Decimal) -> Self {
        Self(kilograms.saturating_mul(GRAMS_PER_KG))
    }
    /// From avoirdupois pounds.
    #[must_use]
    pub fn from_lb(pounds: Decimal) -> Self {
        Self(pounds.saturating_mul(GRAMS_PER_LB))
    }
    /// From avoirdupois ounces.
    #[must_use]
    pub fn from_oz(ounces: Decimal) -> Self {
        Self(ounces.saturating_mul(GRAMS_PER_OZ))
    }
    /// As a number of grams.
    #[must_use]
    pub const fn g(self) -> Decimal {
        self.0
    }
    /// As a number of kilograms.
    #[must_use]
    pub fn kg(self) -> Decimal {
        self.0 / GRAMS_PER_KG
    }
    /// Without its sign.
    #[must_use]
    pub fn abs(self) -> Self {
        Self(self.0.abs())
    }
}

impl Add for Grams {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}
impl Sub for Grams {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}
impl Neg for Grams {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}
impl Sum for Grams {
    fn sum<I: Iterator<Item = Self>>(grams: I) -> Self {
        grams.fold(Self::ZERO, Add::add)
    }
}

/// Money per mass, kept as it was said (per kilo or per pound) so that 9 lb at 6.11 come to 54.99 and not to a cent less.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PerMass {
    amount: Decimal,
    per: Grams,
}

impl PerMass {
    /// An amount for each kilogram.
    #[must_use]
    pub const fn per_kg(amount: Decimal) -> Self {
        Self { amount, per: Grams(GRAMS_PER_KG) }
    }
    /// An amount for each avoirdupois pound.
    #[must_use]
    pub const fn per_lb(amount: Decimal) -> Self {
        Self { amount, per: Grams(GRAMS_PER_LB) }
    }
    /// The amount as it was said.
    #[must_use]
    pub const fn amount(self) -> Decimal {
        self.amount
    }
    /// What a kilo comes to, unrounded.
    #[must_use]
    pub fn a_kilo(self) -> Option<Decimal> {
        self.of(Grams(GRAMS_PER_KG))
    }
    /// The same unit of mass with another amount.
    #[must_use]
    pub const fn with_amount(self, amount: Decimal) -> Self {
        Self { amount, per: self.per }
    }
    /// What this mass comes to, unrounded; `None` where the product would not fit a decimal.
    #[must_use]
    pub fn of(self, mass: Grams) -> Option<Decimal> {
        self.amount.checked_mul(mass.0)?.checked_div(self.per.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn decimal(text: &str) -> Decimal {
        text.parse().expect("a decimal")
    }

    /// fabrication.toml, conversion (exact definitions, published): 453.59237 g a pound, 28.349523125 g an ounce, 16 to it.
    #[test]
    fn pound_and_ounce_are_the_exact_ones() {
        assert_eq!(Grams::from_lb(Decimal::ONE).g(), decimal("453.59237"));
        assert_eq!(Grams::from_oz(Decimal::ONE).g(), decimal("28.349523125"));
        assert_eq!(Grams::from_oz(decimal("16")), Grams::from_lb(Decimal::ONE));
    }

    #[test]
    fn a_price_per_pound_stays_exact() {
        let paid = PerMass::per_lb(decimal("6.11")).of(Grams::from_lb(decimal("9.0")));
        assert_eq!(paid, Some(decimal("54.99")));
    }

    #[test]
    fn nothing_overflows() {
        assert_eq!(Grams::from_kg(Decimal::MAX) + Grams::from_kg(Decimal::MAX), Grams(Decimal::MAX));
        assert_eq!(PerMass::per_kg(Decimal::MAX).of(Grams::from_kg(Decimal::MAX)), None);
    }
}
