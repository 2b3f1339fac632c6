//! Before any heat: who sits where, which portions go in together, which turn each has at either place.

use crate::passes::{Turns, turns};
use crate::seats::Assignment;
use crate::{Portion, Table};
use quantity::Temperature;

/// Plates, rows and turns of one table.
#[derive(Clone, Debug)]
pub(crate) struct Layout {
    /// One a seat, in the order of the seats.
    pub(crate) plates: Vec<Seated>,
    /// What goes in together.
    pub(crate) rows: Vec<Together>,
    /// Turns on the hot place.
    pub(crate) passes: Turns,
    /// Turns in the low place.
    pub(crate) waves: Turns,
    /// Minutes before the hour at which each plate's sear begins.
    pub(crate) sear_min: Vec<f64>,
}

/// A portion and whom it is for.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Seated {
    pub(crate) portion: usize,
    pub(crate) row: usize,
}

/// Plates of one wish and one thickness.
#[derive(Clone, Debug)]
pub(crate) struct Together {
    pub(crate) wish: Temperature,
    pub(crate) plates: Vec<usize>,
    pub(crate) wave: usize,
    pub(crate) went_in_min: Option<f64>,
    pub(crate) pulled_min: Option<f64>,
}

/// Portions of one wish go in together while the thickest is at most this much thicker than the thinnest: 10 % of the
/// thickness is a fifth of the minutes at the most.
const ALIKE: f64 = 1.1;
/// Wishes this near are one wish, °C.
const SAME_WISH_C: f64 = 0.3;
/// Density of raw beef, kg/m³, and the usual footprint of a steak, m², for laying portions side by side only.
const DENSITY: f64 = 1050.0;
const USUAL_AREA_M2: f64 = 0.0115;

impl Layout {
    pub(crate) fn of(table: &Table, shared: &Assignment) -> Self {
        let portion = |plate: usize| &table.portions[shared.portion_of[plate]];
        let area: Vec<f64> = (0..table.seats.len()).map(|plate| area_m2(portion(plate))).collect();
        let order = order(table, shared);
        let passes = turns(&order, &area, table.hot.holds);
        let waves = turns(&order, &area, table.low.holds);
        let sear_min: Vec<f64> = passes.sear_before(&table.habits).iter().map(|span| span.min()).collect();

        let mut rows: Vec<Together> = Vec::new();
        let mut row_of = vec![0; order.len()];
        for &plate in &order {
            let own = Together {
                wish: table.seats[plate].wish,
                plates: vec![plate],
                wave: waves.of[plate],
                went_in_min: portion(plate).went_in.map(|span| span.min()),
                pulled_min: portion(plate).pulled.map(|span| span.min()),
            };
            let same = |row: &Together| row.takes(&own) && alike(portion(row.plates[0]), portion(plate));
            if let Some(place) = rows.iter().position(same) {
                rows[place].plates.push(plate);
                row_of[plate] = place;
            } else {
                row_of[plate] = rows.len();
                rows.push(own);
            }
        }
        let seated = |plate: usize| Seated { portion: shared.portion_of[plate], row: row_of[plate] };
        let plates = (0..table.seats.len()).map(seated).collect();
        Self { plates, rows, passes, waves, sear_min }
    }
}

impl Together {
    /// Whether it is in and out again: nothing is left to be sought.
    pub(crate) fn is_out(&self) -> bool {
        self.went_in_min.is_some() && self.pulled_min.is_some()
    }

    /// The plate that stands for the row: its portions are alike.
    pub(crate) fn middle(&self) -> usize {
        self.plates[self.plates.len() / 2]
    }

    fn takes(&self, other: &Self) -> bool {
        (self.wish.c() - other.wish.c()).abs() < SAME_WISH_C
            && self.wave == other.wave
            && self.went_in_min == other.went_in_min
            && self.pulled_min == other.pulled_min
    }
}

/// The most done first: they wait longest for the others, and lose least by it. Then the thinnest first.
fn order(table: &Table, shared: &Assignment) -> Vec<usize> {
    let thickness = |plate: usize| table.portions[shared.portion_of[plate]].thickness_m();
    let mut order: Vec<usize> = (0..table.seats.len()).collect();
    order.sort_by(|&a, &b| {
        let done = table.seats[b].wish.c().total_cmp(&table.seats[a].wish.c());
        done.then(thickness(a).total_cmp(&thickness(b))).then(a.cmp(&b))
    });
    order
}

/// The row is opened by its thinnest portion.
fn alike(thinnest: &Portion, other: &Portion) -> bool {
    other.thickness_m() <= thinnest.thickness_m() * ALIKE
}

fn area_m2(portion: &Portion) -> f64 {
    let (mass, thickness) = (portion.mass_kg(), portion.thickness_m());
    if mass > 0.0 && thickness > 0.0 { mass / (DENSITY * thickness) } else { USUAL_AREA_M2 }
}
