//! A grid of cells along one axis or more: one stage of a step, a solve along every axis.
//!
//! The unknown is `u`, the table's arc coordinate. A stage solves `H(u) = base + τ F(u)` by one round of Newton from where the
//! nodes were placed. With several axes the matrix is a product of tridiagonal ones, an axis each; the flow `F` is never split, so
//! a piece at rest stays at rest whatever its faces do. What is handed back are the linearised flows; the enthalpy is then stepped
//! with those, never read back from `u`, so energy closes whatever the round left undone. What it left undone is in the next
//! stage's right-hand side.

use super::block::{Around, Block, Passing};
use super::face::FaceNow;
use super::grid::{Grid, Links};
use super::lines::{Rows, add_leads};
use super::spread::{Effort, Place, mean};
use crate::property::Table;

/// Room for one grid; kept between steps.
#[derive(Clone, Debug)]
pub(crate) struct Field {
    /// Values at each node's `u` as last placed: ∫k dT, temperature, enthalpy, and what each gains for one `u`.
    pub(super) theta: Vec<f64>,
    pub(super) dtheta: Vec<f64>,
    t: Vec<f64>,
    dt: Vec<f64>,
    h: Vec<f64>,
    dh: Vec<f64>,
    /// Each cell's mean enthalpy.
    pub(super) mean: Vec<f64>,
    /// ∫k dT that the last solve led to, or that stands at hand.
    pub(super) ahead: Vec<f64>,
    /// Whether any cell lies where the curve bends; then, axis by axis, what the mean of each link to the next node gains for one
    /// `u` of this node and of the next.
    bends: bool,
    gains: Vec<[Vec<f64>; 2]>,
    places: Vec<Place>,
    /// Cells in which ice begins.
    pub(super) kinks: Vec<bool>,
    /// The change of `u` a stage solved for, and of ∫k dT.
    pub(super) change: Vec<f64>,
    step: Vec<f64>,
    rows: Rows,
    pub(crate) passing: Passing,
}

/// Weight of what the straight lines missed.
const BENT: f64 = 0.25;

impl Field {
    pub(crate) fn new(grid: &Grid) -> Self {
        let nodes = grid.nodes();
        let zeros = || vec![0.0; nodes];
        Self {
            theta: zeros(),
            dtheta: zeros(),
            t: zeros(),
            dt: zeros(),
            h: zeros(),
            dh: zeros(),
            mean: zeros(),
            ahead: zeros(),
            bends: false,
            gains: grid.links.iter().map(|_| [zeros(), zeros()]).collect(),
            places: vec![Place::default(); nodes],
            kinks: vec![false; nodes],
            change: zeros(),
            step: zeros(),
            rows: Rows::new(nodes),
            passing: Passing::new(grid),
        }
    }

    pub(crate) fn temperature(&self, node: usize) -> f64 {
        self.t[node]
    }

    /// Takes the nodes as they stand.
    pub(crate) fn stand(&mut self, table: &Table, u: &[f64]) {
        self.look_up(table, u);
        self.ahead.copy_from_slice(&self.theta);
    }

    /// Places every node where it is guessed to be at another moment: at `guess`, cells in which ice begins where they carry `h`.
    /// Nodes that are held stay where they are.
    pub(crate) fn guess(&mut self, block: &Block, (guess, h): (&[f64], &[f64]), u: &mut [f64]) {
        if !block.grid.leans {
            for (i, u) in u.iter_mut().enumerate() {
                if !self.passing.holds(i) {
                    *u = guess[i];
                }
            }
            return self.place_alone(block.table, h, u);
        }
        let bends = self.find_kinks(block);
        for i in 0..u.len() {
            if self.passing.holds(i) {
                continue;
            }
            let crosses = bends && (block.table.at(guess[i]).theta < 0.0) != (self.ahead[i] < 0.0);
            if bends && (self.kinks[i] || crosses) {
                u[i] = self.close_in(block, i, h[i], u, Effort::IN_A_STEP);
            } else {
                u[i] = guess[i];
            }
        }
        self.look_up(block.table, u);
    }

    /// After a stage: places every node, from where straight lines led it, where it carries `h`.
    pub(crate) fn carry(&mut self, block: &Block, h: &[f64], u: &mut [f64]) {
        if !block.grid.leans {
            return self.place_alone(block.table, h, u);
        }
        self.look_up(block.table, u);
        let bends = self.find_kinks(block);
        self.weigh(block, u, block.table.straight_from());
        for i in 0..u.len() {
            if bends && (self.kinks[i] || (self.theta[i] < 0.0) != (self.ahead[i] < 0.0)) {
                u[i] = self.close_in(block, i, h[i], u, Effort::IN_A_STEP);
                self.look_up_one(block.table, i, u[i]);
                continue;
            }
            // So short a step stays on its line of the table.
            let step = (h[i] - self.mean[i]) / self.dh[i];
            u[i] += step;
            self.t[i] += step * self.dt[i];
            self.theta[i] += step * self.dtheta[i];
            self.h[i] += step * self.dh[i];
        }
    }

