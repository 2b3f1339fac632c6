//! The whole grid: one stage of a step, a solve along every axis.
//!
//! The unknown is `u`, the table's arc coordinate. A stage solves `H(u) = base + τ F(u)` by one round of Newton from the `u`
//! at hand. With several axes the matrix is a product of tridiagonal ones, an axis each; the flow `F` is never split, so a
//! piece at rest stays at rest whatever its faces do. What is handed back are the linearised flows; the enthalpy is then
//! stepped with those, never read back from `u`, so energy closes whatever the round left undone. What it left undone is in
//! the next stage's right-hand side.

use super::block::{Around, Block};
use super::face::{FaceNow, Flow};
use super::grid::{Axis, Cells, Grid};
use super::lines::{conduct, eliminate, eliminate_mixed};
use super::spread::{Effort, Spread, spread};
use crate::property::Point;

/// Room for one grid; kept between steps.
#[derive(Clone, Debug)]
pub(crate) struct Field {
    /// What the table held at each node's `u` when it was last asked, and that `u`: a step begins where the one before it ended.
    points: Vec<(f64, Point)>,
    /// Values at the last stage's `u`: ∫k dT, temperature, enthalpy of the cell, and what each gains for one `u`.
    theta: Vec<f64>,
    dtheta: Vec<f64>,
    t: Vec<f64>,
    dt: Vec<f64>,
    mean: Vec<f64>,
    dmean: Vec<f64>,
    /// Mixed cells: what the mean gains for one `u` of the node below and above.
    below: Vec<f64>,
    above: Vec<f64>,
    spreads: Vec<Spread>,
    /// The change of `u` a stage solved for, and the ∫k dT that straight lines led to.
    change: Vec<f64>,
    ahead: Vec<f64>,
    diagonal: Vec<f64>,
    /// Nodes whose temperature is held: where to.
    held: Vec<Option<f64>>,
    any_held: bool,
    /// Flows through the faces: per axis and end, one a line.
    pub(crate) flows: Vec<[Vec<Flow>; 2]>,
}

/// J/m³ that count as settled: less than a millionth of a kelvin.
const SETTLED: f64 = 1.0;
/// Rounds of Newton before the cells are left to settle by themselves.
const NEWTON_ROUNDS: usize = 8;
/// Weight of what the straight lines missed.
const BENT: f64 = 0.5;

/// The table at every `u`, where it was not asked for just that the last time.
fn look_up(points: &mut [(f64, Point)], block: &Block, u: &[f64]) {
    for ((seen, point), u) in points.iter_mut().zip(u) {
        if *seen != *u {
            (*seen, *point) = (*u, block.table.at(*u));
        }
    }
}

impl Field {
    pub(crate) fn new(grid: &Grid) -> Self {
        let nodes = grid.nodes();
        let zeros = || vec![0.0; nodes];
        let flows = |axis: &Axis| [0, 1].map(|end| vec![Flow::default(); axis.at[end].len()]);
        Self {
            points: vec![(f64::NAN, Point::default()); nodes],
            theta: zeros(),
            dtheta: zeros(),
            t: zeros(),
            dt: zeros(),
            mean: zeros(),
            dmean: zeros(),
            below: zeros(),
            above: zeros(),
            spreads: match grid.cells {
                Cells::Mixed => grid.axes[0].low_share.iter().map(|share| Spread::new(*share)).collect(),
                Cells::Lumped => Vec::new(),
            },
            change: zeros(),
            ahead: zeros(),
            diagonal: zeros(),
            held: vec![None; nodes],
            any_held: false,
            flows: grid.axes.iter().map(flows).collect(),
        }
    }

    /// Before the first stage of a step.
    pub(crate) fn begin(&mut self, block: &Block, u: &[f64]) {
        if !self.spreads.is_empty() {
            look_up(&mut self.points, block, u);
            let points = &self.points;
            spread(&mut self.spreads, |i| points[i].1.theta);
        }
    }

