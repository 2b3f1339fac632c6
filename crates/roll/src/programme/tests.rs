//! The programme against a general mixed-integer solver, which knows arcs and equations and nothing of layers.
//!
//! Solver: microlp, branch and bound over its own simplex. A solution counts only where it reports the optimum as proved.

use super::*;
use microlp::{
    ComparisonOp, LinearExpr, OptimizationDirection, Problem as Milp, SolutionStatus, SolveOutcome, Variable,
};
use rand::{Rng, SeedableRng, rngs::ChaCha8Rng};

struct Dice(ChaCha8Rng);

impl Dice {
    fn below(&mut self, count: usize) -> usize {
        (self.0.next_u64() % count as u64) as usize
    }

    fn unit(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 / (1u64 << 53) as f64
    }

    fn yes(&mut self, chance: f64) -> bool {
        self.unit() < chance
    }
}

/// A small problem with everything in it that a large one may have. Every fifth is long, with long units: blocks of nodes
/// are as wide as the shortest of them.
fn random_problem(seed: u64) -> Problem {
    let mut dice = Dice(ChaCha8Rng::seed_from_u64(seed));
    let long = seed.is_multiple_of(5);
    let nodes = if long { 50 + dice.below(40) } else { 10 + dice.below(22) };
    let phases = 1 + dice.below(3);
    let kerf = if dice.yes(0.3) { 0.4 } else { 0.0 };
    let grams: Vec<f64> = (0..nodes).map(|_| 8.0 + 8.0 * dice.unit()).collect();
    let up_to: Vec<f64> = (0..nodes).map(|node| grams[..node].iter().sum()).collect();
    let past = (0..nodes).map(|node| up_to[node] + kerf * grams[node]).collect();
    let lines = (0..1 + dice.below(3)).map(|_| random_line(&mut dice, nodes, phases, long)).collect();
    let last_reaches_end = phases > 1 && dice.yes(0.5);
    let gap_in = (0..phases).map(|_| dice.yes(0.5)).collect();
    Problem {
        nodes,
        lines,
        phases,
        up_to,
        past,
        price: if dice.yes(0.7) { 0.02 + 0.1 * dice.unit() } else { 0.0 },
        missing: 200.0,
        again: 50.0,
        gap_in,
        gap_steps: 1 + dice.below(3),
        last_reaches_end,
        start: Start { phase: dice.below(phases), gap_used: dice.yes(0.1), prefer: None, forced: None },
    }
}

fn random_line(dice: &mut Dice, nodes: usize, phases: usize, long: bool) -> Line {
    let shortest = if long { 16 + dice.below(6) } else { 2 + dice.below(4) };
    let longest = shortest + 1 + dice.below(4);
    let (wish, tolerance) = (shortest as f64 + 3.0 * dice.unit(), 0.5 + dice.unit());
    let cost = (shortest..=longest)
        .map(|steps| {
            let miss = ((steps as f64 - wish) / tolerance).powi(2);
            (0..nodes)
                .map(|_| if dice.yes(0.05) { f64::INFINITY } else { miss + 3.0 * dice.unit() })
                .collect()
        })
        .collect();
    let units = if dice.yes(0.6) { Some(1 + dice.below(3) as u32) } else { None };
    Line { units, portions: 1 + dice.below(2) as u32, phase: dice.below(phases), shortest, cost }
}

/// A road from one state to another: states are (gap used, phase, node), the last one is the sink.
struct Arc {
    from: usize,
    to: usize,
    cost: f64,
    line: Option<usize>,
}

fn arcs(problem: &Problem) -> (usize, Vec<Arc>) {
    let (nodes, phases) = (problem.nodes, problem.phases);
    let state = |gap: usize, phase: usize, node: usize| (gap * phases + phase) * nodes + node;
    let sink = 2 * phases * nodes;
    let mut all = Vec::new();
    for gap in 0..2 {
        for phase in 0..phases {
            for node in 0..nodes {
                let from = state(gap, phase, node);
                let whole = problem.up_to[nodes - 1] - problem.past[node];
                let misplaced = gap == 1 || (problem.last_reaches_end && phase + 1 == phases);
                let again = if misplaced { problem.again } else { 0.0 };
                let stop = if node + 1 == nodes { 0.0 } else { problem.price * whole + again };
                all.push(Arc { from, to: sink, cost: stop, line: None });
                if phase + 1 < phases {
                    all.push(Arc { from, to: state(gap, phase + 1, node), cost: 0.0, line: None });
                }
                if gap == 0 && problem.gap_in[phase] {
                    for after in node + problem.gap_steps..nodes {
                        let cost = problem.price * (problem.up_to[after] - problem.past[node]);
                        all.push(Arc { from, to: state(1, phase, after), cost, line: None });
                    }
                }
                for (number, line) in problem.lines.iter().enumerate().filter(|(_, l)| l.phase == phase) {
                    for (steps, cost) in line.steps() {
                        if node + steps < nodes && cost[node].is_finite() {
                            let to = state(gap, phase, node + steps);
                            all.push(Arc { from, to, cost: cost[node], line: Some(number) });
                        }
                    }
                }
            }
        }
    }
    (sink, all)
}