    /// Cells that lean on nobody carry what their nodes do.
    fn place_alone(&mut self, table: &Table, h: &[f64], u: &mut [f64]) {
        if !self.passing.any_held {
            for (u, h) in u.iter_mut().zip(h) {
                *u = table.u_at_enthalpy(*h, *u);
            }
        } else {
            for i in 0..u.len() {
                if !self.passing.holds(i) {
                    u[i] = table.u_at_enthalpy(h[i], u[i]);
                }
            }
        }
        self.look_up(table, u);
    }

    fn look_up(&mut self, table: &Table, u: &[f64]) {
        let n = u.len();
        let (theta, dtheta) = (&mut self.theta[..n], &mut self.dtheta[..n]);
        let (t, dt) = (&mut self.t[..n], &mut self.dt[..n]);
        let (h, dh) = (&mut self.h[..n], &mut self.dh[..n]);
        for (i, u) in u.iter().enumerate() {
            let point = table.at(*u);
            (theta[i], dtheta[i]) = (point.theta, point.dtheta);
            (t[i], dt[i]) = (point.t, point.dt);
            (h[i], dh[i]) = (point.h, point.dh);
        }
    }

    #[inline(always)]
    fn look_up_one(&mut self, table: &Table, i: usize, u: f64) {
        let point = table.at(u);
        (self.theta[i], self.dtheta[i]) = (point.theta, point.dtheta);
        (self.t[i], self.dt[i]) = (point.t, point.dt);
        (self.h[i], self.dh[i]) = (point.h, point.dh);
    }

