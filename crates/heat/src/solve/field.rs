//! Lumped cells along one axis or more: one stage of a step, a solve along every axis.
//!
//! With several axes the matrix is a product of tridiagonal ones, an axis each; the flow `F` is never split, so a piece at rest
//! stays at rest whatever its faces do.

use super::block::{Around, Block, Passing};
use super::face::FaceNow;
use super::grid::{Axis, Grid};
use super::lines::{conduct, eliminate};
use crate::property::Table;

/// Room for one grid; kept between steps.
#[derive(Clone, Debug)]
pub(crate) struct Field {
    /// Values at each node's `u` as last placed: ∫k dT, temperature, enthalpy, and what each gains for one `u`.
    theta: Vec<f64>,
    dtheta: Vec<f64>,
    t: Vec<f64>,
    dt: Vec<f64>,
    h: Vec<f64>,
    dh: Vec<f64>,
    /// The change of `u` a stage solved for, and the ∫k dT that straight lines led to.
    change: Vec<f64>,
    ahead: Vec<f64>,
    /// Diagonals of a solve; between solves the change of ∫k dT.
    diagonal: Vec<f64>,
    pub(crate) passing: Passing,
}

/// Weight of what the straight lines missed.
const BENT: f64 = 0.25;

impl Field {
    pub(crate) fn new(grid: &Grid) -> Self {
        let zeros = || vec![0.0; grid.nodes()];
        Self {
            theta: zeros(),
            dtheta: zeros(),
            t: zeros(),
            dt: zeros(),
            h: zeros(),
            dh: zeros(),
            change: zeros(),
            ahead: zeros(),
            diagonal: zeros(),
            passing: Passing::new(grid),
        }
    }

    pub(crate) fn temperature(&self, node: usize) -> f64 {
        self.t[node]
    }

    /// Moves every node that is not held to the `u` that carries `h`.
    pub(crate) fn guess(&mut self, table: &Table, h: &[f64], u: &mut [f64]) {
        self.place(table, (h, true), u);
    }

    /// Moves every node to the `u` that carries `h`.
    pub(crate) fn carry(&mut self, table: &Table, h: &[f64], u: &mut [f64]) {
        self.place(table, (h, false), u);
    }

    fn place(&mut self, table: &Table, (h, hold): (&[f64], bool), u: &mut [f64]) {
        let n = u.len();
        let hold = hold && self.passing.any_held;
        let h = &h[..n];
        let (theta, dtheta) = (&mut self.theta[..n], &mut self.dtheta[..n]);
        let (t, dt) = (&mut self.t[..n], &mut self.dt[..n]);
        let (own, dh) = (&mut self.h[..n], &mut self.dh[..n]);
        for i in 0..n {
            let (at, point) = if hold && self.passing.held[i].is_some() {
                (u[i], table.at(u[i]))
            } else {
                table.at_enthalpy(h[i], u[i])
            };
            u[i] = at;
            (theta[i], dtheta[i]) = (point.theta, point.dtheta);
            (t[i], dt[i]) = (point.t, point.dt);
            (own[i], dh[i]) = (point.h, point.dh);
        }
    }

    /// One Newton round of `H(u) = base + τ F(u)` from where the nodes were placed: fills `rate` with the linearised F, W/m³, and
    /// moves `u`.
    pub(crate) fn stage(
        &mut self,
        block: &Block,
        around: &Around,
        (base, tau): (&[f64], f64),
        u: &mut [f64],
        rate: &mut [f64],
    ) {
        rate.fill(0.0);
        let axes = &block.grid.axes;
        for (a, axis) in axes.iter().enumerate() {
            conduct(axis, block.links(a), &self.theta, rate);
        }
        let t = &self.t;
        self.passing.meet(block, around, (u, |node: usize| t[node]), rate);
        let goals = base.iter().zip(&self.h).zip(rate.iter());
        for (change, ((base, h), rate)) in self.change.iter_mut().zip(goals) {
            *change = base - h + tau * rate;
        }
        for (a, axis) in axes.iter().enumerate().rev() {
            if a + 1 < axes.len() {
                self.change.iter_mut().zip(&self.dh).for_each(|(x, dh)| *x *= dh);
            }
            self.solve(block, around, a, tau);
            // The diagonal is free again: it carries the change of ∫k dT.
            for (theta, (dtheta, change)) in
                self.diagonal.iter_mut().zip(self.dtheta.iter().zip(&self.change))
            {
                *theta = dtheta * change;
            }
            conduct(axis, block.links(a), &self.diagonal, rate);
            let (dt, change) = (&self.dt, &self.change);
            self.passing.warm(block, around, (a, |node: usize| dt[node] * change[node]), rate);
        }
        u.iter_mut().zip(&self.change).for_each(|(u, change)| *u += change);
        // The last axis solved is the first one: the diagonal carries the whole change of ∫k dT.
        let moved = self.theta.iter().zip(&self.diagonal);
        self.ahead.iter_mut().zip(moved).for_each(|(ahead, (theta, step))| *ahead = theta + step);
        self.hold(block, around, (base, tau), rate);
    }

