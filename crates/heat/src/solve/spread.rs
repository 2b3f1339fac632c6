//! The mean enthalpy of a cell that spreads from its node half way to its neighbours.
//!
//! A third of the node's own enthalpy, two thirds the exact mean with ∫k dT straight between nodes: for constant properties
//! that weighs three neighbours 1/12, 10/12, 1/12, which is of fourth order, and the freezing kink glides through a cell
//! instead of stepping from node to node.
//!
//! The reaches are held at their lengths while a cell finds the `u` that carries its enthalpy. So each cell's equation rises
//! with its own `u` alone and always has one root; solving all cells together by Newton circles for ever once the kink lies
//! between two nodes, and one run in a few hundred never ended.

use crate::property::{Point, Table};

/// How far ∫k dT reaches from a node towards a neighbour, W/m.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Reach {
    span: f64,
    /// The table's cell at its end, as last found.
    cell: u32,
}

/// A place on the curve: ∫k dT, W/m, enthalpy, J/m³, and ∫H dθ.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Place {
    theta: f64,
    h: f64,
    integral: f64,
}

/// The reaches of one node.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Spread {
    low: Reach,
    high: Reach,
    /// Weights of their means; with [`LUMPED`] they make one.
    low_weight: f64,
    high_weight: f64,
    /// How far they go towards the neighbours, as shares of the way.
    low_far: f64,
    high_far: f64,
    /// What a neighbour's lead in ∫k dT adds to the mean where the curve is straight, before and after.
    pub(crate) lean: (f64, f64),
}

/// A cell's mean enthalpy and its slopes.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct CellMean {
    /// J/m³.
    pub(crate) mean: f64,
    /// Over the node's own `u`, the reaches keeping their lengths.
    pub(crate) slope: f64,
    /// Over ∫k dT of the neighbour below and above.
    pub(crate) far: (f64, f64),
}

/// How hard a cell looks for the `u` of its enthalpy: rounds at most, and the last step, in table cells, that will do.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Effort {
    rounds: usize,
    near: f64,
}

impl Effort {
    /// Within a step: what is left undone is in the next right-hand side.
    pub(crate) const IN_A_STEP: Self = Self { rounds: 6, near: 1e-1 };
    /// Where nothing may be left. Two rounds of Newton can change places across the kink for ever.
    pub(crate) const TO_THE_END: Self = Self { rounds: 80, near: 1e-9 };
}

const LUMPED: f64 = 1.0 / 3.0;
const MEAN: f64 = 2.0 / 3.0;
/// W/m below which the quotient of integrals loses its digits.
const CLOSE: f64 = 1e-6;

/// Sets the reaches of a row of nodes from their ∫k dT.
pub(crate) fn spread(cells: &mut [Spread], theta: impl Fn(usize) -> f64) {
    let last = cells.len() - 1;
    let (mut before, mut here) = (theta(0), theta(0));
    for (i, cell) in cells.iter_mut().enumerate() {
        let next = if i < last { theta(i + 1) } else { here };
        cell.low.span = cell.low_far * (before - here);
        cell.high.span = cell.high_far * (next - here);
        (before, here) = (here, next);
    }
}

impl Place {
    #[inline(always)]
    pub(crate) fn of(table: &Table, u: f64, point: &Point) -> Self {
        Self { theta: point.theta, h: point.h, integral: table.integral_at(u, point) }
    }

    #[inline(always)]
    pub(crate) fn at(table: &Table, theta: f64, hint: &mut u32) -> Self {
        let (integral, h) = table.integral_to(theta, hint);
        Self { theta, h, integral }
    }
}

/// Mean enthalpy from a node to the end of its reach, and its slopes over ∫k dT: with the far end moving along, and of the far end
/// alone.
#[inline(always)]
fn between(slope: f64, node: &Place, end: &Place) -> (f64, f64, f64) {
    let span = end.theta - node.theta;
    if span.abs() < CLOSE {
        return (node.h + 0.5 * slope * span, slope, 0.5 * slope);
    }
    let inverse = 1.0 / span;
    let mean = (end.integral - node.integral) * inverse;
    (mean, (end.h - node.h) * inverse, (end.h - mean) * inverse)
}

impl Spread {
    /// For a cell of which `low_share` lies below its node. It spreads half way to its neighbours; the half cell at a face, whose
    /// ∫k dT leans most, all the way to its only one: with the same third and two thirds that keeps the fourth order at a face.
    pub(crate) fn new(low_share: f64, at_face: bool) -> Self {
        let (low_weight, high_weight) = (MEAN * low_share, MEAN * (1.0 - low_share));
        let far = |whole: bool| if whole { 1.0 } else { 0.5 };
        let (low_far, high_far) = (far(at_face && high_weight == 0.0), far(at_face && low_weight == 0.0));
        let lean = (0.5 * low_weight * low_far, 0.5 * high_weight * high_far);
        Self { low_weight, high_weight, low_far, high_far, lean, ..Self::default() }
    }

    /// The mean of a cell whose neighbours lead its ∫k dT by `leads` where the curve is straight.
    #[inline(always)]
    pub(crate) fn straight(&self, point: &Point, leads: (f64, f64)) -> CellMean {
        let slope = point.slope;
        CellMean {
            mean: point.h + slope * (self.lean.0 * leads.0 + self.lean.1 * leads.1),
            slope: LUMPED * point.dh + MEAN * slope * point.dtheta,
            far: (self.lean.0 * slope, self.lean.1 * slope),
        }
    }

    /// The cell's mean where its reaches end at these two places.
    #[inline(always)]
    pub(crate) fn bent(&self, point: &Point, node: &Place, (low, high): (&Place, &Place)) -> CellMean {
        let none = (0.0, 0.0, 0.0);
        let low = if self.low_weight > 0.0 { between(point.slope, node, low) } else { none };
        let high = if self.high_weight > 0.0 { between(point.slope, node, high) } else { none };
        CellMean {
            mean: LUMPED * point.h + self.low_weight * low.0 + self.high_weight * high.0,
            slope: LUMPED * point.dh + (self.low_weight * low.1 + self.high_weight * high.1) * point.dtheta,
            far: (self.low_far * self.low_weight * low.2, self.high_far * self.high_weight * high.2),
        }
    }

    /// The same with the reaches at hand.
    fn mean(&mut self, table: &Table, u: f64, point: &Point) -> CellMean {
        let node = Place::of(table, u, point);
        let low = Place::at(table, node.theta + self.low.span, &mut self.low.cell);
        let high = Place::at(table, node.theta + self.high.span, &mut self.high.cell);
        self.bent(point, &node, (&low, &high))
    }

    /// Whether its reach goes all the way to its neighbour.
    pub(crate) fn is_at_face(&self) -> bool {
        self.low_far.max(self.high_far) > 0.5
    }

    /// The `u` whose mean is `h`, from one nearby: Newton, kept between the two sides by halving.
    #[inline]
    pub(crate) fn u_at_enthalpy(&mut self, table: &Table, h: f64, near: f64, effort: Effort) -> f64 {
        let (mut low, mut high) = (f64::NEG_INFINITY, f64::INFINITY);
        let mut u = near;
        for _ in 0..effort.rounds {
            let cell = self.mean(table, u, &table.at(u));
            let miss = h - cell.mean;
            if miss > 0.0 {
                low = u;
            } else {
                high = u;
            }
            let newton = u + miss / cell.slope;
            if (newton - u).abs() < effort.near {
                return newton;
            }
            u = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
        }
        u
    }
}
