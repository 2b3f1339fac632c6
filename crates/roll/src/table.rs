//! From wants, limits and the curve to the costs of the programme.
//!
//! Cost of a portion: the expected square of its miss in units of its tolerance. Cost of leaving: none where every want
//! is counted, for then the rest is a piece kept, not a loss; where some want is "max", a gram left over costs so much
//! that a whole portion left costs as much as [`WHOLE_PORTION`] portions missed by their tolerance, beside what no choice
//! can remove. So a rest is shared out among portions while that keeps them within tolerance, and left where it does not.

use crate::RollError;
use crate::curve::Curve;
use crate::programme::{Line, Problem, Start};
use crate::want::{Count, FromEnd, Limits, Target, Tolerance, Want};
use quantity::{Length, Mass};

/// What a whole portion left over costs, in portions missed by their tolerance. At 20, ten portions of 350 g take in a
/// rest of up to half a portion by growing or shrinking within tolerance; chosen for that, not measured.
const WHOLE_PORTION: f64 = 20.0;
/// A counted portion not cut: more than any portion within the limits can miss by.
const MISSING: f64 = 1e5;
/// A second piece left over, or one where portions should come from.
const AGAIN: f64 = 100.0;
/// How much more the plan may cost for keeping the next portion's want as it was shown before: one portion missed by its
/// tolerance. A plan that changes its mind for less confuses the hand.
const STAY: f64 = 1.0;
/// Most transitions that are tried: about a second.
const MOST_TRANSITIONS: u64 = 1_000_000_000;

/// A want, and how far it is met already.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Open<'a> {
    pub(crate) want: &'a Want,
    /// Portions still to cut; none: as many as sensible.
    pub(crate) left: Option<u32>,
    /// The first of two twins, already cut: grams and thickness in mm.
    pub(crate) begun: Option<(f64, f64)>,
    aim: Aim,
    /// How thin and how thick a portion may be, mm.
    reach: (f64, f64),
}

/// A target with its tolerance, in g or mm.
#[derive(Clone, Copy, Debug)]
enum Aim {
    Mass { grams: f64, within: f64 },
    Thickness { mm: f64, within: f64 },
}

impl<'a> Open<'a> {
    pub(crate) fn new(want: &'a Want, limits: &Limits, left: Option<u32>, begun: Option<(f64, f64)>) -> Self {
        let within = match want.tolerance() {
            Tolerance::Mass(within) => within.g(),
            Tolerance::Thickness(within) => within.mm(),
        };
        let between = (limits.thinnest.mm(), limits.thickest.mm());
        let (aim, reach) = match want.target {
            Target::Mass { at, .. } => (Aim::Mass { grams: at.g(), within }, between),
            Target::Thickness { at, .. } => (Aim::Thickness { mm: at.mm(), within }, between),
            Target::Roast { length, .. } => {
                let mm = length.mm();
                (Aim::Thickness { mm, within }, ((mm - 4.0 * within).max(1.0), mm + 4.0 * within))
            }
        };
        Self { want, left, begun, aim, reach }
    }

    /// Both faces count: the thin side of a slanted portion and its thick side.
    fn allows(&self, sides: Sides) -> bool {
        sides.thin >= self.reach.0 - 1e-9 && sides.thick <= self.reach.1 + 1e-9
    }
}

/// Everything the costs are made of.
pub(crate) struct Table<'a> {
    pub(crate) curve: &'a Curve,
    pub(crate) open: &'a [Open<'a>],
    /// Slant of the end face that stays on the first and on the last portion, mm.
    pub(crate) kept_slant: [f64; 2],
    /// Phase of the last portion cut, and whether a piece was left over before it.
    pub(crate) reached: Option<FromEnd>,
    pub(crate) gap_used: bool,
    /// The want whose portion the plan showed as the next one so far.
    pub(crate) prefer: Option<usize>,
}

/// A portion's sides.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Sides {
    pub(crate) thin: f64,
    pub(crate) mean: f64,
    pub(crate) thick: f64,
}

