//! The exact programme: which marks, for whom, at the least cost. It knows no meat, only nodes, steps and costs.
//!
//! A state is a node along the piece, how many units of each counted line are used, how far along the order of ends one
//! is (phase), and whether the piece left over lies behind already. The least cost from each state to the end is filled
//! in backwards ([`fill`]); no choice is stored, the best path is found again by asking each state on it once more.
//!
//! Checked by `programme/tests.rs` against a general mixed-integer solver.

mod fill;

use fill::Values;

/// What the programme decides.
#[derive(Clone, Debug)]
pub(crate) struct Problem {
    /// Places where a cut may go, the start first, the end last.
    pub(crate) nodes: usize,
    pub(crate) lines: Vec<Line>,
    /// Phases in the order of the piece; a phase forbids the lines of others.
    pub(crate) phases: usize,
    /// Grams up to each node, and past what the cut at each node takes.
    pub(crate) up_to: Vec<f64>,
    pub(crate) past: Vec<f64>,
    /// Cost of a gram left over.
    pub(crate) price: f64,
    /// Cost of a portion wanted and not cut.
    pub(crate) missing: f64,
    /// Cost of leaving a second piece over, or leaving one where portions should come from.
    pub(crate) again: f64,
    /// Phases in which the one piece left over may lie between portions; none if it may only lie at the end.
    pub(crate) gap_in: Vec<bool>,
    /// Fewest steps such a piece takes.
    pub(crate) gap_steps: usize,
    /// Whether the last phase must reach the end of the piece.
    pub(crate) last_reaches_end: bool,
    pub(crate) start: Start,
}

/// Where the knife stands.
#[derive(Clone, Debug, Default)]
pub(crate) struct Start {
    pub(crate) phase: usize,
    pub(crate) gap_used: bool,
    /// A unit of this line comes first, unless that costs more than the least by so much.
    pub(crate) prefer: Option<(usize, f64)>,
    /// A single portion of this line must come first, at this cost by steps (index 0: one step).
    pub(crate) forced: Option<(usize, Vec<f64>)>,
}

/// Portions of one kind. A unit is a portion, or a pair of twins.
#[derive(Clone, Debug)]
pub(crate) struct Line {
    /// Units wanted; none: as many as sensible.
    pub(crate) units: Option<u32>,
    /// Portions in a unit.
    pub(crate) portions: u32,
    pub(crate) phase: usize,
    /// Steps of the shortest unit; `cost[0]` belongs to it.
    pub(crate) shortest: usize,
    /// Cost of a unit by its steps, at each node it may start from; infinite where it may not.
    pub(crate) cost: Vec<Vec<f64>>,
}

impl Line {
    fn steps(&self) -> impl Iterator<Item = (usize, &Vec<f64>)> {
        self.cost.iter().enumerate().map(|(index, cost)| (self.shortest + index, cost))
    }
}

/// The best path and its cost.
#[derive(Clone, Debug)]
pub(crate) struct Solution {
    pub(crate) cost: f64,
    /// Units in order: line, from node, to node.
    pub(crate) units: Vec<Unit>,
    pub(crate) layers: usize,
    pub(crate) transitions: u64,
}

/// One unit on the path.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Unit {
    pub(crate) line: usize,
    pub(crate) from: usize,
    pub(crate) to: usize,
    /// A single portion that completes twins begun before.
    pub(crate) forced: bool,
}

/// What most plans stay below, in squared tolerances: ten portions off by their tolerance.
const BUDGET: f64 = 10.0;

impl Problem {
    /// Solves it.
    pub(crate) fn solve(&self) -> Solution {
        let layers = Layers::new(self);
        // What a plan may cost beside the best and still be taken.
        let margin = self.start.prefer.map_or(0.0, |(_, margin)| margin);
        let values = Values::of(self, &layers, BUDGET);
        let first = self.trace(&layers, &values);
        if first.cost + margin <= BUDGET {
            return first;
        }
        let again = Values::of(self, &layers, first.cost + margin);
        let compared = values.compared + again.compared;
        Solution { transitions: compared, ..self.trace(&layers, &again) }
    }

