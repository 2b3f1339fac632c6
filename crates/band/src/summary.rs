//! An ensemble's outputs as a band and a chance.

/// Median and 80 % band: one truth in ten lies below `low`, one in ten above `high`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Half of the outputs lie below.
    pub median: f64,
    /// The 10 % point.
    pub low: f64,
    /// The 90 % point.
    pub high: f64,
}

impl Band {
    /// The band of an ensemble's outputs. Outputs may be infinite ("never"), and a quantile among them then is too;
    /// without outputs all three are NaN.
    #[must_use]
    pub fn of(outputs: &[f64]) -> Self {
        let mut sorted = outputs.to_vec();
        sorted.sort_by(f64::total_cmp);
        let [low, median, high] = [0.1, 0.5, 0.9].map(|p| quantile_of_sorted(&sorted, p));
        Self { median, low, high }
    }

    /// A band without width, of a number taken as true.
    #[must_use]
    pub const fn exact(value: f64) -> Self {
        Self { median: value, low: value, high: value }
    }

    /// The band of a normal distribution, in closed form.
    #[must_use]
    pub fn normal(mean: f64, sd: f64) -> Self {
        Self { median: mean, low: mean - NORMAL_90 * sd, high: mean + NORMAL_90 * sd }
    }

    /// From the 10 % to the 90 % point.
    #[must_use]
    pub fn width(&self) -> f64 {
        self.high - self.low
    }

    /// Whether a value lies in the band, its ends included.
    #[must_use]
    pub fn holds(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }

    /// The same band in another unit, or of a multiple; a negative factor turns it round.
    #[must_use]
    pub fn times(&self, factor: f64) -> Self {
        let (a, b) = (self.low * factor, self.high * factor);
        Self { median: self.median * factor, low: a.min(b), high: a.max(b) }
    }
}

/// The 90 % point of the standard normal distribution.
const NORMAL_90: f64 = 1.281_551_565_544_600_4;

/// The value below which a share `p` of the outputs lies, linear between neighbours (Hyndman and Fan's type 7, the
/// default of numpy and R); NaN without outputs.
#[must_use]
pub fn quantile(outputs: &[f64], p: f64) -> f64 {
    let mut sorted = outputs.to_vec();
    sorted.sort_by(f64::total_cmp);
    quantile_of_sorted(&sorted, p)
}

/// The share of members that hit; 0 without members.
#[must_use]
pub fn chance(hits: impl IntoIterator<Item = bool>) -> f64 {
    let (mut all, mut good) = (0_u32, 0_u32);
    for hit in hits {
        all += 1;
        good += u32::from(hit);
    }
    if all == 0 { 0.0 } else { f64::from(good) / f64::from(all) }
}

fn quantile_of_sorted(sorted: &[f64], p: f64) -> f64 {
    let Some(last) = sorted.len().checked_sub(1) else { return f64::NAN };
    let place = p.clamp(0.0, 1.0) * last as f64;
    let below = sorted[place.floor() as usize];
    let above = sorted[place.ceil() as usize];
    let part = place.fract();
    // Between two "nevers" there is no difference to share out: infinity less infinity would be NaN.
    if part == 0.0 || below == above { below } else { below + (above - below) * part }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantiles_as_numpy_gives_them() {
        // numpy.quantile([3, 1, 4, 1, 5, 9, 2, 6], [0.1, 0.5, 0.9]) = 1.0, 3.5, 6.9 (computed by hand from type 7).
        let band = Band::of(&[3.0, 1.0, 4.0, 1.0, 5.0, 9.0, 2.0, 6.0]);
        assert_eq!((band.low, band.median), (1.0, 3.5));
        assert!((band.high - 6.9).abs() < 1e-12);
        assert!(quantile(&[], 0.5).is_nan());
    }

    #[test]
    fn never_is_infinite_and_not_a_nan() {
        let band = Band::of(&[1.0, 2.0, f64::INFINITY, f64::INFINITY]);
        assert_eq!(band.high, f64::INFINITY);
        assert!(!band.median.is_nan());
    }

    #[test]
    fn chance_counts() {
        assert_eq!(chance([true, false, true, true]), 0.75);
        assert_eq!(chance([]), 0.0);
    }

    #[test]
    fn a_negative_factor_keeps_low_below_high() {
        let turned = Band { median: 2.0, low: 1.0, high: 4.0 }.times(-1.0);
        assert_eq!(turned, Band { median: -2.0, low: -4.0, high: -1.0 });
    }
}
