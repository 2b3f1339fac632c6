//! One axis whose cells spread to their neighbours: one stage of a step, a single solve.
//!
//! A cell of thawed meat, whose curve is as good as straight, costs one look-up and a few products; one near its freezing point
//! takes the exact mean over its reaches, cell by cell.

use super::block::{Around, Block, Passing};
use super::face::FaceNow;
use super::grid::{End, Grid};
use super::lines::{Row, eliminate_rows};
use super::spread::{CellMean, Effort, Place, Spread, spread};
use crate::property::{Point, Table};

/// Room for one line; kept between steps.
#[derive(Clone, Debug)]
pub(crate) struct Line {
    nodes: Vec<Node>,
    spreads: Vec<Spread>,
    /// The middle of each link to the next node, as far as cells that bend need it, with the table's cell it was found in.
    middles: Vec<(Place, u32)>,
    rows: Vec<Row>,
    change: Vec<f64>,
    pub(crate) passing: Passing,
}

/// One node as last placed.
#[derive(Clone, Copy, Debug, Default)]
struct Node {
    /// What the table holds at its `u`.
    point: Point,
    /// ∫k dT that the last solve led to, or that stands at hand: how far cells near their freezing point reach.
    ahead: f64,
    /// Its cell's mean.
    cell: CellMean,
    /// Where it stands on the curve; of cells that bend alone.
    place: Place,
}

/// J/m³ that count as settled: less than a millionth of a kelvin.
const SETTLED: f64 = 1.0;
/// Rounds of Newton before the cells are left to settle by themselves.
const NEWTON_ROUNDS: usize = 8;
/// Weight of what the straight lines missed.
const BENT: f64 = 0.25;

impl Line {
    pub(crate) fn new(grid: &Grid) -> Self {
        let axis = &grid.axes[0];
        let nodes = axis.size.len();
        let at_face = |i: usize| {
            let end = if i == 0 { axis.ends[0] } else { axis.ends[1] };
            (i == 0 || i + 1 == nodes) && end != End::Middle
        };
        let cell = |(i, share): (usize, &f64)| Spread::new(*share, at_face(i));
        Self {
            nodes: vec![Node::default(); nodes],
            spreads: axis.low_share.iter().enumerate().map(cell).collect(),
            middles: vec![(Place::default(), 0); nodes],
            rows: vec![Row::default(); nodes],
            change: vec![0.0; nodes],
            passing: Passing::new(grid),
        }
    }

    pub(crate) fn temperature(&self, node: usize) -> f64 {
        self.nodes[node].point.t
    }

    pub(crate) fn lean(&self, node: usize) -> (f64, f64) {
        self.spreads[node].lean
    }

    /// Takes the nodes as they stand.
    pub(crate) fn stand(&mut self, table: &Table, u: &[f64]) {
        for (node, u) in self.nodes.iter_mut().zip(u) {
            node.point = table.at(*u);
            node.ahead = node.point.theta;
        }
    }

    /// Moves every node to where it is guessed to be at another moment; cells in which ice begins to the `u` that carries `goal`
    /// there.
    pub(crate) fn guess(&mut self, table: &Table, guess: &[f64], goal: &[f64], u: &mut [f64]) {
        let bent = self.is_bent(table.straight_from());
        if bent {
            self.reach_out();
        }
        for i in 0..self.nodes.len() {
            if self.passing.holds(i) {
                self.nodes[i].point = table.at(u[i]);
                continue;
            }
            let mut point = table.at(guess[i]);
            if bent && self.holds_kink(i, point.theta) {
                u[i] = self.spreads[i].u_at_enthalpy(table, goal[i], u[i], Effort::IN_A_STEP);
                point = table.at(u[i]);
            } else {
                u[i] = guess[i];
            }
            self.nodes[i].point = point;
        }
    }

