//! Heat beside its rivals, each at its fastest setting within the same error of the time.
//!
//! A row is a family of problems which one setting has to bring within the error. References are our own, on four times the
//! grid of one answer with a small error a step, and have to agree with another programme's carried on to no cell at all.

mod explicit;
mod general;
pub(crate) mod instructions;
mod material;
mod ours;
mod problem;
mod python;
pub(crate) mod random;
mod table;

use band::Value;
use explicit::Loop;
use heat::cook::{Form, Question, StageQuestion, answer};
use heat::{Constants, HeatError, Until};
use problem::{BRICKS, Case, FAMILIES, cooks};
use quantity::{Span, Temperature};
use std::path::Path;
use std::time::Duration;
use table::print;

/// One slab at a time, on one core.
pub(crate) fn slabs(root: &Path) -> Result<(), String> {
    let meat = material::meat().map_err(told)?;
    println!("Times are the least of many runs. `off` is the largest error of a time. One core unless said.");
    for family in FAMILIES {
        let cases: Vec<Case> = family.slabs.iter().map(|slab| slab.case(&meat)).collect();
        let references = converged(&cases, 96, 2e-6)?;
        let apart = ours::worst(references.iter().copied(), &python::tight(root, &family.slabs)?);
        let ours = ours::fastest(&cases, &references, family.error);
        let (general, shipped) = general::fastest(family, &references);
        let scipy = python::scipy(root, family, &references)?;
        let [over_general, over_scipy] = family.aims;
        let head = format!("{}, {} %", family.name, 100.0 * family.error);
        print(&head, ours.as_ref(), &[("diffsol", general, over_general), ("scipy", scipy, over_scipy)]);
        println!("  {shipped}; our reference and scipy's are {:.4} % apart", 100.0 * apart);
    }
    Ok(())
}

/// Two bricks beside the loop in C.
pub(crate) fn bricks(root: &Path) -> Result<(), String> {
    let meat = material::meat().map_err(told)?;
    let cases: Vec<Case> = BRICKS.iter().map(|brick| brick.case(&meat)).collect();
    let explicit = Loop::compile(root)?;
    let references = converged(&cases, 96, 5e-5)?;
    let others = BRICKS.iter().map(|brick| explicit.carried_on(brick)).collect::<Result<Vec<_>, _>>()?;
    let apart = ours::worst(references.iter().copied(), &others);
    let ours = ours::fastest(&cases, &references, 1e-3);
    let rival = explicit.fastest(&references, 1e-3)?;
    print("two bricks, freezing, 0.1 %", ours.as_ref(), &[("C loop", rival, 5.0)]);
    println!("  our reference and the loop's carried on are {:.4} % apart", 100.0 * apart);
    Ok(())
}

/// Many members at once.
pub(crate) fn ensembles(root: &Path) -> Result<(), String> {
    cooks_together(root)?;
    banded()
}

/// 256 slab cooks, each of its own film, medium, start and conductivity.
fn cooks_together(root: &Path) -> Result<(), String> {
    let thawed = Constants {
        conductivity_w_m_k: material::conductivity(20.0),
        specific_heat_j_kg_k: material::ABOVE / material::DENSITY,
        density_kg_m3: material::DENSITY,
    };
    let members = cooks(256);
    let cases: Vec<Case> =
        members.iter().map(|cook| cook.case(thawed)).collect::<Result<_, _>>().map_err(told)?;
    let references = converged(&cases, 96, 2e-6)?;
    let alone = ours::fastest(&cases, &references, 5e-4);
    let ours = ours::fastest_together(&cases, &references, 5e-4);
    let rival = python::numpy(root, &members, &references, 5e-4)?;
    print("256 slab cooks, 0.05 %, ours on all cores", ours.as_ref(), &[("numpy", rival, 12.0)]);
    if let Some(alone) = alone {
        // numpy keeps to one; beside others on the machine this is the steadier figure.
        println!(
            "  ours on one core {:.1} µs  off {:.4} %  {}",
            1e6 * alone.seconds,
            100.0 * alone.off,
            alone.told
        );
    }
    Ok(())
}

/// 256 steaks through oven, sear and rest, as a question with bands.
fn banded() -> Result<(), String> {
    let question = steak().map_err(told)?;
    let seconds = ours::least(Duration::from_millis(1500), || answer(&question, 256, 1));
    let banded = answer(&question, 256, 1).map_err(told)?;
    let minutes = banded.time_s.times(1.0 / 60.0);
    let aim = 20e-3;
    println!("\n256 banded steaks, oven, sear, rest, all cores");
    println!(
        "  {:.1} ms; aim {:.0} ms: {}; {:.0} min ({:.0} to {:.0})",
        1e3 * seconds,
        1e3 * aim,
        if seconds <= aim { "met" } else { "MISSED" },
        minutes.median,
        minutes.low,
        minutes.high
    );
    Ok(())
}

fn steak() -> Result<Question, HeatError> {
    let mut question = Question::of_cut("beef-strip-loin", Form::Steak)?;
    question.thickness_m = Value::Known(0.038);
    question.mass_kg = Value::Known(0.45);
    question.start_c = Value::Known(4.0);
    let mut oven = StageQuestion::new("oven", "oven", Until::Centre(Temperature::from_c(48.0)));
    oven.medium_c = Value::Known(121.0);
    let mut sear = StageQuestion::new("sear", "pan", Until::Time(Span::from_s(90.0)));
    sear.flip_every = Some(Span::from_s(45.0));
    let rest = StageQuestion::new("rest", "rest", Until::Time(Span::from_min(8.0)));
    question.stages = vec![oven, sear, rest];
    Ok(question)
}

/// Seconds until each rule is met, converged.
fn converged(cases: &[Case], cells: usize, tolerance: f64) -> Result<Vec<f64>, String> {
    cases.iter().map(|case| ours::reference(case, cells, tolerance)).collect()
}

fn told(problem: HeatError) -> String {
    problem.to_string()
}
