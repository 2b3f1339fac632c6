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

/// How far ∫k dT reaches from a node to half way to a neighbour, W/m.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Reach {
    span: f64,
    /// One over it; zero where it is too short for a quotient.
    inverse: f64,
    /// The table's cell at its end, as last found.
    cell: u32,
}

/// The reaches of one node.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Spread {
    low: Reach,
    high: Reach,
    /// Weights of their means; with [`LUMPED`] they make one.
    low_weight: f64,
    high_weight: f64,
    /// How far the mean lies from the node's own value where the curve is straight, W/m, and the lower end of both.
    lean: f64,
    lowest: f64,
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

/// How hard a cell looks for the `u` of its enthalpy: rounds at most, the last step, in table cells, that will do, and whether
/// thawed meat may count as straight over a reach (there is a jump of some 0.003 K where a reach first touches ice).
#[derive(Clone, Copy, Debug)]
pub(crate) struct Effort {
    rounds: usize,
    near: f64,
    straight: bool,
}

impl Effort {
    /// Within a step: what is left undone is in the next right-hand side.
    pub(crate) const IN_A_STEP: Self = Self { rounds: 6, near: 1e-1, straight: true };
    /// Where nothing may be left. Two rounds of Newton can change places across the kink for ever.
    pub(crate) const TO_THE_END: Self = Self { rounds: 80, near: 1e-9, straight: false };
}

const LUMPED: f64 = 1.0 / 3.0;
const MEAN: f64 = 2.0 / 3.0;
/// W/m below which the quotient of integrals loses its digits.
const CLOSE: f64 = 1e-6;

/// Sets the reaches of a row of nodes from their ∫k dT.
pub(crate) fn spread(cells: &mut [Spread], theta: impl Fn(usize) -> f64) {
    let last = cells.len() - 1;
    let mut before = Reach::default();
    let mut here = theta(0);
    for (i, cell) in cells.iter_mut().enumerate() {
        let next = if i < last { theta(i + 1) } else { here };
        let after = Reach::new(0.5 * (next - here));
        cell.low.replace(before);
        cell.high.replace(after);
        cell.lean = 0.5 * (cell.low_weight * before.span + cell.high_weight * after.span);
        cell.lowest = before.span.min(after.span).min(0.0);
        (before, here) = (after.turned(), next);
    }
}

impl Reach {
    #[inline]
    fn new(span: f64) -> Self {
        Self { span, inverse: if span.abs() < CLOSE { 0.0 } else { 1.0 / span }, cell: 0 }
    }

    fn turned(self) -> Self {
        Self { span: -self.span, inverse: -self.inverse, cell: 0 }
    }

    /// A new length; the cell found before stays as the guess.
    #[inline]
    fn replace(&mut self, other: Self) {
        (self.span, self.inverse) = (other.span, other.inverse);
    }

    /// Mean enthalpy over it, and its slopes over ∫k dT: with the far end moving along, and of the far end alone.
    #[inline(always)]
    fn mean(&mut self, table: &Table, (u, point): (f64, &Point), effort: Effort) -> (f64, f64, f64) {
        if self.inverse == 0.0 || effort.straight && table.is_straight(point.theta, point.theta + self.span) {
            let slope = point.slope;
            return (point.h + 0.5 * slope * self.span, slope, 0.5 * slope);
        }
        let (integral, far) = table.integral_to(point.theta + self.span, (u, point), &mut self.cell);
        let mean = integral * self.inverse;
        (mean, (far - point.h) * self.inverse, (far - mean) * self.inverse)
    }
}

impl Spread {
    /// For a cell of which `low_share` lies below its node.
    pub(crate) fn new(low_share: f64) -> Self {
        let (low_weight, high_weight) = (MEAN * low_share, MEAN * (1.0 - low_share));
        Self { low_weight, high_weight, ..Self::default() }
    }

    /// The cell's mean.
    #[inline(always)]
    pub(crate) fn mean(&mut self, table: &Table, at: (f64, &Point), effort: Effort) -> CellMean {
        let point = at.1;
        if effort.straight && table.is_straight(point.theta, point.theta + self.lowest) {
            return CellMean {
                mean: point.h + point.slope * self.lean,
                slope: LUMPED * point.dh + MEAN * point.slope * point.dtheta,
                far: (0.25 * self.low_weight * point.slope, 0.25 * self.high_weight * point.slope),
            };
        }
        self.bent(table, at, effort)
    }

    fn bent(&mut self, table: &Table, at: (f64, &Point), effort: Effort) -> CellMean {
        let point = at.1;
        let none = (0.0, 0.0, 0.0);
        let low = if self.low_weight > 0.0 { self.low.mean(table, at, effort) } else { none };
        let high = if self.high_weight > 0.0 { self.high.mean(table, at, effort) } else { none };
        CellMean {
            mean: LUMPED * point.h + self.low_weight * low.0 + self.high_weight * high.0,
            slope: LUMPED * point.dh + (self.low_weight * low.1 + self.high_weight * high.1) * point.dtheta,
            far: (0.5 * self.low_weight * low.2, 0.5 * self.high_weight * high.2),
        }
    }

    /// The `u` whose mean is `h`, from one nearby: Newton, kept between the two sides by halving.
    #[inline]
    pub(crate) fn u_at_enthalpy(&mut self, table: &Table, h: f64, near: f64, effort: Effort) -> f64 {
        let (mut low, mut high) = (f64::NEG_INFINITY, f64::INFINITY);
        let mut u = near;
        for _ in 0..effort.rounds {
            let cell = self.mean(table, (u, &table.at(u)), effort);
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
