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
/// Cells in one unit of arc: 0.003 K just below freezing, 0.3 K in thawed meat.
const CELLS_PER_ARC: f64 = 400.0;
/// Steps of the exact curve in one cell.
const FINE: f64 = 8.0;

/// One cell: values at its start, their growth over the cell.
#[derive(Clone, Copy, Debug, Default)]
struct Cell {
    t: f64,
    dt: f64,
    theta: f64,
    dtheta: f64,
    h: f64,
    dh: f64,
    /// ∫H dθ up to the start.
    i: f64,
}

/// The curve of a material.
#[derive(Clone, Debug)]
pub(crate) struct Table {
    cells: Vec<Cell>,
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
}

impl Table {
    /// Tabulates a law for a piece that holds `density` kilograms in a cubic metre at every temperature.
    pub(crate) fn new(law: &Law, density: f64) -> Self {
        let nodes = match law {
            Law::Constant(constants) => {
                let at = |t: f64| Node {
                    t,
                    theta: constants.conductivity_w_m_k * t,
                    h: density * law.enthalpy(t),
                };
                vec![at(0.0), at(1.0)]
            }
            Law::Sharp { thawed, frozen } => sharp_nodes(thawed, frozen),
            Law::Composed(_) | Law::Measured(_) => resample(&curve(law, density)),
        };
        Self { cells: cells(&nodes) }
    }

    #[inline]
    pub(crate) fn at(&self, u: f64) -> Point {
        let (cell, s) = self.cell(u);
        Point {
            t: cell.t + s * cell.dt,
            dt: cell.dt,
            theta: cell.theta + s * cell.dtheta,
            dtheta: cell.dtheta,
            h: cell.h + s * cell.dh,
            dh: cell.dh,
        }
    }

    /// ∫H dθ at `u`.
    #[inline]
    pub(crate) fn integral(&self, u: f64) -> f64 {
        let (cell, s) = self.cell(u);
        cell.i + s * cell.dtheta * (cell.h + 0.5 * s * cell.dh)
    }

    /// Where the temperature is `t`, °C.
    pub(crate) fn u_at_temperature(&self, t: f64) -> f64 {
        let i = self.cells.partition_point(|cell| cell.t + cell.dt <= t).min(self.cells.len() - 1);
        let cell = &self.cells[i];
        if cell.dt > 0.0 { i as f64 + (t - cell.t) / cell.dt } else { i as f64 }
    }

    /// Where the enthalpy is `h`, J/m³, walking from a `u` nearby.
    #[inline]
    pub(crate) fn u_at_enthalpy(&self, h: f64, near: f64) -> f64 {
        let last = self.cells.len() - 1;
        let mut i = (near.max(0.0) as usize).min(last);
        while i < last && h >= self.cells[i].h + self.cells[i].dh {
            i += 1;
        }
        while i > 0 && h < self.cells[i].h {
            i -= 1;
        }
        i as f64 + (h - self.cells[i].h) / self.cells[i].dh
    }

    /// Where ∫k dT is `theta`, W/m, between two places on either side of it.
    #[inline]
    pub(crate) fn u_at_theta(&self, theta: f64, a: f64, b: f64) -> f64 {
        let last = self.cells.len() - 1;
        let index = |u: f64| (u.max(0.0) as usize).min(last);
        let (mut low, mut high) = if a < b { (index(a), index(b)) } else { (index(b), index(a)) };
        while low < high {
            let middle = (low + high).div_ceil(2);
            if self.cells[middle].theta <= theta {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        low as f64 + (theta - self.cells[low].theta) / self.cells[low].dtheta
    }

    #[inline]
    fn cell(&self, u: f64) -> (&Cell, f64) {
        let i = (u.max(0.0) as usize).min(self.cells.len() - 1);
        (&self.cells[i], u - i as f64)
    }
}

/// A place on the curve.
#[derive(Clone, Copy, Debug)]
struct Node {
    t: f64,
    theta: f64,
    h: f64,
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
        Node { t: dt, theta: of.conductivity_w_m_k * dt, h: of.density_kg_m3 * of.specific_heat_j_kg_k * dt }
    };
    let (below, above) = (line(&ice), line(thawed));
    let mut nodes = vec![Node { t: tf - below.t, theta: -below.theta, h: -latent - below.h }];
    nodes.extend((0..=level as usize).map(|i| Node {
        t: tf,
        theta: 0.0,
        h: latent * (i as f64 / level - 1.0),
    }));
    nodes.push(Node { t: tf + above.t, theta: above.theta, h: above.h });
    nodes
}

/// The exact curve in steps of an eighth of a cell, with the index of its sharpest kink, where θ = H = 0.
fn curve(law: &Law, density: f64) -> (Vec<Node>, usize) {
    let (low, high) = law.fitted_c();
    let (anchor, kinks) = match law {
        Law::Measured(table) => (sharpest(&table.c, &table.enthalpy_j_kg), table.c.clone()),
        _ => (law.freezing_point_c().unwrap_or(low), Vec::new()),
    };
    let start = Node { t: anchor, theta: 0.0, h: 0.0 };
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
        let next_kink = kinks
            .iter()
            .copied()
            .filter(|k| (k - here.t) * up > 1e-9)
            .min_by(|a, b| ((a - here.t) * up).total_cmp(&((b - here.t) * up)));
        let limit = next_kink.map_or(end, |k| if up > 0.0 { k.min(end) } else { k.max(end) });
        let t = if (limit - here.t) * up <= step * 1.000_001 { limit } else { here.t + up * step };
        let k = |share: f64| law.conductivity(here.t + share * (t - here.t));
        // Simpson; the ends are taken just inside, on the side of the kink we are on.
        let mean = (k(1e-9) + 4.0 * k(0.5) + k(1.0 - 1e-9)) / 6.0;
        here = Node { t, theta: here.theta + mean * (t - here.t), h: density * (law.enthalpy(t) - h_start) };
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
        Node { t: mix(a.t, b.t), theta: mix(a.theta, b.theta), h: mix(a.h, b.h) }
    };
    (-(below as i64)..=above.max(1.0) as i64).map(|n| node(n as f64)).collect()
}

fn cells(nodes: &[Node]) -> Vec<Cell> {
    let mut i = 0.0;
    let mut cells: Vec<Cell> = Vec::with_capacity(nodes.len() - 1);
    for pair in nodes.windows(2) {
        let (a, b) = (&pair[0], &pair[1]);
        let (dtheta, dh) = (b.theta - a.theta, b.h - a.h);
        cells.push(Cell { t: a.t, dt: b.t - a.t, theta: a.theta, dtheta, h: a.h, dh, i });
        i += dtheta * (a.h + 0.5 * dh);
    }
    // ∫H dθ counts from the kink, where θ and H are zero: no digits are lost around it.
    let kink = cells.iter().find(|cell| cell.theta >= 0.0 && cell.h >= 0.0).map_or(0.0, |cell| cell.i);
    cells.iter_mut().for_each(|cell| cell.i -= kink);
    cells
}
