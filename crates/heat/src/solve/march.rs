//! The state of a piece and one step of it: two stages of one L-stable method of second order.

use super::block::{Around, Block};
use super::face::{FaceNow, Skin};
use super::field::Field;
use super::grid::{Axis, End, Grid};
use crate::evaporation::{Juice, Wetness};
use crate::{Face, Faces, Meat};

/// 1 − 1/√2: the two-stage method of this abscissa is of second order, L-stable and ends on its last stage.
const GAMMA: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;

/// Everything that changes in a step.
#[derive(Clone, Debug)]
pub(crate) struct State {
    /// Table coordinate of each node.
    pub(crate) u: Vec<f64>,
    /// Mean enthalpy of each cell, J/m³.
    pub(crate) h: Vec<f64>,
    /// What each face cell has been through: per axis and end, one a line.
    pub(crate) skins: Vec<[Vec<Skin>; 2]>,
    /// Water gone from each in the step at hand, kg/m², and the part that boiled.
    pub(crate) gone: Vec<[Vec<(f64, f64)>; 2]>,
    /// Vapour gone so far, kg (of the grid, not of its copies).
    pub(crate) vapour: f64,
    /// Juice pressed out so far, kg (of the grid).
    pub(crate) juice: f64,
    /// Heat taken in, and moved either way, J (of the grid).
    pub(crate) heat: f64,
    pub(crate) moved: f64,
}

impl State {
    /// The same as another of the same grid, without new memory.
    pub(crate) fn copy_from(&mut self, other: &Self) {
        self.u.copy_from_slice(&other.u);
        self.h.copy_from_slice(&other.h);
        for (skins, other) in self.skins.iter_mut().zip(&other.skins) {
            for (skins, other) in skins.iter_mut().zip(other) {
                skins.copy_from_slice(other);
            }
        }
        self.gone.iter_mut().flatten().for_each(|gone| gone.fill((0.0, 0.0)));
        (self.vapour, self.juice) = (other.vapour, other.juice);
        (self.heat, self.moved) = (other.heat, other.moved);
    }
}

/// A piece in its grid.
#[derive(Clone, Debug)]
pub(crate) struct Piece<'a> {
    pub(crate) grid: Grid,
    pub(crate) volumes: Vec<f64>,
    /// Of the grid, m³.
    pub(crate) volume: f64,
    /// Its faces, m².
    pub(crate) surface: f64,
    pub(crate) meat: &'a Meat,
    /// Coldest and hottest that the figures were fitted for, as table coordinates.
    pub(crate) fit: (f64, f64),
    wetness: Wetness,
    juice: &'static Juice,
    field: Field,
    base: Vec<f64>,
    first: Vec<f64>,
    second: Vec<f64>,
}

impl<'a> Piece<'a> {
    pub(crate) fn new(grid: Grid, meat: &'a Meat) -> Self {
        let (nodes, volumes) = (grid.nodes(), grid.volumes());
        let (low_c, high_c) = meat.fitted_c();
        let u = |c: f64| if c.is_finite() { meat.table().u_at_temperature(c) } else { c };
        Self {
            fit: (u(low_c - 1e-6), u(high_c + 1e-6)),
            volume: volumes.iter().sum(),
            surface: surface(&grid, &volumes),
            volumes,
            wetness: Wetness::new(meat.composition(), meat.density_kg_m3()),
            juice: Juice::law(),
            field: Field::new(&grid),
            base: vec![0.0; nodes],
            first: vec![0.0; nodes],
            second: vec![0.0; nodes],
            grid,
            meat,
        }
    }

