//! What a face sees: read from a stage or one of its faces, built for one member of the ensemble.

use super::fields as f;
use crate::read::Table;
use crate::unknown::{Number, Unknowns};
use band::{Instrument, Value};
use catalogue::{Drying, Law, Medium, MediumKind};
use heat::cook::{Opened, StageQuestion, humidity_from_wet_bulb};
use heat::{
    Course, Evaporation, Face, Faces, Moist, Reserve, Supply, Surroundings, Until, vapour_from_humidity,
    vapour_from_wet_bulb,
};
use quantity::{Span, Temperature};

/// Which face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    Top,
    Bottom,
    Sides,
    Ends,
}

/// A face as the form has it.
#[derive(Clone, Debug)]
pub(super) enum FaceDraft {
    Insulated,
    Fixed(CourseDraft),
    /// From numbers of the form alone.
    Own(OwnFace),
    /// From a medium of the catalogue: the question's stage of this place, its temperature perhaps a series.
    Catalogue {
        slot: usize,
        series: Option<Vec<(f64, f64)>>,
        plate: Option<Reserve>,
    },
}

/// A temperature over time: one number, or rows of seconds and °C.
#[derive(Clone, Debug)]
pub(super) enum CourseDraft {
    Steady(Number),
    Series(Vec<(f64, f64)>),
}

/// An open face of numbers.
#[derive(Clone, Debug)]
pub(super) struct OwnFace {
    course: CourseDraft,
    film: Number,
    emissivity: Number,
    evaporation: Drying,
    moisture: Option<Moisture>,
    plate: Option<Reserve>,
}

#[derive(Clone, Copy, Debug)]
enum Moisture {
    Relative(Number),
    WetBulb(Number),
}

/// What is gathered while stages are read.
pub(super) struct Gathered {
    pub(super) unknowns: Unknowns,
    /// Media of the catalogue, as stages of the ensemble's question; the pieces themselves follow the form.
    pub(super) slots: Vec<StageQuestion>,
    pub(super) cover_m2_k_w: f64,
    /// Of the stage at hand.
    pub(super) door: Option<Opened>,
    pub(super) longest: Span,
}

/// Reads a face's keys; `name` is the stage's, with the face where it is one.
pub(super) fn read(table: &Table<'_>, name: &str, gathered: &mut Gathered) -> Option<FaceDraft> {
    let medium = table.word(&f::MEDIUM).and_then(catalogue::medium);
    if table.word(&f::FILM).is_some() {
        return course(table, None, &mut gathered.unknowns).map(FaceDraft::Fixed);
    }
    match medium {
        Some(medium) if !table.exact() => catalogue_face(table, name, medium, gathered),
        _ => own_face(table, medium, &mut gathered.unknowns).map(FaceDraft::Own),
    }
}

/// A medium of the catalogue with what the form knows better.
fn catalogue_face(
    table: &Table<'_>,
    name: &str,
    medium: &Medium,
    gathered: &mut Gathered,
) -> Option<FaceDraft> {
    let series = table.pairs(&f::SERIES);
    let medium_c = match &series {
        Some(rows) => Value::Known(mean(rows)),
        None => table.given(&f::MEDIUM_C).value(1.0),
    };
    let mut humidity = table.given(&f::HUMIDITY).value(1.0);
    if let Some(wet) = table.given(&f::WET_BULB).middle().and_then(|wet| f64::try_from(wet).ok()) {
        let air = match medium_c {
            Value::Known(air) => air,
            Value::Range { low, high } => 0.5 * (low + high),
            Value::Unknown => {
                let message =
                    format!("{} needs the air's own temperature beside it", table.name(&f::WET_BULB));
                table.missing(&f::MEDIUM_C, &message);
                return None;
            }
        };
        humidity = Value::Known(humidity_from_wet_bulb(wet, air));
    }
    let mut stage = StageQuestion::new(name, medium.name.clone(), Until::Time(Span::from_s(0.0)));
    stage.medium_c = medium_c;
    stage.film_w_m2_k = table.given(&f::FILM).value(1.0);
    stage.emissivity = table.given(&f::EMISSIVITY).value(1.0);
    stage.humidity = humidity;
    stage.evaporation = table.word(&f::EVAPORATION).map(drying);
    stage.cover_m2_k_w = gathered.cover_m2_k_w;
    (stage.door, stage.at_most) = (gathered.door, gathered.longest);
    stage.until = Until::Time(gathered.longest);
    gathered.slots.push(stage);
    let slot = gathered.slots.len() - 1;
    Some(FaceDraft::Catalogue { slot, series: series.map(seconds), plate: plate(table) })
}

