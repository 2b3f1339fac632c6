//! Developers' commands.
//!
//! - `cargo xtask check` sets up what is missing, then runs everything that must hold: format, lints, house rules, tests
//!   with the published checks, the pages in a browser, the handbook. `cargo xtask check house` runs one section.
//! - `cargo xtask shots` writes a picture of every page, phone and laptop, light and dark, into `target/shots`.
//! - `cargo xtask bench` runs the benches against their rivals.

// A developers' command speaks on standard output.
#![allow(clippy::print_stdout)]

mod bench;
mod browser;
mod check;
mod report;
mod setup;
mod workspace;

use std::process::ExitCode;

const USAGE: &str = "\
cargo xtask check [SECTION…]  everything that must hold, or one part of it: tools, format, lints, house, tests, pages, handbook
cargo xtask shots [PAGE…]     pictures of the pages into target/shots; a page is its name, such as `board`
cargo xtask bench [NAME…]     the benches, in release, beside their rivals: knife, journal, heat, pages
cargo xtask bench heat-random [--count N] [--seed S] [--minutes M]
                              random cases of heat against the laws, into bench/heat/random.txt; a million by default";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let done = match words.split_first() {
        Some((command, rest)) if command == "check" => check::run(rest),
        Some((command, rest)) if command == "shots" => browser::shots(rest),
        Some((command, rest)) if command == "bench" => bench::run(rest),
        _ => Err(USAGE.to_owned()),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{why}");
            ExitCode::FAILURE
        }
    }
}