impl Table<'_> {
    pub(crate) fn problem(&self) -> Result<Problem, RollError> {
        let phases = self.phases();
        let phase_of = |from: FromEnd| phases.iter().position(|phase| *phase == from).unwrap_or(0);
        let lines: Vec<Line> =
            self.open.iter().map(|open| self.line(open, phase_of(open.want.from))).collect();
        let last = phases.contains(&FromEnd::Last);
        let some_max = self.open.iter().any(|open| open.left.is_none());
        let problem = Problem {
            nodes: self.curve.marks.len(),
            phases: phases.len(),
            up_to: self.curve.up_to.clone(),
            past: self.curve.past.clone(),
            price: self.price(),
            missing: MISSING,
            again: AGAIN,
            gap_in: phases.iter().map(|phase| *phase == FromEnd::Any && (last || !some_max)).collect(),
            gap_steps: 1 + self.kerf().ceil() as usize,
            last_reaches_end: last,
            start: Start {
                phase: self.reached.map_or(0, phase_of),
                gap_used: self.gap_used,
                prefer: self.prefer.map(|line| (line, STAY)),
                forced: self.forced(),
            },
            lines,
        };
        let transitions = problem.transitions();
        if transitions > MOST_TRANSITIONS {
            return Err(RollError::TooManyWays { transitions, allowed: MOST_TRANSITIONS });
        }
        Ok(problem)
    }

    /// Where the two portions of a pair part, from node to node.
    pub(crate) fn part_twins(&self, number: usize, from: usize, to: usize) -> Option<usize> {
        let open = &self.open[number];
        let twins = self.twin_measure(open);
        (from + 1..to)
            .map(|middle| (self.pair_cost(open, &twins, [from, middle, to]), middle))
            .filter(|(cost, _)| cost.is_finite())
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(_, middle)| middle)
    }

    /// Both sides of a portion between two marks: an end face that stays slants.
    pub(crate) fn sides(&self, from: usize, to: usize) -> Sides {
        let thick = self.curve.thickness(from, to);
        let first = if from == 0 { self.kept_slant[0] } else { 0.0 };
        let last = if to == self.curve.end() { self.kept_slant[1] } else { 0.0 };
        Sides { thin: thick - first - last, mean: thick - (first + last) / 2.0, thick }
    }

    /// What a cut takes, mm.
    fn kerf(&self) -> f64 {
        self.curve.saw
    }

    fn phases(&self) -> Vec<FromEnd> {
        let asked = |from: FromEnd| self.open.iter().any(|open| open.want.from == from);
        let mut phases = Vec::new();
        if asked(FromEnd::First) {
            phases.push(FromEnd::First);
        }
        // Between the two ends there is always room for what is left over.
        if asked(FromEnd::Any) || asked(FromEnd::Last) || phases.is_empty() {
            phases.push(FromEnd::Any);
        }
        if asked(FromEnd::Last) {
            phases.push(FromEnd::Last);
        }
        phases
    }

    fn line(&self, open: &Open<'_>, phase: usize) -> Line {
        let (shortest, single) = self.single_costs(open);
        if !open.want.twins {
            return Line { units: open.left, portions: 1, phase, shortest, cost: single };
        }
        let cost = self.pair_costs(open, shortest, &single);
        Line { units: open.left.map(|left| left / 2), portions: 2, phase, shortest: 2 * shortest, cost }
    }

    /// Steps of the shortest portion, and the cost of each length at each node.
    fn single_costs(&self, open: &Open<'_>) -> (usize, Vec<Vec<f64>>) {
        let (thinnest, thickest) = open.reach;
        let shortest = ((thinnest.floor() - 1.0).max(1.0)) as usize;
        let longest = ((thickest + self.kerf()).ceil() + 1.0) as usize;
        let nodes = self.curve.marks.len();
        let cost = (shortest..=longest.min(nodes.saturating_sub(1)))
            .map(|steps| {
                let from_each = (0..nodes).map(|from| {
                    if from + steps < nodes { self.cost(open, from, from + steps) } else { f64::INFINITY }
                });
                from_each.collect()
            })
            .collect();
        (shortest, cost)
    }

    /// Cheapest way to part each length at each node into two twins.
    fn pair_costs(&self, open: &Open<'_>, shortest: usize, single: &[Vec<f64>]) -> Vec<Vec<f64>> {
        let (nodes, lengths) = (self.curve.marks.len(), single.len());
        let twins = self.twin_measure(open);
        let mut pairs = vec![vec![f64::INFINITY; nodes]; (2 * lengths).saturating_sub(1)];
        let near = twins.thickness_mm.ceil() as usize + 2;
        for first in 0..lengths {
            for second in first.saturating_sub(near)..(first + near + 1).min(lengths) {
                for from in 0..nodes {
                    let middle = from + shortest + first;
                    let to = middle + shortest + second;
                    if to < nodes && single[first][from].is_finite() && single[second][middle].is_finite() {
                        let pair = &mut pairs[first + second][from];
                        let apart = self.twin_cost(&twins, [from, middle, to]);
                        *pair = pair.min(single[first][from] + single[second][middle] + apart);
                    }
                }
            }
        }
        pairs
    }

    fn pair_cost(&self, open: &Open<'_>, twins: &TwinMeasure, [from, middle, to]: [usize; 3]) -> f64 {
        let both = self.cost(open, from, middle) + self.cost(open, middle, to);
        both + self.twin_cost(twins, [from, middle, to])
    }

    fn twin_cost(&self, twins: &TwinMeasure, [from, middle, to]: [usize; 3]) -> f64 {
        let grams = self.curve.grams(from, middle) - self.curve.grams(middle, to);
        let thickness = self.sides(from, middle).mean - self.sides(middle, to).mean;
        twins.cost(grams, thickness)
    }

    /// Expected squared miss in units of the tolerance; infinite outside the limits.
    fn cost(&self, open: &Open<'_>, from: usize, to: usize) -> f64 {
        let sides = self.sides(from, to);
        // A saw's cut that would run into the end of what is portioned leaves nothing to square or keep there.
        let behind = self.curve.marks[self.curve.end()] - self.curve.marks[to];
        if !open.allows(sides) || (behind > 0.0 && behind < self.kerf()) {
            return f64::INFINITY;
        }
        match open.aim {
            Aim::Mass { grams, within } => {
                let portion = self.curve.portion(from, to);
                ((portion.mean - grams).powi(2) + portion.variance) / (within * within)
            }
            Aim::Thickness { mm, within } => {
                ((sides.mean - mm).powi(2) + self.curve.knife_mm2()) / (within * within)
            }
        }
    }

    /// Cost of completing twins of which the first is cut, by steps from the start.
    fn forced(&self) -> Option<(usize, Vec<f64>)> {
        let (number, open) = self.open.iter().enumerate().find(|(_, open)| open.begun.is_some())?;
        let (grams, thickness) = open.begun?;
        let twins = self.twin_measure(open);
        let costs = (1..self.curve.marks.len()).map(|to| {
            let apart = (self.curve.grams(0, to) - grams, self.sides(0, to).mean - thickness);
            // Whatever the first one came to, the second one is cut: a difference beyond bounds costs, it does not forbid.
            self.cost(open, 0, to) + (apart.0 / twins.grams).powi(2) + (apart.1 / twins.thickness_mm).powi(2)
        });
        Some((number, costs.collect()))
    }

    fn twin_measure(&self, open: &Open<'_>) -> TwinMeasure {
        let (grams, thickness) = self.typical(open);
        match open.aim {
            Aim::Mass { within, .. } => TwinMeasure {
                grams: within,
                thickness_mm: catalogue::portion_thickness_tolerance(Length::from_mm(thickness)).mm(),
            },
            Aim::Thickness { within, .. } => TwinMeasure {
                grams: catalogue::portion_mass_tolerance(Mass::from_g(grams)).g(),
                thickness_mm: within,
            },
        }
    }

    /// Grams and thickness in mm of a portion of this want in the middle of the rest.
    fn typical(&self, open: &Open<'_>) -> (f64, f64) {
        let per_mm = self.curve.density[self.curve.marks.len() / 2].max(1e-6);
        match open.aim {
            Aim::Mass { grams, .. } => (grams, grams / per_mm),
            Aim::Thickness { mm, .. } => (mm * per_mm, mm),
        }
    }

    /// Cost of a gram left over.
    fn price(&self) -> f64 {
        let of = |open: &Open<'_>| {
            let (grams, thickness) = self.typical(open);
            let middle = self.curve.marks.len() / 2;
            let steps = (thickness.round().max(1.0) as usize).min(self.curve.end());
            let from = middle.min(self.curve.end() - steps);
            let unavoidable = match open.aim {
                Aim::Mass { within, .. } => self.curve.portion(from, from + steps).variance / within.powi(2),
                Aim::Thickness { within, .. } => self.curve.knife_mm2() / within.powi(2),
            };
            (WHOLE_PORTION + unavoidable) / grams
        };
        self.open.iter().filter(|open| open.want.count == Count::Max).map(of).fold(0.0, f64::max)
    }
}

/// What a difference between twins is measured in.
struct TwinMeasure {
    grams: f64,
    thickness_mm: f64,
}

impl TwinMeasure {
    fn cost(&self, grams: f64, thickness: f64) -> f64 {
        if thickness.abs() > self.thickness_mm {
            return f64::INFINITY;
        }
        (grams / self.grams).powi(2) + (thickness / self.thickness_mm).powi(2)
    }
}