    /// After a stage: moves every node from where straight lines led it to the `u` that carries `h`.
    pub(crate) fn carry(&mut self, table: &Table, h: &[f64], u: &mut [f64]) {
        for (node, u) in self.nodes.iter_mut().zip(u.iter()) {
            node.point = table.at(*u);
        }
        let straight_from = table.straight_from();
        let bent = self.is_bent(straight_from);
        if bent {
            self.reach_out();
            self.find_places(table, u, straight_from);
        }
        for i in 0..self.nodes.len() {
            if bent && self.holds_kink(i, self.nodes[i].point.theta) {
                u[i] = self.spreads[i].u_at_enthalpy(table, h[i], u[i], Effort::IN_A_STEP);
                self.nodes[i].point = table.at(u[i]);
                continue;
            }
            let cell = self.weighed(i, bent, straight_from);
            let step = (h[i] - cell.mean) / cell.slope;
            u[i] += step;
            // So short a step stays on its line of the table.
            let point = &mut self.nodes[i].point;
            point.t += step * point.dt;
            point.theta += step * point.dtheta;
            point.h += step * point.dh;
        }
    }

    fn reach_out(&mut self) {
        let nodes = &self.nodes;
        spread(&mut self.spreads, |i| nodes[i].ahead);
    }

    fn is_bent(&self, straight_from: f64) -> bool {
        !self.nodes.iter().all(|node| node.ahead >= straight_from)
    }

    /// Whether the curve is as good as straight over a cell and its neighbours.
    fn is_straight(&self, i: usize, straight_from: f64) -> bool {
        self.around(i).iter().all(|node| node.ahead >= straight_from)
    }

    /// Whether ice begins in a cell, or in one of its neighbours, or between them: ∫k dT is counted from there.
    fn holds_kink(&self, i: usize, theta: f64) -> bool {
        let thawed = theta >= 0.0;
        self.around(i).iter().any(|node| (node.ahead >= 0.0) != thawed)
    }

    fn around(&self, i: usize) -> &[Node] {
        &self.nodes[i.saturating_sub(1)..=(i + 1).min(self.nodes.len() - 1)]
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
        self.weigh(block.table, u, block.table.straight_from());
        self.assemble(block, (base, tau), rate);
        let nodes = &self.nodes;
        self.passing.meet(block, around, (u, |node: usize| nodes[node].point.t), rate);
        self.add_faces(block, around, (base, tau), rate);
        eliminate_rows(&mut self.rows, &mut self.change);
        self.follow(block, around, rate);
        self.hold(block, around, (base, tau), rate);
        u.iter_mut().zip(&self.change).for_each(|(u, change)| *u += change);
    }

    /// Every cell's mean and its slopes at the points at hand.
    fn weigh(&mut self, table: &Table, u: &[f64], straight_from: f64) {
        self.nodes.iter_mut().for_each(|node| node.ahead = node.point.theta);
        if self.is_bent(straight_from) {
            self.find_places(table, u, straight_from);
            for i in 0..self.nodes.len() {
                self.nodes[i].cell = self.weighed(i, true, straight_from);
            }
            return;
        }
        let mut before = self.nodes[0].ahead;
        for (i, spread) in self.spreads.iter().enumerate() {
            let here = self.nodes[i].ahead;
            let after = self.nodes.get(i + 1).map_or(here, |node| node.ahead);
            self.nodes[i].cell = spread.straight(&self.nodes[i].point, (before - here, after - here));
            before = here;
        }
    }

    #[inline(always)]
    fn weighed(&self, i: usize, bent: bool, straight_from: f64) -> CellMean {
        let (node, spread) = (&self.nodes[i], &self.spreads[i]);
        let (before, after) = (i.saturating_sub(1), (i + 1).min(self.nodes.len() - 1));
        if !bent || self.is_straight(i, straight_from) {
            let lead = |other: usize| self.nodes[other].ahead - node.ahead;
            return spread.straight(&node.point, (lead(before), lead(after)));
        }
        let ends = if spread.is_at_face() {
            (&self.nodes[before].place, &self.nodes[after].place)
        } else {
            (&self.middles[before].0, &self.middles[i].0)
        };
        spread.bent(&node.point, &node.place, ends)
    }

