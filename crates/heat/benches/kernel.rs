//! What an answer costs, in microseconds: `cargo bench -p heat`. Work is pinned in the tests; these are the times.

#![allow(clippy::print_stdout, reason = "a bench prints")]

use band::Value;
use heat::cook::{Form, Question, StageQuestion, answer, typical};
use heat::{
    Composition, Face, Faces, Footprint, HeatError, Meat, Overrides, Settings, Shape, Stage, Start, Until,
    Work, simulate,
};
use quantity::{Length, Mass, Span, Temperature};
use std::time::{Duration, Instant};

fn main() -> Result<(), HeatError> {
    slab("slab, freezing, one answer", 4.0, -25.0, 25.0, -18.0, &Settings::exact())?;
    slab("slab, freezing, a member", 4.0, -25.0, 25.0, -18.0, &Settings::ensemble())?;
    slab("slab, thawing, one answer", -18.0, 20.0, 200.0, 0.0, &Settings::exact())?;
    slab("slab, thawing, a member", -18.0, 20.0, 200.0, 0.0, &Settings::ensemble())?;
    slab("slab, in a bath, a member", 4.0, 56.0, 150.0, 55.0, &Settings::ensemble())?;
    steak("steak in an oven, one answer", &Settings::exact())?;
    steak("steak in an oven, a member", &Settings::ensemble())?;
    brick()?;
    banded()
}

fn c(celsius: f64) -> Temperature {
    Temperature::from_c(celsius)
}

fn lean() -> Result<Meat, HeatError> {
    let shares = Composition { water: 0.72, protein: 0.22, fat: 0.05, carbohydrate: 0.0, ash: 0.01 };
    Meat::composed(shares, Overrides::default())
}

/// The least of many runs: what the machine can do when nobody disturbs it.
fn time<T>(
    what: &str,
    mut run: impl FnMut() -> Result<T, HeatError>,
    told: impl Fn(&T) -> String,
) -> Result<(), HeatError> {
    let from = Instant::now();
    let mut last = run()?;
    let mut least = from.elapsed();
    while from.elapsed() < Duration::from_millis(400) {
        let before = Instant::now();
        last = run()?;
        least = least.min(before.elapsed());
    }
    println!("{what:34} {:9.1} µs   {}", 1e6 * least.as_secs_f64(), told(&last));
    Ok(())
}

fn work(work: &Work) -> String {
    let Work { nodes, steps, rejected, solves } = work;
    format!("{nodes} nodes, {steps} steps, {rejected} rejected, {solves} solves")
}

fn slab(
    what: &str,
    start: f64,
    medium: f64,
    film: f64,
    until: f64,
    settings: &Settings,
) -> Result<(), HeatError> {
    let meat = lean()?;
    let shape = Shape::Slab { thickness: Length::from_mm(25.0) };
    let stage = [Stage::new("slab", Faces::all(Face::film(c(medium), film)), Until::Centre(c(until)))];
    let run = || simulate(&meat, &shape, &Start::Even(c(start)), &stage, settings);
    time(what, run, |history| work(&history.work))
}

fn steak(what: &str, settings: &Settings) -> Result<(), HeatError> {
    let meat = lean()?;
    let shape =
        Shape::Steak { thickness: Length::from_mm(38.0), footprint: Footprint::Mass(Mass::from_g(450.0)) };
    let stage = [Stage::new("oven", Faces::all(Face::film(c(110.0), 15.0)), Until::Centre(c(52.0)))];
    let run = || simulate(&meat, &shape, &Start::Even(c(4.0)), &stage, settings);
    time(what, run, |history| work(&history.work))
}

fn brick() -> Result<(), HeatError> {
    let meat = lean()?;
    let mm = Length::from_mm;
    let shape = Shape::Brick { thickness: mm(40.0), width: mm(120.0), length: mm(160.0) };
    let stage = [Stage::new("blast", Faces::all(Face::film(c(-30.0), 40.0)), Until::Centre(c(-10.0)))];
    let run = || simulate(&meat, &shape, &Start::Even(c(10.0)), &stage, &Settings::ensemble());
    time("brick, freezing, a member", run, |history| work(&history.work))
}

/// 256 steaks through oven, sear and rest.
fn banded() -> Result<(), HeatError> {
    let mut question = Question::of_cut("beef-strip-loin", Form::Steak)?;
    question.thickness_m = Value::Known(0.038);
    question.mass_kg = Value::Known(0.45);
    question.start_c = Value::Known(4.0);
    let mut oven = StageQuestion::new("oven", "oven", Until::Centre(c(48.0)));
    oven.medium_c = Value::Known(121.0);
    let mut sear = StageQuestion::new("sear", "pan", Until::Time(Span::from_s(90.0)));
    sear.flip_every = Some(Span::from_s(45.0));
    let rest = StageQuestion::new("rest", "rest", Until::Time(Span::from_min(8.0)));
    question.stages = vec![oven, sear, rest];
    let one = || typical(&question, &question.settings());
    time("oven, sear, rest, a member", one, |history| work(&history.work))?;
    let run = || answer(&question, 256, 1);
    time("256 steaks, oven, sear, rest", run, |banded| {
        let minutes = banded.time_s.times(1.0 / 60.0);
        format!("{:.0} min ({:.0} to {:.0})", minutes.median, minutes.low, minutes.high)
    })
}
