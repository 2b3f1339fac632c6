//! The state of a piece and one step of it: two stages of one L-stable method of second order.

use super::block::{Around, Block};
use super::face::FaceNow;
use super::field::Field;
use super::grid::{End, Grid, Rim};
use super::lines::add_leads;
use super::state::State;
use crate::evaporation::{Juice, Wetness};
use crate::{Face, Faces, Meat};

/// 1 − 1/√2: the two-stage method of this abscissa is of second order, L-stable and ends on its last stage.
const GAMMA: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;

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
    /// Whether the field stands where the state is.
    stands: bool,
    /// Room: `u` at the start and between the stages, what is guessed, and the right-hand sides.
    start: Vec<f64>,
    between: Vec<f64>,
    guess: Vec<f64>,
    base: Vec<f64>,
    first: Vec<f64>,
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
            stands: false,
            start: vec![0.0; nodes],
            between: vec![0.0; nodes],
            guess: vec![0.0; nodes],
            base: vec![0.0; nodes],
            first: vec![0.0; nodes],
            grid,
            meat,
        }
    }

    /// One step of `dt` from `time_s` within the stage; gives the error estimate, J/m³, infinite if the step failed.
    pub(crate) fn step(&mut self, state: &mut State, faces: &Faces, time_s: f64, dt: f64) -> f64 {
        let block = Block { thin: self.thin(state, 0.5 * dt), ..block(&self.grid, self.meat) };
        let (table, tau) = (block.table, GAMMA * dt);
        let wetness = match self.meat.composition() {
            Some(_) => self.wetness.after(self.lost(state), self.volume),
            None => self.wetness,
        };
        if !self.stands {
            self.field.stand(table, &state.u);
        }
        self.stands = true;
        self.start.copy_from_slice(&state.u);
        if state.goes_on {
            ahead(&mut self.guess, &state.u, tau, &state.pace);
            ahead(&mut self.base, &state.h, tau, &state.rate);
            self.field.guess(&block, (&self.guess, &self.base), &mut state.u);
        }
        let now = self.faces(faces, (time_s + tau, true), tau, wetness);
        let around = Around { faces: &now[..self.grid.rims.len()], skins: &state.skins, since: tau };
        self.field.stage(&block, &around, (&state.h, tau), &mut state.u, &mut self.first);
        let gone = dt - tau;
        self.count(&block, state, gone);
        self.warm_plates(&now, state, gone);

        self.between.copy_from_slice(&state.u);
        for ((guess, u), start) in self.guess.iter_mut().zip(&self.between).zip(&self.start) {
            *guess = start + (u - start) / GAMMA;
        }
        ahead(&mut self.base, &state.h, dt, &self.first);
        self.field.guess(&block, (&self.guess, &self.base), &mut state.u);
        ahead(&mut self.base, &state.h, gone, &self.first);
        let now = self.faces(faces, (time_s + dt, false), tau, wetness);
        let around = Around { faces: &now[..self.grid.rims.len()], skins: &state.skins, since: dt };
        self.field.stage(&block, &around, (&self.base, tau), &mut state.u, &mut state.rate);
        ahead(&mut state.h, &self.base, tau, &state.rate);
        self.count(&block, state, tau);
        let plates = self.warm_plates(&now, state, tau);

        self.field.carry(&block, &state.h, &mut state.u);
        for ((pace, u), between) in state.pace.iter_mut().zip(&state.u).zip(&self.between) {
            *pace = (u - between) / gone;
        }
        state.goes_on = true;
        let error = self.field.error(&block, tau, &self.first, &state.rate).max(plates);
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
    ) -> [FaceNow<'f>; MOST_RIMS] {
        std::array::from_fn(|rim| {
            let face = self.grid.rims.get(rim).and_then(|rim| face_at(faces, rim.end));
            face.map_or(FaceNow::Insulated, |face| FaceNow::new(face, at, tau, wetness))
        })
    }

    /// After a stage: every plate that gives way has followed for `dt`; gives the error this adds to the step, J/m³.
    fn warm_plates(&self, now: &[FaceNow<'_>], state: &mut State, dt: f64) -> f64 {
        let mut error: f64 = 0.0;
        let flows = &self.field.passing.flows;
        for (rim, face) in self.grid.rims.iter().zip(now) {
            if !matches!(face, FaceNow::Open { give: Some(_), .. }) {
                continue;
            }
            for (skin, flow) in state.skins[rim.cells.clone()].iter_mut().zip(&flows[rim.cells.clone()]) {
                if let Some((rate, capacity)) = face.plate_rate(*skin, *flow) {
                    let counts = PLATE.min(capacity * rim.strength);
                    error = error.max(0.5 * dt * (rate - skin.plate_rate).abs() * counts);
                    skin.plate_c += dt * rate;
                    skin.plate_rate = rate;
                }
            }
        }
        error
    }

    /// At the start of a stage: a plate that can give way is as hot as it was set, and nothing goes on as before.
    pub(crate) fn begin_stage(&self, state: &mut State, faces: &Faces) {
        state.turns();
        for rim in &self.grid.rims {
            let set_c = match face_at(faces, rim.end) {
                Some(Face::Open(around)) if around.reserve.is_some() => around.medium.at(0.0, true),
                _ => f64::NAN,
            };
            for skin in &mut state.skins[rim.cells.clone()] {
                (skin.plate_c, skin.plate_rate) = (set_c, 0.0);
            }
        }
    }

    /// The plate under or over the middle, °C, where one gives way.
    pub(crate) fn plate_c(&self, state: &State) -> Option<f64> {
        let flat = self.grid.rims.iter().filter(|rim| rim.axis == 0).rev();
        flat.filter_map(|rim| state.skins[rim.cells.clone()].last())
            .map(|skin| skin.plate_c)
            .find(|c| c.is_finite())
    }

    /// When the piece is turned: the plates stay where they are, below and above.
    pub(crate) fn turn_plates(&self, state: &mut State) {
        let [top, bottom, ..] = &self.grid.rims[..] else { return };
        if (top.end, bottom.end) != (End::Top, End::Bottom) {
            return;
        }
        let (low, high) = state.skins.split_at_mut(bottom.cells.start);
        for (low, high) in low.iter_mut().zip(&mut high[..bottom.nodes.len()]) {
            std::mem::swap(&mut low.plate_c, &mut high.plate_c);
            (low.plate_rate, high.plate_rate) = (0.0, 0.0);
        }
    }

    /// Adds `dt` seconds of the last stage's flows to heat, vapour and the water drawn.
    fn count(&self, block: &Block, state: &mut State, dt: f64) {
        let flows = &self.field.passing.flows;
        for rim in &self.grid.rims {
            let strength = block.strength(rim);
            let cells = rim.nodes.iter().zip(&mut state.gone[rim.cells.clone()]);
            for (flow, (node, gone)) in flows[rim.cells.clone()].iter().zip(cells) {
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

    /// Once a step is kept: the water it took is drawn from below the faces, of their lean share alone.
    pub(crate) fn draw(&self, state: &mut State, faces: &Faces) {
        for rim in &self.grid.rims {
            let share = lean_share(faces, rim.end);
            let cells = state.skins[rim.cells.clone()].iter_mut();
            for (skin, gone) in cells.zip(&mut state.gone[rim.cells.clone()]) {
                skin.drawn = (skin.drawn + gone.0 / share).max(0.0);
                skin.boiled = (skin.boiled + gone.1).max(0.0);
                *gone = (0.0, 0.0);
            }
        }
    }

    /// Once a step of `dt` from `before` is kept: how fast everything went that the next step takes as going on.
    pub(crate) fn note_rates(&self, state: &mut State, before: &State, dt: f64) {
        state.losing = (self.lost(state) - self.lost(before)) / dt;
        for (skin, before) in state.skins.iter_mut().zip(&before.skins) {
            skin.drying = (skin.drawn - before.drawn) / dt;
            skin.boiling = (skin.boiled - before.boiled) / dt;
        }
    }

    /// After the state was put back or settled: the body no longer stands where it is.
    pub(crate) fn lose_place(&mut self) {
        self.stands = false;
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

    /// Straight after a step, °C.
    pub(crate) fn temperature_now(&self, node: usize) -> f64 {
        self.field.temperature(node)
    }

    pub(crate) fn temperature(&self, state: &State, node: usize) -> f64 {
        self.meat.table().temperature(state.u[node])
    }

    /// Mean over the mass, °C; cells lean on their neighbours as their enthalpy does, so that it keeps with the heat.
    pub(crate) fn mean_temperature(&self, state: &State) -> f64 {
        let t: Vec<f64> = (0..self.volumes.len()).map(|node| self.temperature(state, node)).collect();
        let mut means = t.clone();
        for links in &self.grid.links {
            add_leads(links.stride, (&links.lean_up, &links.lean_down), 1.0, &t, &mut means);
        }
        means.iter().zip(&self.volumes).map(|(t, v)| t * v).sum::<f64>() / self.volume
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
        self.lose_place();
    }

    /// Enthalpies from temperatures.
    pub(crate) fn fill(&mut self, state: &mut State) {
        state.h.copy_from_slice(self.field.means(&block(&self.grid, self.meat), &state.u));
        self.lose_place();
    }

    /// Enthalpy of the grid at `u`, J.
    pub(crate) fn enthalpy(&mut self, state: &State) -> f64 {
        self.lose_place();
        let means = self.field.means(&block(&self.grid, self.meat), &state.u);
        means.iter().zip(&self.volumes).map(|(h, v)| h * v).sum()
    }

    /// Juice pressed out when each node has been as hot as `hottest`, kg (of the grid).
    pub(crate) fn juice(&self, hottest: &[f64]) -> f64 {
        let Some(composition) = self.meat.composition() else { return 0.0 };
        let density = self.meat.juice_factor() * self.meat.density_kg_m3() * composition.lean();
        let of = |(t, v): (&f64, &f64)| self.juice.share(*t) * v;
        density * hottest.iter().zip(&self.volumes).map(of).sum::<f64>()
    }

    /// What is left of the thickness: what a steak loses it loses in thickness (its fibres run from face to face), and what it
    /// loses is water.
    fn thin(&self, state: &State, since: f64) -> f64 {
        if !self.grid.thins || self.meat.composition().is_none() {
            return 1.0;
        }
        let lost = self.lost(state) + since * state.losing;
        (1.0 - lost / (WATER * self.volume)).clamp(0.3, 1.0)
    }

    /// Vapour and juice gone, kg (of the grid): never more than all its water.
    pub(crate) fn lost(&self, state: &State) -> f64 {
        let most = self
            .meat
            .composition()
            .map_or(f64::INFINITY, |c| c.water * self.meat.density_kg_m3() * self.volume);
        (state.vapour + state.juice - state.taken_up).min(most)
    }

    /// Juice that wets each face on its way, kg/m²: a face takes up as much of it as it has dried, and gives it off as vapour.
    pub(crate) fn wet(&self, state: &mut State, faces: &Faces, juice: f64) {
        for rim in &self.grid.rims {
            let offered = juice_on_the_way(faces, rim.end) * juice;
            if offered <= 0.0 {
                continue;
            }
            let lean = lean_share(faces, rim.end) * rim.strength;
            for (skin, node) in state.skins[rim.cells.clone()].iter_mut().zip(&rim.nodes) {
                let taken = offered.min(skin.drawn);
                skin.drawn -= taken;
                state.taken_up += taken * lean * self.volumes[*node];
            }
        }
    }
}

/// J/m³ of meat that a kelvin of a plate counts for in the error of a step at most; a light one for what it holds beside a cell.
const PLATE: f64 = 4e6;
/// kg/m³ of what is lost.
const WATER: f64 = 1000.0;

/// Three axes have two ends each.
const MOST_RIMS: usize = 6;

fn surface(grid: &Grid, volumes: &[f64]) -> f64 {
    let area = |rim: &Rim| rim.strength * rim.nodes.iter().map(|node| volumes[*node]).sum::<f64>();
    grid.rims.iter().map(area).sum()
}

/// Where `from` is after `dt` at its rates.
fn ahead(to: &mut [f64], from: &[f64], dt: f64, rate: &[f64]) {
    for ((to, from), rate) in to.iter_mut().zip(from).zip(rate) {
        *to = from + dt * rate;
    }
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
