//! The state of a piece and one step of it: a sweep along each axis, the order turned round every step.

use super::face::FaceNow;
use super::grid::{End, Grid};
use super::line::{Along, Ends, GAMMA, Line, Stepped};
use crate::evaporation::{Wetness, juice_share};
use crate::{Face, Faces, Meat};

/// Everything that changes in a step.
#[derive(Clone, Debug)]
pub(crate) struct State {
    /// Table coordinate of each node.
    pub(crate) u: Vec<f64>,
    /// Mean enthalpy of each cell, J/m³.
    pub(crate) h: Vec<f64>,
    /// Water drawn from below each face cell so far, kg/m²: per axis and end, one a line.
    pub(crate) drawn: Vec<[Vec<f64>; 2]>,
    /// Vapour gone so far, kg (of the grid, not of its copies).
    pub(crate) vapour: f64,
    /// Heat taken in, and moved either way, J (of the grid).
    pub(crate) heat: f64,
    pub(crate) moved: f64,
}

impl State {
    /// The same as another of the same grid, without new memory.
    pub(crate) fn copy_from(&mut self, other: &Self) {
        self.u.copy_from_slice(&other.u);
        self.h.copy_from_slice(&other.h);
        for (drawn, other) in self.drawn.iter_mut().zip(&other.drawn) {
            for (drawn, other) in drawn.iter_mut().zip(other) {
                drawn.copy_from_slice(other);
            }
        }
        (self.vapour, self.heat, self.moved) = (other.vapour, other.heat, other.moved);
    }
}

/// A piece in its grid.
#[derive(Clone, Debug)]
pub(crate) struct Piece<'a> {
    pub(crate) grid: Grid,
    pub(crate) volumes: Vec<f64>,
    pub(crate) meat: &'a Meat,
    pub(crate) wetness: Wetness,
    lines: Vec<Line>,
    strides: Vec<usize>,
    turned: bool,
}

/// What a step found out.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Taken {
    /// Largest error estimate of all lines, J/m³.
    pub(crate) error: f64,
    /// Linear solves.
    pub(crate) solves: usize,
}

impl<'a> Piece<'a> {
    pub(crate) fn new(grid: Grid, meat: &'a Meat) -> Self {
        let sizes: Vec<usize> = grid.axes.iter().map(|axis| axis.size.len()).collect();
        let strides = (0..sizes.len()).map(|a| sizes[..a].iter().product()).collect();
        Self {
            volumes: grid.volumes(),
            lines: sizes.iter().map(|n| Line::new(*n)).collect(),
            wetness: Wetness::new(meat.composition(), meat.density_kg_m3()),
            strides,
            grid,
            meat,
            turned: false,
        }
    }

    /// One step of `dt` from `time_s` within the stage.
    pub(crate) fn step(&mut self, state: &mut State, faces: &Faces, time_s: f64, dt: f64) -> Taken {
        let mut taken = Taken::default();
        let axes = self.grid.axes.len();
        for turn in 0..axes {
            let axis = if self.turned { axes - 1 - turn } else { turn };
            let lines = self.volumes.len() / self.grid.axes[axis].size.len();
            for line in 0..lines {
                let stepped = self.sweep(state, faces, (time_s, dt), axis, line);
                taken.error = taken.error.max(stepped.error);
                taken.solves += 2;
            }
        }
        if !taken.error.is_finite() || state.h.iter().any(|h| !h.is_finite()) {
            taken.error = f64::INFINITY;
        }
        taken
    }

    /// After a step is kept, the next one turns the order of the axes round.
    pub(crate) fn turn(&mut self) {
        self.turned = !self.turned;
    }

    fn sweep(
        &mut self,
        state: &mut State,
        faces: &Faces,
        (time_s, dt): (f64, f64),
        axis: usize,
        index: usize,
    ) -> Stepped {
        let (start, stride) = (self.start(axis, index), self.strides[axis]);
        let along = Along {
            axis: &self.grid.axes[axis],
            cells: self.grid.cells,
            table: self.meat.table(),
            factor: self.meat.conductivity_factor(),
        };
        let nodes = along.axis.size.len();
        let line = &mut self.lines[axis];
        for i in 0..nodes {
            line.u[i] = state.u[start + i * stride];
            line.h[i] = state.h[start + i * stride];
        }
        let drawn = &state.drawn[axis];
        let at = |share: f64, after: bool| {
            along.axis.ends.map(|end| now(faces, end, time_s + share * dt, after, self.wetness))
        };
        let ends =
            Ends { faces: [at(GAMMA, true), at(1.0, false)], drawn: [drawn[0][index], drawn[1][index]] };
        let stepped = line.step(&along, &ends, dt);
        for i in 0..nodes {
            state.u[start + i * stride] = line.u[i];
            state.h[start + i * stride] = line.h[i];
        }
        let across = self.volumes[start] / along.axis.size[0];
        for end in 0..2 {
            let area = across * along.axis.area[end];
            state.heat += area * stepped.heat[end];
            state.moved += area * stepped.heat[end].abs();
            state.vapour += area * stepped.vapour[end];
            let share = lean_share(faces, along.axis.ends[end]);
            let drawn = &mut state.drawn[axis][end][index];
            *drawn = (*drawn + stepped.vapour[end] / share).max(0.0);
        }
        stepped
    }

