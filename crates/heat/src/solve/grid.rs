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

/// One axis, from its low end (a face) to its high end.
#[derive(Clone, Debug)]
pub(crate) struct Axis {
    /// Distance of each node from the low face, m.
    pub(crate) depth: Vec<f64>,
    /// Size of each cell: a length, or area for the radius of a cylinder, volume for a sphere.
    pub(crate) size: Vec<f64>,
    /// Area at the low and the high end over the size of the cell there, 1/m, and what they meet.
    face: [f64; 2],
    pub(crate) ends: [End; 2],
    /// From one node to the next in the grid.
    pub(crate) stride: usize,
    /// Area over distance to the next node over the size of the cell, and to the node before, 1/m².
    up: Vec<f64>,
    down: Vec<f64>,
    /// Shares of the next node and of the one before in a cell's mean.
    lean_up: Vec<f64>,
    lean_down: Vec<f64>,
}

/// What couples each node of a grid to its neighbours along one axis; nothing where there is none.
#[derive(Clone, Debug)]
pub(crate) struct Links {
    /// Nodes in a line, and from one to the next in the grid.
    pub(crate) length: usize,
    pub(crate) stride: usize,
    /// Area over distance, over the cell's size, to the next node and to the one before, 1/m²; and the sum of both.
    pub(crate) up: Vec<f64>,
    pub(crate) down: Vec<f64>,
    pub(crate) both: Vec<f64>,
    /// Shares of the next node and of the one before in a cell's mean.
    pub(crate) lean_up: Vec<f64>,
    pub(crate) lean_down: Vec<f64>,
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
}

impl Axis {
    /// Areas at the two ends; area over distance between neighbours; which power of the radius an area grows with.
    fn new(
        depth: Vec<f64>,
        size: Vec<f64>,
        link: &[f64],
        area: [f64; 2],
        (ends, power): ([End; 2], i32),
    ) -> Self {
        let last = size.len() - 1;
        let up: Vec<f64> = (0..=last).map(|i| if i < last { link[i] / size[i] } else { 0.0 }).collect();
        let down: Vec<f64> = (0..=last).map(|i| if i > 0 { link[i - 1] / size[i] } else { 0.0 }).collect();
        let face = [area[0] / size[0], area[1] / size[last]];
        let (lean_up, lean_down) = leans(&depth, (&up, &down, face), ends, power);
        Self { up, down, lean_up, lean_down, face, depth, size, ends, stride: 1 }
    }

