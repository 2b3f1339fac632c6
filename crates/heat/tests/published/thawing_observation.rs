//! Thawing and freezing as measured, mostly told in abstracts without film or end point.
//!
//! Eastridge & Bowker (2011), J. Food Sci. 76(2), S156–S162: strip loin steaks, 18–20 h in air at 4 °C (published), one inch
//! (secondary, a newspaper). Known miss: 20 min at 20 °C and 11 min at 39 °C in moving water (published, end point not told):
//! conduction alone needs longer; kept. Yun et al. (2021), Food Sci. Anim. Resour. 41(6), 1012: freezing rates of pork loin
//! 0.26 to 1.42 cm/h from still air at −20 °C to 3 m/s at −40 °C (published). Strip steaks frozen at −40 °C and thawed four ways: lower
//! bounds only (published abstract). James & James, Meat Refrigeration, chapters 7 and 8: quarters, mutton and blocks (published).
//! thermal.toml, thawing_observation and freezing_observation.

use super::rows::{Fit, Row, check};
use band::{Band, Value};
use heat::cook::{Form, Question, StageQuestion, answer};
use heat::{Composition, Face, Faces, Meat, Overrides, Settings, Shape, Stage, Start, Until, simulate};
use quantity::{Length, Temperature};

fn steak(medium: &str, medium_c: f64, until: f64) -> band::Band {
    let mut question = Question::of_cut("beef-strip-loin", Form::Steak).unwrap();
    question.thickness_m = Value::Known(0.0254);
    question.start_c = Value::Range { low: -22.0, high: -16.0 };
    let mut stage = StageQuestion::new("thaw", medium, Until::Centre(Temperature::from_c(until)));
    stage.medium_c = Value::Known(medium_c);
    question.stages.push(stage);
    answer(&question, 128, 1).unwrap().stages[0].time_s.times(1.0 / 60.0)
}

/// Not a conductive time: see the head of this file.
const NO_CONDUCTION: &str = "end point and thickness are not told; no conduction is that fast";

fn thawing() -> Vec<Row> {
    let block = "thawing_observation";
    let row = |what: &str, unit, told: [f64; 2], ours: Band, fit| {
        Row::new(block, what, unit, "published", 0.0, 0.0, fit).told(told[0], told[1]).band(ours)
    };
    let fridge = steak("fridge", 4.0, 0.0).times(1.0 / 60.0);
    let water = |c: f64| steak("water-stirred", c, -1.0);
    let mut rows = vec![
        row("inch of strip loin, fridge at 4 °C", "h", [18.0, 20.0], fridge, Fit::Band),
        row("the same, moving water at 20 °C", "min", [20.0, 20.0], water(20.0), Fit::Band)
            .misses(NO_CONDUCTION),
        row("the same, moving water at 39 °C", "min", [11.0, 11.0], water(39.0), Fit::Band)
            .misses(NO_CONDUCTION),
    ];
    // What does not depend on the end point: the ratio of the two.
    let ratio = water(20.0).median / water(39.0).median;
    rows.push(Row::new(
        block,
        "water at 20 over 39 °C",
        "",
        "published",
        20.0 / 11.0,
        ratio,
        Fit::Share(0.15),
    ));
    for (what, medium, c, hours) in [
        ("vacuum-packed strip, fridge at 2 to 3 °C", "fridge", 2.5, 13.0),
        ("the same, cold water at 2 to 3 °C", "water-still", 2.5, 13.0),
        ("the same, counter at 20 °C", "counter", 20.0, 5.0),
        ("the same, water at 40 °C", "water-still", 40.0, 0.17),
    ] {
        let ours = steak(medium, c, -0.5).times(1.0 / 60.0);
        let told = row(what, "h", [hours, f64::INFINITY], ours, Fit::Band);
        let cold = "the bound is when a group was compared, not when it was through; cold water is faster than a fridge";
        let counter = "thickness is not told (an inch here), nor when it was through";
        rows.push(match medium {
            "water-still" if c < 10.0 => told.misses(cold),
            "counter" => told.misses(counter),
            _ => told,
        });
    }
    let (what, block_of) =
        ("block under 10 cm in still air below 15 °C, overnight (8 to 16 h)", block_of_meat());
    rows.push(row(what, "h", [8.0, 16.0], block_of, Fit::Band));
    rows
}

