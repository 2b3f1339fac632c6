//! scipy and numpy, by `bench/heat/slabs.py`.

use super::problem::{COOK_HALF_M, COOK_UNTIL_C, Cook, Family, Slab};
use super::table::Side;
use std::fmt::Write as _;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Stdio};

/// Seconds until the rule is met, on two fine grids with a tight tolerance.
pub(crate) fn tight(root: &Path, slabs: &[Slab]) -> Result<Vec<f64>, String> {
    let question: String = slabs.iter().map(|slab| format!("tight\n{}\n", numbers(slab))).collect();
    let answers = ask(root, &question)?;
    if answers.len() != slabs.len() {
        return Err(format!("slabs.py gave {} answers to {} questions", answers.len(), slabs.len()));
    }
    Ok(answers.into_iter().map(|answer| answer.seconds).collect())
}

/// The fastest setting of scipy on a family.
pub(crate) fn scipy(root: &Path, family: &Family, references: &[f64]) -> Result<Option<Side>, String> {
    let mut question = format!("slabs {} {}\n", family.error, family.slabs.len());
    for (slab, reference) in family.slabs.iter().zip(references) {
        let _ = writeln!(question, "{} {reference}", numbers(slab));
    }
    Ok(ask(root, &question)?.pop().filter(|side| side.seconds.is_finite()))
}

/// The fastest way of numpy, all members at once.
pub(crate) fn numpy(
    root: &Path,
    cooks: &[Cook],
    references: &[f64],
    error: f64,
) -> Result<Option<Side>, String> {
    let mut question = format!("cooks {COOK_HALF_M} {COOK_UNTIL_C} {error} {}\n", cooks.len());
    for (Cook { start_c, medium_c, film, factor }, reference) in cooks.iter().zip(references) {
        let _ = writeln!(question, "{start_c} {medium_c} {film} {factor} {reference}");
    }
    Ok(ask(root, &question)?.pop().filter(|side| side.seconds.is_finite()))
}

fn numbers(Slab { half_m, start_c, medium_c, film, until_c }: &Slab) -> String {
    format!("{half_m} {start_c} {medium_c} {film} {until_c}")
}

fn ask(root: &Path, question: &str) -> Result<Vec<Side>, String> {
    let python = root.join(".venv/bin/python");
    if !python.exists() {
        return Err(format!("{} is missing; `cargo xtask check tools` makes it", python.display()));
    }
    let mut child = Command::new(&python)
        .arg("bench/heat/slabs.py")
        .current_dir(root)
        // One core, as ours has; numpy would not use a second here anyway.
        .env("OMP_NUM_THREADS", "1")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .map_err(|problem| format!("{} does not run: {problem}", python.display()))?;
    let mut input = child.stdin.take().ok_or("slabs.py has no input")?;
    input.write_all(question.as_bytes()).map_err(|problem| format!("slabs.py does not read: {problem}"))?;
    drop(input);
    let output = child.wait_with_output().map_err(|problem| format!("slabs.py: {problem}"))?;
    if !output.status.success() {
        return Err(format!("slabs.py ended with {}", output.status));
    }
    String::from_utf8_lossy(&output.stdout).lines().map(answer).collect()
}

fn answer(line: &str) -> Result<Side, String> {
    let words: Vec<&str> = line.split('\t').collect();
    let number = |i: usize| words.get(i).and_then(|word: &&str| word.parse::<f64>().ok());
    match (number(1), number(2), words.get(3)) {
        (Some(seconds), Some(off), Some(told)) => Ok(Side { seconds, off, told: (*told).to_owned() }),
        _ => Err(format!("slabs.py said {line:?}, which is no answer")),
    }
}
