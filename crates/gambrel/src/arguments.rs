//! What may be typed.

use crate::check::CheckAsk;
use crate::demo::DemoAsk;
use crate::export::ExportAsk;
use crate::import::ImportAsk;
use crate::out;
use crate::papers::{LabelAsk, StripAsk};
use crate::serve::ServeAsk;
use clap::{Args, Parser, Subcommand, ValueEnum};
use forms::Verb;
use std::process::ExitCode;

/// A whole piece of beef, from the case to the plate: plan the knife, account for every gram and cent, freeze, find,
/// thaw, salt and cook for a dinner hour.
#[derive(Debug, Parser)]
#[command(name = "gambrel", version, arg_required_else_help = true)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    pub(crate) command: Command,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    #[command(about = Verb::Worth.about())]
    Worth(Ask),
    #[command(about = Verb::Cut.about())]
    Cut(Ask),
    #[command(about = Verb::Simulate.about())]
    Simulate(Ask),
    #[command(about = Verb::Properties.about())]
    Properties(Ask),
    /// Print a form: complete, with a comment beside each key; it runs as it stands
    Form(Form),
    /// Print labels of packs, with their codes, as a PDF at true size
    Label(LabelAsk),
    /// Print the marking strip of a piece, or of a form of `cut`, as a PDF at 1:1
    Strip(StripAsk),
    /// Open an invented season around the present hour, in a record of its own, until Ctrl-C
    Demo(DemoAsk),
    /// Open your own kitchen: its pages and its record, until Ctrl-C
    Serve(ServeAsk),
    /// Read the record through: its chain, its grams, what would not open; exit 0 only where all is well
    Check(CheckAsk),
    /// Write the record out: its entries to the byte, or a table of what follows from them
    Export(ExportAsk),
    /// Write entries of a file into the record, all of them or none
    Import(ImportAsk),
}

/// A question put by a form.
#[derive(Debug, Args)]
pub(crate) struct Ask {
    /// The form, TOML or JSON; - or nothing reads standard input
    #[arg(default_value = "-", value_name = "FILE")]
    pub(crate) file: String,
    /// One JSON object on standard output, for answers and refusals alike
    #[arg(long)]
    pub(crate) json: bool,
    /// The units an answer is printed in; with --json, us adds the US twin beside each metric result
    #[arg(long, value_enum, default_value_t = UnitSystem::Metric, value_name = "SYSTEM")]
    pub(crate) units: UnitSystem,
    /// Take inputs as true: no ensemble, plain numbers; a range or a missing number is refused
    #[arg(long)]
    pub(crate) exact: bool,
    /// Members of the ensemble
    #[arg(long, default_value_t = forms::Flags::default().draws as u32, value_name = "N",
          value_parser = clap::value_parser!(u32).range(1..=forms::Flags::MOST_DRAWS as i64))]
    pub(crate) draws: u32,
    /// Its seed: same form, same seed, same bytes out
    #[arg(long, default_value_t = forms::Flags::default().seed, value_name = "N")]
    pub(crate) seed: u64,
}

impl Ask {
    pub(crate) fn flags(&self) -> forms::Flags {
        forms::Flags {
            exact: self.exact,
            draws: self.draws as usize,
            seed: self.seed,
            us: self.units == UnitSystem::Us,
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum UnitSystem {
    /// Grams, kilograms, millimetres, °C
    Metric,
    /// Pounds, ounces, inches, °F
    Us,
}

#[derive(Debug, Args)]
pub(crate) struct Form {
    /// A verb, or entry: one example of every kind of entry of the record
    #[arg(value_name = "VERB")]
    pub(crate) verb: String,
    /// Its JSON Schema instead, so that an editor completes and checks it
    #[arg(long)]
    pub(crate) schema: bool,
}

/// Prints what clap has to say: help and version to standard output, a slip to standard error with exit 2.
pub(crate) fn refused(error: &clap::Error) -> ExitCode {
    if error.use_stderr() && std::env::args().any(|argument| argument == "--json") {
        let said = error.to_string();
        // The first paragraph says what is wrong; what follows is how to ask for help.
        let first = said.split("\n\n").next().unwrap_or(&said);
        let detail = first.strip_prefix("error: ").unwrap_or(first);
        return out::document(&out::plain_problem("These arguments cannot be taken", detail));
    }
    let code = if error.use_stderr() { out::refused() } else { ExitCode::SUCCESS };
    match error.print() {
        Ok(()) => code,
        Err(_) => ExitCode::FAILURE,
    }
}
