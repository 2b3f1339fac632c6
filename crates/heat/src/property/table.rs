//! Temperature, ∫k dT and enthalpy in one table, indexed without a search.
//!
//! Newton's method in temperature or in ∫k dT diverges at the kink where ice begins: one of the two slopes there is
//! twenty times the other's. The table is therefore laid out over the arc length of the curve (θ/60 W/m, H/6e8 J/m³), in
//! which no slope is steep. The coordinate `u` counts cells of that arc; beyond the first and the last cell their lines are
//! carried on, so that no trial step can fall off the table, and what was *reached* is checked against the fit.

use super::Law;

/// W/m of ∫k dT in one unit of arc.
const THETA_SCALE: f64 = 60.0;
/// J/m³ of enthalpy in one unit of arc.
const H_SCALE: f64 = 6e8;
/// Cells in one unit of arc: 0.01 K just below freezing, 0.4 K in thawed meat.
const CELLS_PER_ARC: f64 = 250.0;
/// What the slope of enthalpy over ∫k dT may change from node to node where the curve counts as straight.
const BEND: f64 = 3e-3;
/// Steps of the exact curve in one cell.
const FINE: f64 = 8.0;

/// The curve of a material: places at equal steps of arc, straight lines between them.
#[derive(Clone, Debug)]
pub(crate) struct Table {
    nodes: Vec<Node>,
    /// What a look-up by `u` needs of a cell, side by side.
    cells: Vec<Cell>,
    /// For equal steps of θ the cell each begins in, so that looking one up is a short search.
    bins: Vec<u32>,
    bins_per_theta: f64,
    /// From this ∫k dT on the curve bends so little that a straight line will do over the reach of a cell.
    straight_from: f64,
}

/// A place on the curve, small enough that the whole table stays in the nearest cache.
#[derive(Clone, Copy, Debug, Default)]
struct Node {
    /// °C.
    t: f64,
    /// ∫k dT, W/m.
    theta: f64,
    /// J/m³.
    h: f64,
    /// ∫H dθ, once the nodes are final.
    i: f64,
    /// Slope of H over θ to the next node, once they are final.
    slope: f64,
    /// The same at the node itself, so that it runs without a jump from cell to cell.
    own_slope: f64,
}

/// A cell as a look-up reads it: one line of the nearest cache.
#[derive(Clone, Copy, Debug, Default)]
#[repr(align(64))]
struct Cell {
    theta: f64,
    dtheta: f64,
    h: f64,
    dh: f64,
    t: f64,
    dt: f64,
    slope: f64,
    dslope: f64,
}

/// Values and slopes at one `u`.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Point {
    /// °C, and per cell.
    pub(crate) t: f64,
    pub(crate) dt: f64,
    /// ∫k dT, W/m, and per cell.
    pub(crate) theta: f64,
    pub(crate) dtheta: f64,
    /// J/m³, and per cell.
    pub(crate) h: f64,
    pub(crate) dh: f64,
    /// Slope of enthalpy over ∫k dT, (J/m³)/(W/m), without jumps.
    pub(crate) slope: f64,
}

impl Table {
    /// Tabulates a law for a piece that holds `density` kilograms in a cubic metre at every temperature.
    pub(crate) fn new(law: &Law, density: f64) -> Self {
        let mut nodes = match law {
            Law::Constant(constants) => {
                let at = |t: f64| Node::new(t, constants.conductivity_w_m_k * t, density * law.enthalpy(t));
                vec![at(0.0), at(1.0)]
            }
            Law::Sharp { thawed, frozen } => sharp_nodes(thawed, frozen),
            Law::Composed(_) | Law::Measured(_) => resample(&curve(law, density)),
        };
        integrate(&mut nodes);
        let (bins, bins_per_theta) = bins(&nodes);
        let cells = nodes.windows(2).map(|pair| Cell::new(&pair[0], &pair[1])).collect();
        let straight_from = straight_from(&nodes);
        Self { nodes, cells, bins, bins_per_theta, straight_from }
    }

    #[inline(always)]
    pub(crate) fn at(&self, u: f64) -> Point {
        let (i, s) = self.cell(u);
        self.cells[i].at(s)
    }