    /// One Newton round of `H(u) = base + τ F(u)`: fills `rate` with the linearised F, W/m³, and moves `u`.
    pub(crate) fn stage(
        &mut self,
        block: &Block,
        around: &Around,
        (base, tau): (&[f64], f64),
        u: &mut [f64],
        rate: &mut [f64],
    ) {
        self.values(block, u, Effort::IN_A_STEP);
        rate.fill(0.0);
        let axes = &block.grid.axes;
        for (a, axis) in axes.iter().enumerate() {
            conduct(axis, block.links(a), &self.theta, rate);
        }
        self.meet(block, around, u, rate);
        let goals = base.iter().zip(&self.mean).zip(rate.iter());
        for (change, ((base, mean), rate)) in self.change.iter_mut().zip(goals) {
            *change = base - mean + tau * rate;
        }
        for (a, axis) in axes.iter().enumerate().rev() {
            if a + 1 < axes.len() {
                self.change.iter_mut().zip(&self.dmean).for_each(|(x, dmean)| *x *= dmean);
            }
            self.solve(block, around, a, tau);
            // The diagonal is free again: it carries the change of ∫k dT.
            for (theta, (dtheta, change)) in
                self.diagonal.iter_mut().zip(self.dtheta.iter().zip(&self.change))
            {
                *theta = dtheta * change;
            }
            conduct(axis, block.links(a), &self.diagonal, rate);
            self.warm_faces(block, a, rate);
        }
        u.iter_mut().zip(&self.change).for_each(|(u, change)| *u += change);
        // The last axis solved is the first one: the diagonal carries the whole change of ∫k dT.
        self.ahead.iter_mut().zip(self.theta.iter().zip(&self.diagonal)).for_each(
            |(ahead, (theta, step))| {
                *ahead = theta + step;
            },
        );
        self.hold(block, around, (base, tau), rate);
    }

    /// After a stage: the `u` that carry `h`, in mixed cells with the reaches the solve has led to.
    pub(crate) fn carry(&mut self, block: &Block, h: &[f64], u: &mut [f64]) {
        self.carry_in(block, h, u, Effort::IN_A_STEP);
    }

    fn carry_in(&mut self, block: &Block, h: &[f64], u: &mut [f64], effort: Effort) {
        if self.spreads.is_empty() {
            for (u, h) in u.iter_mut().zip(h) {
                *u = block.table.u_at_enthalpy(*h, *u);
            }
            return;
        }
        let ahead = &self.ahead;
        spread(&mut self.spreads, |i| ahead[i]);
        for ((u, h), cell) in u.iter_mut().zip(h).zip(&mut self.spreads) {
            *u = cell.u_at_enthalpy(block.table, *h, *u, effort);
        }
    }

    /// The larger of two error estimates of a step whose last stage was just carried to `u`, J/m³: half the difference of
    /// the stages, and what the straight lines of the last one missed of the curve. The second sees a cell pass its
    /// freezing point, which the first can sleep through.
    pub(crate) fn error(&mut self, block: &Block, tau: f64, u: &[f64], first: &[f64], second: &[f64]) -> f64 {
        look_up(&mut self.points, block, u);
        let n = u.len();
        let (points, ahead, reach) = (&self.points[..n], &self.ahead[..n], &block.grid.reach[..n]);
        let (first, second) = (&first[..n], &second[..n]);
        let pull = tau * block.links(0);
        let mut most: f64 = 0.0;
        for i in 0..n {
            if self.any_held && self.held[i].is_some() {
                continue;
            }
            let (point, reach) = (&points[i].1, pull * reach[i]);
            let missed =
                reach * (point.theta - ahead[i]).abs() * point.dh / (point.dh + reach * point.dtheta);
            let between = 0.5 * tau * (second[i] - first[i]).abs();
            let error = between.max(BENT * missed);
            // `max` would drop a NaN.
            most = if error.is_nan() { f64::INFINITY } else { most.max(error) };
        }
        most
    }

    /// Mean enthalpy of every cell at `u`, J/m³.
    pub(crate) fn means(&mut self, block: &Block, u: &[f64]) -> &[f64] {
        self.begin(block, u);
        self.values(block, u, Effort::TO_THE_END);
        &self.mean
    }

    /// Finds the `u` that carry `h` with the reaches they themselves make: rounds of Newton, each followed by the cells one
    /// by one, which cannot go astray at the kink. Lumped cells carry it already.
    pub(crate) fn settle(&mut self, block: &Block, h: &[f64], u: &mut [f64]) {
        if self.spreads.is_empty() {
            return;
        }
        let nothing = Around { faces: &[[FaceNow::Insulated; 2]], skins: &[[Vec::new(), Vec::new()]] };
        for round in 0..400 {
            self.begin(block, u);
            self.values(block, u, Effort::TO_THE_END);
            let mut most: f64 = 0.0;
            for (change, (h, mean)) in self.change.iter_mut().zip(h.iter().zip(&self.mean)) {
                *change = h - mean;
                most = most.max(change.abs());
            }
            if most < SETTLED {
                break;
            }
            if round < NEWTON_ROUNDS {
                let held = std::mem::take(&mut self.any_held);
                self.solve(block, &nothing, 0, 0.0);
                self.any_held = held;
                for i in 0..u.len() {
                    self.ahead[i] = self.theta[i] + self.dtheta[i] * self.change[i];
                }
                u.iter_mut().zip(&self.change).for_each(|(u, change)| *u += change);
                self.carry_in(block, h, u, Effort::TO_THE_END);
            } else {
                // Where Newton circles round the kink the cells by themselves still close in, half a step at a time.
                self.ahead.copy_from_slice(&self.theta);
                let before = u.to_vec();
                self.carry_in(block, h, u, Effort::TO_THE_END);
                u.iter_mut().zip(before).for_each(|(u, before)| *u = 0.5 * (*u + before));
            }
        }
    }