    /// One step of `dt` from `time_s` within the stage; gives the error estimate, J/m³, infinite if the step failed.
    pub(crate) fn step(&mut self, state: &mut State, faces: &Faces, time_s: f64, dt: f64) -> f64 {
        let block = Block { thin: self.thin(state), ..block(&self.grid, self.meat) };
        let tau = GAMMA * dt;
        self.field.begin(&block, &state.u);
        let wetness = match self.meat.composition() {
            Some(_) => self.wetness.after(state.vapour + state.juice, self.volume),
            None => self.wetness,
        };
        let now = self.faces(faces, (time_s + tau, true), tau, wetness);
        let around = Around { faces: &now, skins: &state.skins };
        self.field.stage(&block, &around, (&state.h, tau), &mut state.u, &mut self.first);
        let gone = dt * (1.0 - GAMMA);
        self.count(&block, state, gone);
        self.warm_plates(&now, state, gone);
        for ((base, h), first) in self.base.iter_mut().zip(&state.h).zip(&self.first) {
            *base = h + tau * first;
        }
        self.field.carry(&block, &self.base, &mut state.u);
        for ((base, h), first) in self.base.iter_mut().zip(&state.h).zip(&self.first) {
            *base = h + gone * first;
        }
        let now = self.faces(faces, (time_s + dt, false), tau, wetness);
        let around = Around { faces: &now, skins: &state.skins };
        self.field.stage(&block, &around, (&self.base, tau), &mut state.u, &mut self.second);
        for ((h, base), second) in state.h.iter_mut().zip(&self.base).zip(&self.second) {
            *h = base + tau * second;
        }
        self.field.carry(&block, &state.h, &mut state.u);
        self.count(&block, state, tau);
        let plates = self.warm_plates(&now, state, tau);
        let error = self.field.error(&block, tau, &state.u, &self.first, &self.second).max(plates);
        if error.is_finite() { error } else { f64::INFINITY }
    }

    /// Linear solves in a step, one line of nodes each.
    pub(crate) fn solves(&self) -> usize {
        2 * self.grid.axes.iter().map(|axis| self.volumes.len() / axis.size.len()).sum::<usize>()
    }

