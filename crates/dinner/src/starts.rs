//! The latest starts that keep the promise: all portions in time, together, in the wished share of evenings.

use crate::passes::Turns;

/// What one plate needs of the low place, in minutes.
#[derive(Clone, Debug)]
pub(crate) struct Road<'a> {
    /// Minutes to the pull, one for each member of the ensemble; infinite where it is never reached. The members of all
    /// roads are the same evenings: an oven that runs cold does so for every portion.
    pub(crate) low_min: &'a [f64],
    /// Minutes before the hour at which its sear begins.
    pub(crate) sear_min: f64,
    /// Its row: plates of one row go in together.
    pub(crate) row: usize,
    /// Minutes before the hour at which it went in, if it is in.
    pub(crate) went_in_min: Option<f64>,
}

/// When each row goes in.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Starts {
    /// Whole minutes before the hour at which each plate goes in.
    pub(crate) in_min: Vec<f64>,
    /// Minutes before the hour by which each plate must be pulled: its sear, or the next wave's start.
    pub(crate) due_min: Vec<f64>,
    /// The share of members in which every plate is pulled in time.
    pub(crate) chance: f64,
}

/// The latest whole-minute starts whose joint chance is the wished one; if no start gives it, the earliest that help.
///
/// Every plate gets the same chance of its own; that chance is raised until the joint one is met. As the evenings are
/// shared, the own chance ends up little above the joint one, where independent ovens would ask for much more.
///
/// What is in already keeps its start, and the others keep theirs: a plate that went in late is no reason to hurry the rest.
pub(crate) fn latest(roads: &[Road<'_>], waves: &Turns, wish: f64) -> Starts {
    let sorted: Vec<Vec<f64>> = roads.iter().map(|road| finite_sorted(road.low_min)).collect();
    let open: Vec<Road<'_>> = roads.iter().map(|road| Road { went_in_min: None, ..road.clone() }).collect();
    let members = roads.iter().map(|road| road.low_min.len()).max().unwrap_or(0);
    let (mut least, mut most) = (1, members.max(1));
    while least < most {
        let middle = usize::midpoint(least, most);
        if at_rank(&open, waves, &sorted, middle).chance >= wish {
            most = middle;
        } else {
            least = middle + 1;
        }
    }
    at_rank(roads, waves, &sorted, most)
}

fn at_rank(roads: &[Road<'_>], waves: &Turns, sorted: &[Vec<f64>], rank: usize) -> Starts {
    let mut in_min = vec![0.0; roads.len()];
    let mut due_min = vec![0.0; roads.len()];
    let mut next_wave_in: Option<f64> = None;
    for wave in (0..waves.count).rev() {
        let in_wave = |plate: &usize| waves.of[*plate] == wave;
        for plate in (0..roads.len()).filter(in_wave) {
            due_min[plate] =
                next_wave_in.map_or(roads[plate].sear_min, |next| next.max(roads[plate].sear_min));
        }
        for plate in (0..roads.len()).filter(in_wave) {
            let row = |other: &usize| in_wave(other) && roads[*other].row == roads[plate].row;
            in_min[plate] = roads[plate].went_in_min.unwrap_or_else(|| {
                let latest = |other: usize| due_min[other] + quantile_rank(&sorted[other], rank);
                (0..roads.len()).filter(row).map(latest).fold(0.0, f64::max).ceil()
            });
        }
        let first = (0..roads.len()).filter(in_wave).map(|plate| in_min[plate]).fold(0.0, f64::max);
        next_wave_in = Some(first);
    }
    let chance = joint(roads, &in_min, &due_min);
    Starts { in_min, due_min, chance }
}

/// The share of members in which every plate is pulled by its due minute.
fn joint(roads: &[Road<'_>], in_min: &[f64], due_min: &[f64]) -> f64 {
    let members = roads.iter().map(|road| road.low_min.len()).min().unwrap_or(0);
    band::chance((0..members).map(|member| {
        roads.iter().enumerate().all(|(i, road)| road.low_min[member] <= in_min[i] - due_min[i])
    }))
}

fn finite_sorted(minutes: &[f64]) -> Vec<f64> {
    let mut kept: Vec<f64> = minutes.iter().copied().filter(|m| m.is_finite()).collect();
    kept.sort_by(f64::total_cmp);
    kept
}

/// The rank-th smallest, the largest there is where fewer are finite; 0 without any.
fn quantile_rank(sorted: &[f64], rank: usize) -> f64 {
    sorted.get(rank.saturating_sub(1).min(sorted.len().saturating_sub(1))).copied().unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one_wave(count: usize) -> Turns {
        Turns { of: vec![0; count], count: 1 }
    }

    fn road(low_min: &[f64], sear_min: f64, row: usize) -> Road<'_> {
        Road { low_min, sear_min, row, went_in_min: None }
    }

    #[test]
    fn one_oven_for_all_asks_for_less_than_many_ovens() {
        let shared: Vec<f64> = (0..100).map(|m| 40.0 + f64::from(m) / 10.0).collect();
        let reversed: Vec<f64> = shared.iter().rev().copied().collect();
        let together = latest(&[road(&shared, 10.0, 0), road(&shared, 10.0, 1)], &one_wave(2), 0.9);
        let apart = latest(&[road(&shared, 10.0, 0), road(&reversed, 10.0, 1)], &one_wave(2), 0.9);
        assert!(together.chance >= 0.9 && apart.chance >= 0.9);
        assert_eq!(together.in_min, vec![59.0, 59.0]);
        assert!(apart.in_min[0] >= together.in_min[0]);
    }

    #[test]
    fn a_wave_is_pulled_before_the_next_goes_in() {
        let low = [30.0; 10];
        let waves = Turns { of: vec![0, 1], count: 2 };
        let starts = latest(&[road(&low, 12.0, 0), road(&low, 9.0, 1)], &waves, 0.9);
        assert_eq!(starts.in_min, vec![69.0, 39.0]);
        assert_eq!(starts.due_min, vec![39.0, 9.0]);
    }

    #[test]
    fn a_late_one_leaves_the_others_where_they_are() {
        let low: Vec<f64> = (0..100).map(|m| 40.0 + f64::from(m) / 5.0).collect();
        let both = [road(&low, 10.0, 0), road(&low, 10.0, 1)];
        let planned = latest(&both, &one_wave(2), 0.9);
        let late = Road { went_in_min: Some(planned.in_min[0] - 5.0), ..both[0].clone() };
        let after = latest(&[late, both[1].clone()], &one_wave(2), 0.9);
        assert_eq!(after.in_min[1], planned.in_min[1]);
        assert!(after.chance < planned.chance);
    }

    #[test]
    fn what_is_never_reached_lowers_the_chance_and_moves_no_start_to_infinity() {
        let low = [30.0, 31.0, f64::INFINITY, f64::INFINITY];
        let starts = latest(&[road(&low, 9.0, 0)], &one_wave(1), 0.9);
        assert_eq!((starts.in_min[0], starts.chance), (40.0, 0.5));
    }
}
