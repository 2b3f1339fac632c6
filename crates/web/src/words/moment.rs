//! Times of day and days, seen from now: `19:13`, `Fri 18:40`, `5 Jul`, `5 Jul 2025`.

use band::Band;
use jiff::{Span, ZonedDateTime};
use quantity::Clock;

use super::Shown;

/// Writes moments as seen from now, in the kitchen's zone and its clock.
#[derive(Clone, Debug)]
pub struct Moments {
    now: ZonedDateTime,
    clock: Clock,
}

impl Moments {
    /// Moments seen from `now`; its zone is the kitchen's.
    #[must_use]
    pub fn new(now: ZonedDateTime, clock: Clock) -> Self {
        Self { now, clock }
    }

    /// Now.
    #[must_use]
    pub fn now(&self) -> &ZonedDateTime {
        &self.now
    }

    /// A time of day without its day: `19:13`, `7:13 pm`.
    #[must_use]
    pub fn clock(&self, at: &ZonedDateTime) -> String {
        self.clock_of(at.hour().unsigned_abs(), at.minute().unsigned_abs())
    }

    /// An hour and minute on the kitchen's clock.
    #[must_use]
    pub fn clock_of(&self, hour: u8, minute: u8) -> String {
        quantity::Units { clock: self.clock, ..quantity::Units::METRIC }.clock(hour, minute)
    }

    /// A time of day; another day within the week adds its name, `Fri 18:40`; further away it is the day, `5 Jul`.
    #[must_use]
    pub fn time(&self, at: &ZonedDateTime) -> String {
        let at = at.with_time_zone(self.now.time_zone().clone());
        match self.days_away(&at) {
            0 => self.clock(&at),
            -6..=6 => format!("{} {}", at.strftime("%a"), self.clock(&at)),
            _ => self.day(&at),
        }
    }

    /// The same in a sentence: `at 19:13`, `on Fri at 18:40`, `on 5 Jul`.
    #[must_use]
    pub fn when(&self, at: &ZonedDateTime) -> String {
        let at = at.with_time_zone(self.now.time_zone().clone());
        match self.days_away(&at) {
            0 => format!("at {}", self.clock(&at)),
            -6..=6 => format!("on {} at {}", at.strftime("%a"), self.clock(&at)),
            _ => format!("on {}", self.day(&at)),
        }
    }

    /// The day: `5 Jul`, with the year where it is another one.
    #[must_use]
    pub fn day(&self, at: &ZonedDateTime) -> String {
        let at = at.with_time_zone(self.now.time_zone().clone());
        if at.year() == self.now.year() { day_month(&at) } else { at.strftime("%-d %b %Y").to_string() }
    }

    /// `today`, `yesterday`, `tomorrow`, a weekday within the week, else the day.
    #[must_use]
    pub fn day_word(&self, at: &ZonedDateTime) -> String {
        let at = at.with_time_zone(self.now.time_zone().clone());
        match self.days_away(&at) {
            0 => "today".to_owned(),
            -1 => "yesterday".to_owned(),
            1 => "tomorrow".to_owned(),
            2..=6 => at.strftime("%A").to_string(),
            _ => self.day(&at),
        }
    }

    /// A full hour under the rule of hours: `15:00`, `3 pm`.
    #[must_use]
    pub fn full_hour(hour: u8, twelve: bool) -> String {
        if !twelve {
            return format!("{hour:02}:00");
        }
        let half = if hour < 12 { "am" } else { "pm" };
        format!("{}\u{202f}{half}", if hour.is_multiple_of(12) { 12 } else { hour % 12 })
    }

    /// The clock of the page's head: `15:10`, or with its day, `Sat 18 July, 15:10`.
    #[must_use]
    pub fn head(&self, with_day: bool) -> String {
        let clock = self.clock(&self.now);
        if with_day { format!("{}, {clock}", self.now.strftime("%a %-d %b")) } else { clock }
    }

