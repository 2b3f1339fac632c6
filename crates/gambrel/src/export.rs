//! `export`: the record as it is kept, or one of its tables.

use crate::folder::Record;
use crate::{out, tables};
use clap::Args;
use journal::{Journal, Sqlite};
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// The record, for keeping or for another program.
#[derive(Debug, Args)]
pub(crate) struct ExportAsk {
    #[command(flatten)]
    record: Record,
    /// A table as CSV (RFC 4180) instead of the entries
    #[arg(long, value_enum, value_name = "TABLE")]
    csv: Option<tables::Table>,
    /// Where it goes; - or nothing is standard output
    #[arg(short, long, default_value = "-", value_name = "FILE")]
    output: PathBuf,
}

/// Writes the entries as JSON Lines, to the byte as they are kept, or a table of what follows from them.
pub(crate) fn run(ask: &ExportAsk) -> Result<ExitCode, out::Fault> {
    let folder = match ask.record.folder() {
        Ok(folder) => folder,
        Err(refusal) => return refuse(&refusal),
    };
    let (bytes, lost) = match gather(ask, &folder) {
        Ok(gathered) => gathered,
        Err(refusal) => return refuse(&refusal),
    };
    if ask.output.as_os_str() == "-" {
        out::bytes(&bytes)?;
    } else if let Err(problem) = write(&ask.output, &bytes) {
        return refuse(&format!("{} could not be written: {problem}", ask.output.display()));
    }
    match lost {
        None => Ok(ExitCode::SUCCESS),
        Some(lost) => refuse(&format!(
            "{lost}. What stands before it is exported; `gambrel check` names every such row"
        )),
    }
}

/// What is exported, and what of the record could not be.
fn gather(ask: &ExportAsk, folder: &Path) -> Result<(Vec<u8>, Option<String>), String> {
    let examined = journal::examine(folder).map_err(|problem| problem.to_string())?;
    let lost = examined.damage.first().map(ToString::to_string);
    if let Some(table) = ask.csv {
        return tables::csv(&examined.state, table)
            .map(|csv| (csv, lost))
            .map_err(|problem| problem.to_string());
    }
    let journal = Sqlite::open_to_read(folder).map_err(|problem| problem.to_string())?;
    let most = usize::try_from(examined.state.number()).unwrap_or(usize::MAX);
    let read = journal.rows(0, most).map_err(|problem| problem.to_string())?;
    let mut bytes = Vec::new();
    for row in read.rows {
        bytes.extend_from_slice(row.line.as_bytes());
        bytes.push(b'\n');
    }
    Ok((bytes, lost))
}

fn write(path: &Path, bytes: &[u8]) -> std::io::Result<()> {
    let mut file = BufWriter::new(std::fs::File::create(path)?);
    file.write_all(bytes)?;
    file.into_inner()?.sync_all()
}

fn refuse(refusal: &str) -> Result<ExitCode, out::Fault> {
    out::complaint(refusal)?;
    Ok(out::refused())
}