    /// Transitions between all states, whether a path can reach them or not.
    pub(crate) fn transitions(&self) -> u64 {
        let layers = Layers::new(self);
        let in_phase = |phase: usize| -> u64 {
            let own = self.lines.iter().filter(|line| line.phase == phase);
            own.flat_map(Line::steps).map(|(steps, _)| self.nodes.saturating_sub(steps) as u64).sum()
        };
        let over_phases: u64 = (0..self.phases).map(in_phase).sum();
        over_phases.saturating_mul(layers.tallies as u64).saturating_mul(layers.gaps as u64)
    }

    /// No path stands before this node with so many units used.
    fn first_node(&self, at: &At) -> usize {
        self.lines.iter().zip(&at.used).map(|(line, used)| line.shortest * *used as usize).sum()
    }

    fn missing_cost(&self, at: &At) -> f64 {
        let of = |(line, used): (&Line, &u32)| {
            line.units.map_or(0.0, |units| f64::from((units - used) * line.portions) * self.missing)
        };
        self.lines.iter().zip(&at.used).map(of).sum()
    }

    /// Cost of leaving everything from a node on.
    fn rest_cost(&self, misplaced: bool, node: usize) -> f64 {
        if node + 1 == self.nodes {
            return 0.0;
        }
        let left = self.up_to[self.nodes - 1] - self.past[node];
        self.price * left + if misplaced { self.again } else { 0.0 }
    }

    /// Whether leaving the rest would leave a second piece, or one where portions should come from.
    fn rest_is_misplaced(&self, at: &At) -> bool {
        at.gap_used || (self.last_reaches_end && at.phase + 1 == self.phases)
    }

    fn trace(&self, layers: &Layers, values: &Values) -> Solution {
        let mut units = Vec::new();
        let mut layer = layers.start(self);
        let mut node = 0;
        let mut cost = values.at(layer, 0);
        if let Some((line, costs)) = &self.start.forced {
            (cost, node) = self.forced_start(costs, |node| values.at(layer, node));
            if node > 0 {
                units.push(Unit { line: *line, from: 0, to: node, forced: true });
            }
        }
        let mut preferred = self.start.prefer.filter(|_| units.is_empty());
        while let Some(step) = self.best_step(layers, values, (layer, node), preferred.take()) {
            if let Some(line) = step.line {
                units.push(Unit { line, from: node, to: step.node, forced: false });
            }
            (layer, node) = (step.layer, step.node);
        }
        Solution { cost, units, layers: layers.count, transitions: values.compared }
    }

    /// The best end of a portion that must come first, or the start itself where none fits.
    fn forced_start(&self, costs: &[f64], value: impl Fn(usize) -> f64) -> (f64, usize) {
        let without = (value(0) + self.missing, 0);
        let ways = costs.iter().enumerate().filter(|(index, _)| index + 1 < self.nodes);
        ways.map(|(index, cost)| (cost + value(index + 1), index + 1))
            .fold(without, |best, way| if way.0 < best.0 { way } else { best })
    }