    fn values(&mut self, block: &Block, u: &[f64], effort: Effort) {
        look_up(&mut self.points, block, u);
        let n = u.len();
        let (points, theta, dtheta) = (&self.points[..n], &mut self.theta[..n], &mut self.dtheta[..n]);
        let (t, dt) = (&mut self.t[..n], &mut self.dt[..n]);
        let (mean, dmean) = (&mut self.mean[..n], &mut self.dmean[..n]);
        for i in 0..n {
            let point = &points[i].1;
            (theta[i], dtheta[i]) = (point.theta, point.dtheta);
            (t[i], dt[i]) = (point.t, point.dt);
            (mean[i], dmean[i]) = (point.h, point.dh);
        }
        if self.spreads.is_empty() {
            return;
        }
        let (spreads, below, above) = (&mut self.spreads[..n], &mut self.below[..n], &mut self.above[..n]);
        for i in 0..n {
            let (u, point) = &points[i];
            let cell = spreads[i].mean(block.table, (*u, point), effort);
            mean[i] = cell.mean;
            dmean[i] = cell.slope - (cell.far.0 + cell.far.1) * point.dtheta;
            // A share on a side that has no neighbour is none.
            below[i] = cell.far.0 * dtheta[i.saturating_sub(1)];
            above[i] = cell.far.1 * dtheta[(i + 1).min(n - 1)];
        }
    }

    /// Flows through every face at the surface temperatures at hand, into the rates.
    fn meet(&mut self, block: &Block, around: &Around, u: &[f64], rate: &mut [f64]) {
        self.any_held = around.faces.iter().flatten().any(|face| matches!(face, FaceNow::Fixed(_)));
        if self.any_held {
            self.held.fill(None);
        }
        for (a, axis) in block.grid.axes.iter().enumerate() {
            for end in 0..2 {
                let (face, strength) = (&around.faces[a][end], block.areas(a) * axis.face[end]);
                match face {
                    FaceNow::Insulated => self.flows[a][end].fill(Flow::default()),
                    FaceNow::Fixed(t) => {
                        let target = block.table.u_at_temperature(*t);
                        for node in &axis.at[end] {
                            self.held[*node].get_or_insert(target - u[*node]);
                        }
                        self.flows[a][end].fill(Flow::default());
                    }
                    FaceNow::Open { .. } => {
                        let cells = axis.at[end].iter().zip(&around.skins[a][end]);
                        for (flow, (node, skin)) in self.flows[a][end].iter_mut().zip(cells) {
                            *flow = face.flow(self.t[*node], *skin, flow.vapour);
                            rate[*node] += strength * flow.heat;
                        }
                    }
                }
            }
        }
    }

    /// After the solve along an axis: what its faces' flows gain by the surface's warming.
    fn warm_faces(&mut self, block: &Block, a: usize, rate: &mut [f64]) {
        let axis = &block.grid.axes[a];
        for end in 0..2 {
            let strength = block.areas(a) * axis.face[end];
            for (flow, node) in self.flows[a][end].iter_mut().zip(&axis.at[end]) {
                if flow.slope != 0.0 {
                    let node = *node;
                    let warmer = self.dt[node] * self.change[node];
                    flow.heat += flow.slope * warmer;
                    flow.vapour += flow.vapour_slope * warmer;
                    flow.boiled += flow.boiled_slope * warmer;
                    rate[node] += strength * flow.slope * warmer;
                }
            }
        }
    }

    /// Held cells follow their surface; the face gives what that takes beside the flow to their neighbours.
    fn hold(&mut self, block: &Block, around: &Around, (base, tau): (&[f64], f64), rate: &mut [f64]) {
        if !self.any_held {
            return;
        }
        for (a, axis) in block.grid.axes.iter().enumerate() {
            for end in 0..2 {
                if !matches!(around.faces[a][end], FaceNow::Fixed(_)) {
                    continue;
                }
                for (line, node) in axis.at[end].iter().enumerate() {
                    let node = *node;
                    let beside = if self.spreads.is_empty() {
                        0.0
                    } else if end == 0 {
                        self.above[node] * self.change[node + 1]
                    } else {
                        self.below[node] * self.change[node - 1]
                    };
                    let mean = self.mean[node] + self.dmean[node] * self.change[node] + beside;
                    let follows = (mean - base[node]) / tau;
                    self.flows[a][end][line].heat =
                        (follows - rate[node]) / (block.areas(a) * axis.face[end]);
                    rate[node] = follows;
                }
            }
        }
    }