/// 5 to 10 cm, air of 10 to 15 °C; taken as a brick twice as wide and three times as long (assumed).
fn block_of_meat() -> Band {
    let mut question = Question::of_cut("beef-round", Form::Brick).unwrap();
    question.thickness_m = Value::Range { low: 0.05, high: 0.10 };
    question.width_m = Value::Known(0.15);
    question.length_m = Value::Known(0.25);
    question.start_c = Value::Range { low: -20.0, high: -10.0 };
    let mut stage = StageQuestion::new("air", "still-air", Until::Centre(Temperature::from_c(-0.5)));
    stage.medium_c = Value::Range { low: 10.0, high: 15.0 };
    question.stages.push(stage);
    answer(&question, 64, 1).unwrap().stages[0].time_s.times(1.0 / 3600.0)
}

fn frozen_through(sizes_m: [f64; 3], (from, air, film): (f64, f64, f64), to: f64) -> f64 {
    let lean = Composition { water: 0.70, protein: 0.20, fat: 0.09, carbohydrate: 0.0, ash: 0.01 };
    let meat = Meat::composed(lean, Overrides::default()).unwrap();
    let [thickness, width, length] = sizes_m.map(Length::from_m);
    let shape = Shape::Brick { thickness, width, length };
    let stage = Stage::new(
        "air",
        Faces::all(Face::film(Temperature::from_c(air), film)),
        Until::Centre(Temperature::from_c(to)),
    );
    let start = Start::Even(Temperature::from_c(from));
    simulate(&meat, &shape, &start, &[stage], &Settings::ensemble()).unwrap().time_s / 3600.0
}

fn freezing() -> Vec<Row> {
    let block = "freezing_observation";
    let row = |what: &str, unit, told: f64, ours: f64, fit| {
        Row::new(block, what, unit, "published", told, ours, fit)
    };
    let mut rows: Vec<Row> = Vec::new();
    for (what, told, ours) in [
        ("pork loin, still air at −20 °C (slab of 60 mm, film 7 assumed)", 0.26, rate(-20.0, 7.0)),
        ("pork loin, 3 m/s at −40 °C (slab of 60 mm, film 30 assumed)", 1.42, rate(-40.0, 30.0)),
    ] {
        rows.push(row(what, "cm/h", told, ours, Fit::Share(0.2)));
    }
    if let Some(still) = rows.first_mut() {
        still.miss = Some("neither thickness nor film is told: the order of magnitude is right");
    }
    // A hindquarter of 50 kg: 1.05 kg/l, taken as 190 × 330 × 750 mm, its round the thickest; film 12 at 1.5 m/s (assumed).
    let hind = frozen_through([0.19, 0.33, 0.75], (4.0, -32.0, 15.0), -7.0);
    rows.push(row(
        "hindquarter of 50 kg, −32 °C, 1.5 m/s: within 24 h (190 mm thick assumed)",
        "h",
        24.0,
        hind,
        Fit::Share(0.25),
    ));
    // A mutton carcass of 25 kg: legs of 130 mm (assumed), film 8 at 0.5 m/s.
    let mutton = frozen_through([0.13, 0.17, 0.5], (20.0, -20.0, 10.0), -7.0);
    rows.push(
        row("mutton, −20 °C, 0.5 m/s: within 24 h (legs of 130 mm assumed)", "h", 24.0, mutton, Fit::Told)
            .told(0.0, 24.0),
    );
    rows
}

pub(crate) fn rows() -> Vec<Row> {
    static ROWS: std::sync::LazyLock<Vec<Row>> = std::sync::LazyLock::new(compute);
    ROWS.clone()
}

fn compute() -> Vec<Row> {
    thawing().into_iter().chain(freezing()).collect()
}

#[test]
fn every_row() {
    check(&rows());
}

/// The nominal rate of the refrigeration institute (from memory): half the thickness over the time from the surface's 0 °C to
/// the middle's 10 K below freezing; for a loin taken as a slab of 60 mm (assumed).
fn rate(air_c: f64, film: f64) -> f64 {
    let pork = Composition { water: 0.73, protein: 0.22, fat: 0.04, carbohydrate: 0.0, ash: 0.01 };
    let meat = Meat::composed(pork, Overrides::default()).unwrap();
    let shape = Shape::Slab { thickness: Length::from_mm(60.0) };
    let faces = Faces::all(Face::film(Temperature::from_c(air_c), film));
    let to = |until| Stage::new("freeze", faces.clone(), until);
    let stages =
        [to(Until::Surface(Temperature::from_c(0.0))), to(Until::Centre(Temperature::from_c(-11.1)))];
    let start = Start::Even(Temperature::from_c(4.0));
    let found = simulate(&meat, &shape, &start, &stages, &Settings::exact()).unwrap();
    3.0 / (found.stages[1].time_s / 3600.0)
}