    /// Where the nodes and the middles between them stand on the curve, as far as cells that bend need it.
    fn find_places(&mut self, table: &Table, u: &[f64], straight_from: f64) {
        let last = self.nodes.len() - 1;
        for (i, u) in u.iter().enumerate() {
            let next = (i + 1).min(last);
            if self.is_straight(i, straight_from) && self.is_straight(next, straight_from) {
                continue;
            }
            let (here, next) = (self.nodes[i].point, self.nodes[next].point.theta);
            self.nodes[i].place = Place::of(table, *u, &here);
            let (middle, cell) = &mut self.middles[i];
            *middle = Place::at(table, 0.5 * (here.theta + next), cell);
        }
    }

    fn assemble(&mut self, block: &Block, (base, tau): (&[f64], f64), rate: &mut [f64]) {
        let axis = &block.grid.axes[0];
        let nodes = &self.nodes[..];
        let n = nodes.len();
        let (links, pull) = (block.links(0), tau * block.links(0));
        let (up, down, both) = (&axis.up[..n], &axis.down[..n], &axis.both[..n]);
        let (rows, base, rate) = (&mut self.rows[..n], &base[..n], &mut rate[..n]);
        let (mut before, mut before_gains) = (nodes[0].ahead, 0.0);
        for i in 0..n {
            let (cell, here, gains) = (&nodes[i].cell, nodes[i].ahead, nodes[i].point.dtheta);
            // A share on a side that has no neighbour is none.
            let (after, after_gains) =
                nodes.get(i + 1).map_or((here, 0.0), |node| (node.ahead, node.point.dtheta));
            rate[i] = links * (up[i] * (after - here) - down[i] * (here - before));
            rows[i] = Row {
                below: (cell.far.0 - pull * down[i]) * before_gains,
                own: cell.slope + (pull * both[i] - cell.far.0 - cell.far.1) * gains,
                above: (cell.far.1 - pull * up[i]) * after_gains,
                right: base[i] - cell.mean + tau * rate[i],
            };
            (before, before_gains) = (here, gains);
        }
    }

    /// What the faces bring into the rows of their cells.
    fn add_faces(&mut self, block: &Block, around: &Around, (base, tau): (&[f64], f64), rate: &[f64]) {
        for (rim, face) in block.grid.rims.iter().zip(around.faces) {
            let node = rim.nodes[0];
            let row = &mut self.rows[node];
            if let FaceNow::Open { .. } = face {
                let slope = self.passing.flows[rim.cells.start].slope;
                row.own -= tau * block.strength(rim) * slope * self.nodes[node].point.dt;
                row.right = base[node] - self.nodes[node].cell.mean + tau * rate[node];
            }
            if let Some(step) = self.passing.held[node].filter(|_| self.passing.any_held) {
                *row = Row { below: 0.0, own: 1.0, above: 0.0, right: step };
            }
        }
    }

    /// The rates follow what was solved for.
    fn follow(&mut self, block: &Block, around: &Around, rate: &mut [f64]) {
        let axis = &block.grid.axes[0];
        let (n, links) = (self.nodes.len(), block.links(0));
        let (up, down, rate) = (&axis.up[..n], &axis.down[..n], &mut rate[..n]);
        let change = &self.change[..n];
        let nodes = &mut self.nodes[..n];
        let mut here = nodes[0].point.dtheta * change[0];
        let mut before = here;
        for i in 0..n {
            let after = if i + 1 < n { nodes[i + 1].point.dtheta * change[i + 1] } else { here };
            rate[i] += links * (up[i] * (after - here) - down[i] * (here - before));
            nodes[i].ahead += here;
            (before, here) = (here, after);
        }
        let warmer = |node: usize| nodes[node].point.dt * change[node];
        self.passing.warm(block, around, (0, warmer), rate);
    }