    /// Along one axis: `(H' − τ F') change = change`.
    fn solve(&mut self, block: &Block, around: &Around, a: usize, tau: f64) {
        self.diagonals(block, around, a, tau);
        let axis = &block.grid.axes[a];
        let (n, pull) = (axis.size.len(), tau * block.links(a));
        if self.any_held {
            return self.solve_line(axis, pull);
        }
        if !self.spreads.is_empty() {
            let (below, above) = (&self.below, &self.above);
            return eliminate_mixed(
                axis,
                pull,
                &self.dtheta,
                (below, above),
                &mut self.diagonal,
                &mut self.change,
            );
        }
        if axis.stride == 1 {
            return eliminate(axis, pull, &self.dtheta, &mut self.diagonal, &mut self.change);
        }
        let whole = n * axis.stride;
        for start in (0..self.change.len()).step_by(whole) {
            let lines = start..start + whole;
            let (theta, diagonal) = (&self.dtheta[lines.clone()], &mut self.diagonal[lines.clone()]);
            eliminate(axis, pull, theta, diagonal, &mut self.change[lines]);
        }
    }

    /// The same where cells are mixed or held: their rows are not of the plain kind.
    fn solve_line(&mut self, axis: &Axis, pull: f64) {
        let (n, stride) = (axis.size.len(), axis.stride);
        let lines = self.change.len() / n;
        let mixed = !self.spreads.is_empty();
        for line in 0..lines {
            let first = axis.first(line);
            let coupling = |field: &Self, i: usize, up: bool| {
                let (node, other) =
                    (first + i * stride, first + if up { (i + 1) * stride } else { (i - 1) * stride });
                if field.any_held && field.held[node].is_some() {
                    return 0.0;
                }
                let (strength, beside) =
                    if up { (axis.up[i], &field.above) } else { (axis.down[i], &field.below) };
                let flow = -pull * strength * field.dtheta[other];
                if mixed { flow + beside[node] } else { flow }
            };
            for i in 1..n {
                let (node, before) = (first + i * stride, first + (i - 1) * stride);
                let w = coupling(self, i, false) / self.diagonal[before];
                self.diagonal[node] -= w * coupling(self, i - 1, true);
                self.change[node] -= w * self.change[before];
            }
            self.change[first + (n - 1) * stride] /= self.diagonal[first + (n - 1) * stride];
            for i in (0..n - 1).rev() {
                let (node, after) = (first + i * stride, first + (i + 1) * stride);
                self.change[node] =
                    (self.change[node] - coupling(self, i, true) * self.change[after]) / self.diagonal[node];
            }
        }
    }

    fn diagonals(&mut self, block: &Block, around: &Around, a: usize, tau: f64) {
        let axis = &block.grid.axes[a];
        let (n, stride) = (axis.size.len(), axis.stride);
        let pull = tau * block.links(a);
        let whole = n * stride;
        let values = self.dmean.chunks_exact(whole).zip(self.dtheta.chunks_exact(whole));
        for (diagonal, (dmean, dtheta)) in self.diagonal.chunks_exact_mut(whole).zip(values) {
            if stride == 1 {
                let (both, dmean, dtheta) = (&axis.both[..n], &dmean[..n], &dtheta[..n]);
                for (i, diagonal) in diagonal[..n].iter_mut().enumerate() {
                    *diagonal = dmean[i] + pull * both[i] * dtheta[i];
                }
                continue;
            }
            for (i, row) in diagonal.chunks_exact_mut(stride).enumerate() {
                let both = pull * axis.both[i];
                let values = dmean[i * stride..].iter().zip(&dtheta[i * stride..]);
                for (diagonal, (dmean, dtheta)) in row.iter_mut().zip(values) {
                    *diagonal = dmean + both * dtheta;
                }
            }
        }
        for end in 0..2 {
            if tau > 0.0 && matches!(around.faces[a][end], FaceNow::Open { .. }) {
                let strength = tau * block.areas(a) * axis.face[end];
                for (flow, node) in self.flows[a][end].iter().zip(&axis.at[end]) {
                    self.diagonal[*node] -= strength * flow.slope * self.dt[*node];
                }
            }
        }
        if self.any_held {
            for (node, held) in self.held.iter().enumerate() {
                if let Some(step) = held {
                    self.diagonal[node] = 1.0;
                    self.change[node] = *step;
                }
            }
        }
    }
}