    /// Its couplings at every node of a grid.
    fn links(&self, nodes: usize, leans: bool) -> Links {
        let n = self.size.len();
        let all = |of: &[f64]| (0..nodes).map(|node| of[node / self.stride % n]).collect::<Vec<f64>>();
        let lean = |of: &[f64]| all(of).iter().map(|of| if leans { of.max(0.0) } else { 0.0 }).collect();
        let (up, down) = (all(&self.up), all(&self.down));
        Links {
            length: n,
            stride: self.stride,
            both: up.iter().zip(&down).map(|(up, down)| up + down).collect(),
            up,
            down,
            lean_up: lean(&self.lean_up),
            lean_down: lean(&self.lean_down),
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
    pub(crate) links: Vec<Links>,
    /// Whether a cell's enthalpy leans on its neighbours'; at a sharp front, and along several axes at once, where flows would have
    /// to lean too, it is its node's own.
    pub(crate) leans: bool,
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
/// Those of a brick by less: no pan is hot enough for long enough to matter to one, and its lumped cells do best so in every medium.
const BRICK_DRAWN: f64 = 0.4;

impl Grid {
    /// The grid of a shape. `even` = top and bottom are the same and stay so: then half of it will do.
    pub(crate) fn new(shape: &Shape, meat: &Meat, cells: usize, even: bool) -> Result<Self, HeatError> {
        let leans = !meat.is_sharp();
        let coarse = (cells / 2).max(3);
        Ok(match *shape {
            Shape::Slab { thickness } => {
                let axis = flat(thickness.m(), cells, even, 0.0, [End::Top, End::Bottom]);
                Self { thins: true, ..Self::of(vec![axis], leans, if even { 2.0 } else { 1.0 }) }
            }
            Shape::Cylinder { diameter } => {
                let radius = 0.5 * diameter.m();
                Self::of(vec![round(radius, cells, 1)], false, 1.0)
            }
            Shape::Sphere { diameter } => {
                let radius = 0.5 * diameter.m();
                Self::of(vec![round(radius, cells, 2)], false, 1.0)
            }
            Shape::FiniteCylinder { diameter, length } => {
                let axes = vec![
                    flat(length.m(), coarse, even, DRAWN, [End::Top, End::Bottom]),
                    round(0.5 * diameter.m(), coarse, 1),
                ];
                Self::of(axes, leans, if even { 2.0 } else { 1.0 })
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
                Self { thins: true, ..Self::of(axes, leans, copies) }
            }
            Shape::Brick { thickness, width, length } => {
                let side = |full: f64, end| flat(full, coarse, true, BRICK_DRAWN, [end, end]);
                let top = flat(thickness.m(), coarse, even, BRICK_DRAWN, [End::Top, End::Bottom]);
                let axes = vec![top, side(width.m(), End::Side), side(length.m(), End::Cut)];
                Self::of(axes, leans, if even { 8.0 } else { 4.0 })
            }
            Shape::Roast { .. } => {
                return Self::new(&shape.solved(meat.density_kg_m3())?, meat, cells, even);
            }
        })
    }

    fn of(mut axes: Vec<Axis>, leans: bool, copies: f64) -> Self {
        let mut stride = 1;
        for axis in &mut axes {
            axis.stride = stride;
            stride *= axis.size.len();
        }
        let rims = rims(&axes, stride);
        let leans = leans && axes.len() == 1;
        let links: Vec<Links> = axes.iter().map(|axis| axis.links(stride, leans)).collect();
        let reach = (0..stride).map(|node| links.iter().map(|links| links.both[node]).sum()).collect();
        Self { axes, links, leans, copies, thins: false, reach, rims }
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
    let link: Vec<f64> = depth.windows(2).map(|d| 1.0 / (d[1] - d[0])).collect();
    let ends = if even { [ends[0], End::Middle] } else { ends };
    Axis::new(depth, size, &link, [1.0, 1.0], (ends, 0))
}

/// A radius from the surface inwards: `power` 1 for a cylinder, 2 for a sphere.
fn round(radius: f64, n: usize, power: i32) -> Axis {
    let depth: Vec<f64> = (0..=n).map(|i| radius * i as f64 / n as f64).collect();
    let edges = edges(&depth);
    let around = f64::from(2 * power) * PI;
    let area = |depth: f64| around * (radius - depth).max(0.0).powi(power);
    let volume = |depth: f64| around / f64::from(power + 1) * (radius - depth).max(0.0).powi(power + 1);
    let size = edges.windows(2).map(|e| volume(e[0]) - volume(e[1])).collect();
    let link: Vec<f64> = depth.windows(2).map(|d| area(0.5 * (d[0] + d[1])) / (d[1] - d[0])).collect();
    Axis::new(depth, size, &link, [area(0.0), 0.0], ([End::Side, End::Middle], power))
}

/// What share its neighbours have in a cell's mean, so that what flows into it agrees with how its mean changes: exact for cubes
/// and fourth powers of the radius; for one of them where there is one neighbour alone. On an even flat axis a neighbour has a
/// twelfth, and the only neighbour of a half cell at a face a third.
fn leans(
    depth: &[f64],
    (up, down, face): (&[f64], &[f64], [f64; 2]),
    ends: [End; 2],
    geometry: i32,
) -> (Vec<f64>, Vec<f64>) {
    let last = depth.len() - 1;
    let radius = |i: usize| depth[last] - depth[i];
    // ∇² of a power of the radius.
    let spread = |i: usize, power: i32| f64::from(power * (power + geometry - 1)) * radius(i).powi(power - 2);
    let inflow = |i: usize, power: i32| {
        let value = |i: usize| radius(i).powi(power);
        let slope = |i: usize| f64::from(power) * radius(i).powi(power - 1);
        let mut sum = 0.0;
        if i < last {
            sum += up[i] * (value(i + 1) - value(i));
        } else {
            sum -= face[1] * slope(i);
        }
        if i > 0 {
            sum += down[i] * (value(i - 1) - value(i));
        } else {
            sum += face[0] * slope(i);
        }
        sum
    };
    let missing = |i: usize, power: i32| inflow(i, power) - spread(i, power);
    let lead = |i: usize, other: usize, power: i32| spread(other, power) - spread(i, power);
    let (mut lean_up, mut lean_down) = (vec![0.0; last + 1], vec![0.0; last + 1]);
    for i in 0..=last {
        let power = if ends[usize::from(i == last)] == End::Middle { 4 } else { 3 };
        if i == 0 {
            lean_up[i] = missing(i, power) / lead(i, i + 1, power);
        } else if i == last {
            lean_down[i] = missing(i, power) / lead(i, i - 1, power);
        } else {
            let (a, b) = (lead(i, i - 1, 3), lead(i, i + 1, 3));
            let (c, d) = (lead(i, i - 1, 4), lead(i, i + 1, 4));
            let (cube, fourth) = (missing(i, 3), missing(i, 4));
            let whole = a * d - b * c;
            lean_down[i] = (cube * d - fourth * b) / whole;
            lean_up[i] = (fourth * a - cube * c) / whole;
        }
    }
    (lean_up, lean_down)
}

/// Cell edges: half way between nodes, and the ends.
fn edges(depth: &[f64]) -> Vec<f64> {
    let last = depth.len() - 1;
    let mut edges = vec![depth[0]];
    edges.extend(depth.windows(2).map(|d| 0.5 * (d[0] + d[1])));
    edges.push(depth[last]);
    edges
}