/// A face of the form's own numbers. A named medium gives what it knows without doubt, the rest has to be there.
fn own_face(table: &Table<'_>, medium: Option<&Medium>, unknowns: &mut Unknowns) -> Option<OwnFace> {
    let course = course(table, medium, unknowns);
    let film = unknowns.read(table, &f::FILM, Instrument::None, 1.0);
    if film.is_none() && !table.has(&f::FILM) {
        missing(table, &f::FILM, medium);
    }
    let sure = medium.and_then(|medium| match medium.emissivity.law {
        Law::Exact { value } => Some(value),
        _ => None,
    });
    let emissivity = unknowns.read(table, &f::EMISSIVITY, Instrument::None, 1.0);
    let emissivity = match (emissivity, medium, sure) {
        (Some(given), _, _) => Some(given),
        (None, None, _) => Some(Number::Fixed(0.0)),
        (None, Some(_), Some(sure)) => Some(Number::Fixed(sure)),
        (None, Some(_), None) => {
            missing(table, &f::EMISSIVITY, medium);
            None
        }
    };
    let evaporation = match (table.word(&f::EVAPORATION), medium) {
        (Some(word), _) => drying(word),
        (None, Some(medium)) => medium.evaporation,
        (None, None) => Drying::None,
    };
    let moisture = moisture(table, unknowns);
    if matches!(evaporation, Drying::Wet | Drying::Drying) && moisture.is_none() {
        if !table.has(&f::HUMIDITY) && !table.has(&f::WET_BULB) {
            missing(table, &f::HUMIDITY, medium);
        }
        return None;
    }
    Some(OwnFace {
        course: course?,
        film: film?,
        emissivity: emissivity?,
        evaporation,
        moisture,
        plate: plate(table),
    })
}

/// A plate that gives way, from the form's own numbers.
fn plate(table: &Table<'_>) -> Option<Reserve> {
    let plate = table.table(&f::PLATE)?;
    let number = |field| f64::try_from(plate.given(field).known()?).ok();
    Some(Reserve { capacity_j_m2_k: 1e3 * number(&f::HELD)?, recovery_w_m2_k: number(&f::RECOVERY)? })
}

fn missing(table: &Table<'_>, field: &crate::field::Field, medium: Option<&Medium>) {
    let key = table.name(field);
    let message = match medium {
        Some(medium) => format!(
            "{key} is missing: with --exact nothing is taken from what is usual of \"{}\"",
            medium.name
        ),
        None => format!("{key} is missing: without a medium of the catalogue its numbers are needed"),
    };
    table.missing(field, &message);
}

fn course(table: &Table<'_>, medium: Option<&Medium>, unknowns: &mut Unknowns) -> Option<CourseDraft> {
    if let Some(rows) = table.pairs(&f::SERIES) {
        return Some(CourseDraft::Series(seconds(rows)));
    }
    let number = unknowns.read(table, &f::MEDIUM_C, Instrument::Probe, 1.0);
    if number.is_none() && !table.has(&f::MEDIUM_C) && !table.has(&f::SERIES) {
        missing(table, &f::MEDIUM_C, medium);
    }
    number.map(CourseDraft::Steady)
}

fn moisture(table: &Table<'_>, unknowns: &mut Unknowns) -> Option<Moisture> {
    if table.has(&f::WET_BULB) {
        return unknowns.read(table, &f::WET_BULB, Instrument::None, 1.0).map(Moisture::WetBulb);
    }
    unknowns.read(table, &f::HUMIDITY, Instrument::None, 1.0).map(Moisture::Relative)
}

fn drying(word: &str) -> Drying {
    match word {
        "wet" => Drying::Wet,
        "drying" => Drying::Drying,
        _ => Drying::None,
    }
}

/// Minutes to seconds.
fn seconds(rows: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    rows.into_iter().map(|(minute, celsius)| (60.0 * minute, celsius)).collect()
}

fn mean(rows: &[(f64, f64)]) -> f64 {
    rows.iter().map(|(_, celsius)| celsius).sum::<f64>() / rows.len().max(1) as f64
}

