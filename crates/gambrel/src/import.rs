//! `import`: entries from a file into the record, all of them or none.

use crate::folder::Record;
use crate::{compute, out};
use clap::Args;
use journal::{Kitchen, Offered, Refused};
use record::{Entry, Problem, Refusal, Written};
use std::process::ExitCode;

/// Entries from another record, another program, or `gambrel form entry`.
#[derive(Debug, Args)]
pub(crate) struct ImportAsk {
    /// JSON Lines as `export` writes them, a JSON array of entries, or the TOML form of `gambrel form entry`; - or nothing reads
    /// standard input
    #[arg(default_value = "-", value_name = "FILE")]
    file: String,
    #[command(flatten)]
    record: Record,
}

/// An entry with the words for where it stands.
struct Placed {
    place: String,
    written: Written,
}

/// Reads all of the file before anything is written. Into an empty record, exported lines come back to the byte.
pub(crate) fn run(ask: &ImportAsk) -> Result<ExitCode, out::Fault> {
    match take(ask) {
        Ok(said) => out::text(&said).map(|()| ExitCode::SUCCESS),
        Err(refusals) => {
            for refusal in refusals {
                out::complaint(&refusal)?;
            }
            out::complaint("Nothing was written.")?;
            Ok(out::refused())
        }
    }
}

fn take(ask: &ImportAsk) -> Result<String, Vec<String>> {
    let alone = |refusal: String| vec![refusal];
    let name = if ask.file == "-" { "standard input" } else { ask.file.as_str() };
    let bytes = compute::read(&ask.file).map_err(|problems| vec![problems.text(true)])?;
    let text = String::from_utf8(bytes).map_err(|_| alone(format!("{name}: not UTF-8 text")))?;
    let entries = read(name, &text)?;
    let places: Vec<String> = entries.iter().map(|entry| entry.place.clone()).collect();
    let folder = ask.record.folder().map_err(alone)?;
    let kitchen = Kitchen::open(&folder).map_err(|problem| alone(problem.to_string()))?;
    let before = kitchen.state().number();
    let offered = kitchen
        .offer_written(entries.into_iter().map(|entry| entry.written).collect(), "import")
        .map_err(|refused| alone(placed(&places, &refused)))?;
    Ok(said(&offered, kitchen.state().number() - before, &folder.display().to_string()))
}

fn said(offered: &Offered, new: u64, folder: &str) -> String {
    let there = offered.receipts.len() as u64 - new;
    let last = offered.receipts.iter().map(|receipt| receipt.number).max().unwrap_or(0);
    let known = if there == 0 { String::new() } else { format!(", {there} were there before") };
    format!("{new} entries written down in {folder}{known}; the last of them is number {last}.\n")
}

fn placed(places: &[String], refused: &Refused) -> String {
    let index = match refused {
        Refused::MayNotFollow { index, .. } | Refused::NotYet { index, .. } => Some(*index),
        Refused::Conflict { .. } | Refused::ClockWentBack { .. } | Refused::Journal(_) => None,
    };
    match index.and_then(|index| places.get(index)) {
        Some(place) => format!("{place}: {refused}"),
        None => refused.to_string(),
    }
}

/// Reads the entries of a file, told apart by content, and says everything that is wrong with any of them.
fn read(name: &str, text: &str) -> Result<Vec<Placed>, Vec<String>> {
    let start = text.trim_start();
    if start.is_empty() {
        return Err(vec![format!("{name} holds no entries")]);
    }
    if start.starts_with('{') {
        return lines(name, text);
    }
    // A JSON array opens with its first entry or closes; a TOML table opens with a name.
    let is_json = start.strip_prefix('[').is_some_and(|rest| rest.trim_start().starts_with(['{', ']']));
    if is_json { array(name, text) } else { toml_form(name, text) }
}

fn lines(name: &str, text: &str) -> Result<Vec<Placed>, Vec<String>> {
    let lines = text.lines().enumerate().filter(|(_, line)| !line.trim().is_empty());
    gather(lines.map(|(count, line)| (format!("{name}:{}", count + 1), Written::read_line(line))))
}

fn array(name: &str, text: &str) -> Result<Vec<Placed>, Vec<String>> {
    match Written::read_all(text) {
        Ok(entries) => Ok(entries
            .into_iter()
            .enumerate()
            .map(|(count, written)| Placed { place: format!("{name}, entry {}", count + 1), written })
            .collect()),
        Err(refusal) => Err(problems(name, &refusal)),
    }
}

fn toml_form(name: &str, text: &str) -> Result<Vec<Placed>, Vec<String>> {
    let form: toml::Table = text.parse().map_err(|problem| vec![format!("{name}: {problem}")])?;
    if let Some(unknown) = form.keys().find(|key| *key != "entry") {
        return Err(vec![format!("{name}: {unknown} is no key here; allowed: [[entry]] alone")]);
    }
    let entries = form.get("entry").and_then(toml::Value::as_array).cloned().unwrap_or_default();
    gather(entries.into_iter().enumerate().map(|(count, entry)| {
        // TOML is no text a journal could keep: what it says is kept in the words of this program.
        let value = serde_json::to_value(&entry).unwrap_or_default();
        let read = Entry::read(&value).map(Written::from).map_err(Refusal::from);
        (format!("{name}, entry {}", count + 1), read)
    }))
}

fn gather(
    read: impl Iterator<Item = (String, Result<Written, Refusal>)>,
) -> Result<Vec<Placed>, Vec<String>> {
    let (mut entries, mut refusals) = (Vec::new(), Vec::new());
    for (place, written) in read {
        match written {
            Ok(written) => entries.push(Placed { place, written }),
            Err(refusal) => refusals.extend(problems(&place, &refusal)),
        }
    }
    if refusals.is_empty() { Ok(entries) } else { Err(refusals) }
}

fn problems(place: &str, refusal: &Refusal) -> Vec<String> {
    let with_place = |problem: &Problem| format!("{place}: {problem}");
    match refusal {
        Refusal::Unreadable { problems } => problems.iter().map(with_place).collect(),
        other => vec![format!("{place}: {other}")],
    }
}
