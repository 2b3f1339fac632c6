//! How long a step may be: marks it must end on, how it starts, how small its error is.

use super::run::{Run, SHORTEST};
use crate::{Course, Face, Stage};

/// J/m³: the scale of the error allowed in a step.
const SCALE: f64 = 2e8;
/// The share of it that counts where nothing moves any more.
const STILL: f64 = 1e-2;

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

    /// The enthalpies of the coldest and the hottest that surrounds the piece in a stage, J/m³.
    pub(super) fn media(&self, stage: &Stage) -> (f64, f64) {
        let table = self.piece.meat.table();
        let h = |t: f64| table.at(table.u_at_temperature(t.clamp(-100.0, 120.0))).h;
        let courses = stage.faces.each().filter_map(course).map(Course::extremes);
        courses.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), (cold, warm)| {
            (low.min(h(cold)), high.max(h(warm)))
        })
    }

    /// J/m³ that one unit of tolerance stands for: what is still to move, so that the last kelvins before a medium are followed
    /// as closely as the first.
    pub(super) fn scale(&self, (low, high): (f64, f64)) -> f64 {
        let (mut low, mut high) = (low, high);
        for h in &self.state.h {
            (low, high) = (low.min(*h), high.max(*h));
        }
        (high - low).clamp(STILL * SCALE, SCALE)
    }
}

fn course(face: &Face) -> Option<&Course> {
    match face {
        Face::Insulated => None,
        Face::Fixed(course) => Some(course),
        Face::Open(around) => Some(&around.medium),
    }
}
