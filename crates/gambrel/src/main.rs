//! The command line: parses, calls, prints.
//!
//! Exit 0 answered; 1 the program's own fault; 2 a form, a file or an argument that cannot be taken as it stands. Answers
//! go to standard output, everything else to standard error; with `--json` both are one JSON object on standard output.

mod arguments;
mod check;
mod compute;
mod demo;
mod export;
mod folder;
mod form;
mod import;
mod out;
mod papers;
mod serve;
mod tables;

use arguments::{Arguments, Command};
use clap::Parser;
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => return arguments::refused(&error),
    };
    match arguments.command {
        Command::Worth(ask) => compute::run(forms::Verb::Worth, &ask),
        Command::Cut(ask) => compute::run(forms::Verb::Cut, &ask),
        Command::Simulate(ask) => compute::run(forms::Verb::Simulate, &ask),
        Command::Properties(ask) => compute::run(forms::Verb::Properties, &ask),
        Command::Form(ask) => form::run(&ask),
        Command::Label(ask) => papers::labels(&ask),
        Command::Strip(ask) => papers::strip(&ask),
        Command::Demo(ask) => demo::run(&ask),
        Command::Serve(ask) => serve::run(&ask),
        Command::Check(ask) => check::run(&ask),
        Command::Export(ask) => export::run(&ask),
        Command::Import(ask) => import::run(&ask),
    }
    .unwrap_or_else(|fault| out::fault(&fault))
}
