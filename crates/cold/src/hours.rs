//! The hours of an ensemble, and what follows from them.

use band::{Band, Input, Narrow, chance, quantile};

/// How long something takes, member by member.
#[derive(Clone, Debug, PartialEq)]
pub struct Hours {
    /// Hours of each member; infinite where it never gets there.
    pub members: Vec<f64>,
    /// What makes their width, the largest share first.
    pub narrow: Vec<Narrow>,
    /// What nobody gave: the priors that stood in.
    pub assumed: Vec<Input>,
}

impl Hours {
    /// Four times in five.
    #[must_use]
    pub fn band(&self) -> Band {
        Band::of(&self.members)
    }

    /// The chance of being there within so many hours.
    #[must_use]
    pub fn chance_within(&self, hours: f64) -> f64 {
        chance(self.members.iter().map(|own| *own <= hours))
    }

    /// The least hours that give the wished chance; infinite where no number does.
    #[must_use]
    pub fn needed(&self, wished: f64) -> f64 {
        let needed = quantile(&self.members, wished);
        // Between two members the share is that of the lower one: step up where it falls short.
        if self.chance_within(needed) >= wished { needed } else { next_above(&self.members, needed) }
    }
}

fn next_above(members: &[f64], hours: f64) -> f64 {
    members.iter().copied().filter(|own| *own > hours).fold(f64::INFINITY, f64::min)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hours(members: &[f64]) -> Hours {
        Hours { members: members.to_vec(), narrow: vec![], assumed: vec![] }
    }

    #[test]
    fn what_is_needed_gives_the_wished_chance() {
        let ten = hours(&(1..=10).map(f64::from).collect::<Vec<_>>());
        assert_eq!(ten.chance_within(7.0), 0.7);
        assert!(ten.chance_within(ten.needed(0.9)) >= 0.9);
        assert!(ten.needed(0.9) <= 10.0);
    }

    #[test]
    fn what_never_gets_there_asks_for_ever() {
        let never = hours(&[8.0, 9.0, f64::INFINITY, f64::INFINITY]);
        assert_eq!(never.needed(0.9), f64::INFINITY);
        assert_eq!(never.chance_within(1000.0), 0.5);
        assert_eq!(never.band().high, f64::INFINITY);
    }
}
