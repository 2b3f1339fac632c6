//! Enthalpy along a link, and the cell in which ice begins.
//!
//! A cell's mean enthalpy leans on its neighbours: beside its node's own it holds shares of the exact mean over the link to each,
//! ∫k dT straight between them. For constant properties that weighs three neighbours 1/12, 10/12, 1/12, which is of fourth order, and
//! the freezing kink glides through a cell instead of stepping from node to node.
//!
//! Where ice begins within a link, the links are held at their lengths while a cell finds the `u` that carries its enthalpy. So
//! each such cell's equation rises with its own `u` alone and always has one root; solving all cells together by Newton circles
//! for ever once the kink lies between two nodes, and one run in a few hundred never ended.

use crate::property::Table;

/// A place on the curve: ∫k dT, W/m, enthalpy, J/m³, and ∫H dθ.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Place {
    pub(crate) theta: f64,
    pub(crate) h: f64,
    pub(crate) integral: f64,
}

impl Place {
    #[inline(always)]
    pub(crate) fn of(table: &Table, u: f64, (theta, h): (f64, f64)) -> Self {
        Self { theta, h, integral: table.integral_at(u, (theta, h)) }
    }
}

/// The mean enthalpy of a link, J/m³, and what it gains for one W/m of ∫k dT at either end.
#[inline(always)]
pub(crate) fn mean(slope: f64, from: &Place, to: &Place) -> (f64, f64, f64) {
    let span = to.theta - from.theta;
    if span.abs() < CLOSE {
        return (0.5 * (from.h + to.h), 0.5 * slope, 0.5 * slope);
    }
    let inverse = 1.0 / span;
    let mean = (to.integral - from.integral) * inverse;
    (mean, (mean - from.h) * inverse, (to.h - mean) * inverse)
}

/// W/m below which the quotient of integrals loses its digits.
const CLOSE: f64 = 1e-6;

/// A link of a cell while it is held at its length: its share of the mean, how far ∫k dT runs along it, W/m, and the table's cell
/// at its end, as last found.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Reach {
    pub(crate) share: f64,
    pub(crate) span: f64,
    pub(crate) cell: u32,
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

/// The `u` at which a cell with these reaches carries `h`, from one nearby: Newton, kept between the two sides by halving.
pub(crate) fn u_at_enthalpy(table: &Table, reaches: &mut [Reach], h: f64, near: f64, effort: Effort) -> f64 {
    let (mut low, mut high) = (f64::NEG_INFINITY, f64::INFINITY);
    let mut u = near;
    for _ in 0..effort.rounds {
        let (mean, slope) = cell_mean(table, reaches, u);
        let miss = h - mean;
        if miss > 0.0 {
            low = u;
        } else {
            high = u;
        }
        let newton = u + miss / slope;
        if (newton - u).abs() < effort.near {
            return newton;
        }
        u = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
    }
    u
}

/// A cell's mean at `u` and its slope, its reaches moving along.
fn cell_mean(table: &Table, reaches: &mut [Reach], u: f64) -> (f64, f64) {
    let point = table.at(u);
    let node = Place::of(table, u, (point.theta, point.h));
    let (mut whole, mut slope) = (point.h, point.dh);
    for reach in reaches {
        let theta = node.theta + reach.span;
        let (integral, h) = table.integral_to(theta, &mut reach.cell);
        let (along, here, there) = mean(point.slope, &node, &Place { theta, h, integral });
        whole += reach.share * (along - point.h);
        slope += reach.share * ((here + there) * point.dtheta - point.dh);
    }
    (whole, slope)
}
