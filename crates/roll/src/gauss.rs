//! A Gaussian over a few dozen unknowns, and what one linear observation does to it, in closed form.

use crate::hats::dot;

/// Mean and covariance (row by row) of the unknowns.
#[derive(Clone, Debug)]
pub(crate) struct Gaussian {
    pub(crate) mean: Vec<f64>,
    pub(crate) covariance: Vec<f64>,
}

/// How an observation compared with what was expected of it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Surprise {
    /// Observed less expected.
    pub(crate) error: f64,
    /// Variance of that, the observation's own noise included.
    pub(crate) variance: f64,
}

impl Surprise {
    /// In standard deviations.
    pub(crate) fn z(&self) -> f64 {
        self.error / self.variance.sqrt()
    }

    /// Natural logarithm of how likely the observation was.
    pub(crate) fn log_likelihood(&self) -> f64 {
        -0.5 * (self.error * self.error / self.variance + self.variance.ln() + std::f64::consts::TAU.ln())
    }
}

impl Gaussian {
    /// Variance of a linear combination of the unknowns.
    pub(crate) fn variance(&self, weights: &[f64]) -> f64 {
        dot(&self.times(weights), weights)
    }

    /// Covariance times a vector.
    pub(crate) fn times(&self, weights: &[f64]) -> Vec<f64> {
        let size = self.mean.len();
        self.covariance.chunks_exact(size).map(|row| dot(row, weights)).collect()
    }

    /// Takes in an observation that is `weights · unknowns` with noise of variance `noise`; `expected` is what the mean
    /// gives for it, which for a linearised observation need not be `weights · mean`.
    ///
    /// The covariance loses an outer product of one vector with itself, so it stays symmetric to the bit.
    pub(crate) fn observe(&mut self, weights: &[f64], expected: f64, observed: f64, noise: f64) -> Surprise {
        let size = self.mean.len();
        let gain = self.times(weights);
        let surprise = Surprise { error: observed - expected, variance: dot(&gain, weights) + noise };
        for (row, along) in gain.iter().enumerate() {
            self.mean[row] += along * surprise.error / surprise.variance;
            let line = &mut self.covariance[row * size..(row + 1) * size];
            for (entry, other) in line.iter_mut().zip(&gain) {
                *entry -= along * other / surprise.variance;
            }
        }
        surprise
    }

    /// One more unknown, independent of the others so far.
    pub(crate) fn push(&mut self, mean: f64, variance: f64) {
        let size = self.mean.len();
        let mut wider = Vec::with_capacity((size + 1) * (size + 1));
        for row in self.covariance.chunks_exact(size) {
            wider.extend_from_slice(row);
            wider.push(0.0);
        }
        wider.extend(std::iter::repeat_n(0.0, size));
        wider.push(variance);
        self.mean.push(mean);
        self.covariance = wider;
    }

    /// Forgets one unknown, keeping what the others learned through it.
    pub(crate) fn remove(&mut self, unknown: usize) {
        let size = self.mean.len();
        self.mean.remove(unknown);
        let mut entry = 0;
        self.covariance.retain(|_| {
            let (row, column) = (entry / size, entry % size);
            entry += 1;
            row != unknown && column != unknown
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn two() -> Gaussian {
        Gaussian { mean: vec![1.0, 2.0], covariance: vec![4.0, 1.0, 1.0, 9.0] }
    }

    /// Textbook conjugate update of one unknown: precision adds.
    #[test]
    fn precision_adds() {
        let mut one = Gaussian { mean: vec![10.0], covariance: vec![4.0] };
        one.observe(&[1.0], 10.0, 13.0, 2.0);
        assert!((one.covariance[0] - 1.0 / (1.0 / 4.0 + 1.0 / 2.0)).abs() < 1e-12);
        assert!((one.mean[0] - (10.0 / 4.0 + 13.0 / 2.0) / (1.0 / 4.0 + 1.0 / 2.0)).abs() < 1e-12);
    }

    #[test]
    fn an_unknown_comes_and_goes() {
        let mut both = two();
        both.push(3.0, 5.0);
        assert_eq!(both.covariance, [4.0, 1.0, 0.0, 1.0, 9.0, 0.0, 0.0, 0.0, 5.0]);
        both.remove(0);
        assert_eq!(both.mean, [2.0, 3.0]);
        assert_eq!(both.covariance, [9.0, 0.0, 0.0, 5.0]);
    }

    #[test]
    fn order_of_observations_does_not_matter() {
        let (mut one, mut other) = (two(), two());
        one.observe(&[1.0, 0.5], 2.0, 2.4, 0.3);
        let expected = one.mean[0] - one.mean[1];
        one.observe(&[1.0, -1.0], expected, -0.2, 0.1);
        other.observe(&[1.0, -1.0], -1.0, -0.2, 0.1);
        let expected = other.mean[0] + 0.5 * other.mean[1];
        other.observe(&[1.0, 0.5], expected, 2.4, 0.3);
        for (a, b) in one.mean.iter().chain(&one.covariance).zip(other.mean.iter().chain(&other.covariance)) {
            assert!((a - b).abs() < 1e-12);
        }
    }
}
