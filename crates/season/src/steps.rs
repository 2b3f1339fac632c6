//! One thing to do at an hour, or done at it: what Today, the thread and the supper list.

mod of_supper;

pub use of_supper::{next_steps, portions_words, supper_steps};

use jiff::ZonedDateTime;
use quantity::Span;

/// A step on the way to a plate: due or done at an hour, in the kitchen's zone.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// The hour it is due by; for a done step, the hour it was done.
    pub at: ZonedDateTime,
    /// The act as a sentence without its hour: "TARN 11+12 out of the freezer", "Oven on, dial at 110 °C".
    pub what: String,
    /// The page where it is done and written down: `/table/2026-07-18/thaw`.
    pub link: String,
    /// Whether an entry says so.
    pub done: bool,
}

impl Step {
    /// How late it is: nothing for a step that is done or still ahead.
    #[must_use]
    pub fn overdue_by(&self, now: &ZonedDateTime) -> Option<Span> {
        let late = now.timestamp().as_second() - self.at.timestamp().as_second();
        (!self.done && late > 0).then(|| Span::from_s(late as f64))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(hour: &str) -> ZonedDateTime {
        let text = format!("2026-07-18T{hour}:00+02:00[Europe/Berlin]");
        text.parse().unwrap()
    }

    #[test]
    fn only_a_step_that_waits_is_overdue() {
        let out = Step { at: at("10:00"), what: "Out".into(), link: "/table".into(), done: false };
        assert_eq!(out.overdue_by(&at("09:59")), None);
        assert_eq!(out.overdue_by(&at("10:20")).map(Span::min), Some(20.0));
        assert_eq!(Step { done: true, ..out }.overdue_by(&at("10:20")), None);
    }
}