    /// Held cells follow their surface; the face gives what that takes beside the flow to their neighbours.
    fn hold(&mut self, block: &Block, around: &Around, (base, tau): (&[f64], f64), rate: &mut [f64]) {
        if !self.passing.any_held {
            return;
        }
        for (rim, face) in block.grid.rims.iter().zip(around.faces) {
            let FaceNow::Fixed(_) = face else { continue };
            let i = rim.nodes[0];
            let Row { below, own, above, .. } = self.gains(i);
            let change = &self.change;
            let beside = if rim.low { above * change[i + 1] } else { below * change[i - 1] };
            let follows = (self.nodes[i].cell.mean + own * change[i] + beside - base[i]) / tau;
            self.passing.flows[rim.cells.start].heat = (follows - rate[i]) / block.strength(rim);
            rate[i] = follows;
        }
    }

    /// What a cell's mean gains for one `u` of its node and of those below and above.
    fn gains(&self, i: usize) -> Row {
        let (cell, gains) = (&self.nodes[i].cell, |node: &Node| node.point.dtheta);
        let beside = |other: Option<usize>| other.and_then(|i| self.nodes.get(i)).map_or(0.0, gains);
        Row {
            below: cell.far.0 * beside(i.checked_sub(1)),
            own: cell.slope - (cell.far.0 + cell.far.1) * gains(&self.nodes[i]),
            above: cell.far.1 * beside(Some(i + 1)),
            right: 0.0,
        }
    }

    /// What the straight lines of the last stage missed of the curve, now that its nodes are placed, J/m³. It sees a cell pass its
    /// freezing point, which the difference of the stages can sleep through.
    pub(crate) fn missed(&self, block: &Block, tau: f64, node: usize) -> f64 {
        let (Node { point, ahead, .. }, reach) =
            (&self.nodes[node], tau * block.links(0) * block.grid.reach[node]);
        BENT * reach * (point.theta - ahead).abs() * point.dh / (point.dh + reach * point.dtheta)
    }

    /// Mean enthalpy of every cell at `u`, J/m³, and nothing taken for straight.
    pub(crate) fn means(&mut self, table: &Table, u: &[f64]) -> impl Iterator<Item = f64> {
        self.stand(table, u);
        self.weigh(table, u, f64::INFINITY);
        self.nodes.iter().map(|node| node.cell.mean)
    }

    /// Finds the `u` that carry `h` with the reaches they themselves make: rounds of Newton, each followed by the cells one
    /// by one, which cannot go astray at the kink.
    pub(crate) fn settle(&mut self, table: &Table, h: &[f64], u: &mut [f64]) {
        for round in 0..400 {
            if self.means(table, u).zip(h).all(|(mean, h)| (h - mean).abs() < SETTLED) {
                return;
            }
            if round < NEWTON_ROUNDS {
                for (i, h) in h.iter().enumerate() {
                    self.rows[i] = Row { right: h - self.nodes[i].cell.mean, ..self.gains(i) };
                }
                eliminate_rows(&mut self.rows, &mut self.change);
                for ((u, node), change) in u.iter_mut().zip(&mut self.nodes).zip(&self.change) {
                    *u += change;
                    node.ahead += node.point.dtheta * change;
                }
                self.close_in(table, h, u);
            } else {
                // Where Newton circles round the kink the cells by themselves still close in, half a step at a time.
                let before = u.to_vec();
                self.close_in(table, h, u);
                u.iter_mut().zip(before).for_each(|(u, before)| *u = 0.5 * (*u + before));
            }
        }
    }

    fn close_in(&mut self, table: &Table, h: &[f64], u: &mut [f64]) {
        self.reach_out();
        for ((u, h), cell) in u.iter_mut().zip(h).zip(&mut self.spreads) {
            *u = cell.u_at_enthalpy(table, *h, *u, Effort::TO_THE_END);
        }
    }
}
