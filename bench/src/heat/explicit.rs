//! Bricks by the plain explicit loop in C, `bench/heat/brick.c`.

use super::ours::worst;
use super::problem::{BRICKS, Brick};
use super::table::Side;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The loop, compiled.
pub(crate) struct Loop(PathBuf);

struct Outcome {
    seconds: f64,
    time_s: f64,
    steps: usize,
}

impl Loop {
    pub(crate) fn compile(root: &Path) -> Result<Self, String> {
        let here = std::env::current_exe().map_err(|problem| format!("this programme's place: {problem}"))?;
        let out = here.with_file_name("bench-heat-brick");
        let status = Command::new("cc")
            .args(["-O3", "-march=native", "-ffast-math", "bench/heat/brick.c", "-lm", "-o"])
            .arg(&out)
            .current_dir(root)
            .status()
            .map_err(|problem| format!("cc does not run: {problem}"))?;
        if status.success() { Ok(Self(out)) } else { Err(format!("cc ended with {status}")) }
    }

    /// Seconds in the freezer, two grids carried on to none: the error is of second order in the cell.
    pub(crate) fn carried_on(&self, brick: &Brick) -> Result<f64, String> {
        let (coarse, fine) = (self.run(brick, [12, 18, 24])?.time_s, self.run(brick, [18, 27, 36])?.time_s);
        Ok(fine + (fine - coarse) / (1.5 * 1.5 - 1.0))
    }

    /// The fastest grid that brings both bricks within the error.
    pub(crate) fn fastest(&self, references: &[f64], error: f64) -> Result<Option<Side>, String> {
        let mut best: Option<Side> = None;
        for cells in grids() {
            let mut seconds = [f64::INFINITY; BRICKS.len()];
            let mut outcomes = self.all(cells)?;
            let off = worst(outcomes.iter().map(|outcome| outcome.time_s), references);
            let first: f64 = outcomes.iter().map(|outcome| outcome.seconds).sum();
            if off > error || best.as_ref().is_some_and(|best| first > 2.0 * best.seconds) {
                continue;
            }
            let steps: usize = outcomes.iter().map(|outcome| outcome.steps).sum();
            for _ in 0..7 {
                for (least, outcome) in seconds.iter_mut().zip(&outcomes) {
                    *least = least.min(outcome.seconds);
                }
                outcomes = self.all(cells)?;
            }
            let seconds = seconds.iter().sum();
            if best.as_ref().is_none_or(|best| seconds < best.seconds) {
                let [x, y, z] = cells;
                let nodes = (x + 1) * (y + 1) * (z + 1);
                let told = format!("{x} × {y} × {z} cells an octant, {nodes} nodes, {steps} steps");
                best = Some(Side { seconds, off, told });
            }
        }
        Ok(best)
    }

    fn all(&self, cells: [usize; 3]) -> Result<Vec<Outcome>, String> {
        BRICKS.iter().map(|brick| self.run(brick, cells)).collect()
    }

    fn run(&self, brick: &Brick, cells: [usize; 3]) -> Result<Outcome, String> {
        let Brick { full_mm, start_c, medium_c, film, until_c } = brick;
        let numbers = full_mm.iter().chain([start_c, medium_c, film, until_c]).map(f64::to_string);
        let output = Command::new(&self.0)
            .args(numbers)
            .args(cells.map(|n| n.to_string()))
            .output()
            .map_err(|problem| format!("brick.c does not run: {problem}"))?;
        let said = String::from_utf8_lossy(&output.stdout);
        let found: Vec<f64> = said.split_whitespace().filter_map(|word| word.parse().ok()).collect();
        match found[..] {
            [seconds, time_s, steps] => Ok(Outcome { seconds, time_s, steps: steps as usize }),
            _ => Err(format!("brick.c said {said:?}, which is no answer")),
        }
    }
}

/// From cells as coarse as can be to three times what is needed, cubes and drawn out.
fn grids() -> impl Iterator<Item = [usize; 3]> {
    (3..=12).flat_map(|n| [[n, n, n], [n, n + n / 2, 2 * n], [n, 2 * n, 2 * n], [n, 2 * n, 3 * n]])
}
