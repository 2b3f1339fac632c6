//! Bags of one lot: how many came loose, and how many of the next to expect.

use record::{Pack, State};

/// What a lot of bags has shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Lot {
    /// Its name; nothing for bags of which nobody wrote the lot.
    pub name: Option<String>,
    /// Bags of it sealed so far.
    pub sealed: u32,
    /// Of these, found loose.
    pub loose: u32,
    /// Names of the latest of those: `MOOR 5`.
    pub last_loose: Option<String>,
}

/// How many of the next bags of a lot are to be expected loose.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Expected {
    /// The likeliest.
    pub likely: u32,
    /// No more than this, nine times in ten.
    pub at_most: u32,
}

impl Lot {
    /// What a lot has shown so far.
    #[must_use]
    pub fn of(state: &State, name: Option<&str>) -> Self {
        let of_lot = |pack: &&Pack| pack.sealed.bag_lot.as_deref() == name;
        let bags = state.packs().filter(of_lot);
        let loose = bags.clone().filter(|pack| pack.leaker.is_some());
        let last = loose.clone().max_by_key(|pack| pack.leaker.as_ref().map(|leak| leak.at));
        Self {
            name: name.map(str::to_owned),
            sealed: u32::try_from(bags.count()).unwrap_or(u32::MAX),
            loose: u32::try_from(loose.count()).unwrap_or(u32::MAX),
            last_loose: last.map(|pack| pack.name.clone()),
        }
    }

    /// How many of the next `bags` come loose, if they are like those before: beta-binomial after Jeffreys' prior.
    #[must_use]
    pub fn expected(&self, bags: u32) -> Expected {
        let (loose, sound) = (f64::from(self.loose) + 0.5, f64::from(self.sealed - self.loose) + 0.5);
        let mut chance = 1.0;
        for taken in 0..bags {
            chance *= (sound + f64::from(taken)) / (loose + sound + f64::from(taken));
        }
        let (mut sum, mut best, mut expected) = (chance, chance, Expected { likely: 0, at_most: 0 });
        for count in 1..=bags {
            // P(k) / P(k − 1) of the beta-binomial.
            let k = f64::from(count);
            let left = f64::from(bags - count);
            chance *= (left + 1.0) / k * (loose + k - 1.0) / (sound + left);
            if sum < NINE_IN_TEN {
                expected.at_most = count;
            }
            if chance > best {
                (best, expected.likely) = (chance, count);
            }
            sum += chance;
        }
        expected
    }
}

const NINE_IN_TEN: f64 = 0.9;

#[cfg(test)]
mod tests {
    use super::*;

    fn lot(sealed: u32, loose: u32) -> Lot {
        Lot { name: None, sealed, loose, last_loose: None }
    }

    /// scipy 1.17, `betabinom(n, k + 0.5, N − k + 0.5)`: pmf and ppf(0.9) (computed).
    #[test]
    fn expects_what_a_beta_binomial_says() {
        let rows = [((31, 1, 8), (0, 1)), ((31, 0, 8), (0, 1)), ((10, 5, 10), (5, 8)), ((0, 0, 2), (0, 2))];
        for ((sealed, loose, bags), (likely, at_most)) in rows {
            let found = lot(sealed, loose).expected(bags);
            assert_eq!((found.likely, found.at_most), (likely, at_most), "{loose} of {sealed}, next {bags}");
        }
    }
}
