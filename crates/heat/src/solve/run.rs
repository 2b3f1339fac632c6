//! The run through the stages.

use super::begin::{at_start, check};
use super::grid::Grid;
use super::march::Piece;
use super::state::State;
use super::stop::Stop;
use super::watch::Watch;
use crate::history::{History, StageEnd, Work};
use crate::{Faces, HeatError, Meat, Settings, Shape, Stage, Start, Until};

/// Heats or cools a piece through its stages and returns its history; times in s, temperatures in °C.
///
/// | input      | shape           | unit            | meaning                                                     |
/// |------------|-----------------|-----------------|-------------------------------------------------------------|
/// | `meat`     | –               | mass shares, °C | composition, constants or measured table                    |
/// | `shape`    | 1, 2 or 3 axes  | m               | full sizes, never half; top and bottom may differ           |
/// | `start`    | one, or rows    | °C              | even, or by depth from the top face                         |
/// | `stages`   | 1 or more       | °C, W/(m²·K), s | medium, film, evaporation and the rule that ends a stage    |
/// | `settings` | –               | –               | how fine, and what to keep of the way                       |
///
/// # Holds
/// Heat taken in equals enthalpy gained to 1e-6 of the heat moved (`laws::energy_closes`); twice the grid moves no time of
/// a slab by more than 0.5 % (`laws::twice_the_grid`). The same input gives the same answer to the bit.
/// # Errors
/// [`HeatError::OutsideFit`] if the piece gets hotter or colder than its figures were fitted for: names stage, property and
/// range. [`HeatError::OutOfRange`] and its like for numbers no kitchen has, and for sides that cannot hold a roast's mass.
/// A stage that can never meet its rule is no error: the history ends there, not `reached`, and says where it settled.
/// # Source
/// Enthalpy on finite volumes; ice by Raoult's law with bound water; a two-stage L-stable step. Figures:
/// `catalogue/constituents.toml`.
/// # Checked by
/// `tests/published/`, which also lists the known misses and their distances, and `tests/laws.rs`.
/// # Example
/// A 40 mm steak of 400 g from 4 °C, in still air at 110 °C with a film of 12 W/(m²·K), to 52 °C in the middle:
/// ```
/// use heat::{Composition, Face, Faces, Footprint, Meat, Overrides, Settings, Shape, Stage, Start, Until, simulate};
/// use quantity::{Length, Mass, Temperature};
///
/// let lean = Composition { water: 0.72, protein: 0.22, fat: 0.05, carbohydrate: 0.0, ash: 0.01 };
/// let meat = Meat::composed(lean, Overrides::default())?;
/// let steak = Shape::Steak { thickness: Length::from_mm(40.0), footprint: Footprint::Mass(Mass::from_g(400.0)) };
/// let oven = Faces::all(Face::film(Temperature::from_c(110.0), 12.0));
/// let stage = Stage::new("oven", oven, Until::Centre(Temperature::from_c(52.0)));
/// let start = Start::Even(Temperature::from_c(4.0));
/// let history = simulate(&meat, &steak, &start, &[stage], &Settings::exact())?;
/// assert!(history.stages[0].reached && (history.centre_c - 52.0).abs() < 1e-3);
/// assert!((40.0..90.0).contains(&(history.time_s / 60.0)));
/// # Ok::<(), heat::HeatError>(())
/// ```
pub fn simulate(
    meat: &Meat,
    shape: &Shape,
    start: &Start,
    stages: &[Stage],
    settings: &Settings,
) -> Result<History, HeatError> {
    let mut run = Run::new(meat, shape, start, stages, settings)?;
    for stage in stages {
        let end = run.stage(stage)?;
        let reached = end.reached;
        run.ends.push(end);
        if !reached {
            break;
        }
    }
    Ok(run.history())
}

/// J/m³: where less heat than this has passed (three kelvins' worth), the energy error is a share of this.
const STILL: f64 = 1e7;
/// s: no step is shorter.
pub(super) const SHORTEST: f64 = 1e-7;
/// Steps in one stage; far more than any stage takes.
const MOST_STEPS: usize = 3_000_000;

