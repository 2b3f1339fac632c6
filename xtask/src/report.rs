//! Sections run one after the other, timed, counted, and summed up in one line.

use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};
use std::time::Instant;

/// What came of the sections so far.
#[derive(Default)]
pub(crate) struct Report {
    passed: u64,
    failed: u64,
    broken: Vec<String>,
}

/// Tests counted in one section's output.
#[derive(Default)]
struct Count {
    passed: u64,
    failed: u64,
}

impl Report {
    /// Runs a command as one section; its tests are counted, or itself as one where it has none.
    pub(crate) fn command(&mut self, name: &str, command: &mut Command) {
        self.section(name, || stream(command));
    }

    /// Runs a step that is no single command as one section.
    pub(crate) fn step(&mut self, name: &str, step: impl FnOnce() -> Result<(), String>) {
        self.section(name, || step().map(|()| (true, Count::default())));
    }

    fn section(&mut self, name: &str, run: impl FnOnce() -> Result<(bool, Count), String>) {
        println!("\n── {name} {}", "─".repeat(70_usize.saturating_sub(name.chars().count())));
        let began = Instant::now();
        let (held, count) = run().unwrap_or_else(|why| {
            println!("{why}");
            (false, Count::default())
        });
        let seconds = began.elapsed().as_secs_f64();
        println!("── {name}: {}, {seconds:.1} s", if held { "held" } else { "BROKEN" });
        self.passed += count.passed;
        self.failed += count.failed;
        if !held {
            self.broken.push(name.to_owned());
            self.failed += u64::from(count.failed == 0);
        } else if count.passed == 0 {
            self.passed += 1;
        }
    }

    /// The closing lines; an error names what did not hold.
    pub(crate) fn close(self) -> Result<(), String> {
        println!("\n{} passed, {} failed", self.passed, self.failed);
        if self.broken.is_empty() { Ok(()) } else { Err(format!("did not hold: {}", self.broken.join(", "))) }
    }
}

/// Runs a command, passing its output on line by line and counting its tests.
fn stream(command: &mut Command) -> Result<(bool, Count), String> {
    let named = format!("{command:?}").replace('"', "");
    println!("{named}");
    let missing = |error| format!("{named} does not run: {error}");
    let mut child = command.stdout(Stdio::piped()).spawn().map_err(missing)?;
    let mut count = Count::default();
    if let Some(output) = child.stdout.take() {
        for line in BufReader::new(output).lines() {
            let line = line.map_err(missing)?;
            println!("{line}");
            count.read(&line);
        }
    }
    let status = child.wait().map_err(missing)?;
    Ok((status.success(), count))
}

impl Count {
    /// Reads `test result: ok. 5 passed; 0 failed; …`.
    fn read(&mut self, line: &str) {
        let Some((_, told)) = line.split_once("test result:") else { return };
        for part in told.split([';', '.']) {
            let mut words = part.split_whitespace();
            let (Some(number), Some(what)) = (words.next(), words.next()) else { continue };
            match (number.parse::<u64>(), what) {
                (Ok(number), "passed") => self.passed += number,
                (Ok(number), "failed") => self.failed += number,
                _ => {}
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_what_the_test_runner_says() {
        let mut count = Count::default();
        count.read(
            "test result: ok. 28 passed; 0 failed; 1 ignored; 0 measured; 0 filtered out; finished in 8.20s",
        );
        count.read("test result: FAILED. 3 passed; 2 failed; 0 ignored; 0 measured; 0 filtered out");
        count.read("test a_label_keeps_all_its_ink ... ok");
        assert_eq!((count.passed, count.failed), (31, 2));
    }

    #[test]
    fn a_section_that_breaks_is_named_and_counted_once() {
        let mut report = Report::default();
        report.step("format", || Ok(()));
        report.step("lints", || Err("one warning".into()));
        assert_eq!((report.passed, report.failed), (1, 1));
        assert_eq!(report.close(), Err("did not hold: lints".into()));
    }
}