    /// The step the least cost of a state came from; none where it is best to stop. Of equals, a portion comes first. A
    /// unit of the preferred line is taken if it costs no more than the least by the given margin.
    fn best_step(
        &self,
        layers: &Layers,
        values: &Values,
        (layer, node): (usize, usize),
        preferred: Option<(usize, f64)>,
    ) -> Option<Step> {
        let at = layers.at(layer);
        let value = |layer: usize, node: usize| values.at(layer, node);
        let stop = self.missing_cost(&at) + self.rest_cost(self.rest_is_misplaced(&at), node);
        let (mut best, mut liked): (Offer, Offer) = (None, None);
        let mut offer = |cost: f64, step: Step| {
            let less = |than: &Offer| than.is_none_or(|(least, _)| cost < least);
            if cost.is_finite() && less(&best) {
                best = Some((cost, step));
            }
            if cost.is_finite() && preferred.is_some_and(|(line, _)| step.line == Some(line)) && less(&liked)
            {
                liked = Some((cost, step));
            }
        };
        for (number, line) in self.lines.iter().enumerate().filter(|(_, line)| line.phase == at.phase) {
            let next = match line.units {
                None => Some(layer),
                Some(_) => layers.after_unit(layer, &at, self, number),
            };
            let Some(next) = next else { continue };
            for (steps, cost) in line.steps().filter(|(steps, _)| node + steps < self.nodes) {
                let step = Step { layer: next, node: node + steps, line: Some(number) };
                offer(cost[node] + value(next, node + steps), step);
            }
        }
        if at.phase + 1 < self.phases {
            let next = layers.next_phase(layer);
            offer(value(next, node), Step { layer: next, node, line: None });
        }
        if let Some(next) = layers.after_gap(layer, &at, self) {
            for after in node + self.gap_steps..self.nodes {
                let cost = value(next, after) + self.price * self.up_to[after] - self.price * self.past[node];
                offer(cost, Step { layer: next, node: after, line: None });
            }
        }
        let least = best.map_or(stop, |(cost, _)| cost.min(stop));
        let margin = preferred.map_or(0.0, |(_, margin)| margin);
        let liked = liked.filter(|(cost, _)| *cost <= least + margin);
        liked.or(best.filter(|(cost, _)| *cost <= stop)).map(|(_, step)| step)
    }
}

/// A move of the trace: to which layer and node, by a unit of which line, if by one.
#[derive(Clone, Copy)]
struct Step {
    layer: usize,
    node: usize,
    line: Option<usize>,
}

/// A step and what it would come to.
type Offer = Option<(f64, Step)>;

/// What a layer stands for.
pub(crate) struct At {
    phase: usize,
    gap_used: bool,
    /// Units used of each line.
    used: Vec<u32>,
}

/// Numbers layers so that every layer depends only on higher ones.
pub(crate) struct Layers {
    count: usize,
    /// Ways to have used counted units.
    tallies: usize,
    phases: usize,
    gaps: usize,
    /// Tallies one more unit of each line moves by; 0 for lines without a count.
    stride: Vec<usize>,
}

impl Layers {
    fn new(problem: &Problem) -> Self {
        let mut tallies = 1;
        let stride = problem
            .lines
            .iter()
            .map(|line| match line.units {
                None => 0,
                Some(units) => {
                    let stride = tallies;
                    tallies *= units as usize + 1;
                    stride
                }
            })
            .collect();
        let gaps = if problem.start.gap_used || problem.gap_in.contains(&true) { 2 } else { 1 };
        let count = tallies * problem.phases * gaps;
        Self { count, tallies, phases: problem.phases, gaps, stride }
    }

    fn start(&self, problem: &Problem) -> usize {
        let gap = usize::from(problem.start.gap_used);
        (gap * self.phases + problem.start.phase) * self.tallies
    }

    fn at(&self, layer: usize) -> At {
        let (outer, tally) = (layer / self.tallies, layer % self.tallies);
        let mut rest = tally;
        let mut used = vec![0; self.stride.len()];
        for (line, stride) in self.stride.iter().enumerate().rev().filter(|(_, stride)| **stride > 0) {
            used[line] = (rest / stride) as u32;
            rest %= stride;
        }
        At { phase: outer % self.phases, gap_used: outer / self.phases == 1, used }
    }

    /// The layer after one unit of a counted line, by the line's number, if one is left.
    fn after_unit(&self, layer: usize, at: &At, problem: &Problem, number: usize) -> Option<usize> {
        let units = problem.lines[number].units?;
        (at.used[number] < units).then(|| layer + self.stride[number])
    }

    fn next_phase(&self, layer: usize) -> usize {
        layer + self.tallies
    }

    fn after_gap(&self, layer: usize, at: &At, problem: &Problem) -> Option<usize> {
        let allowed = !at.gap_used && problem.gap_in.get(at.phase).copied().unwrap_or(false);
        allowed.then(|| layer + self.phases * self.tallies)
    }
}

#[cfg(test)]
mod tests;
