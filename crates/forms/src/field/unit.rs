//! Units as keys write them, and the one each is reckoned in.

use rust_decimal::Decimal;

/// A unit a key can end in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Unit {
    Kilogram,
    Gram,
    Pound,
    Ounce,
    Millimetre,
    Centimetre,
    Inch,
    Celsius,
    Fahrenheit,
    /// A difference of temperatures, which has no zero to shift.
    CelsiusStep,
    FahrenheitStep,
    Second,
    Minute,
    Hour,
    /// An amount of the form's currency.
    Money,
    MoneyPerKg,
    MoneyPerLb,
    MoneyPerKgMonth,
    MoneyPerLbMonth,
    /// The stem is the whole key; the text is the unit in words.
    Plain(&'static str),
}

impl Unit {
    /// Every unit that may stand in this one's place.
    pub(crate) const fn family(self) -> &'static [Self] {
        match self {
            Self::Kilogram | Self::Gram | Self::Pound | Self::Ounce => {
                &[Self::Kilogram, Self::Gram, Self::Pound, Self::Ounce]
            }
            Self::Millimetre | Self::Centimetre | Self::Inch => {
                &[Self::Millimetre, Self::Centimetre, Self::Inch]
            }
            Self::Celsius | Self::Fahrenheit => &[Self::Celsius, Self::Fahrenheit],
            Self::CelsiusStep | Self::FahrenheitStep => &[Self::CelsiusStep, Self::FahrenheitStep],
            Self::Second | Self::Minute | Self::Hour => &[Self::Second, Self::Minute, Self::Hour],
            Self::MoneyPerKg | Self::MoneyPerLb => &[Self::MoneyPerKg, Self::MoneyPerLb],
            Self::MoneyPerKgMonth | Self::MoneyPerLbMonth => &[Self::MoneyPerKgMonth, Self::MoneyPerLbMonth],
            Self::Money | Self::Plain(_) => &[],
        }
    }

    /// The key of a quantity in this unit.
    pub(crate) fn key(self, stem: &str) -> String {
        match self {
            Self::Money | Self::Plain(_) => stem.to_owned(),
            _ if stem.is_empty() => self.suffix().to_owned(),
            _ => format!("{stem}_{}", self.suffix()),
        }
    }

    pub(crate) const fn suffix(self) -> &'static str {
        match self {
            Self::Kilogram => "kg",
            Self::Gram => "g",
            Self::Pound => "lb",
            Self::Ounce => "oz",
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Inch => "in",
            Self::Celsius | Self::CelsiusStep => "c",
            Self::Fahrenheit | Self::FahrenheitStep => "f",
            Self::Second => "s",
            Self::Minute => "min",
            Self::Hour => "h",
            Self::MoneyPerKg => "per_kg",
            Self::MoneyPerLb => "per_lb",
            Self::MoneyPerKgMonth => "per_kg_month",
            Self::MoneyPerLbMonth => "per_lb_month",
            Self::Money | Self::Plain(_) => "",
        }
    }

    /// The unit in words, as it stands behind a number.
    pub(crate) const fn words(self) -> &'static str {
        match self {
            Self::Kilogram => "kg",
            Self::Gram => "g",
            Self::Pound => "lb",
            Self::Ounce => "oz",
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Inch => "in",
            Self::Celsius | Self::CelsiusStep => "°C",
            Self::Fahrenheit | Self::FahrenheitStep => "°F",
            Self::Second => "s",
            Self::Minute => "min",
            Self::Hour => "h",
            Self::Money => "",
            Self::MoneyPerKg => "a kilo",
            Self::MoneyPerLb => "a pound",
            Self::MoneyPerKgMonth => "a kilo and month",
            Self::MoneyPerLbMonth => "a pound and month",
            Self::Plain(words) => words,
        }
    }

    /// Whether amounts in it are money, which may be written as text: `"38.50"`.
    pub(crate) const fn is_money(self) -> bool {
        matches!(
            self,
            Self::Money | Self::MoneyPerKg | Self::MoneyPerLb | Self::MoneyPerKgMonth | Self::MoneyPerLbMonth
        )
    }

    /// In the unit all of its family are reckoned in: g, mm, °C, s; money per kilo. `None` beyond exact decimals.
    pub(crate) fn to_base(self, value: Decimal) -> Option<Decimal> {
        if self == Self::Fahrenheit {
            let above = value.checked_sub(Decimal::from(32))?;
            return above.checked_mul(Decimal::from(5))?.checked_div(Decimal::from(9));
        }
        let (times, by) = self.factor();
        value.checked_mul(times)?.checked_div(by)
    }

    /// Back from the base unit, for the bounds in a message.
    pub(crate) fn out_of_base(self, base: f64) -> f64 {
        if self == Self::Fahrenheit {
            return base * 9.0 / 5.0 + 32.0;
        }
        let (times, by) = self.factor();
        let plain = |factor: Decimal| f64::try_from(factor).unwrap_or(1.0);
        base / plain(times) * plain(by)
    }

    /// The base unit is this much of it: a factor and a divisor, both exact.
    fn factor(self) -> (Decimal, Decimal) {
        let pound = Decimal::new(45_359_237, 5);
        match self {
            Self::Kilogram => (Decimal::ONE_THOUSAND, Decimal::ONE),
            Self::Pound => (pound, Decimal::ONE),
            Self::Ounce => (pound, Decimal::from(16)),
            Self::Centimetre => (Decimal::TEN, Decimal::ONE),
            Self::Inch => (Decimal::new(254, 1), Decimal::ONE),
            Self::FahrenheitStep => (Decimal::from(5), Decimal::from(9)),
            Self::Minute => (Decimal::from(60), Decimal::ONE),
            Self::Hour => (Decimal::from(3600), Decimal::ONE),
            Self::MoneyPerLb | Self::MoneyPerLbMonth => (Decimal::ONE_THOUSAND, pound),
            _ => (Decimal::ONE, Decimal::ONE),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{Length, Mass, Temperature};

    /// The exact decimal factors here and the floating ones of `quantity` say the same.
    #[test]
    fn agrees_with_the_quantities() {
        let base = |unit: Unit| {
            let value = unit.to_base(Decimal::new(1411, 2)).expect("small");
            f64::try_from(value).expect("small")
        };
        let close = |a: f64, b: f64| assert!((a - b).abs() < 1e-12 * b.abs(), "{a} {b}");
        close(base(Unit::Pound), Mass::from_lb(14.11).g());
        close(base(Unit::Ounce), Mass::from_oz(14.11).g());
        close(base(Unit::Kilogram), Mass::from_kg(14.11).g());
        close(base(Unit::Inch), Length::from_inch(14.11).mm());
        close(base(Unit::Fahrenheit), Temperature::from_f(14.11).c());
        for unit in [Unit::Pound, Unit::Inch, Unit::Fahrenheit, Unit::Hour, Unit::MoneyPerLb] {
            close(unit.out_of_base(base(unit)), 14.11);
        }
    }
}
