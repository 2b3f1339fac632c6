//! One line of nodes: the two stages of a step, each one linear solve.
//!
//! The unknown is `u`, the table's arc coordinate. A stage solves `H(u) = base + τ F(u)` by one round of Newton from the
//! `u` at hand and hands back the linearised fluxes; the enthalpy is then stepped with those, never read back from `u`, so
//! energy closes whatever the rounds left undone. What they left undone is in the next stage's right-hand side.

use super::face::{FaceNow, Flow};
use super::grid::{Axis, Cells};
use crate::property::{Point, Table};

/// 1 − 1/√2: the two-stage method of this abscissa is of second order, L-stable and ends on its last stage.
pub(crate) const GAMMA: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;

/// Room for one line; kept between steps.
#[derive(Clone, Debug, Default)]
pub(crate) struct Line {
    /// Table coordinate of each node.
    pub(crate) u: Vec<f64>,
    /// Mean enthalpy of each cell, J/m³.
    pub(crate) h: Vec<f64>,
    first: Vec<f64>,
    second: Vec<f64>,
    base: Vec<f64>,
    points: Vec<Point>,
    mean: Vec<f64>,
    lower: Vec<f64>,
    diagonal: Vec<f64>,
    upper: Vec<f64>,
    right: Vec<f64>,
}

/// What a step did to a line.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Stepped {
    /// Largest error estimate, J/m³.
    pub(crate) error: f64,
    /// Heat through the low and the high end, J/m² over the step.
    pub(crate) heat: [f64; 2],
    /// Water out of them, kg/m² over the step.
    pub(crate) vapour: [f64; 2],
}

/// The material and the axis a line lies along.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Along<'a> {
    pub(crate) axis: &'a Axis,
    pub(crate) cells: Cells,
    pub(crate) table: &'a Table,
    /// Conductivity as a multiple of the table's.
    pub(crate) factor: f64,
}

