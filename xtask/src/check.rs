//! Everything that must hold before a change is good.

use crate::report::Report;
use crate::workspace::cargo;
use crate::{browser, setup};

/// A name and what runs under it.
type Section = (&'static str, fn(&mut Report, &str));

/// In this order: what is quick and what the rest needs first.
const SECTIONS: &[Section] = &[
    ("tools", |report, name| report.step(name, setup::all)),
    ("format", |report, name| report.command(name, &mut cargo(&["fmt", "--all", "--check"]))),
    ("lints", |report, name| {
        let all = ["clippy", "--workspace", "--exclude", "bench", "--all-targets", "--", "-D", "warnings"];
        report.command(name, &mut cargo(&all));
    }),
    ("house", |report, name| {
        report.command(name, &mut cargo(&["test", "--package", "xtask", "--no-fail-fast"]));
    }),
    // One run for unit tests, laws, examples in the handbook and published checks; a broken test hides none behind it.
    ("tests", |report, name| {
        let all = ["test", "--workspace", "--exclude", "bench", "--exclude", "xtask", "--no-fail-fast"];
        report.command(name, &mut cargo(&all));
    }),
    ("pages", |report, name| match browser::check() {
        Ok(mut command) => report.command(name, &mut command),
        Err(why) => report.step(name, || Err(why)),
    }),
    ("handbook", |report, name| {
        let all = ["doc", "--workspace", "--exclude", "bench", "--no-deps"];
        report.command(name, cargo(&all).env("RUSTDOCFLAGS", "-D warnings"));
    }),
];

/// Runs the named sections, or all, also after one has broken, so that one run tells everything.
pub(crate) fn run(asked: &[String]) -> Result<(), String> {
    let known = |name: &&String| SECTIONS.iter().any(|(section, _)| section == name);
    if let Some(name) = asked.iter().find(|name| !known(name)) {
        let names: Vec<&str> = SECTIONS.iter().map(|(section, _)| *section).collect();
        return Err(format!("no section {name:?}; there are {}", names.join(", ")));
    }
    let mut report = Report::default();
    for (name, section) in SECTIONS {
        if asked.is_empty() || asked.iter().any(|asked| asked == name) {
            section(&mut report, name);
        }
    }
    report.close()
}
