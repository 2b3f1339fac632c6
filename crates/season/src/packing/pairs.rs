//! Which portions share a bag: pairs as like in thickness as can be.

use std::collections::HashMap;

/// A portion that waits for its bag.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Waiting {
    /// Its place from the named end.
    pub n: u32,
    /// Its thickness in mm, measured or between its marks.
    pub thickness_mm: f64,
    /// The place of the portion cut to be like it, if one was.
    pub twin: Option<u32>,
    /// Whether it goes alone: a roast kept whole.
    pub alone: bool,
}

/// What goes into one bag: places from the named end, ascending.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Together {
    /// Two portions.
    Pair(u32, u32),
    /// One portion.
    Single(u32),
}

impl Together {
    /// The places in it, ascending.
    #[must_use]
    pub fn places(self) -> Vec<u32> {
        match self {
            Self::Pair(first, second) => vec![first, second],
            Self::Single(n) => vec![n],
        }
    }
}

/// Pairs portions so that the squared differences of thickness, summed, are least; ordered by their first place.
///
/// Thickness sets the time of a steak, so unlike ones in one bag thaw and cook apart. Half a millimetre cannot be held
/// by a knife; a pair may differ by that much more for each place it saves, since neighbours are found together.
/// Twins stay together, roasts go alone, and of an odd number the one stays single that leaves the rest most alike.
///
/// # Holds
/// Every portion is in exactly one bag. The sum is the least of all pairings in which no partner stands more than eight
/// places away in order of thickness; farther partners never pay unless fewer than eight stand between.
#[must_use]
pub fn pairs(waiting: &[Waiting]) -> Vec<Together> {
    let mut together = Vec::new();
    let mut open: Vec<Waiting> = Vec::new();
    for portion in waiting {
        match twin_of(portion, waiting) {
            _ if portion.alone => together.push(Together::Single(portion.n)),
            Some(twin) if portion.n < twin => together.push(Together::Pair(portion.n, twin)),
            Some(_) => {}
            None => open.push(*portion),
        }
    }
    open.sort_by(|a, b| a.thickness_mm.total_cmp(&b.thickness_mm).then(a.n.cmp(&b.n)));
    together.extend(Matching::of(&open).bags());
    together.sort_by_key(|bag| bag.places());
    together
}

/// The twin, where both still wait and agree on it; a portion may be named as twin by its partner alone.
fn twin_of(portion: &Waiting, waiting: &[Waiting]) -> Option<u32> {
    let named = portion
        .twin
        .or_else(|| waiting.iter().find(|other| other.twin == Some(portion.n)).map(|other| other.n));
    let partner =
        waiting.iter().find(|other| Some(other.n) == named && other.n != portion.n && !other.alone)?;
    // Of three that call each other twins only the two that name each other first are one.
    let back = partner.twin.is_none_or(|n| n == portion.n);
    let claimed =
        waiting.iter().find(|other| other.twin == Some(partner.n)).is_none_or(|other| other.n == portion.n);
    (back && (claimed || partner.twin == Some(portion.n))).then_some(partner.n)
}

/// How many places ahead, in order of thickness, a partner is looked for.
const AHEAD: usize = 8;

/// Least-cost matching along the order of thickness: the state is the first open place, which of the next ones are
/// taken, and whether the single has been spent.
struct Matching<'a> {
    open: &'a [Waiting],
    known: HashMap<(usize, u16, bool), (f64, Option<usize>)>,
}

impl<'a> Matching<'a> {
    fn of(open: &'a [Waiting]) -> Self {
        Self { open, known: HashMap::new() }
    }

    fn bags(mut self) -> Vec<Together> {
        let mut bags = Vec::new();
        let mut state = (0, 0_u16, self.open.len().is_multiple_of(2));
        while state.0 < self.open.len() {
            let (first, taken, spent) = state;
            if taken & 1 == 1 {
                state = (first + 1, taken >> 1, spent);
                continue;
            }
            let here = self.open[first].n;
            match self.best(state).1 {
                Some(ahead) => {
                    let there = self.open[first + ahead].n;
                    bags.push(Together::Pair(here.min(there), here.max(there)));
                    state = (first + 1, (taken | 1 << ahead) >> 1, spent);
                }
                None => {
                    bags.push(Together::Single(here));
                    state = (first + 1, taken >> 1, true);
                }
            }
        }
        bags
    }

