//! `label` and `strip`: what goes on paper, as PDF.

use crate::folder::Record;
use crate::out;
use clap::{Args, ValueEnum};
use forms::{Flags, Verb};
use jiff::{ZonedDateTime, tz::TimeZone};
use paper::{Printing, Strip};
use quantity::{Length, Units};
use record::{Pack, Piece, State};
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Labels of packs.
#[derive(Debug, Args)]
pub(crate) struct LabelAsk {
    /// Packs as their labels name them (tarn-11-12, "TARN 11+12"); a word alone means every pack of that piece
    #[arg(required = true, value_name = "PACK")]
    packs: Vec<String>,
    /// What they are printed on: a roll of 62 mm cut at 50, or A4 sheets of 21; left out, as the kitchen has it set
    #[arg(long, value_enum)]
    on: Option<On>,
    /// The first label of the sheet that is not used yet, 1 to 21
    #[arg(long, default_value_t = 1, value_name = "N")]
    from: usize,
    /// The house's own address, for the codes, as http://192.168.1.20:4180; left out, labels carry no code
    #[arg(long, value_name = "URL")]
    address: Option<String>,
    #[command(flatten)]
    record: Record,
    #[command(flatten)]
    to: To,
}

/// The marking strip of a piece or of a form.
#[derive(Debug, Args)]
pub(crate) struct StripAsk {
    /// The piece's word, or a form of `cut`: a file, or - for standard input
    #[arg(value_name = "WORD|FORM")]
    piece: String,
    /// The units a form's strip is graduated in; a piece's are those of its kitchen
    #[arg(long, value_enum, default_value_t = crate::arguments::UnitSystem::Metric, value_name = "SYSTEM")]
    units: crate::arguments::UnitSystem,
    #[command(flatten)]
    record: Record,
    #[command(flatten)]
    to: To,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum On {
    /// 62 mm wide, cut at 50 mm
    Roll,
    /// 63.5 × 38.1 mm, 21 to an A4 sheet
    Sheet,
}

#[derive(Debug, Args)]
struct To {
    /// Where the PDF goes; - is standard output
    #[arg(short, long, value_name = "FILE")]
    output: PathBuf,
}

/// Why nothing is printed, for the one who asked.
type Refusal = String;

/// Prints labels.
pub(crate) fn labels(ask: &LabelAsk) -> Result<ExitCode, out::Fault> {
    finish(&ask.to, label_pdf(ask))
}

/// Prints the strip.
pub(crate) fn strip(ask: &StripAsk) -> Result<ExitCode, out::Fault> {
    finish(&ask.to, strip_pdf(ask))
}

fn finish(to: &To, pdf: Result<Vec<u8>, Refusal>) -> Result<ExitCode, out::Fault> {
    let written = pdf.and_then(|pdf| match to.output.as_os_str() == "-" {
        true => Ok(Some(pdf)),
        false => std::fs::write(&to.output, pdf)
            .map(|()| None)
            .map_err(|error| format!("{} could not be written: {error}", to.output.display())),
    });
    match written {
        Ok(Some(pdf)) => out::bytes(&pdf).map(|()| ExitCode::SUCCESS),
        Ok(None) => Ok(ExitCode::SUCCESS),
        Err(refusal) => {
            out::complaint(&refusal)?;
            Ok(out::refused())
        }
    }
}

fn label_pdf(ask: &LabelAsk) -> Result<Vec<u8>, Refusal> {
    let state = opened(&ask.record)?;
    let now = now(&state);
    let mut packs: Vec<&Pack> = Vec::new();
    for name in &ask.packs {
        packs.extend(named(&state, name)?);
    }
    let base = ask.address.as_deref().map(|address| address.trim_end_matches('/'));
    let labels: Vec<_> = packs.iter().map(|pack| web::papers::label(&state, pack, &now, base)).collect();
    let on = ask.on.or_else(|| match state.settings().text("label.on") {
        Some("sheet") => Some(On::Sheet),
        _ => None,
    });
    let printing = match on {
        Some(On::Sheet) => Printing::Sheet { from: ask.from },
        Some(On::Roll) | None => Printing::Roll,
    };
    web::papers::labels(&labels, printing).map_err(|error| error.to_string())
}

/// The packs a name means: one, or all of a piece that still hold something.
fn named<'s>(state: &'s State, name: &str) -> Result<Vec<&'s Pack>, Refusal> {
    let slug: String =
        name.to_lowercase().chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
    let slug = slug.split('-').filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-");
    if let Some(pack) = state.pack_of(&slug) {
        return Ok(vec![pack]);
    }
    let piece = state.piece_of(slug.split('-').next().unwrap_or_default());
    match piece {
        Some(piece) if slug == piece.word.slug() => {
            let packs = packs_of(state, piece);
            if packs.is_empty() {
                Err(format!("{} has no pack that still holds something", piece.word))
            } else {
                Ok(packs)
            }
        }
        Some(piece) => {
            let names: Vec<&str> = packs_of(state, piece).iter().map(|pack| pack.slug.as_str()).collect();
            let has = if names.is_empty() { "none".to_owned() } else { names.join(", ") };
            Err(format!("there is no pack \"{name}\"; packs of {}: {has}", piece.word))
        }
        None => {
            Err(format!("there is no pack \"{name}\"; allowed: a pack as its label names it, as tarn-11-12"))
        }
    }
}

