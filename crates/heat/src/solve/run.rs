//! The run through the stages.

use super::grid::{End, Grid};
use super::march::{Piece, State};
use super::stop::Stop;
use super::watch::Watch;
use crate::history::{History, StageEnd, Work};
use crate::{Course, Evaporation, Face, Faces, HeatError, Meat, Settings, Shape, Stage, Start, Until};

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
/// range. [`HeatError::OutOfRange`] and its like for numbers no kitchen has. [`HeatError::NotYet`] for a roast by its mass.
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

/// J/m³: the scale of the error allowed in a step.
const SCALE: f64 = 2e8;
/// J/m³: where less heat than this has passed (three kelvins' worth), the energy error is a share of this.
const STILL: f64 = 1e7;
/// s: no step is shorter.
const SHORTEST: f64 = 1e-7;
/// Steps in one stage; far more than any stage takes.
const MOST_STEPS: usize = 3_000_000;

struct Run<'a> {
    piece: Piece<'a>,
    state: State,
    backup: State,
    watch: Watch,
    settings: &'a Settings,
    ends: Vec<StageEnd>,
    work: Work,
    clock: f64,
    enthalpy_at_start: f64,
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
        let Some(grid) = Grid::new(shape, meat, settings.cells, even) else {
            return Err(HeatError::NotYet {
                what: "a roast by its mass".to_owned(),
                instead: "give a brick with its three sizes",
            });
        };
        let mut piece = Piece::new(grid, meat);
        let mut state = at_start(&piece, start, stages)?;
        piece.fill(&mut state);
        let mut watch = Watch::new(&piece, &state, settings);
        state.juice = watch.juice;
        watch.note(&piece, &state, settings, 0.0);
        let work = Work { nodes: piece.volumes.len(), ..Work::default() };
        let enthalpy_at_start = piece.enthalpy(&state);
        let (backup, ends) = (state.clone(), Vec::new());
        Ok(Self { piece, state, backup, watch, settings, ends, work, clock: 0.0, enthalpy_at_start })
    }

    /// Through one stage; its own length is in the answer.
    fn stage(&mut self, stage: &Stage) -> Result<StageEnd, HeatError> {
        let stop = Stop::new(stage, &self.piece, &self.state, &self.watch);
        let limit = match stage.until {
            Until::Time(span) => span.s().min(stage.at_most.s()),
            _ => stage.at_most.s(),
        };
        let (mut faces, flipped) = (stage.faces.clone(), stage.flip_every.is_some());
        let scale = self.scale(stage, &stop) * self.settings.tolerance;
        let mut time = 0.0;
        let mut wish = self.first_step();
        let mut reached = stop.distance(&self.piece, &self.state, &self.watch).abs() <= Stop::NEAR;
        let mut steps = 0;
        while !reached && time < limit {
            let (next, turns) = self.next_mark(stage, time, limit);
            let left = next - time;
            // A rest shorter than this would be no step at all.
            let dt = if wish > left * 0.999_999 { left } else { wish };
            self.keep();
            let taken = self.try_step(&faces, time, dt);
            let error = taken / scale;
            steps += 1;
            if error > 1.0 {
                self.work.rejected += 1;
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
            }
            self.accept(&faces, time, dt);
            self.in_fit(stage)?;
            time += dt;
            let factor = (0.9 / error.max(1e-12).sqrt()).clamp(0.2, 3.0);
            wish = if dt < wish { wish.max(dt * factor) } else { dt * factor };
            if !reached && time >= next - 1e-9 {
                time = next;
                if turns && flipped {
                    std::mem::swap(&mut faces.top, &mut faces.bottom);
                }
                if self.at_step_of_series(stage, time) || (turns && flipped) {
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

    fn try_step(&mut self, faces: &Faces, time: f64, dt: f64) -> f64 {
        self.work.solves += self.piece.solves();
        self.piece.step(&mut self.state, faces, time, dt)
    }

    fn keep(&mut self) {
        self.backup.copy_from(&self.state);
    }

    fn go_back(&mut self) {
        self.state.copy_from(&self.backup);
    }

    /// Whether the rule was met within the step just tried.
    fn passed(&mut self, stop: &Stop, time: f64, dt: f64) -> bool {
        if matches!(stop.target_c(), Some(_)) {
            return stop.distance(&self.piece, &self.state, &self.watch) <= 0.0;
        }
        let mut ahead = self.watch.clone();
        ahead.after_step(&self.piece, &self.state, self.clock + time + dt, dt);
        stop.distance(&self.piece, &self.state, &ahead) <= 0.0
    }

    /// Shortens the step until it ends on the rule: the secant where it converges, halving where it does not.
    fn land(&mut self, stop: &Stop, faces: &Faces, time: f64, dt: f64) -> (f64, bool) {
        let far = |run: &mut Self, dt: f64| {
            run.piece.settle(&mut run.state);
            if stop.target_c().is_some() {
                return stop.distance(&run.piece, &run.state, &run.watch);
            }
            let mut ahead = run.watch.clone();
            ahead.after_step(&run.piece, &run.state, run.clock + time + dt, dt);
            stop.distance(&run.piece, &run.state, &ahead)
        };
        let at_end = far(self, dt);
        if at_end > Stop::NEAR {
            // Settling moved it back over the line: the step stands, the rule is not yet met.
            return (dt, false);
        }
        self.land_between(stop, faces, time, (dt, at_end), far)
    }

    fn land_between(
        &mut self,
        stop: &Stop,
        faces: &Faces,
        time: f64,
        (mut late, mut at_late): (f64, f64),
        far: impl Fn(&mut Self, f64) -> f64,
    ) -> (f64, bool) {
        let _ = stop;
        self.work.rejected += usize::from(at_late.abs() > Stop::NEAR);
        let mut early = 0.0;
        self.go_back();
        let mut at_early = far(self, 0.0).max(0.0);
        let mut dt = late;
        for round in 0..60 {
            if at_late.abs() <= Stop::NEAR || late - early < 1e-9 * (time + late) {
                break;
            }
            dt = if round % 3 == 2 {
                0.5 * (early + late)
            } else {
                late - at_late * (late - early) / (at_late - at_early)
            };
            dt = dt.clamp(early + 1e-3 * (late - early), late - 1e-3 * (late - early));
            self.go_back();
            self.try_step(faces, time, dt);
            let here = far(self, dt);
            if here.abs() <= Stop::NEAR {
                return (dt, true);
            }
            if here > 0.0 {
                (early, at_early) = (dt, here);
            } else {
                (late, at_late) = (dt, here);
            }
        }
        if dt != late || at_late.abs() > Stop::NEAR {
            self.go_back();
            self.try_step(faces, time, late);
            self.piece.settle(&mut self.state);
        }
        (late, true)
    }

    fn accept(&mut self, faces: &Faces, time: f64, dt: f64) {
        self.work.steps += 1;
        self.piece.draw(&mut self.state, faces);
        let juice = self.watch.after_step(&self.piece, &self.state, self.clock + time + dt, dt);
        if juice > 0.0 {
            self.state.juice = self.watch.juice;
            let surface = self.piece.surface();
            self.piece.wet(&mut self.state, faces, juice / surface);
        }
    }

    fn in_fit(&self, stage: &Stage) -> Result<(), HeatError> {
        let (low_c, high_c) = self.piece.meat.fitted_c();
        for u in &self.state.u {
            let found_c = self.piece.meat.table().temperature(*u);
            if !(found_c >= low_c - 1e-6 && found_c <= high_c + 1e-6) {
                let (stage, property) = (stage.name.clone(), "enthalpy");
                return Err(HeatError::OutsideFit { stage, property, found_c, low_c, high_c });
            }
        }
        Ok(())
    }

    /// The next moment a step must end on, s within the stage, and whether the piece is turned there.
    fn next_mark(&self, stage: &Stage, time: f64, limit: f64) -> (f64, bool) {
        let mut next = limit;
        for face in [&stage.faces.top, &stage.faces.bottom, &stage.faces.sides] {
            if let Some(row) = course(face).and_then(|c| c.next_row(time)) {
                next = next.min(row);
            }
        }
        if let Some(every) = self.settings.sample_every {
            let count = ((self.clock + time) / every.s() + 1e-9).floor() + 1.0;
            next = next.min(count * every.s() - self.clock);
        }
        let mut turns = false;
        if let Some(every) = stage.flip_every {
            let flip = ((time / every.s() + 1e-9).floor() + 1.0) * every.s();
            turns = flip <= next;
            next = next.min(flip);
        }
        (next.max(time + SHORTEST), turns)
    }

    fn at_step_of_series(&self, stage: &Stage, time: f64) -> bool {
        [&stage.faces.top, &stage.faces.bottom, &stage.faces.sides]
            .into_iter()
            .filter_map(course)
            .any(|course| (course.at(time, true) - course.at(time, false)).abs() > 1.0)
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

    /// A twentieth of the time the surface cell takes to follow its neighbour, 2 s at most.
    fn first_step(&self) -> f64 {
        let mut first: f64 = 2.0;
        for axis in &self.piece.grid.axes {
            let point = self.piece.meat.table().at(self.state.u[self.piece.middle_line()]);
            let diffusivity = self.piece.meat.conductivity_factor() * point.dtheta / point.dh;
            let dx = axis.depth[1] - axis.depth[0];
            if diffusivity > 0.0 {
                first = first.min(0.05 * dx * dx / diffusivity);
            }
        }
        first.max(1e-3)
    }

    /// J/m³ that one unit of tolerance stands for in this stage: less where the whole stage moves little, or where it
    /// ends close to a temperature it creeps up to.
    fn scale(&self, stage: &Stage, stop: &Stop) -> f64 {
        let table = self.piece.meat.table();
        let h = |t: f64| table.at(table.u_at_temperature(t.clamp(-100.0, 120.0))).h;
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for u in &self.state.u {
            let t = table.at(*u).t;
            (low, high) = (low.min(t), high.max(t));
        }
        let mut creep = SCALE;
        for face in [&stage.faces.top, &stage.faces.bottom, &stage.faces.sides] {
            if let Some((cold, warm)) = course(face).map(Course::extremes) {
                (low, high) = (low.min(cold), high.max(warm));
                if let Some(target) = stop.target_c() {
                    let near = (h(cold) - h(target)).abs().min((h(warm) - h(target)).abs());
                    creep = creep.min(20.0 * near);
                }
            }
        }
        SCALE.min(h(high) - h(low)).max(2e-3 * SCALE).min(creep.max(0.05 * SCALE))
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

fn course(face: &Face) -> Option<&Course> {
    match face {
        Face::Insulated => None,
        Face::Fixed(course) => Some(course),
        Face::Open(around) => Some(&around.medium),
    }
}

fn check(shape: &Shape, start: &Start, stages: &[Stage], settings: &Settings) -> Result<(), HeatError> {
    shape.check()?;
    settings.check()?;
    if stages.is_empty() {
        return Err(HeatError::NoStage);
    }
    for stage in stages {
        stage.check()?;
        if let Until::Kill { organism, .. } = stage.until {
            let known = settings.organisms.len();
            if organism >= known {
                let kind = "organism";
                let (name, known) = (organism.to_string(), format!("{known} in the settings"));
                return Err(HeatError::Unknown { kind, name, known });
            }
        }
    }
    if let Start::Profile(rows) = start {
        if rows.is_empty() {
            return Err(HeatError::Rows {
                what: "start profile".to_owned(),
                found: 0,
                needed: "at least one",
            });
        }
        if let Some(row) = (1..rows.len()).find(|&i| rows[i].0 <= rows[i - 1].0) {
            return Err(HeatError::NotRising { what: "start profile".to_owned(), row: row + 1 });
        }
    }
    Ok(())
}

fn at_start(piece: &Piece, start: &Start, stages: &[Stage]) -> Result<State, HeatError> {
    let axis = &piece.grid.axes[0];
    let line = axis.depth.len();
    let (low_c, high_c) = piece.meat.fitted_c();
    let mut u = Vec::with_capacity(piece.volumes.len());
    for node in 0..piece.volumes.len() {
        let t = match start {
            Start::Even(t) => t.c(),
            Start::Profile(rows) => profile(rows, axis.depth[node % line]),
        };
        if !(t >= low_c && t <= high_c) {
            let (stage, property) = ("start".to_owned(), "enthalpy");
            return Err(HeatError::OutsideFit { stage, property, found_c: t, low_c, high_c });
        }
        u.push(piece.meat.table().u_at_temperature(t));
    }
    let drawn: Vec<[Vec<f64>; 2]> = piece
        .grid
        .axes
        .iter()
        .map(|axis| axis.ends.map(|end| vec![drawn_before(stages, end); u.len() / axis.size.len()]))
        .collect();
    let gone = drawn.clone();
    let mut state =
        State { h: vec![0.0; u.len()], u, drawn, gone, vapour: 0.0, juice: 0.0, heat: 0.0, moved: 0.0 };
    state.gone.iter_mut().flatten().for_each(|gone| gone.fill(0.0));
    Ok(state)
}

fn profile(rows: &[(quantity::Length, quantity::Temperature)], depth: f64) -> f64 {
    let i = rows.partition_point(|(at, _)| at.m() <= depth);
    match (i.checked_sub(1).map(|i| rows[i]), rows.get(i)) {
        (Some((a, ta)), Some((b, tb))) => ta.c() + (tb.c() - ta.c()) * (depth - a.m()) / (b.m() - a.m()),
        (Some((_, t)), None) => t.c(),
        (None, Some((_, t))) => t.c(),
        (None, None) => f64::NAN,
    }
}

/// Water drawn before the first stage in which this face dries.
fn drawn_before(stages: &[Stage], end: End) -> f64 {
    let face = |faces: &Faces| match end {
        End::Top => Some(faces.top.clone()),
        End::Bottom => Some(faces.bottom.clone()),
        End::Side => Some(faces.sides.clone()),
        End::Middle => None,
    };
    stages
        .iter()
        .find_map(|stage| match face(&stage.faces) {
            Some(Face::Open(around)) => match around.evaporation {
                Evaporation::Drying(_, supply) => Some(supply.drawn_kg_m2),
                _ => None,
            },
            _ => None,
        })
        .unwrap_or(0.0)
}