    /// The least cost from a state on, and how far ahead the partner of its first open place stands.
    fn best(&mut self, state: (usize, u16, bool)) -> (f64, Option<usize>) {
        let (first, taken, spent) = state;
        if first >= self.open.len() {
            return (0.0, None);
        }
        if taken & 1 == 1 {
            return self.best((first + 1, taken >> 1, spent));
        }
        if let Some(known) = self.known.get(&state) {
            return *known;
        }
        // A second single is never forbidden, only dearer than any pair: the window may leave no partner.
        let alone = if spent { STRANDED } else { 0.0 };
        let mut best = (alone + self.best((first + 1, taken >> 1, true)).0, None);
        for ahead in 1..=AHEAD.min(self.open.len() - 1 - first) {
            if taken >> ahead & 1 == 0 {
                let rest = self.best((first + 1, (taken | 1 << ahead) >> 1, spent)).0;
                let cost = apart(&self.open[first], &self.open[first + ahead]) + rest;
                if cost < best.0 {
                    best = (cost, Some(ahead));
                }
            }
        }
        self.known.insert(state, best);
        best
    }
}

/// Dearer than any difference of thickness a piece can hold, in mm².
const STRANDED: f64 = 1e6;

/// What a place of distance may cost in mm² of thickness: half a millimetre, squared.
const PLACE: f64 = 0.25;

fn apart(a: &Waiting, b: &Waiting) -> f64 {
    let thickness = a.thickness_mm - b.thickness_mm;
    thickness * thickness + PLACE * (f64::from(a.n.abs_diff(b.n)) - 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn waiting(thicknesses: &[f64]) -> Vec<Waiting> {
        (1..)
            .zip(thicknesses)
            .map(|(n, &t)| Waiting { n, thickness_mm: t, twin: None, alone: false })
            .collect()
    }

    fn check(portions: &[Waiting], wanted: &[&[u32]]) {
        let found: Vec<Vec<u32>> = pairs(portions).into_iter().map(Together::places).collect();
        assert_eq!(found, wanted);
    }

    #[test]
    fn neighbours_of_a_tapering_piece_go_together() {
        check(&waiting(&[28.0, 29.0, 29.0, 29.0, 29.0, 30.0]), &[&[1, 2], &[3, 4], &[5, 6]]);
    }

    #[test]
    fn a_thick_one_goes_with_the_other_thick_one() {
        check(&waiting(&[40.0, 30.0, 40.0, 30.0]), &[&[1, 3], &[2, 4]]);
    }

    #[test]
    fn of_an_odd_number_the_odd_one_stays_single() {
        check(&waiting(&[30.0, 30.0, 36.0, 30.0, 30.0]), &[&[1, 2], &[3], &[4, 5]]);
    }

    #[test]
    fn twins_stay_together_and_a_roast_goes_alone() {
        let mut portions = waiting(&[30.0, 38.0, 30.0, 38.0, 120.0]);
        portions[0].twin = Some(2);
        portions[4].alone = true;
        check(&portions, &[&[1, 2], &[3, 4], &[5]]);
    }

    #[test]
    fn a_twin_whose_partner_is_packed_is_paired_like_any_other() {
        let mut portions = waiting(&[30.0, 31.0]);
        portions[0].twin = Some(9);
        check(&portions, &[&[1, 2]]);
    }

    #[test]
    fn three_that_claim_each_other_still_fill_every_bag_once() {
        let mut portions = waiting(&[30.0, 30.0, 30.0]);
        portions[0].twin = Some(2);
        portions[1].twin = Some(3);
        portions[2].twin = Some(1);
        let mut places: Vec<u32> = pairs(&portions).into_iter().flat_map(Together::places).collect();
        places.sort_unstable();
        assert_eq!(places, [1, 2, 3]);
    }

    #[test]
    fn nothing_waits() {
        check(&[], &[]);
    }

    /// Every pairing of up to eight portions tried one by one: the sum found is the least.
    #[test]
    fn no_other_pairing_is_better() {
        let mut seed = 7_u64;
        let mut next = || {
            // Numerical Recipes' 64-bit linear congruence: any stream will do, it only has to be the same each time.
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (seed >> 40) as f64 / f64::from(1_u32 << 24)
        };
        for round in 0..120 {
            let portions = waiting(&(0..3 + round % 6).map(|_| 25.0 + 15.0 * next()).collect::<Vec<f64>>());
            let found = cost(&portions, &pairs(&portions));
            let least = least_of_all(&portions, portions.len() % 2 == 1);
            assert!((found - least).abs() < 1e-9, "{portions:?}: {found} against {least}");
        }
    }

    fn cost(portions: &[Waiting], bags: &[Together]) -> f64 {
        let of = |n: u32| portions.iter().find(|portion| portion.n == n).unwrap();
        bags.iter().map(|bag| if let Together::Pair(a, b) = *bag { apart(of(a), of(b)) } else { 0.0 }).sum()
    }

    fn least_of_all(left: &[Waiting], single: bool) -> f64 {
        let Some((first, rest)) = left.split_first() else { return 0.0 };
        let mut least = if single { least_of_all(rest, false) } else { f64::INFINITY };
        for (at, partner) in rest.iter().enumerate() {
            let mut others = rest.to_vec();
            others.remove(at);
            least = least.min(apart(first, partner) + least_of_all(&others, single));
        }
        least
    }
}
