//! `check`: whether the record is what was written, and whether its grams balance.

use crate::folder::Record;
use crate::out;
use clap::Args;
use journal::Examined;
use quantity::{Grain, Mass, Units};
use serde_json::{Value, json};
use std::fmt::Write;
use std::process::ExitCode;

/// Whether all is well with the record.
#[derive(Debug, Args)]
pub(crate) struct CheckAsk {
    #[command(flatten)]
    record: Record,
    /// One JSON object on standard output
    #[arg(long)]
    json: bool,
}

/// Reads the record through, changing nothing. Exit 0 where all is well, 2 where something would not open, was changed,
/// or does not balance.
pub(crate) fn run(ask: &CheckAsk) -> Result<ExitCode, out::Fault> {
    let examined = ask
        .record
        .folder()
        .and_then(|folder| journal::examine(&folder).map_err(|problem| problem.to_string()));
    let examined = match examined {
        Ok(examined) => examined,
        Err(refusal) if ask.json => {
            return Ok(out::document(&out::plain_problem("The record cannot be opened", &refusal)));
        }
        Err(refusal) => {
            out::complaint(&refusal)?;
            return Ok(out::refused());
        }
    };
    let against = against(&examined);
    if ask.json {
        out::json(&document(&examined, &against))?;
    } else {
        out::text(&summary(&examined))?;
        for line in &against {
            out::complaint(line)?;
        }
    }
    Ok(if against.is_empty() { ExitCode::SUCCESS } else { out::refused() })
}

/// Everything that is not well, a line each.
fn against(examined: &Examined) -> Vec<String> {
    let damage = examined.damage.iter().map(ToString::to_string);
    let file = examined.file.iter().map(|line| format!("file: {line}"));
    let contradictions = examined
        .contradictions
        .iter()
        .map(|(number, refusal)| format!("entry {number} contradicts what stands before it: {refusal}"));
    let imbalances = examined.state.imbalances().into_iter().map(|piece| {
        format!(
            "{} does not balance: its ledger says {} g were cut, its entries add up to {} g, {} g are left over",
            piece.word,
            piece.ledger.g(),
            piece.entries.g(),
            piece.left.g()
        )
    });
    damage.chain(file).chain(contradictions).chain(imbalances).collect()
}

fn summary(examined: &Examined) -> String {
    let state = &examined.state;
    let mut text = format!("{} entries open", state.number());
    if let Some(last) = state.entry(state.number()) {
        let _ = write!(
            text,
            ", the last written at {}, hash {}",
            last.stored.written,
            journal::hex(&last.stored.hash)
        );
    }
    text.push_str(".\n");
    let grams = |mass: Mass| Units::METRIC.mass(mass, Grain::Reading);
    for piece in state.pieces() {
        let ledger = state.ledger(piece);
        let said = match (ledger.is_cut, ledger.is_inside_the_scales_error()) {
            (false, _) => "not cut yet".to_owned(),
            (true, true) => format!("{} not explained, inside the scales' error", grams(ledger.unexplained)),
            (true, false) => format!("{} not accounted for yet", grams(ledger.unexplained)),
        };
        let _ = writeln!(text, "{}: of {} {said}.", piece.word, grams(ledger.came_in));
    }
    text
}

fn document(examined: &Examined, against: &[String]) -> Value {
    let state = &examined.state;
    let hash = state.entry(state.number()).map(|last| journal::hex(&last.stored.hash));
    let damage: Vec<Value> =
        examined.damage.iter().map(|row| json!({ "row": row.number, "why": row.why })).collect();
    let contradictions: Vec<Value> = examined
        .contradictions
        .iter()
        .map(|(number, refusal)| json!({ "number": number, "reason": refusal.reason(), "detail": refusal.to_string() }))
        .collect();
    let pieces: Vec<Value> = state
        .pieces()
        .map(|piece| {
            let ledger = state.ledger(piece);
            json!({
                "word": piece.word.to_string(),
                "came_in_g": grams(ledger.came_in),
                "unexplained_g": grams(ledger.unexplained),
                "scale_error_g": grams(ledger.scale_error),
                "cut": ledger.is_cut,
            })
        })
        .collect();
    json!({
        "well": against.is_empty(),
        "entries": state.number(),
        "hash": hash,
        "damage": damage,
        "file": examined.file,
        "contradictions": contradictions,
        "pieces": pieces,
        "against": against,
    })
}

/// Without the tail a sum leaves: a millionth of a gram.
fn grams(mass: Mass) -> f64 {
    (mass.g() * 1e6).round() / 1e6
}
