//! Our side: converged references, and the fastest setting within the error.

use super::problem::Case;
use super::table::Side;
use heat::{HeatError, History, Settings, Work, simulate};
use rayon::prelude::*;
use std::time::{Duration, Instant};

const CELLS: [usize; 12] = [3, 4, 5, 6, 7, 8, 10, 12, 14, 16, 20, 24];
const TOLERANCES: [f64; 12] = [2e-2, 1e-2, 7e-3, 5e-3, 3e-3, 2e-3, 1e-3, 5e-4, 3e-4, 2e-4, 1e-4, 5e-5];

fn settings(cells: usize, tolerance: f64) -> Settings {
    Settings { cells, tolerance, colour: false, ..Settings::exact() }
}

/// One answer.
pub(crate) fn run(case: &Case, settings: &Settings) -> Result<History, HeatError> {
    simulate(&case.meat, &case.shape, &case.start, &case.stages, settings)
}

/// Seconds until the rule is met, on `cells` and with a small error a step.
pub(crate) fn reference(case: &Case, cells: usize, tolerance: f64) -> Result<f64, String> {
    run(case, &settings(cells, tolerance)).map(|found| found.time_s).map_err(|problem| problem.to_string())
}

/// The fastest setting that brings every case within the error, one case after the other.
pub(crate) fn fastest(cases: &[Case], references: &[f64], error: f64) -> Option<Side> {
    search(references, error, |settings| cases.iter().map(|case| run(case, settings)).collect())
}

/// The same with the cases spread over the cores.
pub(crate) fn fastest_together(cases: &[Case], references: &[f64], error: f64) -> Option<Side> {
    search(references, error, |settings| cases.par_iter().map(|case| run(case, settings)).collect())
}

fn search(
    references: &[f64],
    error: f64,
    run: impl Fn(&Settings) -> Result<Vec<History>, HeatError>,
) -> Option<Side> {
    let mut best: Option<Side> = None;
    for cells in CELLS {
        for tolerance in TOLERANCES {
            let settings = settings(cells, tolerance);
            let Ok(found) = run(&settings) else { continue };
            let off = worst(found.iter().map(|history| history.time_s), references);
            if off > error {
                continue;
            }
            let seconds = least(Duration::from_millis(30), || run(&settings));
            if best.as_ref().is_none_or(|best| seconds < best.seconds) {
                let told = format!("{cells} cells, {tolerance:.0e} a step: {}", work(&found));
                best = Some(Side { seconds, off, told });
            }
        }
    }
    best
}

/// The largest of the relative distances.
pub(crate) fn worst(found: impl Iterator<Item = f64>, references: &[f64]) -> f64 {
    found.zip(references).map(|(found, reference)| (found / reference - 1.0).abs()).fold(0.0, f64::max)
}

/// The least of many runs, s: what the machine can do when nobody disturbs it.
pub(crate) fn least<T>(budget: Duration, mut run: impl FnMut() -> T) -> f64 {
    let from = Instant::now();
    let mut least = f64::INFINITY;
    let mut count = 0;
    while count < 5 || from.elapsed() < budget {
        let before = Instant::now();
        std::hint::black_box(run());
        least = least.min(before.elapsed().as_secs_f64());
        count += 1;
    }
    least
}

fn work(found: &[History]) -> String {
    let mut all = Work::default();
    for Work { nodes, steps, rejected, solves } in found.iter().map(|history| history.work) {
        all.nodes = all.nodes.max(nodes);
        all.steps += steps;
        all.rejected += rejected;
        all.solves += solves;
    }
    format!("{} nodes, {} steps, {} rejected, {} solves", all.nodes, all.steps, all.rejected, all.solves)
}
