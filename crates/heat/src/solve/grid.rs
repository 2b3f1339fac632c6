//! Nodes, cell sizes and conductances along each axis of a shape.

use crate::{HeatError, Meat, Shape};
use std::f64::consts::PI;
use std::ops::Range;

/// Which surroundings an end of an axis meets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum End {
    Top,
    Bottom,
    Side,
    /// The ends of a brick or a roast.
    Cut,
    /// A plane of symmetry or the axis of a cylinder.
    Middle,
}

/// How the enthalpy of a cell is taken from its nodes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Cells {
    /// That of the node.
    Lumped,
    /// One third of the node, two thirds the exact mean with ∫k dT straight between nodes: fourth order for constant
    /// properties, and the freezing kink glides through a cell instead of stepping.
    Mixed,
}

/// One axis, from its low end (a face) to its high end.
#[derive(Clone, Debug)]
pub(crate) struct Axis {
    /// Distance of each node from the low face, m.
    pub(crate) depth: Vec<f64>,
    /// Size of each cell: a length, or area for the radius of a cylinder, volume for a sphere.
    pub(crate) size: Vec<f64>,
    /// Share of each cell that lies on the low side of its node.
    pub(crate) low_share: Vec<f64>,
    /// Area over distance to the next node, over this cell's size; and to the node before. 1/m².
    pub(crate) up: Vec<f64>,
    pub(crate) down: Vec<f64>,
    /// The sum of both.
    pub(crate) both: Vec<f64>,
    /// Area at the low and the high end over the size of the cell there, 1/m, and what they meet.
    face: [f64; 2],
    pub(crate) ends: [End; 2],
    /// From one node to the next in the grid.
    pub(crate) stride: usize,
}

/// The cells along one end of one axis, which meet the same face. An end that is the piece's own middle has none.
#[derive(Clone, Debug)]
pub(crate) struct Rim {
    pub(crate) axis: usize,
    pub(crate) end: End,
    /// Area over the size of a cell, 1/m.
    pub(crate) strength: f64,
    /// Each cell's node in the grid.
    pub(crate) nodes: Vec<usize>,
    /// Where its cells stand among those of all rims.
    pub(crate) cells: Range<usize>,
    /// Whether it is the low end of its axis.
    pub(crate) low: bool,
}

impl Axis {
    /// Areas at the two ends; area over distance between neighbours.
    fn new(
        depth: Vec<f64>,
        size: Vec<f64>,
        low_share: Vec<f64>,
        link: &[f64],
        area: [f64; 2],
        ends: [End; 2],
    ) -> Self {
        let last = size.len() - 1;
        let up: Vec<f64> = (0..=last).map(|i| if i < last { link[i] / size[i] } else { 0.0 }).collect();
        let down: Vec<f64> = (0..=last).map(|i| if i > 0 { link[i - 1] / size[i] } else { 0.0 }).collect();
        Self {
            both: up.iter().zip(&down).map(|(up, down)| up + down).collect(),
            up,
            down,
            face: [area[0] / size[0], area[1] / size[last]],
            depth,
            size,
            low_share,
            ends,
            stride: 1,
        }
    }

    /// The first node of a line.
    pub(crate) fn first(&self, line: usize) -> usize {
        (line / self.stride) * self.stride * self.size.len() + line % self.stride
    }
}

/// A tensor of axes; the first index runs fastest along the first axis.
#[derive(Clone, Debug)]
pub(crate) struct Grid {
    pub(crate) axes: Vec<Axis>,
    pub(crate) cells: Cells,
    /// How often the grid's volume goes into the piece (2 for each half left out).
    pub(crate) copies: f64,
    /// Whether the first axis is a thickness that gets less as the piece loses water.
    pub(crate) thins: bool,
    /// Of each node: what links it to all its neighbours, 1/m².
    pub(crate) reach: Vec<f64>,
    /// All cells that meet a face.
    pub(crate) rims: Vec<Rim>,
}

/// The steak's nodes are drawn towards the faces by this share of a right angle.
const DRAWN: f64 = 0.7;

impl Grid {
    /// The grid of a shape. `even` = top and bottom are the same and stay so: then half of it will do.
    pub(crate) fn new(shape: &Shape, meat: &Meat, cells: usize, even: bool) -> Result<Self, HeatError> {
        let mixed = if meat.is_sharp() { Cells::Lumped } else { Cells::Mixed };
        let coarse = (cells / 2).max(3);
        Ok(match *shape {
            Shape::Slab { thickness } => {
                let axis = flat(thickness.m(), cells, even, 0.0, [End::Top, End::Bottom]);
                Self { thins: true, ..Self::of(vec![axis], mixed, if even { 2.0 } else { 1.0 }) }
            }
            Shape::Cylinder { diameter } => {
                let radius = 0.5 * diameter.m();
                Self::of(vec![round(radius, cells, 1)], Cells::Lumped, 1.0)
            }
            Shape::Sphere { diameter } => {
                let radius = 0.5 * diameter.m();
                Self::of(vec![round(radius, cells, 2)], Cells::Lumped, 1.0)
            }
            Shape::FiniteCylinder { diameter, length } => {
                let axes = vec![
                    flat(length.m(), coarse, even, DRAWN, [End::Top, End::Bottom]),
                    round(0.5 * diameter.m(), coarse, 1),
                ];
                Self::of(axes, Cells::Lumped, if even { 2.0 } else { 1.0 })
            }
            Shape::Steak { thickness, footprint } => {
                let (a, b) = footprint.half_axes(thickness.m(), meat.density_kg_m3());
                let radius = 2.0 * PI * a * b / crate::shape::ellipse_perimeter(a, b);
                let axes = vec![
                    flat(thickness.m(), coarse, even, DRAWN, [End::Top, End::Bottom]),
                    round(radius, coarse, 1),
                ];
                // The disc stands for the whole oval: same heat per volume, so its amounts are scaled by the areas.
                let copies = if even { 2.0 } else { 1.0 } * a * b / (radius * radius);
                Self { thins: true, ..Self::of(axes, Cells::Lumped, copies) }
            }
            Shape::Brick { thickness, width, length } => {
                let side = |full: f64, end| flat(full, coarse, true, DRAWN, [end, end]);
                let top = flat(thickness.m(), coarse, even, DRAWN, [End::Top, End::Bottom]);
                let axes = vec![top, side(width.m(), End::Side), side(length.m(), End::Cut)];
                Self::of(axes, Cells::Lumped, if even { 8.0 } else { 4.0 })
            }
            Shape::Roast { .. } => {
                return Self::new(&shape.solved(meat.density_kg_m3())?, meat, cells, even);
            }
        })
    }