    /// Temperature at `u`, °C.
    #[inline(always)]
    pub(crate) fn temperature(&self, u: f64) -> f64 {
        let (i, s) = self.cell(u);
        self.cells[i].t + s * self.cells[i].dt
    }

    /// Where the temperature is `t`, °C.
    pub(crate) fn u_at_temperature(&self, t: f64) -> f64 {
        let i = self.nodes.partition_point(|node| node.t <= t).clamp(1, self.nodes.len() - 1) - 1;
        let (a, b) = (&self.nodes[i], &self.nodes[i + 1]);
        if b.t > a.t { i as f64 + (t - a.t) / (b.t - a.t) } else { i as f64 }
    }

    /// Where the enthalpy is `h`, J/m³, walking from a `u` nearby.
    #[inline]
    pub(crate) fn u_at_enthalpy(&self, h: f64, near: f64) -> f64 {
        let last = self.cells.len() - 1;
        let mut i = self.cell(near).0;
        while i < last && h >= self.cells[i + 1].h {
            i += 1;
        }
        while i > 0 && h < self.cells[i].h {
            i -= 1;
        }
        i as f64 + (h - self.cells[i].h) / self.cells[i].dh
    }

    /// From this ∫k dT on, W/m, the curve is as good as straight over the reach of a cell.
    #[inline(always)]
    pub(crate) fn straight_from(&self) -> f64 {
        self.straight_from
    }

    /// ∫H dθ from the curve's kink to where ∫k dT is `theta`, and the enthalpy there, J/m³. Only for curves on which ∫k dT rises
    /// everywhere. `hint` is the cell that was found the last time.
    #[inline]
    pub(crate) fn integral_to(&self, theta: f64, hint: &mut u32) -> (f64, f64) {
        let i = self.cell_at_theta(theta, *hint as usize);
        *hint = i as u32;
        let a = &self.nodes[i];
        let along = theta - a.theta;
        let far = a.h + along * a.slope;
        (a.i + 0.5 * along * (a.h + far), far)
    }

    /// The same to the place at `u`, whose ∫k dT and enthalpy are known.
    #[inline(always)]
    pub(crate) fn integral_at(&self, u: f64, (theta, h): (f64, f64)) -> f64 {
        let own = &self.nodes[self.cell(u).0];
        own.i + 0.5 * (theta - own.theta) * (own.h + h)
    }

    /// The cell in which ∫k dT is `theta`: a few steps from a guess, or by the bins where the guess was poor.
    #[inline]
    fn cell_at_theta(&self, theta: f64, guess: usize) -> usize {
        let last = self.nodes.len() - 2;
        let mut i = guess.min(last);
        for _ in 0..4 {
            if i < last && theta >= self.nodes[i + 1].theta {
                i += 1;
            } else if i > 0 && theta < self.nodes[i].theta {
                i -= 1;
            } else {
                return i;
            }
        }
        self.cell_by_bin(theta)
    }