/// Packs of a piece that still hold something.
fn packs_of<'s>(state: &'s State, piece: &'s Piece) -> Vec<&'s Pack> {
    state.packs_of(piece).filter(|pack| pack.gone.is_none()).collect()
}

fn strip_pdf(ask: &StripAsk) -> Result<Vec<u8>, Refusal> {
    let is_form = ask.piece == "-" || ask.piece.contains(['.', '/', '\\']) || Path::new(&ask.piece).is_file();
    if is_form { strip_of_form(ask) } else { strip_of_piece(ask) }
}

fn strip_of_piece(ask: &StripAsk) -> Result<Vec<u8>, Refusal> {
    let state = opened(&ask.record)?;
    let piece = state.piece_of(&ask.piece).ok_or_else(|| {
        let words: Vec<String> = state.pieces().map(|piece| piece.word.to_string()).collect();
        let has = if words.is_empty() { "none".to_owned() } else { words.join(", ") };
        format!("there is no piece \"{}\" and no such file; pieces in the record: {has}", ask.piece)
    })?;
    web::papers::strip(&state, piece, &now(&state)).map_err(|error| error.to_string())
}

/// A strip needs no record: a form of `cut` is planned and drawn.
fn strip_of_form(ask: &StripAsk) -> Result<Vec<u8>, Refusal> {
    let bytes = crate::compute::read(&ask.piece).map_err(|problems| problems.text(true))?;
    let answer = forms::answer(Verb::Cut, &ask.piece, &bytes, &Flags::default());
    let plan = answer.map_err(|problems| problems.text(true))?.json;
    let us = ask.units == crate::arguments::UnitSystem::Us;
    let strip = strip_of_plan(&plan, &ask.piece, if us { Units::US } else { Units::METRIC })
        .ok_or("the plan could not be read back; this is the program's own fault")?;
    paper::strip(&strip).and_then(|document| document.pdf()).map_err(|error| error.to_string())
}

fn strip_of_plan(plan: &Value, file: &str, units: Units) -> Option<Strip> {
    let mm = |value: &Value| value.as_f64().map(Length::from_mm);
    let portions: Option<Vec<paper::Portion>> = plan["portions"]
        .as_array()?
        .iter()
        .map(|portion| {
            let (from, to) = (mm(&portion["from_mm"])?, mm(&portion["to_mm"])?);
            Some(paper::Portion { name: portion["n"].to_string(), from, to })
        })
        .collect();
    Some(Strip {
        word: "Knife plan".to_owned(),
        from_end: "named end".to_owned(),
        far_end: "other end".to_owned(),
        length: mm(&plan["piece_length_mm"])?,
        squared_off: mm(&plan["marks_mm"][0])?,
        portions: portions?,
        note: if file == "-" { String::new() } else { format!("From {file}.") },
        units,
    })
}

/// The state of the record, read and left as it is: a house may be open on it meanwhile.
fn opened(record: &Record) -> Result<State, Refusal> {
    let folder = record.folder()?;
    let examined = journal::examine(&folder).map_err(|error| error.to_string())?;
    match examined.damage.first() {
        None => Ok(examined.state),
        Some(damage) => Err(format!(
            "row {} of the record in {} is damaged ({}); `gambrel check` says what can be done",
            damage.number,
            folder.display(),
            damage.why
        )),
    }
}

/// Now, in the kitchen's zone.
fn now(state: &State) -> ZonedDateTime {
    ZonedDateTime::now().with_time_zone(state.settings().zone().unwrap_or_else(TimeZone::system))
}
