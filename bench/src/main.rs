//! The benches, each beside its rival: `cargo xtask bench [knife] [journal] [heat] [pages]`, all of them if none is named;
//! and `cargo xtask bench heat-random`, which holds a million random cases against the laws, by name alone.
//!
//! Times hang on the machine; the ratios are taken in one run, and the work (transitions, steps, solves) is pinned in the
//! tests. `BENCHMARKS.md` keeps what was measured, when and where. The product never builds this crate.

mod heat;
mod pages;

use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};

/// A name, and what runs under it.
type Bench = (&'static str, fn(&Path) -> Result<(), String>);

const BENCHES: &[Bench] = &[
    ("knife", knife),
    ("journal", journal),
    ("heat-slabs", heat::slabs),
    ("heat-bricks", heat::bricks),
    ("heat-ensembles", heat::ensembles),
    ("heat-instructions", heat::instructions::run),
    ("pages", pages::run),
];

fn main() -> ExitCode {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("..");
    let asked: Vec<String> = std::env::args().skip(1).collect();
    if let Some((name, words)) = asked.split_first() {
        let ran = match name.as_str() {
            "heat-random" => Some(heat::random::run(&root, words)),
            // One case over and over, for `heat-instructions` to count.
            "heat-one" => Some(one(words)),
            _ => None,
        };
        match ran {
            Some(Ok(())) => return ExitCode::SUCCESS,
            Some(Err(why)) => {
                eprintln!("{name}: {why}");
                return ExitCode::FAILURE;
            }
            None => {}
        }
    }
    let known: Vec<&str> = BENCHES.iter().map(|(name, _)| *name).collect();
    // `heat` asks for all that begins so.
    let asks = |asked: &str, name: &str| {
        name.strip_prefix(asked).is_some_and(|rest| rest.is_empty() || rest.starts_with('-'))
    };
    if let Some(name) = asked.iter().find(|asked| !known.iter().any(|name| asks(asked, name))) {
        eprintln!("no bench {name:?}; there are {}, heat-random", known.join(", "));
        return ExitCode::FAILURE;
    }
    let mut broken = 0;
    for (name, bench) in BENCHES {
        if asked.is_empty() || asked.iter().any(|asked| asks(asked, name)) {
            println!("\n── {name}");
            if let Err(why) = bench(&root) {
                eprintln!("{name}: {why}");
                broken += 1;
            }
        }
    }
    if broken == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

fn one(words: &[String]) -> Result<(), String> {
    let [case, runs] = words else { return Err("heat-one CASE RUNS".to_owned()) };
    let runs = runs.parse().map_err(|_| format!("{runs:?} is no number of runs"))?;
    heat::instructions::repeat(case, runs).map(|_| ())
}

/// Beside a numpy programme and HiGHS on the same problem.
fn knife(root: &Path) -> Result<(), String> {
    let python = root.join(".venv/bin/python");
    if !python.exists() {
        return Err(format!("{} is missing; `cargo xtask check tools` makes it", python.display()));
    }
    succeed(Command::new(python).arg("bench/knife_rivals.py").current_dir(root))
}

/// Beside SQLite's own commit with full sync.
fn journal(root: &Path) -> Result<(), String> {
    succeed(Command::new("cargo").args(["bench", "--quiet", "-p", "journal"]).current_dir(root))
}

fn succeed(command: &mut Command) -> Result<(), String> {
    let status = command.status().map_err(|problem| format!("{command:?} does not run: {problem}"))?;
    if status.success() { Ok(()) } else { Err(format!("{command:?} ended with {status}")) }
}
