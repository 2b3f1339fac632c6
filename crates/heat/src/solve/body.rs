//! What solves a grid: a line whose cells spread to their neighbours, or lumped cells along any axes.
//!
//! The unknown is `u`, the table's arc coordinate. A stage solves `H(u) = base + τ F(u)` by one round of Newton from where the
//! nodes were placed. What is handed back are the linearised flows; the enthalpy is then stepped with those, never read back from
//! `u`, so energy closes whatever the round left undone. What it left undone is in the next stage's right-hand side.

use super::block::{Around, Block, Passing};
use super::field::Field;
use super::grid::{Cells, Grid};
use super::line::Line;
use crate::property::Table;

#[derive(Clone, Debug)]
pub(crate) enum Body {
    Line(Line),
    Field(Field),
}

impl Body {
    pub(crate) fn new(grid: &Grid) -> Self {
        match grid.cells {
            Cells::Mixed => Self::Line(Line::new(grid)),
            Cells::Lumped => Self::Field(Field::new(grid)),
        }
    }

    /// Takes the nodes as they stand, at `u` and carrying `h`.
    pub(crate) fn stand(&mut self, table: &Table, h: &[f64], u: &mut [f64]) {
        match self {
            Self::Line(line) => line.stand(table, u),
            Self::Field(field) => field.carry(table, h, u),
        }
    }

    /// Places every node where it is guessed to be at another moment: at `u`, or where it carries `h`, whichever serves better.
    /// Nodes that are held stay where they are.
    pub(crate) fn guess(&mut self, table: &Table, (guess, h): (&[f64], &[f64]), u: &mut [f64]) {
        match self {
            Self::Line(line) => line.guess(table, guess, h, u),
            Self::Field(field) => field.guess(table, h, u),
        }
    }

    /// After a stage: places every node where it carries `h`; in cells that spread, with the reaches the solve has led to.
    pub(crate) fn carry(&mut self, table: &Table, h: &[f64], u: &mut [f64]) {
        match self {
            Self::Line(line) => line.carry(table, h, u),
            Self::Field(field) => field.carry(table, h, u),
        }
    }

    /// One Newton round of `H(u) = base + τ F(u)`: fills `rate` with the linearised F, W/m³, and moves `u`.
    pub(crate) fn stage(
        &mut self,
        block: &Block,
        around: &Around,
        base: (&[f64], f64),
        u: &mut [f64],
        rate: &mut [f64],
    ) {
        match self {
            Self::Line(line) => line.stage(block, around, base, u, rate),
            Self::Field(field) => field.stage(block, around, base, u, rate),
        }
    }

    /// The larger of two error estimates of a step whose nodes were just carried, J/m³: half the difference of the stages, and
    /// what the straight lines of the last one missed of the curve.
    pub(crate) fn error(&self, block: &Block, tau: f64, first: &[f64], second: &[f64]) -> f64 {
        let stages = (tau, first, second);
        match self {
            Self::Line(line) => largest(stages, &line.passing, |node| line.missed(block, tau, node)),
            Self::Field(field) => largest(stages, &field.passing, |node| field.missed(block, tau, node)),
        }
    }

    /// Mean enthalpy of every cell at `u`, J/m³, to the end.
    pub(crate) fn means(&mut self, table: &Table, u: &[f64], means: &mut [f64]) {
        match self {
            Self::Line(line) => {
                means.iter_mut().zip(line.means(table, u)).for_each(|(mean, own)| *mean = own);
            }
            Self::Field(_) => means.iter_mut().zip(u).for_each(|(mean, u)| *mean = table.at(*u).h),
        }
    }

    /// Finds the `u` that carry `h` to the end; lumped cells carry it already.
    pub(crate) fn settle(&mut self, table: &Table, h: &[f64], u: &mut [f64]) {
        if let Self::Line(line) = self {
            line.settle(table, h, u);
        }
    }

    /// Of a node as last placed, °C.
    pub(crate) fn temperature(&self, node: usize) -> f64 {
        match self {
            Self::Line(line) => line.temperature(node),
            Self::Field(field) => field.temperature(node),
        }
    }

    /// The shares of its neighbours before and after in a node's cell.
    pub(crate) fn lean(&self, node: usize) -> (f64, f64) {
        match self {
            Self::Line(line) => line.lean(node),
            Self::Field(_) => (0.0, 0.0),
        }
    }

    pub(crate) fn passing(&self) -> &Passing {
        match self {
            Self::Line(line) => &line.passing,
            Self::Field(field) => &field.passing,
        }
    }
}

fn largest(
    (tau, first, second): (f64, &[f64], &[f64]),
    passing: &Passing,
    missed: impl Fn(usize) -> f64,
) -> f64 {
    let mut most: f64 = 0.0;
    for (node, (first, second)) in first.iter().zip(second).enumerate() {
        if passing.holds(node) {
            continue;
        }
        let error = (0.5 * tau * (second - first).abs()).max(missed(node));
        // `max` would drop a NaN.
        most = if error.is_nan() { f64::INFINITY } else { most.max(error) };
    }
    most
}