/// A run under way.
pub(super) struct Run<'a> {
    pub(super) piece: Piece<'a>,
    pub(super) state: State,
    pub(super) backup: State,
    pub(super) watch: Watch,
    pub(super) settings: &'a Settings,
    pub(super) ends: Vec<StageEnd>,
    pub(super) work: Work,
    pub(super) clock: f64,
    pub(super) enthalpy_at_start: f64,
    /// Error estimate of the step last tried, J/m³.
    pub(super) tried: f64,
}

impl<'a> Run<'a> {
    fn new(
        meat: &'a Meat,
        shape: &Shape,
        start: &Start,
        stages: &[Stage],
        settings: &'a Settings,
    ) -> Result<Self, HeatError> {
        check(shape, start, stages, settings)?;
        let even = matches!(start, Start::Even(_)) && stages.iter().all(|s| s.faces.top == s.faces.bottom);
        let grid = Grid::new(shape, meat, settings.cells, even)?;
        let mut piece = Piece::new(grid, meat);
        let mut state = at_start(&piece, start, stages)?;
        piece.fill(&mut state);
        if let Some(first) = stages.first() {
            piece.begin_stage(&mut state, &first.faces);
        }
        let mut watch = Watch::new(&piece, &state, settings);
        state.juice = watch.juice;
        watch.note(&piece, &state, settings, 0.0);
        let work = Work { nodes: piece.volumes.len(), ..Work::default() };
        let enthalpy_at_start = piece.enthalpy(&state);
        let (backup, ends) = (state.clone(), Vec::new());
        Ok(Self {
            piece,
            state,
            backup,
            watch,
            settings,
            ends,
            work,
            clock: 0.0,
            enthalpy_at_start,
            tried: 0.0,
        })
    }

    /// Through one stage; its own length is in the answer.
    fn stage(&mut self, stage: &Stage) -> Result<StageEnd, HeatError> {
        let stop = Stop::new(stage, &self.piece, &self.state, &self.watch);
        let limit = match stage.until {
            Until::Time(span) => span.s().min(stage.at_most.s()),
            _ => stage.at_most.s(),
        };
        let (mut faces, flipped) = (stage.faces.clone(), stage.flip_every.is_some());
        let media = self.media(stage);
        self.piece.begin_stage(&mut self.state, &faces);
        let mut time = 0.0;
        let mut wish = self.first_step();
        let mut reached = stop.is_met(&self.piece, &self.state, &self.watch);
        let (mut steps, mut failed) = (0, false);
        while !reached && time < limit {
            let (next, turns) = self.next_mark(stage, time, limit);
            let left = next - time;
            // A rest shorter than this would be no step at all.
            let dt = if wish > left * 0.999_999 { left } else { wish };
            self.keep();
            let scale = self.scale(media) * self.settings.tolerance;
            let taken = self.try_step(&faces, time, dt);
            let error = taken / scale;
            steps += 1;
            if error > 1.0 {
                self.work.rejected += 1;
                failed = true;
                self.go_back();
                wish = dt * (0.9 / error.sqrt()).clamp(0.1, 0.9);
                if wish < SHORTEST || steps > MOST_STEPS {
                    return Err(HeatError::Stuck { stage: stage.name.clone(), time_s: time });
                }
                continue;
            }
            let mut dt = dt;
            if self.passed(&stop, time, dt) {
                (dt, reached) = self.land(&stop, &faces, time, dt);
                if self.tried > scale && dt > 1e-3 {
                    // Shortened, it may meet a boiling face at a worse moment than whole: it has to pass as any other.
                    self.work.rejected += 1;
                    self.go_back();
                    (wish, reached) = (0.3 * dt, false);
                    continue;
                }
            }
            self.accept(&faces, time, dt);
            self.in_fit(stage)?;
            time += dt;
            // Straight after a step that failed the next one would fail again.
            let most = if failed { 1.0 } else { 3.0 };
            failed = false;
            let factor = (0.9 / error.max(1e-12).sqrt()).clamp(0.2, most);
            wish = if dt < wish { wish.max(dt * factor) } else { dt * factor };
            if !reached && time >= next - 1e-9 {
                time = next;
                if turns && flipped {
                    std::mem::swap(&mut faces.top, &mut faces.bottom);
                    self.piece.turn_plates(&mut self.state);
                }
                if self.at_step_of_series(stage, time) || (turns && flipped) {
                    self.state.turns();
                    wish = wish.min(self.first_step());
                }
                self.sample(self.clock + time);
            }
        }
        self.finish_stage(stage, time, reached)
    }

