//! Landing on the rule that ends a stage.

use super::run::Run;
use super::stop::Stop;
use crate::Faces;

impl Run<'_> {
    /// Whether the rule was met within the step just tried.
    pub(super) fn passed(&mut self, stop: &Stop, time: f64, dt: f64) -> bool {
        self.far(stop, time, dt) <= 0.0
    }

    /// Shortens the step until it ends on the rule: the secant where it converges, halving where it does not.
    pub(super) fn land(&mut self, stop: &Stop, faces: &Faces, time: f64, dt: f64) -> (f64, bool) {
        self.piece.settle(&mut self.state);
        let at_end = self.far(stop, time, dt);
        if at_end > Stop::NEAR {
            // Settling moved it back over the line: the step stands, the rule is not yet met.
            return (dt, false);
        }
        self.land_between(stop, faces, time, (dt, at_end))
    }

    fn land_between(
        &mut self,
        stop: &Stop,
        faces: &Faces,
        time: f64,
        (mut late, mut at_late): (f64, f64),
    ) -> (f64, bool) {
        self.work.rejected += usize::from(at_late.abs() > Stop::NEAR);
        let mut early = 0.0;
        self.go_back();
        self.piece.settle(&mut self.state);
        let mut at_early = self.far(stop, time, 0.0).max(0.0);
        let mut dt = late;
        // A third moment tried, once there is one: the way there bends.
        let mut third: Option<(f64, f64)> = None;
        for round in 0..60 {
            if at_late.abs() <= Stop::NEAR || late - early < 1e-9 * (time + late) {
                break;
            }
            let (low, high) = (early + 1e-3 * (late - early), late - 1e-3 * (late - early));
            let secant = late - at_late * (late - early) / (at_late - at_early);
            let bent = third.map(|third| crossing((early, at_early), (late, at_late), third));
            dt = match bent {
                _ if round % 4 == 3 => 0.5 * (early + late),
                Some(bent) if bent > low && bent < high => bent,
                _ => secant.clamp(low, high),
            };
            self.go_back();
            self.try_step(faces, time, dt);
            self.piece.settle(&mut self.state);
            let here = self.far(stop, time, dt);
            if here.abs() <= Stop::NEAR {
                return (dt, true);
            }
            if here > 0.0 {
                third = Some((early, at_early));
                (early, at_early) = (dt, here);
            } else {
                third = Some((late, at_late));
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

    /// The distance to the rule after the step just tried.
    fn far(&self, stop: &Stop, time: f64, dt: f64) -> f64 {
        if !stop.is_kill() {
            return stop.distance(&self.piece, &self.state, &self.watch);
        }
        // A kill is counted along the way: try it on a copy.
        let mut ahead = self.watch.clone();
        ahead.after_step(&self.piece, &self.state, self.clock + time + dt, dt);
        stop.distance(&self.piece, &self.state, &ahead)
    }
}

/// Where a parabola of time over distance through three moments crosses the rule.
fn crossing((a, at_a): (f64, f64), (b, at_b): (f64, f64), (c, at_c): (f64, f64)) -> f64 {
    a * at_b * at_c / ((at_a - at_b) * (at_a - at_c))
        + b * at_a * at_c / ((at_b - at_a) * (at_b - at_c))
        + c * at_a * at_b / ((at_c - at_a) * (at_c - at_b))
}
