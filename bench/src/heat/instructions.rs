//! Instructions an answer takes, counted by valgrind: they move only when the code or the compiler does, whatever else the
//! machine is busy with.

use super::ours;
use super::problem::{BRICKS, FAMILIES};
use super::{material, steak, told};
use heat::cook::typical;
use heat::{Settings, Work};
use std::path::Path;
use std::process::Command;

/// Cases that are counted: one of each family of slabs, a brick, and a steak through oven, sear and rest.
const CASES: [&str; 5] =
    ["slab-cooking", "slab-freezing", "slab-thawing", "brick-freezing", "steak-oven-sear-rest"];
/// Runs whose count less that of a single one is that of so many less one: setting up falls out.
const RUNS: u64 = 6;

/// A row a case: instructions of one run, its work, and instructions a node in a solve.
pub(crate) fn run(_root: &Path) -> Result<(), String> {
    println!(
        "{:24} {:>14} {:>8} {:>8} {:>8} {:>10}",
        "a run of", "instructions", "nodes", "steps", "solves", "a node"
    );
    for case in CASES {
        let each = (counted(case, RUNS)? - counted(case, 1)?) / (RUNS - 1);
        let Work { nodes, steps, solves, .. } = repeat(case, 1)?;
        // A solve is one line; the nodes of a step stand in as many solves as there are axes.
        let axes = if case.starts_with("slab") {
            1.0
        } else if case.starts_with("steak") {
            2.0
        } else {
            3.0
        };
        let tries = solves as f64 / solves_a_step(case);
        let a_node = each as f64 / (2.0 * tries * nodes as f64 * axes);
        println!("{case:24} {each:>14} {nodes:>8} {steps:>8} {solves:>8} {a_node:>10.0}");
    }
    Ok(())
}

/// Linear solves, one line of nodes each, in a step of the grid a case has.
fn solves_a_step(case: &str) -> f64 {
    match case {
        "brick-freezing" => 2.0 * 3.0 * 25.0,
        // Nine nodes through the thickness, five along the radius.
        "steak-oven-sear-rest" => 2.0 * (5.0 + 9.0),
        _ => 2.0,
    }
}

/// What valgrind counts while this programme runs a case so many times.
fn counted(case: &str, runs: u64) -> Result<u64, String> {
    let own = std::env::current_exe().map_err(|problem| problem.to_string())?;
    let out = Command::new("valgrind")
        .args(["--tool=cachegrind", "--cache-sim=no", "--cachegrind-out-file=/dev/null"])
        .arg(own)
        .args(["heat-one", case, &runs.to_string()])
        .output()
        .map_err(|problem| format!("valgrind does not run ({problem}); Debian has it as `valgrind`"))?;
    let said = String::from_utf8_lossy(&out.stderr);
    let line = said.lines().find(|line| line.contains("I refs:") || line.contains("I   refs:"));
    let digits = line.and_then(|line| line.rsplit(':').next()).unwrap_or("").replace(',', "");
    digits.trim().parse().map_err(|_| format!("valgrind counted nothing for {case}: {said}"))
}

/// Runs a case so many times; what `heat-one` does.
pub(crate) fn repeat(case: &str, runs: u64) -> Result<Work, String> {
    let settings = Settings { cells: 6, tolerance: 5e-3, colour: false, ..Settings::exact() };
    let slab = |family: usize| -> Result<Work, String> {
        let meat = material::meat().map_err(told)?;
        let case = FAMILIES[family].slabs[0].case(&meat);
        again(runs, || ours::run(&case, &settings).map(|found| found.work).map_err(told))
    };
    match case {
        "slab-cooking" => slab(0),
        "slab-freezing" => slab(1),
        "slab-thawing" => slab(2),
        "brick-freezing" => {
            let case = BRICKS[0].case(&material::meat().map_err(told)?);
            let settings = Settings { cells: 8, ..settings };
            again(runs, || ours::run(&case, &settings).map(|found| found.work).map_err(told))
        }
        "steak-oven-sear-rest" => {
            let question = steak().map_err(told)?;
            again(runs, || typical(&question, &question.settings()).map(|found| found.work).map_err(told))
        }
        _ => Err(format!("no case {case:?}; there are {}", CASES.join(", "))),
    }
}

fn again(runs: u64, mut run: impl FnMut() -> Result<Work, String>) -> Result<Work, String> {
    let mut last = Work::default();
    for _ in 0..runs {
        last = std::hint::black_box(run()?);
    }
    Ok(last)
}