    fn finish_stage(&mut self, stage: &Stage, time: f64, reached: bool) -> Result<StageEnd, HeatError> {
        let by_time = matches!(stage.until, Until::Time(span) if span.s() <= stage.at_most.s());
        self.piece.settle(&mut self.state);
        self.clock += time;
        Ok(StageEnd {
            name: stage.name.clone(),
            time_s: time,
            centre_c: self.piece.temperature(&self.state, self.piece.middle()),
            surface_c: self.piece.temperature(&self.state, self.piece.middle_line()),
            mean_c: self.piece.mean_temperature(&self.state),
            mass_lost_kg: self.mass_lost(),
            reached: reached || by_time,
        })
    }

    pub(super) fn try_step(&mut self, faces: &Faces, time: f64, dt: f64) -> f64 {
        self.work.solves += self.piece.solves();
        self.tried = self.piece.step(&mut self.state, faces, time, dt);
        self.tried
    }

    fn keep(&mut self) {
        self.backup.copy_from(&self.state);
    }

    pub(super) fn go_back(&mut self) {
        self.state.copy_from(&self.backup);
        self.piece.lose_place();
    }

    fn accept(&mut self, faces: &Faces, time: f64, dt: f64) {
        self.work.steps += 1;
        self.piece.draw(&mut self.state, faces);
        let juice = self.watch.after_step(&self.piece, &self.state, self.clock + time + dt, dt);
        if juice > 0.0 {
            self.state.juice = self.watch.juice;
            self.piece.wet(&mut self.state, faces, juice / self.piece.surface);
        }
        self.piece.note_rates(&mut self.state, &self.backup, dt);
    }

    fn in_fit(&self, stage: &Stage) -> Result<(), HeatError> {
        let (low, high) = self.piece.fit;
        let Some(u) = self.state.u.iter().find(|u| !(**u >= low && **u <= high)) else { return Ok(()) };
        let (low_c, high_c) = self.piece.meat.fitted_c();
        let found_c = self.piece.meat.table().temperature(*u);
        let (stage, property) = (stage.name.clone(), "enthalpy");
        Err(HeatError::OutsideFit { stage, property, found_c, low_c, high_c })
    }

    fn sample(&mut self, t_s: f64) {
        if let Some(every) = self.settings.sample_every {
            let count = t_s / every.s();
            if (count - count.round()).abs() < 1e-6 {
                self.piece.settle(&mut self.state);
                self.watch.note(&self.piece, &self.state, self.settings, t_s);
            }
        }
    }

    fn mass_lost(&self) -> f64 {
        self.piece.grid.copies * self.piece.lost(&self.state)
    }

    fn history(mut self) -> History {
        let end = self.ends.last().cloned().unwrap_or_default();
        let gained = self.piece.enthalpy(&self.state) - self.enthalpy_at_start;
        let copies = self.piece.grid.copies;
        let still = STILL * self.piece.volume;
        if self.watch.curve.last().is_none_or(|row| row.t_s < self.clock - 1e-6) {
            self.watch.note(&self.piece, &self.state, self.settings, self.clock);
        }
        let organisms = self.settings.organisms.iter().enumerate();
        History {
            time_s: self.clock,
            centre_c: end.centre_c,
            surface_c: end.surface_c,
            mean_c: end.mean_c,
            peak_centre_c: self.watch.peak.0.max(end.centre_c),
            peak_at_s: self.watch.peak.1,
            heat_j: copies * self.state.heat,
            mass_lost_kg: self.mass_lost(),
            grey_share: self.watch.grey_share(&self.piece),
            ice_share: self.piece.ice_share(&self.state),
            kill_log10: organisms.map(|(i, o)| (o.name.clone(), self.watch.kill(i))).collect(),
            energy_error: (self.state.heat - gained).abs() / self.state.moved.max(still),
            stages: std::mem::take(&mut self.ends),
            section: self.watch.section(&self.piece, &self.state),
            curve: std::mem::take(&mut self.watch.curve),
            work: self.work,
        }
    }
}
