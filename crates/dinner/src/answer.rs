//! The answer: rows, plates, chance, and what stands beside them. Every hour is a number of minutes before the plate.

use band::{Band, Input, Narrow};
use quantity::Temperature;

/// What starts when, so that all are on the plate at the hour.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Portions that go in together to one wish, the first to go in first.
    pub rows: Vec<Row>,
    /// One plate a seat, in the order of the seats.
    pub plates: Vec<Plate>,
    /// Portions nobody eats, by their place in the question.
    pub spare: Vec<usize>,
    /// The share of evenings in which every portion is pulled by the minute it is due.
    pub chance: f64,
    /// The wished chance.
    pub wished: f64,
    /// Passes on the hot place.
    pub passes: usize,
    /// Waves in the low place.
    pub waves: usize,
    /// Minutes between the first plate that could stand there and the last, over the evenings.
    pub finish_spread: Band,
    /// Minutes the longest waits between pull and sear, over the evenings.
    pub longest_hold: Band,
    /// What makes the width of the minute at which the last one is pulled, the largest first.
    pub narrow: Vec<Narrow>,
    /// What nobody gave: the priors that stood in.
    pub assumed: Vec<Input>,
}

/// Portions that go in together.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// The wished peak.
    pub wish: Temperature,
    /// Its plates, by their place in [`Plan::plates`].
    pub plates: Vec<usize>,
    /// Minutes before the hour at which they go in: a whole number.
    pub in_before: f64,
    /// Whether they are in already.
    pub is_in: bool,
    /// Whether they are out again: then pull number and peak are those of the first guess and say nothing.
    pub is_out: bool,
    /// The pull number: at this core they come out, and the sear and rest do the rest.
    pub pull: Temperature,
    /// Minutes before the hour at which the core of one of them stands at the pull number, over the evenings. `median` is
    /// the middle, `low` the later end (fewer minutes before), `high` the earlier.
    pub pulled_before: Band,
    /// The peak of the core on the plate, °C, over the evenings, pulled at the pull number.
    pub peak: Band,
    /// The wave in the low place, from 0.
    pub wave: usize,
    /// Minutes by which the last of them is pulled before it is due, evening by evening; below 0 it is late.
    pub slack: Vec<f64>,
}

/// One plate.
#[derive(Clone, Debug, PartialEq)]
pub struct Plate {
    /// The seat, by its place in the question.
    pub seat: usize,
    /// The portion, by its place in the question.
    pub portion: usize,
    /// Its row.
    pub row: usize,
    /// The pass on the hot place, from 0.
    pub pass: usize,
    /// Minutes before the hour at which its sear begins.
    pub sear_before: f64,
    /// Minutes before the hour at which its rest begins.
    pub rest_before: f64,
}

impl Plan {
    /// Minutes before the hour at which the first portion goes in.
    #[must_use]
    pub fn first_in(&self) -> f64 {
        self.rows.iter().map(|row| row.in_before).fold(0.0, f64::max)
    }

    /// Minutes before the hour at which the first sear begins.
    #[must_use]
    pub fn first_sear(&self) -> f64 {
        self.plates.iter().map(|plate| plate.sear_before).fold(0.0, f64::max)
    }

    /// The chance that is left if each row goes in later than planned by so many minutes: 10 for a step that was forgotten.
    #[must_use]
    pub fn chance_if_late(&self, late: &[f64]) -> f64 {
        let evenings = self.rows.iter().map(|row| row.slack.len()).min().unwrap_or(0);
        band::chance(
            (0..evenings)
                .map(|evening| self.rows.iter().zip(late).all(|(row, late)| row.slack[evening] >= *late)),
        )
    }

    /// Whether the wished chance is reached.
    #[must_use]
    pub fn is_reached(&self) -> bool {
        self.chance >= self.wished - 1e-9
    }

    /// The share of evenings in which some portion never comes to its pull number, however early it goes in.
    #[must_use]
    pub fn never(&self) -> f64 {
        let evenings = self.rows.iter().map(|row| row.slack.len()).min().unwrap_or(0);
        band::chance(
            (0..evenings).map(|evening| self.rows.iter().any(|row| row.slack[evening] == f64::NEG_INFINITY)),
        )
    }
}