/// The least cost by the general solver, if it proves one.
fn by_milp(problem: &Problem) -> Option<f64> {
    let (sink, arcs) = arcs(problem);
    let mut milp = Milp::new(OptimizationDirection::Minimize);
    let taken: Vec<Variable> = arcs.iter().map(|arc| milp.add_binary_var(arc.cost)).collect();
    let start = (usize::from(problem.start.gap_used) * problem.phases + problem.start.phase) * problem.nodes;
    for state in 0..sink {
        let mut flow = LinearExpr::empty();
        for (arc, variable) in arcs.iter().zip(&taken) {
            if arc.from == state {
                flow.add(*variable, 1.0);
            } else if arc.to == state {
                flow.add(*variable, -1.0);
            }
        }
        milp.add_constraint(flow, ComparisonOp::Eq, if state == start { 1.0 } else { 0.0 });
    }
    for (number, line) in problem.lines.iter().enumerate() {
        let Some(units) = line.units else { continue };
        let short = milp.add_var(problem.missing * f64::from(line.portions), (0.0, f64::from(units)));
        let mut used = LinearExpr::empty();
        used.add(short, 1.0);
        for (_, variable) in arcs.iter().zip(&taken).filter(|(arc, _)| arc.line == Some(number)) {
            used.add(*variable, 1.0);
        }
        milp.add_constraint(used, ComparisonOp::Eq, f64::from(units));
    }
    match milp.solve() {
        Ok(SolveOutcome::Solution(found)) if found.status() == SolutionStatus::Optimal => {
            Some(found.objective())
        }
        _ => None,
    }
}

fn cost_of_path(problem: &Problem, solution: &Solution) -> Option<f64> {
    // What the units themselves cost, without what lies between and behind them.
    let mut at = 0;
    let mut cost = 0.0;
    for unit in &solution.units {
        if unit.from < at || unit.to <= unit.from {
            return None;
        }
        let line = &problem.lines[unit.line];
        cost += line.cost[unit.to - unit.from - line.shortest][unit.from];
        at = unit.to;
    }
    Some(cost)
}

#[test]
fn as_good_as_a_general_solver_on_240_small_problems() {
    let mut proved = 0;
    for seed in 0..240 {
        let problem = random_problem(seed);
        let ours = problem.solve();
        let Some(theirs) = by_milp(&problem) else { continue };
        proved += 1;
        assert!(
            (ours.cost - theirs).abs() < 1e-6 * (1.0 + theirs.abs()),
            "seed {seed}: programme {}, solver {theirs}",
            ours.cost
        );
        let units = cost_of_path(&problem, &ours).expect("units in order, none over another");
        assert!(units <= ours.cost + 1e-9, "seed {seed}: the path costs more than the value");
    }
    // A problem the solver cannot prove checks nothing; most it can.
    assert!(proved >= 230, "only {proved} of 240 proved");
}

/// The path's own cost, added up outside the recurrence, is the value.
#[test]
fn the_path_found_costs_what_the_value_says() {
    for seed in 0..400 {
        let problem = random_problem(seed);
        let solution = problem.solve();
        let mut cost = cost_of_path(&problem, &solution).expect("in order");
        for (number, line) in problem.lines.iter().enumerate() {
            let used = solution.units.iter().filter(|unit| unit.line == number).count() as u32;
            if let Some(units) = line.units {
                assert!(used <= units, "seed {seed}: more units than wanted");
                cost += f64::from((units - used) * line.portions) * problem.missing;
            }
        }
        let stops: Vec<usize> = solution.units.iter().map(|unit| unit.to).collect();
        let starts = solution.units.iter().map(|unit| unit.from).chain([problem.nodes - 1]);
        let left: f64 = [0]
            .into_iter()
            .chain(stops)
            .zip(starts)
            .filter(|(end, start)| start > end)
            .map(|(end, start)| problem.price * (problem.up_to[start] - problem.past[end]))
            .sum();
        let rest = solution.cost - cost - left;
        // What remains can only be none or one charge for a piece left where it should not be.
        assert!(rest.abs() < 1e-6 || (rest - problem.again).abs() < 1e-6, "seed {seed}: {rest} unexplained");
    }
}

/// A plan may cost the margin more for keeping to what was shown, and no more.
#[test]
fn a_preferred_line_comes_first_if_it_costs_little() {
    let mut kept = 0;
    for seed in 0..300 {
        let mut problem = random_problem(seed);
        let least = problem.solve();
        for line in 0..problem.lines.len() {
            problem.start.prefer = Some((line, 1.5));
            let path = problem.solve();
            assert!((path.cost - least.cost).abs() < 1e-9, "seed {seed}: the value itself does not change");
            let first = path.units.first();
            if first != least.units.first() {
                kept += 1;
                assert_eq!(first.map(|unit| unit.line), Some(line), "seed {seed}");
            }
        }
    }
    assert!(kept > 20, "only {kept} plans kept to a preferred line");
}
