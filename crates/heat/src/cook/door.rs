//! Air while a door is opened and shut again.

use super::question::Opened;
use crate::Course;
use quantity::{Span, Temperature};

/// One member's numbers: seconds and °C.
#[derive(Clone, Copy, Debug)]
pub(super) struct Door {
    pub(super) opened: Opened,
    pub(super) falls_in_s: f64,
    pub(super) returns_in_s: f64,
    pub(super) room_c: f64,
    /// The stage ends here at the latest, s.
    pub(super) longest_s: f64,
}

/// More than a cook opens a door in one stage.
const MOST: usize = 400;
/// Where the exponential is met while open, in shares of the time it stands; and after, in times it takes to return.
const OPEN: [f64; 4] = [0.25, 0.5, 0.75, 1.0];
const SHUT: [f64; 7] = [0.15, 0.35, 0.6, 1.0, 1.5, 2.2, 3.5];

impl Door {
    /// The air's course: it nears the room while the door stands open and comes back after, both as an exponential.
    pub(super) fn course(self, set_c: f64) -> Course {
        let (every, stands) = (self.opened.every.s(), self.opened.stands.s());
        let row = |at: f64, c: f64| (Span::from_s(at), Temperature::from_c(c));
        let mut rows = vec![row(0.0, set_c)];
        let mut now = set_c;
        let openings = ((self.longest_s / every) as usize).min(MOST);
        for opening in 1..=openings {
            let at = opening as f64 * every;
            rows.push(row(at, now));
            for share in OPEN {
                let c = self.room_c + (now - self.room_c) * (-share * stands / self.falls_in_s).exp();
                rows.push(row(at + share * stands, c));
            }
            let least = self.room_c + (now - self.room_c) * (-stands / self.falls_in_s).exp();
            let returned = |s: f64| set_c + (least - set_c) * (-s / self.returns_in_s).exp();
            let shut = (every - stands).max(0.0);
            for times in SHUT {
                let s = times * self.returns_in_s;
                if s < shut {
                    rows.push(row(at + stands + s, returned(s)));
                }
            }
            now = returned(shut);
        }
        Course::Series(rows)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 200 °C, a room of 20, half a minute open at 45 s: 20 + 180 e^(−2/3) = 112.4 °C; five minutes later 188.1.
    #[test]
    fn the_air_falls_and_comes_back() {
        let opened = Opened { every: Span::from_min(20.0), stands: Span::from_s(30.0) };
        let door = Door { opened, falls_in_s: 45.0, returns_in_s: 150.0, room_c: 20.0, longest_s: 3700.0 };
        let course = door.course(200.0);
        assert!((course.at(1000.0, true) - 200.0).abs() < 1e-9);
        assert!((course.at(1230.0, true) - 112.4).abs() < 0.1, "{}", course.at(1230.0, true));
        assert!((course.at(1530.0, true) - 188.1).abs() < 1.0, "{}", course.at(1530.0, true));
        let Course::Series(rows) = course else { panic!("a series") };
        assert!(rows.windows(2).all(|pair| pair[0].0 <= pair[1].0));
        assert_eq!(rows.iter().filter(|row| row.1.c() < 113.0).count(), 3, "three openings in an hour");
    }
}