/// The faces at both ends, at the two stages of the step, and the water drawn from below them.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Ends<'a> {
    pub(crate) faces: [[FaceNow<'a>; 2]; 2],
    pub(crate) drawn: [f64; 2],
}

impl Line {
    pub(crate) fn new(nodes: usize) -> Self {
        let zeros = || vec![0.0; nodes];
        Self {
            u: zeros(),
            h: zeros(),
            first: zeros(),
            second: zeros(),
            base: zeros(),
            points: vec![Point::default(); nodes],
            mean: zeros(),
            lower: zeros(),
            diagonal: zeros(),
            upper: zeros(),
            right: zeros(),
        }
    }

    /// One step of `dt` seconds from `self.h`, `self.u`.
    pub(crate) fn step(&mut self, along: &Along, ends: &Ends, dt: f64) -> Stepped {
        let tau = GAMMA * dt;
        self.base.copy_from_slice(&self.h);
        let one = self.stage(along, &ends.faces[0], ends.drawn, tau, true);
        for i in 0..self.h.len() {
            self.base[i] = self.h[i] + dt * (1.0 - GAMMA) * self.first[i];
        }
        if along.cells == Cells::Lumped {
            for i in 0..self.h.len() {
                self.u[i] = along.table.u_at_enthalpy(self.h[i] + tau * self.first[i], self.u[i]);
            }
        }
        let two = self.stage(along, &ends.faces[1], ends.drawn, tau, false);
        let mut done = Stepped::default();
        let last = self.h.len() - 1;
        for i in 0..=last {
            let held = (i == 0 && matches!(ends.faces[1][0], FaceNow::Fixed(_)))
                || (i == last && matches!(ends.faces[1][1], FaceNow::Fixed(_)));
            if !held {
                done.error = done.error.max(0.5 * tau * (self.second[i] - self.first[i]).abs());
            }
            self.h[i] = self.base[i] + tau * self.second[i];
        }
        if along.cells == Cells::Lumped {
            for i in 0..=last {
                self.u[i] = along.table.u_at_enthalpy(self.h[i], self.u[i]);
            }
        }
        for end in 0..2 {
            done.heat[end] = dt * ((1.0 - GAMMA) * one[end].heat + GAMMA * two[end].heat);
            done.vapour[end] = dt * ((1.0 - GAMMA) * one[end].vapour + GAMMA * two[end].vapour);
        }
        done
    }

    /// One Newton round of `H(u) = base + τ F(u)`; moves `u`, fills the rates, gives the flows at the ends.
    fn stage(
        &mut self,
        along: &Along,
        faces: &[FaceNow; 2],
        drawn: [f64; 2],
        tau: f64,
        is_first: bool,
    ) -> [Flow; 2] {
        self.enthalpies(along);
        let axis = along.axis;
        let last = self.u.len() - 1;
        for i in 0..=last {
            self.right[i] = axis.size[i] * (self.base[i] - self.mean[i]);
        }
        for i in 0..last {
            let link = tau * along.factor * axis.link[i];
            let flux = link * (self.points[i + 1].theta - self.points[i].theta);
            self.right[i] += flux;
            self.right[i + 1] -= flux;
            self.diagonal[i] += link * self.points[i].dtheta;
            self.diagonal[i + 1] += link * self.points[i + 1].dtheta;
            self.upper[i] -= link * self.points[i + 1].dtheta;
            self.lower[i + 1] -= link * self.points[i].dtheta;
        }
        let mut flows = [Flow::default(); 2];
        for (end, i) in [(0, 0), (1, last)] {
            let flow = faces[end].flow(self.points[i].t, drawn[end]);
            flows[end] = flow;
            match faces[end] {
                FaceNow::Fixed(t) => {
                    (self.lower[i], self.diagonal[i], self.upper[i]) = (0.0, 1.0, 0.0);
                    self.right[i] = along.table.u_at_temperature(t) - self.u[i];
                }
                _ => {
                    self.right[i] += tau * axis.area[end] * flow.heat;
                    self.diagonal[i] -= tau * axis.area[end] * flow.slope * self.points[i].dt;
                }
            }
        }
        self.solve();
        self.rates(along, faces, &mut flows, tau, is_first);
        for i in 0..=last {
            self.u[i] += self.right[i];
        }
        flows
    }

    /// Linearised rates of every cell after the solve, `right` holding the change of `u`; flows at the ends likewise.
    fn rates(
        &mut self,
        along: &Along,
        faces: &[FaceNow; 2],
        flows: &mut [Flow; 2],
        tau: f64,
        is_first: bool,
    ) {
        let axis = along.axis;
        let last = self.u.len() - 1;
        let rates = if is_first { &mut self.first } else { &mut self.second };
        rates.fill(0.0);
        for i in 0..last {
            let (a, b) = (&self.points[i], &self.points[i + 1]);
            let step = b.theta - a.theta + b.dtheta * self.right[i + 1] - a.dtheta * self.right[i];
            let flux = along.factor * axis.link[i] * step;
            rates[i] += flux;
            rates[i + 1] -= flux;
        }
        for (end, i) in [(0, 0), (1, last)] {
            let area = axis.area[end];
            if let FaceNow::Fixed(_) = faces[end] {
                // The cell follows its surface; the heat is what that takes beside the flux to its neighbour.
                let next = if end == 0 { 1 } else { last - 1 };
                let beside =
                    if end == 0 { self.mean_upper(along, i, next) } else { self.mean_lower(along, i, next) };
                let mean = self.mean[i] + beside.0 * self.right[i] + beside.1 * self.right[next];
                let rate = (mean - self.base[i]) / tau;
                let rates = if is_first { &mut self.first } else { &mut self.second };
                flows[end].heat = (axis.size[i] * rate - rates[i]) / area;
                rates[i] = axis.size[i] * rate;
            } else {
                let warmer = self.points[i].dt * self.right[i];
                flows[end].heat += flows[end].slope * warmer;
                flows[end].vapour += flows[end].vapour_slope * warmer;
                let rates = if is_first { &mut self.first } else { &mut self.second };
                rates[i] += area * flows[end].heat;
            }
        }
        let rates = if is_first { &mut self.first } else { &mut self.second };
        for (rate, size) in rates.iter_mut().zip(&axis.size) {
            *rate /= size;
        }
    }

    /// Slopes of the first cell's mean enthalpy over its own and its neighbour's `u`.
    fn mean_upper(&self, along: &Along, i: usize, next: usize) -> (f64, f64) {
        match along.cells {
            Cells::Lumped => (self.points[i].dh, 0.0),
            Cells::Mixed => {
                let half =
                    Half::new(along.table, (self.u[i], &self.points[i]), (self.u[next], &self.points[next]));
                (LUMPED * self.points[i].dh + MEAN * half.low.1, MEAN * half.low.2)
            }
        }
    }

    /// Slopes of the last cell's mean enthalpy over its own and its neighbour's `u`.
    fn mean_lower(&self, along: &Along, i: usize, next: usize) -> (f64, f64) {
        match along.cells {
            Cells::Lumped => (self.points[i].dh, 0.0),
            Cells::Mixed => {
                let half =
                    Half::new(along.table, (self.u[next], &self.points[next]), (self.u[i], &self.points[i]));
                (LUMPED * self.points[i].dh + MEAN * half.high.2, MEAN * half.high.1)
            }
        }
    }

    /// Points and mean enthalpies at `u`, and their slopes times cell size into the matrix.
    fn enthalpies(&mut self, along: &Along) {
        let axis = along.axis;
        let last = self.u.len() - 1;
        for i in 0..=last {
            self.points[i] = along.table.at(self.u[i]);
        }
        if along.cells == Cells::Lumped {
            for i in 0..=last {
                self.mean[i] = self.points[i].h;
                self.diagonal[i] = axis.size[i] * self.points[i].dh;
            }
            self.lower.fill(0.0);
            self.upper.fill(0.0);
            return;
        }
        for i in 0..=last {
            self.mean[i] = LUMPED * self.points[i].h;
            self.diagonal[i] = LUMPED * self.points[i].dh * axis.size[i];
        }
        for i in 0..last {
            let half =
                Half::new(along.table, (self.u[i], &self.points[i]), (self.u[i + 1], &self.points[i + 1]));
            let above = MEAN * (1.0 - axis.low_share[i]);
            let below = MEAN * axis.low_share[i + 1];
            self.mean[i] += above * half.low.0;
            self.mean[i + 1] += below * half.high.0;
            self.diagonal[i] += above * half.low.1 * axis.size[i];
            self.upper[i] = above * half.low.2 * axis.size[i];
            self.diagonal[i + 1] += below * half.high.1 * axis.size[i + 1];
            self.lower[i + 1] = below * half.high.2 * axis.size[i + 1];
        }
    }

    /// Thomas: the tridiagonal system into `right`.
    fn solve(&mut self) {
        let n = self.right.len();
        for i in 1..n {
            let w = self.lower[i] / self.diagonal[i - 1];
            self.diagonal[i] -= w * self.upper[i - 1];
            self.right[i] -= w * self.right[i - 1];
        }
        self.right[n - 1] /= self.diagonal[n - 1];
        for i in (0..n - 1).rev() {
            self.right[i] = (self.right[i] - self.upper[i] * self.right[i + 1]) / self.diagonal[i];
        }
    }

    /// Mean enthalpy of every cell at `u`, J/m³.
    pub(crate) fn means(&mut self, along: &Along) -> &[f64] {
        self.enthalpies(along);
        &self.mean
    }

    /// Newton until `u` carries the enthalpies `h`; true if it did.
    pub(crate) fn settle(&mut self, along: &Along) -> bool {
        for _ in 0..30 {
            self.enthalpies(along);
            let mut miss: f64 = 0.0;
            for i in 0..self.u.len() {
                let gap = self.h[i] - self.mean[i];
                miss = miss.max(gap.abs());
                self.right[i] = along.axis.size[i] * gap;
            }
            if miss < 1.0 {
                return true;
            }
            self.solve();
            for i in 0..self.u.len() {
                self.u[i] += self.right[i];
            }
        }
        false
    }
}

const LUMPED: f64 = 1.0 / 3.0;
const MEAN: f64 = 2.0 / 3.0;

/// Exact mean enthalpies of the two half cells between neighbours, ∫k dT straight between them. Each: mean, its slope over
/// the own node's `u`, its slope over the other node's.
struct Half {
    low: (f64, f64, f64),
    high: (f64, f64, f64),
}

/// W/m below which the quotient of integrals loses its digits.
const CLOSE: f64 = 1e-5;

impl Half {
    #[inline]
    fn new(table: &Table, (ua, a): (f64, &Point), (ub, b): (f64, &Point)) -> Self {
        let middle = 0.5 * (a.theta + b.theta);
        let span = middle - a.theta;
        if span.abs() < CLOSE {
            let mean = 0.5 * (a.h + b.h);
            return Self {
                low: (0.75 * a.h + 0.25 * b.h, 0.75 * a.dh, 0.25 * b.dh),
                high: (0.5 * mean + 0.5 * b.h, 0.75 * b.dh, 0.25 * a.dh),
            };
        }
        let um = table.u_at_theta(middle, ua, ub);
        let hm = table.at(um).h;
        let (ia, im, ib) = (table.integral(ua), table.integral(um), table.integral(ub));
        let half = |own: &Point, other: &Point, integral: f64, span: f64| {
            let mean = integral / span;
            let far = 0.5 * (hm - mean) / span;
            (mean, ((mean - own.h) / span + far) * own.dtheta, far * other.dtheta)
        };
        Self { low: half(a, b, im - ia, span), high: half(b, a, im - ib, middle - b.theta) }
    }
}