    /// The first node of a line along an axis.
    fn start(&self, axis: usize, line: usize) -> usize {
        let stride = self.strides[axis];
        (line / stride) * stride * self.grid.axes[axis].size.len() + line % stride
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
        self.meat.table().at(state.u[node]).t
    }

    /// Mean over the mass, °C; in mixed cells with the weights their enthalpy has, so that it keeps with the heat.
    pub(crate) fn mean_temperature(&self, state: &State) -> f64 {
        let volume: f64 = self.volumes.iter().sum();
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
        sum / volume
    }

    /// kg ice per kg meat, or the frozen share of the volume with a sharp front.
    pub(crate) fn ice_share(&self, state: &State) -> f64 {
        let volume: f64 = self.volumes.iter().sum();
        let table = self.meat.table();
        let ice = |u: &f64| {
            let point = table.at(*u);
            self.meat.ice_share_of(point.t, point.h)
        };
        state.u.iter().zip(&self.volumes).map(|(u, v)| v * ice(u)).sum::<f64>() / volume
    }

    /// Finds `u` that carries the enthalpies exactly; needed where the cells' means are not their nodes' values.
    pub(crate) fn settle(&mut self, state: &mut State) -> bool {
        if self.grid.cells == super::grid::Cells::Lumped {
            return true;
        }
        let along = Along {
            axis: &self.grid.axes[0],
            cells: self.grid.cells,
            table: self.meat.table(),
            factor: self.meat.conductivity_factor(),
        };
        let line = &mut self.lines[0];
        line.u.copy_from_slice(&state.u);
        line.h.copy_from_slice(&state.h);
        let settled = line.settle(&along);
        if settled {
            state.u.copy_from_slice(&line.u);
        }
        settled
    }

    /// Enthalpies from temperatures, node by node.
    pub(crate) fn fill(&mut self, state: &mut State) {
        if self.grid.cells == super::grid::Cells::Lumped {
            for (h, u) in state.h.iter_mut().zip(&state.u) {
                *h = self.meat.table().at(*u).h;
            }
            return;
        }
        let along = Along {
            axis: &self.grid.axes[0],
            cells: self.grid.cells,
            table: self.meat.table(),
            factor: self.meat.conductivity_factor(),
        };
        self.lines[0].u.copy_from_slice(&state.u);
        state.h.copy_from_slice(self.lines[0].means(&along));
    }

    /// Enthalpy of the grid at `u`, J.
    pub(crate) fn enthalpy(&mut self, state: &State) -> f64 {
        let mut copy = state.clone();
        self.fill(&mut copy);
        copy.h.iter().zip(&self.volumes).map(|(h, v)| h * v).sum()
    }

    /// Juice pressed out when each node has been as hot as `hottest`, kg (of the grid).
    pub(crate) fn juice(&self, hottest: &[f64]) -> f64 {
        let Some(composition) = self.meat.composition() else { return 0.0 };
        let density = self.meat.density_kg_m3() * composition.lean();
        let of = |(t, v): (&f64, &f64)| if *t > JUICE_FROM_C { juice_share(*t) * v } else { 0.0 };
        density * hottest.iter().zip(&self.volumes).map(of).sum::<f64>()
    }

    /// The whole surface that can lose juice, m² (of the grid).
    pub(crate) fn surface(&self) -> f64 {
        let mut area = 0.0;
        for (a, axis) in self.grid.axes.iter().enumerate() {
            let lines = self.volumes.len() / axis.size.len();
            let across: f64 = (0..lines).map(|l| self.volumes[self.start(a, l)] / axis.size[0]).sum();
            for end in 0..2 {
                if axis.ends[end] != End::Middle {
                    area += across * axis.area[end];
                }
            }
        }
        area
    }

    /// Juice that wets each face on its way, kg/m².
    pub(crate) fn wet(&self, state: &mut State, faces: &Faces, juice: f64) {
        for (axis, drawn) in self.grid.axes.iter().zip(&mut state.drawn) {
            for (end, drawn) in axis.ends.iter().zip(drawn) {
                let share = juice_on_the_way(faces, *end);
                drawn.iter_mut().for_each(|m| *m = (*m - share * juice).max(0.0));
            }
        }
    }
}

/// Below this, °C, less than a thousandth of the mass is pressed out.
const JUICE_FROM_C: f64 = 25.0;

fn face_at(faces: &Faces, end: End) -> Option<&Face> {
    match end {
        End::Top => Some(&faces.top),
        End::Bottom => Some(&faces.bottom),
        End::Side => Some(&faces.sides),
        End::Middle => None,
    }
}

fn now<'f>(faces: &'f Faces, end: End, time_s: f64, after: bool, wetness: Wetness) -> FaceNow<'f> {
    face_at(faces, end).map_or(FaceNow::Insulated, |face| FaceNow::new(face, time_s, after, wetness))
}

fn lean_share(faces: &Faces, end: End) -> f64 {
    use crate::Evaporation::{Drying, Wet};
    match face_at(faces, end) {
        Some(Face::Open(around)) => match around.evaporation {
            Wet(moist) | Drying(moist, _) => moist.lean_share.max(1e-3),
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