    /// Every cell's mean at the nodes as placed; the curve counts as straight where all lie above a ∫k dT.
    pub(super) fn weigh(&mut self, block: &Block, u: &[f64], straight_from: f64) {
        self.mean.copy_from_slice(&self.h);
        self.bends = false;
        if !block.grid.leans {
            return;
        }
        if self.theta.iter().all(|theta| *theta >= straight_from) {
            for links in &block.grid.links {
                let leans = (&links.lean_up[..], &links.lean_down[..]);
                add_leads(links.stride, leans, 1.0, &self.h, &mut self.mean);
            }
            return;
        }
        self.bends = true;
        for (i, u) in u.iter().enumerate() {
            self.places[i] = Place::of(block.table, *u, (self.theta[i], self.h[i]));
        }
        for (links, [here, next]) in block.grid.links.iter().zip(&mut self.gains) {
            for i in 0..u.len() - links.stride {
                let after = i + links.stride;
                if links.up[i] == 0.0 {
                    continue;
                }
                let (from, to) = (&self.places[i], &self.places[after]);
                let (along, own, others) = mean(self.dh[i] / self.dtheta[i], from, to);
                (here[i], next[i]) = (own * self.dtheta[i], others * self.dtheta[after]);
                self.mean[i] += 2.0 * links.lean_up[i] * (along - from.h);
                self.mean[after] += 2.0 * links.lean_down[after] * (along - to.h);
            }
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
        self.weigh(block, u, block.table.straight_from());
        rate.fill(0.0);
        let axes = &block.grid.links;
        for (a, links) in axes.iter().enumerate() {
            add_leads(links.stride, (&links.up, &links.down), block.links(a), &self.theta, rate);
        }
        let t = &self.t;
        self.passing.meet(block, around, (u, |node: usize| t[node]), rate);
        let goals = base.iter().zip(&self.mean).zip(rate.iter());
        for (change, ((base, mean), rate)) in self.change.iter_mut().zip(goals) {
            *change = base - mean + tau * rate;
        }
        for (a, links) in axes.iter().enumerate().rev() {
            self.solve(block, around, a, tau);
            for (step, (dtheta, change)) in self.step.iter_mut().zip(self.dtheta.iter().zip(&self.change)) {
                *step = dtheta * change;
            }
            add_leads(links.stride, (&links.up, &links.down), block.links(a), &self.step, rate);
            let (dt, change) = (&self.dt, &self.change);
            self.passing.warm(block, around, (a, |node: usize| dt[node] * change[node]), rate);
        }
        u.iter_mut().zip(&self.change).for_each(|(u, change)| *u += change);
        // The last axis solved is the first one: its step is the whole change of ∫k dT.
        let moved = self.theta.iter().zip(&self.step);
        self.ahead.iter_mut().zip(moved).for_each(|(ahead, (theta, step))| *ahead = theta + step);
        self.hold(block, around, (base, tau), rate);
    }

    /// What the straight lines of the last stage missed of the curve, now that its nodes are placed, J/m³. It sees a cell pass its
    /// freezing point, which the difference of the stages can sleep through.
    #[inline(always)]
    fn missed(&self, pull: f64, reach: f64, node: usize) -> f64 {
        let reach = pull * reach;
        let (theta, dtheta, dh) = (self.theta[node], self.dtheta[node], self.dh[node]);
        BENT * reach * (theta - self.ahead[node]).abs() * dh / (dh + reach * dtheta)
    }

    /// The larger of two error estimates of a step whose nodes were just carried, J/m³: half the difference of the stages, and
    /// what the straight lines of the last one missed of the curve.
    pub(crate) fn error(&self, block: &Block, tau: f64, first: &[f64], second: &[f64]) -> f64 {
        let pull = tau * block.links(0);
        let mut most: f64 = 0.0;
        for (node, reach) in block.grid.reach.iter().enumerate() {
            if self.passing.holds(node) {
                continue;
            }
            let between = 0.5 * tau * (second[node] - first[node]).abs();
            let error = between.max(self.missed(pull, *reach, node));
            // `max` would drop a NaN.
            most = if error.is_nan() { f64::INFINITY } else { most.max(error) };
        }
        most
    }

    /// Held cells follow their surface; the face gives what that takes beside the flow to their neighbours.
    fn hold(&mut self, block: &Block, around: &Around, (base, tau): (&[f64], f64), rate: &mut [f64]) {
        if !self.passing.any_held {
            return;
        }
        // What every cell's mean gains by what was solved for.
        let mut gained = self.mean.clone();
        for (a, links) in block.grid.links.iter().enumerate() {
            self.fill_rows(links, a, 0.0);
            for (i, gained) in gained.iter_mut().enumerate() {
                // The node's own enthalpy is in every axis' row.
                *gained +=
                    self.rows.own[i] * self.change[i] - if a > 0 { self.dh[i] * self.change[i] } else { 0.0 };
                if links.up[i] > 0.0 {
                    *gained += self.rows.after[i] * self.change[i + links.stride];
                }
                if links.down[i] > 0.0 {
                    *gained += self.rows.before[i] * self.change[i - links.stride];
                }
            }
        }
        for (rim, face) in block.grid.rims.iter().zip(around.faces) {
            let FaceNow::Fixed(_) = face else { continue };
            for (flow, node) in self.passing.flows[rim.cells.clone()].iter_mut().zip(&rim.nodes) {
                let follows = (gained[*node] - base[*node]) / tau;
                flow.heat = (follows - rate[*node]) / block.strength(rim);
                rate[*node] = follows;
            }
        }
    }

    /// Along one axis: `(H' − τ F') change = change`; along all but the last in units of enthalpy.
    pub(super) fn solve(&mut self, block: &Block, around: &Around, a: usize, tau: f64) {
        let links = &block.grid.links[a];
        if a + 1 < block.grid.links.len() {
            self.change.iter_mut().zip(&self.dh).for_each(|(change, dh)| *change *= dh);
        }
        self.fill_rows(links, a, tau * block.links(a));
        for (rim, face) in block.grid.rims.iter().zip(around.faces) {
            if rim.axis == a && matches!(face, FaceNow::Open { .. }) {
                let strength = tau * block.strength(rim);
                for (flow, node) in self.passing.flows[rim.cells.clone()].iter().zip(&rim.nodes) {
                    self.rows.own[*node] -= strength * flow.slope * self.dt[*node];
                }
            }
        }
        if self.passing.any_held {
            for (node, held) in self.passing.held.iter().enumerate() {
                if let Some(step) = held {
                    (self.rows.before[node], self.rows.after[node]) = (0.0, 0.0);
                    (self.rows.own[node], self.change[node]) = (1.0, *step);
                }
            }
        }
        self.rows.eliminate(links, &mut self.change);
    }

    /// The rows of one axis without its faces: what the means gain less what flows.
    fn fill_rows(&mut self, links: &Links, a: usize, pull: f64) {
        let (n, s) = (self.change.len(), links.stride);
        let Rows { before, own, after } = &mut self.rows;
        let (before, own, after) = (&mut before[..n], &mut own[..n], &mut after[..n]);
        let (dtheta, dh) = (&self.dtheta[..n], &self.dh[..n]);
        let (up, down, both) = (&links.up[..n], &links.down[..n], &links.both[..n]);
        let (lean_up, lean_down) = (&links.lean_up[..n], &links.lean_down[..n]);
        if !self.bends {
            for i in 0..n {
                own[i] = (1.0 - lean_up[i] - lean_down[i]) * dh[i] + pull * both[i] * dtheta[i];
            }
            for i in 0..n - s {
                after[i] = lean_up[i] * dh[i + s] - pull * up[i] * dtheta[i + s];
                before[i + s] = lean_down[i + s] * dh[i] - pull * down[i + s] * dtheta[i];
            }
            return;
        }
        let [here, next] = &self.gains[a];
        let (here, next) = (&here[..n], &next[..n]);
        for i in 0..n {
            own[i] = (1.0 - 2.0 * (lean_up[i] + lean_down[i])) * dh[i] + pull * both[i] * dtheta[i];
        }
        for i in 0..n - s {
            own[i] += 2.0 * lean_up[i] * here[i];
            own[i + s] += 2.0 * lean_down[i + s] * next[i];
            after[i] = 2.0 * lean_up[i] * next[i] - pull * up[i] * dtheta[i + s];
            before[i + s] = 2.0 * lean_down[i + s] * here[i] - pull * down[i + s] * dtheta[i];
        }
    }
}
