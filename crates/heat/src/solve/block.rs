//! A grid with what fills it, and what is around it.

use super::face::{FaceNow, Flow, Skin};
use super::grid::{Grid, Rim};
use crate::property::Table;

/// A grid and what fills it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Block<'a> {
    pub(crate) grid: &'a Grid,
    pub(crate) table: &'a Table,
    /// Conductivity as a multiple of the table's.
    pub(crate) factor: f64,
    /// What is left of the thickness, a share: heat has less far to go along the first axis, and less room beside it. (All
    /// sizes are those of the raw piece, whose enthalpy is counted.)
    pub(crate) thin: f64,
}

impl Block<'_> {
    /// What multiplies the links along an axis.
    #[inline]
    pub(crate) fn links(&self, axis: usize) -> f64 {
        if axis == 0 { self.factor / self.thin } else { self.factor * self.thin }
    }

    /// Area of a rim over the size of its cells, 1/m.
    #[inline]
    pub(crate) fn strength(&self, rim: &Rim) -> f64 {
        if rim.axis == 0 { rim.strength } else { rim.strength * self.thin }
    }
}

/// The faces of every rim at one moment, and what each of their cells has been through until so many seconds before it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Around<'a, 'f> {
    pub(crate) faces: &'a [FaceNow<'f>],
    pub(crate) skins: &'a [Skin],
    pub(crate) since: f64,
}

/// Room for what passes the faces: one flow for each cell of each rim, and the nodes whose temperature is held.
#[derive(Clone, Debug)]
pub(crate) struct Passing {
    pub(crate) flows: Vec<Flow>,
    /// Where to, in steps of `u`.
    pub(crate) held: Vec<Option<f64>>,
    pub(crate) any_held: bool,
}

impl Passing {
    pub(crate) fn new(grid: &Grid) -> Self {
        let cells = grid.rims.last().map_or(0, |rim| rim.cells.end);
        Self { flows: vec![Flow::default(); cells], held: vec![None; grid.nodes()], any_held: false }
    }

    /// Whether a node's temperature is held.
    #[inline(always)]
    pub(crate) fn holds(&self, node: usize) -> bool {
        self.any_held && self.held[node].is_some()
    }

    /// Flows through every face at the surface temperatures at hand, into the rates.
    pub(crate) fn meet(
        &mut self,
        block: &Block,
        around: &Around,
        (u, t): (&[f64], impl Fn(usize) -> f64),
        rate: &mut [f64],
    ) {
        self.any_held = around.faces.iter().any(|face| matches!(face, FaceNow::Fixed(_)));
        if self.any_held {
            self.held.fill(None);
        }
        for (rim, face) in block.grid.rims.iter().zip(around.faces) {
            let flows = &mut self.flows[rim.cells.clone()];
            match face {
                FaceNow::Insulated => flows.fill(Flow::default()),
                FaceNow::Fixed(t) => {
                    let target = block.table.u_at_temperature(*t);
                    for node in &rim.nodes {
                        self.held[*node].get_or_insert(target - u[*node]);
                    }
                    flows.fill(Flow::default());
                }
                FaceNow::Open { .. } => {
                    let strength = block.strength(rim);
                    let cells = rim.nodes.iter().zip(&around.skins[rim.cells.clone()]);
                    for (flow, (node, skin)) in flows.iter_mut().zip(cells) {
                        *flow = face.flow(t(*node), skin.ahead(around.since), flow.vapour);
                        rate[*node] += strength * flow.heat;
                    }
                }
            }
        }
    }

    /// After the solve along an axis that warmed each node by `warmer` kelvins: what its faces' flows gain by it.
    pub(crate) fn warm(
        &mut self,
        block: &Block,
        around: &Around,
        (axis, warmer): (usize, impl Fn(usize) -> f64),
        rate: &mut [f64],
    ) {
        for (rim, face) in block.grid.rims.iter().zip(around.faces) {
            let FaceNow::Open { wetness, .. } = face else { continue };
            if rim.axis != axis {
                continue;
            }
            let strength = block.strength(rim);
            for (flow, node) in self.flows[rim.cells.clone()].iter_mut().zip(&rim.nodes) {
                let warmer = warmer(*node);
                flow.vapour += flow.vapour_slope * warmer;
                flow.boiled += flow.boiled_slope * warmer;
                let mut more = flow.slope * warmer;
                if flow.boiled < 0.0 {
                    // What has stopped boiling within the stage takes no steam back.
                    more += wetness.latent * flow.boiled;
                    flow.vapour -= flow.boiled;
                    flow.boiled = 0.0;
                }
                flow.heat += more;
                rate[*node] += strength * more;
            }
        }
    }
}