impl FaceDraft {
    /// The face of one member. `catalogue` are the faces of the question's stages for it, `row` the form's own draws.
    pub(super) fn face(&self, row: &[f64], catalogue: &[Faces], side: Side, cover_m2_k_w: f64) -> Face {
        match self {
            Self::Insulated => Face::Insulated,
            Self::Fixed(course) => Face::Fixed(course.of(row)),
            Self::Own(own) => Face::Open(own.surroundings(row, cover_m2_k_w)),
            Self::Catalogue { slot, series, plate } => {
                let Some(faces) = catalogue.get(*slot) else { return Face::Insulated };
                let face = with_series(faces.one(side).clone(), series.as_deref());
                match (face, plate) {
                    // The air over a pan is no plate.
                    (Face::Open(around), Some(plate)) if around.reserve.is_some() || side == Side::Bottom => {
                        Face::Open(Surroundings { reserve: Some(*plate), ..around })
                    }
                    (face, _) => face,
                }
            }
        }
    }

    /// Whether its numbers are the form's own, so that what lies over the mantle is still to come.
    pub(super) const fn is_own(&self) -> bool {
        matches!(self, Self::Own(_))
    }

    /// Whether its medium warms from below, so that only its lower face touches it.
    pub(super) fn is_from_below(&self, slots: &[StageQuestion]) -> bool {
        let Self::Catalogue { slot, .. } = self else { return false };
        let medium = slots.get(*slot).and_then(|stage| catalogue::medium(&stage.medium));
        medium.is_some_and(|medium| medium.kind == MediumKind::Below)
    }
}

/// One of three faces.
pub(super) trait One {
    fn one(&self, side: Side) -> &Face;
}

impl One for Faces {
    fn one(&self, side: Side) -> &Face {
        match side {
            Side::Top => &self.top,
            Side::Bottom => &self.bottom,
            Side::Sides => &self.sides,
            Side::Ends => self.ends.as_ref().unwrap_or(&self.sides),
        }
    }
}

/// A steady medium made to follow a series; what the medium strayed from its mean, it strays all along.
pub(super) fn with_series(face: Face, series: Option<&[(f64, f64)]>) -> Face {
    match (face, series) {
        (Face::Open(mut around), Some(rows)) => {
            if let Course::Steady(drawn) = around.medium {
                let strayed = drawn.c() - mean(rows);
                let shifted: Vec<(f64, f64)> = rows.iter().map(|&(s, c)| (s, c + strayed)).collect();
                around.medium = CourseDraft::Series(shifted).of(&[]);
            }
            Face::Open(around)
        }
        (face, _) => face,
    }
}

impl CourseDraft {
    fn of(&self, row: &[f64]) -> Course {
        match self {
            Self::Steady(number) => Course::Steady(Temperature::from_c(number.of(row))),
            Self::Series(rows) => {
                Course::Series(rows.iter().map(|&(s, c)| (Span::from_s(s), Temperature::from_c(c))).collect())
            }
        }
    }

    fn middle_c(&self, row: &[f64]) -> f64 {
        match self {
            Self::Steady(number) => number.of(row),
            Self::Series(rows) => mean(rows),
        }
    }
}

impl OwnFace {
    fn surroundings(&self, row: &[f64], cover_m2_k_w: f64) -> Surroundings {
        let air_c = self.course.middle_c(row);
        let vapour_pa = match self.moisture {
            Some(Moisture::Relative(share)) => vapour_from_humidity(share.of(row), air_c),
            Some(Moisture::WetBulb(wet)) => vapour_from_wet_bulb(wet.of(row), air_c),
            None => 0.0,
        };
        // Nothing in the form says how much of the face is lean: all of it.
        let moist = Moist { vapour_pa, lean_share: 1.0 };
        let evaporation = match self.evaporation {
            Drying::None => Evaporation::None,
            // No water passes a wrap but by boiling.
            _ if cover_m2_k_w > 0.0 => Evaporation::BoilingOnly,
            Drying::Wet => Evaporation::Wet(moist),
            Drying::Drying => Evaporation::Drying(moist, Supply::USUAL),
            Drying::BoilingOnly => Evaporation::BoilingOnly,
        };
        Surroundings {
            emissivity: self.emissivity.of(row),
            cover_m2_k_w,
            evaporation,
            reserve: self.plate,
            ..Surroundings::plain(self.course.of(row), self.film.of(row))
        }
    }
}
