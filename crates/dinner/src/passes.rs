//! Turns at a place that does not hold all at once.

use crate::{Habits, Holds};
use quantity::Span;

/// In which turn each plate has its place; the first turn is 0.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Turns {
    /// The turn of each plate.
    pub(crate) of: Vec<usize>,
    /// How many turns there are.
    pub(crate) count: usize,
}

/// Fills turn after turn in the order given; `area_m2` is each plate's footprint. A portion larger than the place has it
/// alone.
pub(crate) fn turns(order: &[usize], area_m2: &[f64], holds: Holds) -> Turns {
    let mut of = vec![0; area_m2.len()];
    let (mut turn, mut lying, mut covered) = (0, 0_usize, 0.0);
    for &plate in order {
        let full = match holds {
            Holds::All => false,
            Holds::Places(places) => lying >= places.max(1),
            Holds::Area(area) => lying > 0 && covered + area_m2[plate] > area * Holds::FILLED,
        };
        if full {
            (turn, lying, covered) = (turn + 1, 0, 0.0);
        }
        of[plate] = turn;
        lying += 1;
        covered += area_m2[plate];
    }
    Turns { of, count: if order.is_empty() { 0 } else { turn + 1 } }
}

impl Turns {
    /// How long before the hour each pass on the hot place begins: the last ends at the rest, each earlier one by a
    /// pass and a change sooner.
    pub(crate) fn sear_before(&self, habits: &Habits) -> Vec<Span> {
        let pass = sear(habits);
        let begins = |turn: usize| {
            let later = (self.count - 1 - turn) as f64;
            habits.rest + pass + (pass + habits.between_passes) * later
        };
        self.of.iter().map(|&turn| begins(turn)).collect()
    }
}

/// Both sides.
pub(crate) fn sear(habits: &Habits) -> Span {
    habits.sear_a_side * 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nine_on_a_grate_of_four_take_three_passes() {
        let order: Vec<usize> = (0..9).rev().collect();
        let turns = turns(&order, &[0.012; 9], Holds::Places(4));
        assert_eq!(turns.count, 3);
        assert_eq!((turns.of[8], turns.of[5], turns.of[4], turns.of[0]), (0, 0, 1, 2));
        let before: Vec<f64> = turns.sear_before(&Habits::default()).iter().map(|s| s.min()).collect();
        // Rest 6, sear 2; each earlier pass 2 + 1 sooner.
        assert_eq!((before[0], before[4], before[8]), (8.0, 11.0, 14.0));
    }

    #[test]
    fn area_counts_what_lies_there() {
        // 0.05 m² hold 0.035 of meat: two of 0.012, not three; one larger than the grate lies alone.
        assert_eq!(turns(&[0, 1, 2], &[0.012, 0.012, 0.012], Holds::Area(0.05)).of, vec![0, 0, 1]);
        assert_eq!(turns(&[0, 1], &[0.09, 0.09], Holds::Area(0.05)).of, vec![0, 1]);
        assert_eq!(turns(&[0, 1, 2], &[0.1; 3], Holds::All).count, 1);
    }
}