    fn faces<'f>(
        &self,
        faces: &'f Faces,
        at: (f64, bool),
        tau: f64,
        wetness: Wetness,
    ) -> [[FaceNow<'f>; 2]; 3] {
        let mut all = [[FaceNow::Insulated; 2]; 3];
        for (now, axis) in all.iter_mut().zip(&self.grid.axes) {
            *now = axis.ends.map(|end| {
                face_at(faces, end).map_or(FaceNow::Insulated, |face| FaceNow::new(face, at, tau, wetness))
            });
        }
        all
    }

    /// After a stage: every plate that gives way has followed for `dt`; gives the error this adds to the step, J/m³.
    fn warm_plates(&self, now: &[[FaceNow<'_>; 2]], state: &mut State, dt: f64) -> f64 {
        let mut error: f64 = 0.0;
        for (a, faces) in now.iter().enumerate().take(self.grid.axes.len()) {
            for (end, face) in faces.iter().enumerate() {
                if !matches!(face, FaceNow::Open { give: Some(_), .. }) {
                    continue;
                }
                for (skin, flow) in state.skins[a][end].iter_mut().zip(&self.field.flows[a][end]) {
                    if let Some(rate) = face.plate_rate(*skin, *flow) {
                        error = error.max(0.5 * dt * (rate - skin.plate_rate).abs() * PLATE);
                        skin.plate_c += dt * rate;
                        skin.plate_rate = rate;
                    }
                }
            }
        }
        error
    }

    /// At the start of a stage: a plate that can give way is as hot as it was set.
    pub(crate) fn heat_plates(&self, state: &mut State, faces: &Faces) {
        for (axis, skins) in self.grid.axes.iter().zip(&mut state.skins) {
            for (end, skins) in axis.ends.iter().zip(skins) {
                let set_c = match face_at(faces, *end) {
                    Some(Face::Open(around)) if around.reserve.is_some() => around.medium.at(0.0, true),
                    _ => f64::NAN,
                };
                skins.iter_mut().for_each(|skin| (skin.plate_c, skin.plate_rate) = (set_c, 0.0));
            }
        }
    }

    /// The plate under or over the middle, °C, where one gives way.
    pub(crate) fn plate_c(&self, state: &State) -> Option<f64> {
        let ends = state.skins.first()?;
        ends.iter().rev().filter_map(|lines| lines.last()).map(|skin| skin.plate_c).find(|c| c.is_finite())
    }

    /// When the piece is turned: the plates stay where they are, below and above.
    pub(crate) fn turn_plates(&self, state: &mut State) {
        if self.grid.axes[0].ends[1] != End::Bottom {
            return;
        }
        let [low, high] = &mut state.skins[0];
        for (low, high) in low.iter_mut().zip(high) {
            std::mem::swap(&mut low.plate_c, &mut high.plate_c);
            (low.plate_rate, high.plate_rate) = (0.0, 0.0);
        }
    }

    /// Adds `dt` seconds of the last stage's flows to heat, vapour and the water drawn.
    fn count(&self, block: &Block, state: &mut State, dt: f64) {
        for (a, axis) in self.grid.axes.iter().enumerate() {
            for end in 0..2 {
                let strength = block.areas(a) * axis.face[end];
                let cells = axis.at[end].iter().zip(&mut state.gone[a][end]);
                for (flow, (node, gone)) in self.field.flows[a][end].iter().zip(cells) {
                    let area = self.volumes[*node] * strength;
                    state.heat += dt * area * flow.heat;
                    state.moved += dt * area * flow.heat.abs();
                    if flow.vapour != 0.0 {
                        state.vapour += dt * area * flow.vapour;
                        *gone = (gone.0 + dt * flow.vapour, gone.1 + dt * flow.boiled);
                    }
                }
            }
        }
    }

    /// Once a step is kept: the water it took is drawn from below the faces, of their lean share alone.
    pub(crate) fn draw(&self, state: &mut State, faces: &Faces) {
        for (a, axis) in self.grid.axes.iter().enumerate() {
            for end in 0..2 {
                let share = lean_share(faces, axis.ends[end]);
                for (skin, gone) in state.skins[a][end].iter_mut().zip(&mut state.gone[a][end]) {
                    skin.drawn = (skin.drawn + gone.0 / share).max(0.0);
                    skin.boiled = (skin.boiled + gone.1).max(0.0);
                    *gone = (0.0, 0.0);
                }
            }
        }
    }

    /// The line along the first axis through the middle of all others.
    pub(crate) fn middle_line(&self) -> usize {
        self.volumes.len() - self.grid.axes[0].size.len()
    }

    /// The node in the middle of the piece.
    pub(crate) fn middle(&self) -> usize {
        let axis = &self.grid.axes[0];
        let last = axis.size.len() - 1;
        self.middle_line() + if axis.ends[1] == End::Middle { last } else { last / 2 }
    }

    pub(crate) fn temperature(&self, state: &State, node: usize) -> f64 {
        self.meat.table().temperature(state.u[node])
    }

    /// Mean over the mass, °C; in mixed cells with the weights their enthalpy has, so that it keeps with the heat.
    pub(crate) fn mean_temperature(&self, state: &State) -> f64 {
        let t = |node: usize| self.temperature(state, node);
        let mut sum: f64 = self.volumes.iter().enumerate().map(|(i, v)| v * t(i)).sum();
        if self.grid.cells == super::grid::Cells::Mixed {
            let axis = &self.grid.axes[0];
            for i in 0..axis.size.len() - 1 {
                let step = (t(i + 1) - t(i)) / 6.0;
                sum += axis.size[i] * (1.0 - axis.low_share[i]) * step;
                sum -= axis.size[i + 1] * axis.low_share[i + 1] * step;
            }
        }
        sum / self.volume
    }

    /// kg ice per kg meat, or the frozen share of the volume with a sharp front.
    pub(crate) fn ice_share(&self, state: &State) -> f64 {
        let table = self.meat.table();
        let ice = |u: &f64| {
            let point = table.at(*u);
            self.meat.ice_share_of(point.t, point.h)
        };
        state.u.iter().zip(&self.volumes).map(|(u, v)| v * ice(u)).sum::<f64>() / self.volume
    }

    /// Finds the `u` that carry the enthalpies exactly; needed where a cell's mean is not its node's value.
    pub(crate) fn settle(&mut self, state: &mut State) {
        self.field.settle(&block(&self.grid, self.meat), &state.h, &mut state.u);
    }

    /// Enthalpies from temperatures.
    pub(crate) fn fill(&mut self, state: &mut State) {
        state.h.copy_from_slice(self.field.means(&block(&self.grid, self.meat), &state.u));
    }

    /// Enthalpy of the grid at `u`, J.
    pub(crate) fn enthalpy(&mut self, state: &State) -> f64 {
        let means = self.field.means(&block(&self.grid, self.meat), &state.u);
        means.iter().zip(&self.volumes).map(|(h, v)| h * v).sum()
    }

    /// Juice pressed out when each node has been as hot as `hottest`, kg (of the grid).
    pub(crate) fn juice(&self, hottest: &[f64]) -> f64 {
        let Some(composition) = self.meat.composition() else { return 0.0 };
        let density = self.meat.density_kg_m3() * composition.lean();
        let of = |(t, v): (&f64, &f64)| self.juice.share(*t) * v;
        density * hottest.iter().zip(&self.volumes).map(of).sum::<f64>()
    }

    /// What is left of the thickness: what a steak loses it loses in thickness (its fibres run from face to face), and what it
    /// loses is water.
    fn thin(&self, state: &State) -> f64 {
        if !self.grid.thins || self.meat.composition().is_none() {
            return 1.0;
        }
        (1.0 - self.lost(state) / (WATER * self.volume)).clamp(0.3, 1.0)
    }

    /// Vapour and juice gone, kg (of the grid): never more than all its water.
    pub(crate) fn lost(&self, state: &State) -> f64 {
        let most = self
            .meat
            .composition()
            .map_or(f64::INFINITY, |c| c.water * self.meat.density_kg_m3() * self.volume);
        (state.vapour + state.juice).min(most)
    }

    /// Juice that wets each face on its way, kg/m².
    pub(crate) fn wet(&self, state: &mut State, faces: &Faces, juice: f64) {
        for (axis, skins) in self.grid.axes.iter().zip(&mut state.skins) {
            for (end, skins) in axis.ends.iter().zip(skins) {
                let share = juice_on_the_way(faces, *end);
                skins.iter_mut().for_each(|skin| skin.drawn = (skin.drawn - share * juice).max(0.0));
            }
        }
    }
}

/// J/m³ of meat that a kelvin of a plate counts for in the error of a step.
const PLATE: f64 = 4e6;
/// kg/m³ of what is lost.
const WATER: f64 = 1000.0;

fn surface(grid: &Grid, volumes: &[f64]) -> f64 {
    let area = |axis: &Axis, end: usize| {
        axis.at[end].iter().map(|node| volumes[*node] * axis.face[end]).sum::<f64>()
    };
    grid.axes.iter().map(|axis| area(axis, 0) + area(axis, 1)).sum()
}

fn block<'a>(grid: &'a Grid, meat: &'a Meat) -> Block<'a> {
    Block { grid, table: meat.table(), factor: meat.conductivity_factor(), thin: 1.0 }
}

pub(super) fn face_at(faces: &Faces, end: End) -> Option<&Face> {
    match end {
        End::Top => Some(&faces.top),
        End::Bottom => Some(&faces.bottom),
        End::Side => Some(&faces.sides),
        End::Cut => Some(faces.ends.as_ref().unwrap_or(&faces.sides)),
        End::Middle => None,
    }
}

fn lean_share(faces: &Faces, end: End) -> f64 {
    use crate::Evaporation::{Drying, Wet};
    match face_at(faces, end) {
        Some(Face::Open(around)) => match around.evaporation {
            Wet(moist) | Drying(moist, _) => {
                let covered = if around.cover_m2_k_w > 0.0 { around.cover_share } else { 0.0 };
                (moist.lean_share * (1.0 - covered)).max(1e-3)
            }
            _ => 1.0,
        },
        _ => 1.0,
    }
}

fn juice_on_the_way(faces: &Faces, end: End) -> f64 {
    match face_at(faces, end) {
        Some(Face::Open(around)) => match around.evaporation {
            crate::Evaporation::Drying(_, supply) => supply.juice_share,
            _ => 0.0,
        },
        _ => 0.0,
    }
}