    /// A forecast hour with its band, in seconds from now: 1 min, over 12 h away 5 min, over 3 days the day.
    #[must_use]
    pub fn band(&self, seconds: Band) -> Shown {
        let hours = seconds.median.abs() / 3600.0;
        let step = if hours > 12.0 { 300.0 } else { 60.0 };
        // Rounded on the clock, not on the distance: 15:10:40 and 40 minutes are 15:51, not 15:50.
        let start = self.now.timestamp().as_second() as f64 + f64::from(self.now.offset().seconds());
        let clock = |value: f64, round: fn(f64) -> f64| {
            let away = round((start + value) / step) * step - start;
            self.now.checked_add(Span::new().seconds(away as i64)).map_or_else(
                |_| "never".to_owned(),
                |at| if hours > 72.0 { self.day(&at) } else { self.time(&at) },
            )
        };
        Shown {
            middle: clock(seconds.median, f64::round),
            low: clock(seconds.low, f64::floor),
            high: clock(seconds.high, f64::ceil),
            unit: String::new(),
        }
    }

    fn days_away(&self, at: &ZonedDateTime) -> i64 {
        let days = at.date().since((jiff::Unit::Day, self.now.date())).map(|span| i64::from(span.get_days()));
        days.unwrap_or(i64::MAX)
    }
}

/// `4 Jul`
#[must_use]
pub fn day_month(at: &ZonedDateTime) -> String {
    at.strftime("%-d %b").to_string()
}

/// `Saturday 18 July`
#[must_use]
pub fn long_day(at: &ZonedDateTime) -> String {
    at.strftime("%A %-d %B").to_string()
}

/// Hours from the midnight before `now` to `at`, as the rule of hours counts them: half past one tomorrow is 25.5.
#[must_use]
pub fn hours_after_midnight(now: &ZonedDateTime, at: &ZonedDateTime) -> f64 {
    let seconds = at.timestamp().as_second() - now.timestamp().as_second();
    let today = f64::from(now.hour()) + f64::from(now.minute()) / 60.0 + f64::from(now.second()) / 3600.0;
    today + seconds as f64 / 3600.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str) -> ZonedDateTime {
        format!("{text}[Europe/Berlin]").parse().unwrap()
    }

    fn saturday() -> Moments {
        Moments::new(at("2026-07-18T15:10:00+02:00"), Clock::Hours24)
    }

    #[test]
    fn another_day_adds_its_name_and_a_far_one_is_a_day() {
        let rows = [
            ("2026-07-18T19:13:00+02:00", "19:13"),
            ("2026-07-17T18:40:00+02:00", "Fri 18:40"),
            ("2026-07-05T11:24:00+02:00", "5 Jul"),
            ("2025-12-05T11:24:00+01:00", "5 Dec 2025"),
        ];
        for (moment, wanted) in rows {
            assert_eq!(saturday().time(&at(moment)), wanted);
        }
        assert_eq!(saturday().when(&at("2026-07-18T19:13:00+02:00")), "at 19:13");
        assert_eq!(saturday().when(&at("2026-07-17T18:40:00+02:00")), "on Fri at 18:40");
        assert_eq!(saturday().when(&at("2026-07-05T11:24:00+02:00")), "on 5 Jul");
        let pm = Moments::new(at("2026-07-18T15:10:00+02:00"), Clock::Hours12);
        assert_eq!(pm.time(&at("2026-07-18T19:13:00+02:00")).replace('\u{202f}', " "), "7:13 pm");
    }

    #[test]
    fn a_band_of_hours_is_rounded_on_the_clock_and_outward() {
        let now = Moments::new(at("2026-07-18T15:10:40+02:00"), Clock::Hours24);
        let minutes = |low: f64, median: f64, high: f64| Band {
            median: median * 60.0,
            low: low * 60.0,
            high: high * 60.0,
        };
        let shown = now.band(minutes(180.0, 182.5, 190.5));
        assert_eq!(
            (shown.low.as_str(), shown.middle.as_str(), shown.high.as_str()),
            ("18:10", "18:13", "18:22")
        );
        let tomorrow = now.band(minutes(16.0 * 60.0, 17.0 * 60.0, 18.0 * 60.0));
        assert_eq!(tomorrow.between(), "between Sun 07:10 and Sun 09:15");
    }

    #[test]
    fn words_for_days() {
        assert_eq!(saturday().day_word(&at("2026-07-19T01:00:00+02:00")), "tomorrow");
        assert_eq!(saturday().day_word(&at("2026-07-23T01:00:00+02:00")), "Thursday");
        assert_eq!(saturday().head(true), "Sat 18 Jul, 15:10");
        assert_eq!(long_day(saturday().now()), "Saturday 18 July");
        assert_eq!(hours_after_midnight(saturday().now(), &at("2026-07-19T01:30:00+02:00")), 25.5);
    }
}
