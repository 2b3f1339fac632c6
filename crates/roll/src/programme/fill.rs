//! Least costs of all states, layer by layer from the last, a block of nodes at a time.
//!
//! A block's values stay in registers while every way on is tried: each is one load of a cost, one of a value behind, a sum
//! and a minimum, in as many lanes as the processor has. Values behind the end of the piece are infinite, so no way needs
//! a test of its own; nodes that no path can have reached with so many units used are left out.

use super::{At, Layers, Line, Problem};

/// Least cost of every state, and how many ways were compared.
pub(crate) struct Values {
    stride: usize,
    all: Vec<f64>,
    pub(crate) compared: u64,
}

impl Values {
    pub(crate) fn of(problem: &Problem, layers: &Layers, budget: f64) -> Self {
        let lengths: Vec<Lengths<'_>> =
            problem.lines.iter().map(|line| Lengths::within(line, budget)).collect();
        // Lines without a count look at their own layer: a block may be no wider than their shortest unit.
        let endless = problem.lines.iter().zip(&lengths).filter(|(line, _)| line.units.is_none());
        match endless.map(|(_, lengths)| lengths.shortest).min().unwrap_or(16) {
            16.. => Blocks::<16>::new(problem, layers, &lengths).fill(),
            4.. => Blocks::<4>::new(problem, layers, &lengths).fill(),
            _ => Blocks::<1>::new(problem, layers, &lengths).fill(),
        }
    }

    pub(crate) fn at(&self, layer: usize, node: usize) -> f64 {
        self.all[layer * self.stride + node]
    }
}

/// The lengths of a line's unit that are worth trying.
struct Lengths<'a> {
    shortest: usize,
    cost: &'a [Vec<f64>],
}

impl<'a> Lengths<'a> {
    fn within(line: &'a Line, budget: f64) -> Self {
        let worth = |cost: &Vec<f64>| cost.iter().any(|cost| *cost <= budget);
        let first = line.cost.iter().position(worth).unwrap_or(line.cost.len());
        let behind = line.cost.iter().rposition(worth).map_or(first, |last| last + 1);
        Self { shortest: line.shortest + first, cost: &line.cost[first..behind] }
    }
}

/// A problem laid out for blocks of `W` nodes.
struct Blocks<'a, const W: usize> {
    problem: &'a Problem,
    layers: &'a Layers,
    /// Nodes rounded up to whole blocks.
    padded: usize,
    stride: usize,
    /// For each line, its shortest length worth trying and costs with `padded` nodes a length.
    lines: Vec<(usize, Vec<f64>)>,
    /// Cost of leaving everything from each node on: plainly, and where that should not be.
    rest: [Vec<f64>; 2],
}

impl<'a, const W: usize> Blocks<'a, W> {
    fn new(problem: &'a Problem, layers: &'a Layers, lengths: &[Lengths<'_>]) -> Self {
        let padded = problem.nodes.div_ceil(W) * W;
        let longest = problem.lines.iter().map(|line| line.shortest + line.cost.len()).max().unwrap_or(0);
        let widened = |lengths: &Lengths<'_>| {
            let mut costs = Vec::with_capacity(lengths.cost.len() * padded);
            for cost in lengths.cost {
                costs.extend_from_slice(cost);
                costs.resize(costs.len().next_multiple_of(padded), f64::INFINITY);
            }
            (lengths.shortest, costs)
        };
        let rest = [false, true].map(|misplaced| {
            let mut rest: Vec<f64> =
                (0..problem.nodes).map(|node| problem.rest_cost(misplaced, node)).collect();
            rest.resize(padded, f64::INFINITY);
            rest
        });
        let lines = lengths.iter().map(widened).collect();
        Self { problem, layers, padded, stride: padded + longest + W, lines, rest }
    }

    fn fill(&self) -> Values {
        let mut values = Values {
            stride: self.stride,
            all: vec![f64::INFINITY; self.layers.count * self.stride],
            compared: 0,
        };
        for layer in (0..self.layers.count).rev() {
            self.fill_layer(layer, &mut values);
        }
        values
    }

    fn fill_layer(&self, layer: usize, values: &mut Values) {
        let at = self.layers.at(layer);
        let first = self.problem.first_node(&at);
        let ways = self.ways(layer, &at);
        let free = (at.phase + 1 < self.problem.phases).then(|| self.layers.next_phase(layer) * self.stride);
        let gap = self.layers.after_gap(layer, &at, self.problem).map(|after| self.gap(after, values));
        let missing = self.problem.missing_cost(&at);
        let rest = &self.rest[usize::from(self.problem.rest_is_misplaced(&at))];
        for start in (first / W * W..self.padded).step_by(W).rev() {
            let mut block = [f64::INFINITY; W];
            lower(&mut block, &rest[start..], missing);
            if let Some(next) = free {
                lower(&mut block, &values.all[next + start..], 0.0);
            }
            if let Some(gap) = &gap {
                lower(&mut block, &gap[start..], 0.0);
            }
            for way in &ways {
                let behind = &values.all[way.next + start + way.shortest..];
                try_lengths(&mut block, &way.costs[start..], behind, self.padded);
                values.compared += (W * way.costs.len() / self.padded) as u64;
            }
            let here = layer * self.stride + start;
            values.all[here..here + W].copy_from_slice(&block);
        }
    }

    /// Lines open in a layer, each with the values its units lead to.
    fn ways(&self, layer: usize, at: &At) -> Vec<Way<'_>> {
        let lines = self.problem.lines.iter().enumerate();
        let open = lines.filter(|(number, line)| line.phase == at.phase && !self.lines[*number].1.is_empty());
        open.filter_map(|(number, line)| {
            let next = match line.units {
                None => layer,
                Some(_) => self.layers.after_unit(layer, at, self.problem, number)?,
            };
            let (shortest, costs) = &self.lines[number];
            Some(Way { next: next * self.stride, shortest: *shortest, costs })
        })
        .collect()
    }

    /// At each node, the least cost with one piece left over from here to some node far enough.
    fn gap(&self, after: usize, values: &Values) -> Vec<f64> {
        let problem = self.problem;
        let mut least = vec![f64::INFINITY; self.padded];
        let mut best = f64::INFINITY;
        for node in (0..problem.nodes.saturating_sub(problem.gap_steps)).rev() {
            let far = node + problem.gap_steps;
            best = best.min(values.at(after, far) + problem.price * problem.up_to[far]);
            least[node] = best - problem.price * problem.past[node];
        }
        least
    }
}

/// A line's units from a layer.
struct Way<'a> {
    /// Where the values of the layer they lead to begin.
    next: usize,
    shortest: usize,
    costs: &'a [f64],
}

/// Tries every length of a line's unit from a block of nodes; `behind` begins where the shortest leads.
fn try_lengths<const W: usize>(block: &mut [f64; W], costs: &[f64], behind: &[f64], padded: usize) {
    let mut least = *block;
    for (length, costs) in costs.chunks(padded).enumerate() {
        if let (Some(cost), Some(after)) = (costs.first_chunk::<W>(), behind[length..].first_chunk::<W>()) {
            for place in 0..W {
                let through = cost[place] + after[place];
                least[place] = if through < least[place] { through } else { least[place] };
            }
        }
    }
    *block = least;
}

/// `block = min(block, values + more)`.
fn lower<const W: usize>(block: &mut [f64; W], values: &[f64], more: f64) {
    for (least, value) in block.iter_mut().zip(values) {
        *least = if value + more < *least { value + more } else { *least };
    }
}
