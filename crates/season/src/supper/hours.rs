//! The plan on the clock: hours of day from minutes before the plate.

use super::SupperAsked;
use band::Band;
use dinner::{Plan, Row};
use jiff::{SignedDuration, ZonedDateTime};
use record::{Portion, Supper};
use std::sync::Arc;

/// A supper's plan, on the kitchen's clock.
#[derive(Clone, Debug)]
pub struct SupperPlan<'s> {
    /// The supper.
    pub supper: &'s Supper,
    /// What was asked.
    pub asked: SupperAsked<'s>,
    /// What was answered: rows, plates, chance, in minutes before the hour.
    pub plan: Arc<Plan>,
    /// The hour all eat.
    pub serve: ZonedDateTime,
    now: ZonedDateTime,
}

/// How late a step is, where the cost of a late step is named, min.
pub const LATE_MIN: f64 = 10.0;
/// Less than this is no reason to move a supper: 256 evenings do not know a chance much better.
const LITTLE: f64 = 0.05;
/// Minutes a low place is given to be hot through before the first portion goes in (common practice; ovens differ, and a
/// place that is not hot yet is outside every forecast).
const HEATS_UP_MIN: f64 = 25.0;

impl<'s> SupperPlan<'s> {
    pub(super) fn new(
        supper: &'s Supper,
        asked: SupperAsked<'s>,
        plan: Arc<Plan>,
        now: &ZonedDateTime,
    ) -> Self {
        let serve = supper.planned.serve.at.in_zone(now.time_zone());
        Self { supper, asked, plan, serve, now: now.clone() }
    }

    /// The hour so many minutes before the plate.
    #[must_use]
    pub fn at(&self, before_min: f64) -> ZonedDateTime {
        let seconds = SignedDuration::from_secs((before_min * 60.0).round() as i64);
        self.serve.checked_sub(seconds).unwrap_or_else(|_| self.serve.clone())
    }

    /// A band of hours in seconds from now, from a band of minutes before the plate: its ends change places.
    #[must_use]
    pub fn from_now(&self, before_min: Band) -> Band {
        let left = self.left_min() * 60.0;
        let seconds = |before: f64| left - before * 60.0;
        Band {
            median: seconds(before_min.median),
            low: seconds(before_min.high),
            high: seconds(before_min.low),
        }
    }

    /// When the low place is switched on.
    #[must_use]
    pub fn low_on(&self) -> ZonedDateTime {
        self.at(self.plan.first_in() + HEATS_UP_MIN)
    }

    /// When the first portion goes in, or went in.
    #[must_use]
    pub fn first_in(&self) -> ZonedDateTime {
        self.at(self.plan.first_in())
    }

    /// Whether anything is in already.
    #[must_use]
    pub fn has_begun(&self) -> bool {
        self.plan.rows.iter().any(|row| row.is_in)
    }

    /// The portions of a row, by place.
    #[must_use]
    pub fn portions_of(&self, row: &Row) -> Vec<&'s Portion> {
        let mut portions: Vec<&Portion> =
            row.plates.iter().map(|&plate| self.portion(self.plan.plates[plate].portion)).collect();
        portions.sort_by_key(|portion| (portion.word, portion.n));
        portions
    }

    /// The portion at a place of the question.
    #[must_use]
    pub fn portion(&self, place: usize) -> &'s Portion {
        self.asked.portions[place]
    }

    /// Minutes by which each row's start lies in the past without being written down; 0 where it does not.
    #[must_use]
    pub fn overdue_min(&self) -> Vec<f64> {
        let left = self.left_min();
        let of = |row: &Row| if row.is_in { 0.0 } else { (row.in_before - left).max(0.0) };
        self.plan.rows.iter().map(of).collect()
    }

    /// The chance for the hour if everything that is overdue goes in now.
    #[must_use]
    pub fn chance_now(&self) -> f64 {
        self.plan.chance_if_late(&self.overdue_min())
    }

    /// The soonest hour that has the wished chance again, where the asked one has lost it; whole five minutes.
    #[must_use]
    pub fn earliest(&self) -> Option<ZonedDateTime> {
        let late = self.overdue_min().into_iter().fold(0.0, f64::max);
        if late <= 0.0 || self.chance_now() >= self.plan.wished - LITTLE {
            return None;
        }
        let seconds = SignedDuration::from_mins((late / 5.0).ceil() as i64 * 5);
        self.serve.checked_add(seconds).ok()
    }

    /// The chance for all if one row goes in [`LATE_MIN`] later than planned.
    #[must_use]
    pub fn chance_if_late(&self, row: usize) -> f64 {
        let late = |place| if place == row { LATE_MIN } else { 0.0 };
        self.plan.chance_if_late(&(0..self.plan.rows.len()).map(late).collect::<Vec<_>>())
    }

    /// Whether the hour is over.
    #[must_use]
    pub fn is_past(&self) -> bool {
        self.left_min() < 0.0
    }

    /// Minutes from now to the plate; below 0 once the hour is over.
    #[must_use]
    pub fn left_min(&self) -> f64 {
        self.serve.timestamp().duration_since(self.now.timestamp()).as_secs_f64() / 60.0
    }
}
