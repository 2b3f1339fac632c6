//! What is known of one number before it is measured, as a distribution.

use statrs::distribution::{ContinuousCDF, Normal};
use thiserror::Error;

/// The distribution of one uncertain number; its parameters are in the number's own unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spread {
    /// No doubt at all: every draw is this number.
    Exact(f64),
    /// Anything between two numbers, each as likely.
    Uniform {
        /// Lower end.
        low: f64,
        /// Upper end.
        high: f64,
    },
    /// The normal distribution.
    Normal {
        /// Mean, median and mode.
        mean: f64,
        /// Standard deviation, above 0.
        sd: f64,
    },
    /// Its logarithm is normal: for what can double or halve but never be negative.
    LogNormal {
        /// Median, above 0.
        median: f64,
        /// Standard deviation of the natural logarithm, above 0.
        sd_ln: f64,
    },
    /// Its logarithm is uniform: for a range that spans factors.
    LogUniform {
        /// Lower end, above 0.
        low: f64,
        /// Upper end.
        high: f64,
    },
}

/// Why parameters are no distribution.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
pub enum SpreadError {
    /// A parameter is infinite or not a number.
    #[error("{what} is {found}; allowed: a finite number")]
    NotFinite {
        /// Which parameter.
        what: &'static str,
        /// Its value.
        found: f64,
    },
    /// The upper end lies below the lower.
    #[error("the range runs from {low} to {high}; the lower end comes first")]
    Backwards {
        /// Lower end given.
        low: f64,
        /// Upper end given.
        high: f64,
    },
    /// A parameter must be above zero and is not.
    #[error("{what} is {found}; allowed: above 0")]
    NotPositive {
        /// Which parameter.
        what: &'static str,
        /// Its value.
        found: f64,
    },
}

impl Spread {
    /// Itself, if its parameters are a distribution.
    ///
    /// # Errors
    /// [`SpreadError`] names the parameter, what was found and what is allowed.
    pub fn checked(self) -> Result<Self, SpreadError> {
        match self {
            Self::Exact(value) => finite("the value", value)?,
            Self::Uniform { low, high } => in_order(low, high)?,
            Self::Normal { mean, sd } => {
                finite("the mean", mean)?;
                positive("the standard deviation", sd)?;
            }
            Self::LogNormal { median, sd_ln } => {
                positive("the median", median)?;
                positive("the standard deviation of the logarithm", sd_ln)?;
            }
            Self::LogUniform { low, high } => {
                positive("the lower end", low)?;
                in_order(low, high)?;
            }
        }
        Ok(self)
    }

    /// The value below which a share `p` of the distribution lies; `p` from 0 to 1, ends of a normal are infinite.
    #[must_use]
    pub fn quantile(&self, p: f64) -> f64 {
        match *self {
            Self::Exact(value) => value,
            Self::Uniform { low, high } => low + (high - low) * p,
            Self::Normal { mean, sd } => mean + sd * standard_normal_quantile(p),
            Self::LogNormal { median, sd_ln } => median * (sd_ln * standard_normal_quantile(p)).exp(),
            Self::LogUniform { low, high } => low * ((high / low).ln() * p).exp(),
        }
    }

    /// The middle: half lies below.
    #[must_use]
    pub fn median(&self) -> f64 {
        self.quantile(0.5)
    }

    /// Whether every draw is the same number.
    #[must_use]
    pub fn is_exact(&self) -> bool {
        match *self {
            Self::Exact(_) => true,
            Self::Uniform { low, high } | Self::LogUniform { low, high } => low == high,
            Self::Normal { sd, .. } => sd == 0.0,
            Self::LogNormal { sd_ln, .. } => sd_ln == 0.0,
        }
    }
}

fn standard_normal_quantile(p: f64) -> f64 {
    Normal::standard().inverse_cdf(p.clamp(0.0, 1.0))
}

fn finite(what: &'static str, found: f64) -> Result<(), SpreadError> {
    if found.is_finite() { Ok(()) } else { Err(SpreadError::NotFinite { what, found }) }
}

fn positive(what: &'static str, found: f64) -> Result<(), SpreadError> {
    finite(what, found)?;
    if found > 0.0 { Ok(()) } else { Err(SpreadError::NotPositive { what, found }) }
}

fn in_order(low: f64, high: f64) -> Result<(), SpreadError> {
    finite("the lower end", low)?;
    finite("the upper end", high)?;
    if low <= high { Ok(()) } else { Err(SpreadError::Backwards { low, high }) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantiles_of_each_family() {
        assert_eq!(Spread::Exact(3.0).quantile(0.9), 3.0);
        assert_eq!(Spread::Uniform { low: 2.0, high: 4.0 }.quantile(0.25), 2.5);
        // 90 % point of the standard normal: 1.281551565544600 (any table; published).
        let normal = Spread::Normal { mean: 10.0, sd: 2.0 };
        assert!((normal.quantile(0.9) - (10.0 + 2.0 * 1.281_551_565_544_6)).abs() < 1e-9);
        let log_normal = Spread::LogNormal { median: 20.0, sd_ln: 0.5 };
        assert!((log_normal.median() - 20.0).abs() < 1e-12);
        let log_uniform = Spread::LogUniform { low: 1.0, high: 100.0 };
        assert!((log_uniform.median() - 10.0).abs() < 1e-12);
    }

    #[test]
    fn what_is_no_distribution_is_refused_with_its_values() {
        let backwards = Spread::Uniform { low: 4.0, high: 2.0 }.checked();
        assert_eq!(backwards, Err(SpreadError::Backwards { low: 4.0, high: 2.0 }));
        assert!(Spread::Normal { mean: 1.0, sd: 0.0 }.checked().is_err());
        assert!(Spread::LogUniform { low: 0.0, high: 2.0 }.checked().is_err());
        assert!(Spread::Exact(f64::NAN).checked().is_err());
        assert!(Spread::LogNormal { median: 2.0, sd_ln: 0.1 }.checked().is_ok());
    }
}