    fn of(mut axes: Vec<Axis>, cells: Cells, copies: f64) -> Self {
        let mut stride = 1;
        for axis in &mut axes {
            axis.stride = stride;
            stride *= axis.size.len();
        }
        let rims = rims(&axes, stride);
        let reach = axes.iter().rev().fold(vec![0.0], |outer, axis| {
            let own = |i: usize| axis.up[i] + axis.down[i];
            outer.iter().flat_map(|r| (0..axis.size.len()).map(move |i| r + own(i))).collect()
        });
        Self { axes, cells, copies, thins: false, reach, rims }
    }

    pub(crate) fn nodes(&self) -> usize {
        self.axes.iter().map(|axis| axis.size.len()).product()
    }

    /// Volume of each cell, the first axis fastest.
    pub(crate) fn volumes(&self) -> Vec<f64> {
        self.axes.iter().rev().fold(vec![1.0], |outer, axis| {
            outer.iter().flat_map(|v| axis.size.iter().map(move |s| v * s)).collect()
        })
    }
}

fn rims(axes: &[Axis], nodes: usize) -> Vec<Rim> {
    let mut rims: Vec<Rim> = Vec::new();
    for (a, axis) in axes.iter().enumerate() {
        let n = axis.size.len();
        for (end, meets) in axis.ends.iter().enumerate() {
            if *meets == End::Middle {
                continue;
            }
            let to_end = end * (n - 1) * axis.stride;
            let from = rims.last().map_or(0, |rim| rim.cells.end);
            rims.push(Rim {
                axis: a,
                end: *meets,
                strength: axis.face[end],
                nodes: (0..nodes / n).map(|line| axis.first(line) + to_end).collect(),
                cells: from..from + nodes / n,
                low: end == 0,
            });
        }
    }
    rims
}

/// A flat axis, whole or its upper half, with `half_cells` cells to the middle.
fn flat(full: f64, half_cells: usize, even: bool, drawn: f64, ends: [End; 2]) -> Axis {
    let n = if even { half_cells } else { 2 * half_cells };
    let place = |i: usize| {
        // From −1 at the face to 0 in the middle (and 1 at the far face).
        let x = i as f64 / half_cells as f64 - 1.0;
        let z = if drawn > 0.0 { (0.5 * PI * drawn * x).sin() / (0.5 * PI * drawn).sin() } else { x };
        0.5 * full * (1.0 + z)
    };
    let depth: Vec<f64> = (0..=n).map(place).collect();
    let edges = edges(&depth);
    let size = edges.windows(2).map(|e| e[1] - e[0]).collect();
    let low_share = (0..=n).map(|i| (depth[i] - edges[i]) / (edges[i + 1] - edges[i])).collect();
    let link: Vec<f64> = depth.windows(2).map(|d| 1.0 / (d[1] - d[0])).collect();
    let ends = if even { [ends[0], End::Middle] } else { ends };
    Axis::new(depth, size, low_share, &link, [1.0, 1.0], ends)
}

/// A radius from the surface inwards: `power` 1 for a cylinder, 2 for a sphere.
fn round(radius: f64, n: usize, power: i32) -> Axis {
    let depth: Vec<f64> = (0..=n).map(|i| radius * i as f64 / n as f64).collect();
    let edges = edges(&depth);
    let around = f64::from(2 * power) * PI;
    let area = |depth: f64| around * (radius - depth).max(0.0).powi(power);
    let volume = |depth: f64| around / f64::from(power + 1) * (radius - depth).max(0.0).powi(power + 1);
    let share = |i: usize| (volume(edges[i]) - volume(depth[i])) / (volume(edges[i]) - volume(edges[i + 1]));
    let size = edges.windows(2).map(|e| volume(e[0]) - volume(e[1])).collect();
    let low_share = (0..=n).map(share).collect();
    let link: Vec<f64> = depth.windows(2).map(|d| area(0.5 * (d[0] + d[1])) / (d[1] - d[0])).collect();
    Axis::new(depth, size, low_share, &link, [area(0.0), 0.0], [End::Side, End::Middle])
}

/// Cell edges: half way between nodes, and the ends.
fn edges(depth: &[f64]) -> Vec<f64> {
    let last = depth.len() - 1;
    let mut edges = vec![depth[0]];
    edges.extend(depth.windows(2).map(|d| 0.5 * (d[0] + d[1])));
    edges.push(depth[last]);
    edges
}