    /// What the straight lines of the last stage missed of the curve, now that its nodes are placed, J/m³. It sees a cell pass its
    /// freezing point, which the difference of the stages can sleep through.
    #[inline(always)]
    pub(crate) fn missed(&self, block: &Block, tau: f64, node: usize) -> f64 {
        let reach = tau * block.links(0) * block.grid.reach[node];
        let (theta, dtheta, dh) = (self.theta[node], self.dtheta[node], self.dh[node]);
        BENT * reach * (theta - self.ahead[node]).abs() * dh / (dh + reach * dtheta)
    }

    /// Held cells follow their surface; the face gives what that takes beside the flow to their neighbours.
    fn hold(&mut self, block: &Block, around: &Around, (base, tau): (&[f64], f64), rate: &mut [f64]) {
        if !self.passing.any_held {
            return;
        }
        for (rim, face) in block.grid.rims.iter().zip(around.faces) {
            let FaceNow::Fixed(_) = face else { continue };
            for (flow, node) in self.passing.flows[rim.cells.clone()].iter_mut().zip(&rim.nodes) {
                let node = *node;
                let h = self.h[node] + self.dh[node] * self.change[node];
                let follows = (h - base[node]) / tau;
                flow.heat = (follows - rate[node]) / block.strength(rim);
                rate[node] = follows;
            }
        }
    }

    /// Along one axis: `(H' − τ F') change = change`.
    fn solve(&mut self, block: &Block, around: &Around, a: usize, tau: f64) {
        self.diagonals(block, around, a, tau);
        let axis = &block.grid.axes[a];
        let (n, pull) = (axis.size.len(), tau * block.links(a));
        if self.passing.any_held {
            return self.solve_held(axis, pull);
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

    /// The same where cells are held: their rows are not of the plain kind.
    fn solve_held(&mut self, axis: &Axis, pull: f64) {
        let (n, stride) = (axis.size.len(), axis.stride);
        let lines = self.change.len() / n;
        for line in 0..lines {
            let first = axis.first(line);
            let coupling = |field: &Self, i: usize, up: bool| {
                let (node, other) =
                    (first + i * stride, first + if up { (i + 1) * stride } else { (i - 1) * stride });
                if field.passing.held[node].is_some() {
                    return 0.0;
                }
                let strength = if up { axis.up[i] } else { axis.down[i] };
                -pull * strength * field.dtheta[other]
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
        let values = self.dh.chunks_exact(whole).zip(self.dtheta.chunks_exact(whole));
        for (diagonal, (dh, dtheta)) in self.diagonal.chunks_exact_mut(whole).zip(values) {
            if stride == 1 {
                let (both, dh, dtheta) = (&axis.both[..n], &dh[..n], &dtheta[..n]);
                for (i, diagonal) in diagonal[..n].iter_mut().enumerate() {
                    *diagonal = dh[i] + pull * both[i] * dtheta[i];
                }
                continue;
            }
            for (i, row) in diagonal.chunks_exact_mut(stride).enumerate() {
                let both = pull * axis.both[i];
                let values = dh[i * stride..].iter().zip(&dtheta[i * stride..]);
                for (diagonal, (dh, dtheta)) in row.iter_mut().zip(values) {
                    *diagonal = dh + both * dtheta;
                }
            }
        }
        for (rim, face) in block.grid.rims.iter().zip(around.faces) {
            if rim.axis == a && matches!(face, FaceNow::Open { .. }) {
                let strength = tau * block.strength(rim);
                for (flow, node) in self.passing.flows[rim.cells.clone()].iter().zip(&rim.nodes) {
                    self.diagonal[*node] -= strength * flow.slope * self.dt[*node];
                }
            }
        }
        if self.passing.any_held {
            for (node, held) in self.passing.held.iter().enumerate() {
                if let Some(step) = held {
                    self.diagonal[node] = 1.0;
                    self.change[node] = *step;
                }
            }
        }
    }
}