    fn cell_by_bin(&self, theta: f64) -> usize {
        let bin = ((theta - self.nodes[0].theta) * self.bins_per_theta).max(0.0) as usize;
        let bin = bin.min(self.bins.len() - 2);
        let (mut low, mut high) = (self.bins[bin] as usize, self.bins[bin + 1] as usize);
        while low < high {
            let middle = (low + high).div_ceil(2);
            if self.nodes[middle].theta <= theta {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        low
    }

    #[inline(always)]
    fn cell(&self, u: f64) -> (usize, f64) {
        // 32 bits convert both ways in one instruction; beyond the ends the first and the last line are carried on.
        let i = (u as u32).min(self.cells.len() as u32 - 1);
        (i as usize, u - f64::from(i))
    }
}

impl Cell {
    fn new(a: &Node, b: &Node) -> Self {
        Self {
            theta: a.theta,
            dtheta: b.theta - a.theta,
            h: a.h,
            dh: b.h - a.h,
            t: a.t,
            dt: b.t - a.t,
            slope: a.own_slope,
            dslope: b.own_slope - a.own_slope,
        }
    }

    #[inline(always)]
    fn at(&self, s: f64) -> Point {
        Point {
            t: self.t + s * self.dt,
            dt: self.dt,
            theta: self.theta + s * self.dtheta,
            dtheta: self.dtheta,
            h: self.h + s * self.dh,
            dh: self.dh,
            slope: self.slope + s * self.dslope,
        }
    }
}

impl Node {
    fn new(t: f64, theta: f64, h: f64) -> Self {
        Self { t, theta, h, i: 0.0, slope: 0.0, own_slope: 0.0 }
    }
}

/// A frozen line, a level stretch of latent heat, a thawed line; the level one cut into cells of the usual length.
fn sharp_nodes(thawed: &crate::Constants, frozen: &crate::Frozen) -> Vec<Node> {
    let tf = frozen.freezing_point_c;
    let ice = frozen.constants;
    let latent = ice.density_kg_m3 * frozen.latent_j_kg;
    let level = (latent / H_SCALE * CELLS_PER_ARC).ceil();
    let line = |of: &crate::Constants| {
        let arc =
            (of.conductivity_w_m_k / THETA_SCALE).hypot(of.density_kg_m3 * of.specific_heat_j_kg_k / H_SCALE);
        let dt = latent / H_SCALE / level / arc;
        Node::new(dt, of.conductivity_w_m_k * dt, of.density_kg_m3 * of.specific_heat_j_kg_k * dt)
    };
    let (below, above) = (line(&ice), line(thawed));
    let mut nodes = vec![Node::new(tf - below.t, -below.theta, -latent - below.h)];
    nodes.extend((0..=level as usize).map(|i| Node::new(tf, 0.0, latent * (i as f64 / level - 1.0))));
    nodes.push(Node::new(tf + above.t, above.theta, above.h));
    nodes
}

/// The exact curve in steps of an eighth of a cell, with the index of its sharpest kink, where θ = H = 0.
fn curve(law: &Law, density: f64) -> (Vec<Node>, usize) {
    let (low, high) = law.fitted_c();
    let (anchor, kinks) = match law {
        Law::Measured(table) => (sharpest(&table.c, &table.enthalpy_j_kg), table.c.clone()),
        _ => (law.freezing_point_c().unwrap_or(low), Vec::new()),
    };
    let start = Node::new(anchor, 0.0, 0.0);
    let mut below = march(law, density, start, low, &kinks);
    below.reverse();
    let at = below.len();
    below.push(start);
    below.extend(march(law, density, start, high, &kinks));
    (below, at)
}

/// The row where the slope of enthalpy over temperature changes most.
fn sharpest(c: &[f64], h: &[f64]) -> f64 {
    let slope = |i: usize| (h[i + 1] - h[i]) / (c[i + 1] - c[i]);
    let jump = |i: &usize| (slope(*i) - slope(*i - 1)).abs();
    (1..c.len() - 1).max_by(|a, b| jump(a).total_cmp(&jump(b))).map_or(c[0], |i| c[i])
}

/// Nodes from `start` (left out) to the temperature `end`, landing on every kink.
fn march(law: &Law, density: f64, start: Node, end: f64, kinks: &[f64]) -> Vec<Node> {
    let up = if end > start.t { 1.0 } else { -1.0 };
    let h_start = law.enthalpy(start.t);
    let mut nodes = Vec::new();
    let mut here = start;
    while (end - here.t) * up > 0.0 {
        // Just past a kink the slope of the side we go to is what counts.
        let probe = here.t + up * 1e-7;
        let slope = density * (law.enthalpy(probe + up * 1e-5) - law.enthalpy(probe)) / (up * 1e-5);
        let speed = (law.conductivity(probe) / THETA_SCALE).hypot(slope / H_SCALE);
        let step = (1.0 / (CELLS_PER_ARC * FINE * speed)).min(0.5);
        // The first one beyond here; they rise.
        let next_kink = if up > 0.0 {
            kinks.get(kinks.partition_point(|k| *k <= here.t + 1e-9))
        } else {
            kinks.partition_point(|k| *k < here.t - 1e-9).checked_sub(1).and_then(|i| kinks.get(i))
        };
        let limit = next_kink.map_or(end, |k| if up > 0.0 { k.min(end) } else { k.max(end) });
        let t = if (limit - here.t) * up <= step * 1.000_001 { limit } else { here.t + up * step };
        let k = |share: f64| law.conductivity(here.t + share * (t - here.t));
        // Simpson; the ends are taken just inside, on the side of the kink we are on.
        let mean = (k(1e-9) + 4.0 * k(0.5) + k(1.0 - 1e-9)) / 6.0;
        here = Node::new(t, here.theta + mean * (t - here.t), density * (law.enthalpy(t) - h_start));
        nodes.push(here);
    }
    nodes
}

/// Nodes at equal arc lengths, one of them on the kink.
fn resample((curve, kink): &(Vec<Node>, usize)) -> Vec<Node> {
    let mut arcs = vec![0.0; curve.len()];
    for i in 1..curve.len() {
        let (a, b) = (&curve[i - 1], &curve[i]);
        arcs[i] = arcs[i - 1] + ((b.theta - a.theta) / THETA_SCALE).hypot((b.h - a.h) / H_SCALE);
    }
    let step = 1.0 / CELLS_PER_ARC;
    let at_kink = arcs[*kink];
    let below = (at_kink / step).ceil();
    let above = ((arcs[curve.len() - 1] - at_kink) / step).ceil();
    let mut i = 0;
    let mut node = |n: f64| {
        let arc = at_kink + n * step;
        while i + 2 < curve.len() && arcs[i + 1] <= arc {
            i += 1;
        }
        let s = (arc - arcs[i]) / (arcs[i + 1] - arcs[i]);
        let (a, b) = (&curve[i], &curve[i + 1]);
        let mix = |from: f64, to: f64| from + s * (to - from);
        Node::new(mix(a.t, b.t), mix(a.theta, b.theta), mix(a.h, b.h))
    };
    (-(below as i64)..=above.max(1.0) as i64).map(|n| node(n as f64)).collect()
}

/// ∫H dθ at every node, from the kink, where θ and H are zero: no digits are lost around it.
fn integrate(nodes: &mut [Node]) {
    for i in 1..nodes.len() {
        let (a, b) = (nodes[i - 1], nodes[i]);
        nodes[i].i = a.i + 0.5 * (b.theta - a.theta) * (a.h + b.h);
        nodes[i - 1].slope = (b.h - a.h) / (b.theta - a.theta);
    }
    let last = nodes.len() - 1;
    nodes[last].slope = nodes[last - 1].slope;
    for i in 0..=last {
        // At the kink the thawed side counts: it is there that the curve is taken as straight.
        let at_kink = nodes[i].theta == 0.0 && nodes[i].h == 0.0;
        let before = if i == 0 || at_kink { nodes[i].slope } else { nodes[i - 1].slope };
        nodes[i].own_slope = 0.5 * (before + nodes[i].slope);
    }
    let kink = nodes.iter().find(|node| node.theta >= 0.0 && node.h >= 0.0).map_or(0.0, |node| node.i);
    nodes.iter_mut().for_each(|node| node.i -= kink);
}

/// Where the curve's slope starts to keep within [`BEND`] from node to node up to its hot end: thawed meat's falls by a
/// thousandth.
fn straight_from(nodes: &[Node]) -> f64 {
    let bends = |i: &usize| (nodes[*i].slope / nodes[*i - 1].slope - 1.0).abs() >= BEND;
    let last = nodes.len() - 2;
    match (1..=last).rev().find(bends) {
        Some(kink) => nodes[kink].theta,
        None => f64::NEG_INFINITY,
    }
}

/// For equal steps of θ, as many as nodes, the last cell that starts at or below each.
fn bins(nodes: &[Node]) -> (Vec<u32>, f64) {
    let cells = nodes.len() - 1;
    let first = nodes[0].theta;
    let per_theta = cells as f64 / (nodes[cells].theta - first);
    let mut bins: Vec<u32> = (0..=cells)
        .map(|bin| {
            let theta = first + bin as f64 / per_theta;
            nodes[..cells].partition_point(|node| node.theta <= theta).saturating_sub(1) as u32
        })
        .collect();
    // Rounding must not leave out the last cell.
    bins.push((cells - 1) as u32);
    (bins, per_theta)
}
