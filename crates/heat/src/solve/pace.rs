//! How long a step may be: marks it must end on, how it starts, how small its error is.

use super::run::{Run, SHORTEST};
use super::stop::Stop;
use crate::{Course, Face, Stage};

/// J/m³: the scale of the error allowed in a step.
const SCALE: f64 = 2e8;

impl Run<'_> {
    /// The next moment a step must end on, s within the stage, and whether the piece is turned there.
    pub(super) fn next_mark(&self, stage: &Stage, time: f64, limit: f64) -> (f64, bool) {
        let mut next = limit;
        for face in stage.faces.each() {
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

    pub(super) fn at_step_of_series(&self, stage: &Stage, time: f64) -> bool {
        stage
            .faces
            .each()
            .filter_map(course)
            .any(|course| (course.at(time, true) - course.at(time, false)).abs() > 1.0)
    }

    /// A twentieth of the time the surface cell takes to follow its neighbour, 2 s at most.
    pub(super) fn first_step(&self) -> f64 {
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
    pub(super) fn scale(&self, stage: &Stage, stop: &Stop) -> f64 {
        let table = self.piece.meat.table();
        let h = |t: f64| table.at(table.u_at_temperature(t.clamp(-100.0, 120.0))).h;
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for u in &self.state.u {
            let t = table.at(*u).t;
            (low, high) = (low.min(t), high.max(t));
        }
        let mut creep = SCALE;
        for face in stage.faces.each() {
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
}

fn course(face: &Face) -> Option<&Course> {
    match face {
        Face::Insulated => None,
        Face::Fixed(course) => Some(course),
        Face::Open(around) => Some(&around.medium),
    }
}
