//! Money: exact decimals with their currency beside them.

use rust_decimal::{Decimal, RoundingStrategy};
use std::fmt;
use thiserror::Error;

/// A currency by its three-letter code (ISO 4217 form; the list itself is not carried).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Currency([u8; 3]);

impl Currency {
    /// The euro.
    pub const EUR: Self = Self(*b"EUR");

    /// Reads a three-letter code such as `EUR`; lower case is taken as meant.
    ///
    /// # Errors
    /// [`MoneyError::NotACurrency`] unless it is three Latin letters.
    pub fn new(code: &str) -> Result<Self, MoneyError> {
        let bytes = code.trim().as_bytes();
        match bytes {
            [a, b, c] if bytes.iter().all(u8::is_ascii_alphabetic) => {
                Ok(Self([a, b, c].map(|letter| letter.to_ascii_uppercase())))
            }
            _ => Err(MoneyError::NotACurrency { found: code.to_owned() }),
        }
    }

    /// The code, three capital letters.
    #[must_use]
    pub fn code(&self) -> &str {
        std::str::from_utf8(&self.0).unwrap_or("XXX")
    }

    /// The sign people write, or the code where there is none in common use.
    #[must_use]
    pub fn sign(&self) -> &str {
        match &self.0 {
            b"EUR" => "€",
            b"USD" | b"CAD" | b"AUD" | b"NZD" => "$",
            b"GBP" => "£",
            b"JPY" => "¥",
            _ => self.code(),
        }
    }

    /// Digits after the point of the smallest coin: 2, but none for the yen, won and króna.
    #[must_use]
    pub fn decimals(&self) -> u32 {
        if matches!(&self.0, b"JPY" | b"KRW" | b"ISK") { 0 } else { 2 }
    }

    /// Whether the sign stands before the amount, as in `$13.43`.
    #[must_use]
    pub fn sign_first(&self) -> bool {
        matches!(self.sign(), "$" | "£" | "¥")
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.code())
    }
}

/// An exact amount of one currency.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Money {
    /// The amount, unrounded.
    pub amount: Decimal,
    /// Its currency.
    pub currency: Currency,
}

impl Money {
    /// Puts an amount and its currency together.
    #[must_use]
    pub const fn new(amount: Decimal, currency: Currency) -> Self {
        Self { amount, currency }
    }

    /// Rounded to the currency's smallest coin, half to even: the only place where money is rounded.
    #[must_use]
    pub fn to_coin(self) -> Self {
        let amount = self
            .amount
            .round_dp_with_strategy(self.currency.decimals(), RoundingStrategy::MidpointNearestEven);
        Self { amount, ..self }
    }
}

impl fmt::Display for Money {
    /// `29.60 €`, `$13.43`: rounded to the coin; a true minus; narrow no-break space before a trailing sign.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let coin = self.to_coin();
        let digits = format!("{:.*}", self.currency.decimals() as usize, coin.amount.abs());
        let minus = if coin.amount.is_sign_negative() && !coin.amount.is_zero() { "−" } else { "" };
        if self.currency.sign_first() {
            write!(f, "{minus}{}{digits}", self.currency.sign())
        } else {
            write!(f, "{minus}{digits}\u{202f}{}", self.currency.sign())
        }
    }
}

/// Why an amount could not be read.
#[derive(Debug, Error, PartialEq, Eq)]
pub enum MoneyError {
    /// Not a three-letter currency code.
    #[error("currency \"{found}\" is not a three-letter code; write EUR, USD, GBP or another such code")]
    NotACurrency {
        /// What stood there.
        found: String,
    },
}

#[cfg(test)]
mod tests {
    use super::*;

    fn euro(amount: &str) -> Money {
        Money::new(amount.parse().expect("a decimal"), Currency::EUR)
    }

    #[test]
    fn rounds_half_to_even_at_the_coin() {
        assert_eq!(euro("2.675").to_coin(), euro("2.68"));
        assert_eq!(euro("2.665").to_coin(), euro("2.66"));
        assert_eq!(euro("29.6").to_string(), "29.60\u{202f}€");
        assert_eq!(euro("-0.004").to_string(), "0.00\u{202f}€");
        let dollars =
            Money::new("-13.434".parse().expect("a decimal"), Currency::new("usd").expect("a code"));
        assert_eq!(dollars.to_string(), "−$13.43");
    }

    #[test]
    fn a_currency_is_three_letters() {
        assert!(Currency::new("€").is_err());
        assert!(Currency::new("EURO").is_err());
        assert_eq!(Currency::new("eur"), Ok(Currency::EUR));
    }
}
