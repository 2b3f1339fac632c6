//! The newtypes over SI numbers.

use std::ops::{Add, Div, Mul, Neg, Sub};

/// Kilograms in a pound: exact by definition (international yard and pound, 1959).
pub(crate) const KG_PER_LB: f64 = 0.453_592_37;
/// Metres in an inch: exact by definition.
pub(crate) const M_PER_INCH: f64 = 0.0254;
const KG_PER_OZ: f64 = KG_PER_LB / 16.0;

macro_rules! linear {
    ($(#[$doc:meta])* $name:ident, $(($from:ident, $get:ident, $factor:expr, $unit:literal)),+) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            $(
                #[doc = concat!("From a number of ", $unit, ".")]
                #[must_use]
                pub const fn $from(value: f64) -> Self {
                    Self(value * $factor)
                }
                #[doc = concat!("As a number of ", $unit, ".")]
                #[must_use]
                pub const fn $get(self) -> f64 {
                    self.0 / $factor
                }
            )+
            /// Whether the number is neither infinite nor missing.
            #[must_use]
            pub const fn is_finite(self) -> bool {
                self.0.is_finite()
            }
        }

        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }
        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }
        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }
        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }
        impl Div<f64> for $name {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                Self(self.0 / divisor)
            }
        }
        impl Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }
        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
                Self(parts.map(|part| part.0).sum())
            }
        }
    };
}

linear!(
    /// A mass; inside, kilograms.
    Mass,
    (from_kg, kg, 1.0, "kilograms"),
    (from_g, g, 1e-3, "grams"),
    (from_lb, lb, KG_PER_LB, "avoirdupois pounds"),
    (from_oz, oz, KG_PER_OZ, "avoirdupois ounces")
);
linear!(
    /// A length; inside, metres.
    Length,
    (from_m, m, 1.0, "metres"),
    (from_cm, cm, 1e-2, "centimetres"),
    (from_mm, mm, 1e-3, "millimetres"),
    (from_inch, inch, M_PER_INCH, "inches")
);
linear!(
    /// A length of time; inside, seconds. (Moments are the calendar library's.)
    Span,
    (from_s, s, 1.0, "seconds"),
    (from_min, min, 60.0, "minutes"),
    (from_h, h, 3600.0, "hours")
);
linear!(
    /// A difference of two temperatures; inside, kelvins.
    TemperatureStep,
    (from_k, k, 1.0, "kelvins"),
    (from_f_step, f_step, 5.0 / 9.0, "Fahrenheit degrees")
);

/// A temperature; inside, degrees Celsius.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Temperature(f64);

impl Temperature {
    /// From degrees Celsius.
    #[must_use]
    pub const fn from_c(celsius: f64) -> Self {
        Self(celsius)
    }
    /// From degrees Fahrenheit.
    #[must_use]
    pub const fn from_f(fahrenheit: f64) -> Self {
        Self((fahrenheit - 32.0) * 5.0 / 9.0)
    }
    /// In degrees Celsius.
    #[must_use]
    pub const fn c(self) -> f64 {
        self.0
    }
    /// In degrees Fahrenheit.
    #[must_use]
    pub const fn f(self) -> f64 {
        self.0 * 9.0 / 5.0 + 32.0
    }
    /// In kelvins above absolute zero.
    #[must_use]
    pub const fn k(self) -> f64 {
        self.0 + 273.15
    }
    /// Whether the number is neither infinite nor missing.
    #[must_use]
    pub const fn is_finite(self) -> bool {
        self.0.is_finite()
    }
}

impl Add<TemperatureStep> for Temperature {
    type Output = Self;
    fn add(self, step: TemperatureStep) -> Self {
        Self(self.0 + step.k())
    }
}
impl Sub<TemperatureStep> for Temperature {
    type Output = Self;
    fn sub(self, step: TemperatureStep) -> Self {
        Self(self.0 - step.k())
    }
}
impl Sub for Temperature {
    type Output = TemperatureStep;
    fn sub(self, other: Self) -> TemperatureStep {
        TemperatureStep::from_k(self.0 - other.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Exact definitions of the pound, ounce and inch (published), held against the general units library `uom`, whose
    /// pound is rounded to seven digits (0.4535924) and whose ounce to seven: hence 1e-6 there and 1e-12 elsewhere.
    #[test]
    fn factors_match_a_general_units_library() {
        use uom::si::{f64 as si, length, mass, thermodynamic_temperature as temperature};
        let within = |tolerance: f64, a: f64, b: f64| {
            assert!((a - b).abs() <= tolerance * b.abs().max(1.0), "{a} against {b}");
        };
        let close = |a: f64, b: f64| within(1e-12, a, b);
        close(Mass::from_lb(1.0).kg(), 0.453_592_37);
        close(Mass::from_oz(1.0).g(), 28.349_523_125);
        within(1e-6, Mass::from_lb(14.11).kg(), si::Mass::new::<mass::pound>(14.11).get::<mass::kilogram>());
        within(1e-6, Mass::from_oz(13.5).g(), si::Mass::new::<mass::ounce>(13.5).get::<mass::gram>());
        close(Length::from_inch(1.5).mm(), si::Length::new::<length::inch>(1.5).get::<length::millimeter>());
        for fahrenheit in [-40.0, 0.0, 32.0, 131.0, 225.0] {
            let theirs = si::ThermodynamicTemperature::new::<temperature::degree_fahrenheit>(fahrenheit);
            close(Temperature::from_f(fahrenheit).k(), theirs.get::<temperature::kelvin>());
        }
    }

    #[test]
    fn a_step_is_not_a_temperature() {
        let step = Temperature::from_c(55.0) - Temperature::from_c(48.0);
        assert_eq!(step.k(), 7.0);
        assert!((step.f_step() - 12.6).abs() < 1e-12);
        assert_eq!((Temperature::from_f(212.0)).c(), 100.0);
    }
}
