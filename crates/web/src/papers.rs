//! Labels and the marking strip, from the record: what pages show and the command line prints.

use catalogue::Kept;
use jiff::ZonedDateTime;
use paper::{Label, Printing, Stock, Strip};
use quantity::Grain;
use record::{Pack, PartName, Piece, State};
use season::{Lain, RollError, Thickness};
use thiserror::Error;

use crate::pages::shared::{cut_name, part_name};
use crate::words::Moments;

/// Why something is not printed.
#[derive(Debug, Error)]
pub enum PapersError {
    /// There is no plan to print.
    #[error("{0}")]
    NoPlan(#[from] RollError),
    /// Paper does not take it.
    #[error("{0}")]
    Paper(#[from] paper::PaperError),
}

/// The marking strip of a piece's plan, as a PDF.
///
/// # Errors
/// [`PapersError::NoPlan`] if it cannot be planned, [`PapersError::Paper`] if it is longer than any strip.
pub fn strip(state: &State, piece: &Piece, now: &ZonedDateTime) -> Result<Vec<u8>, PapersError> {
    let plan = season::plan(state, piece, season::asked(state, piece))?;
    let moments = Moments::new(now.clone(), state.settings().units().clock);
    let planned = piece.plan.as_ref().map(|planned| planned.at.in_zone(now.time_zone()));
    let settled = planned.map_or_else(
        || "Not settled yet.".to_owned(),
        |at| format!("Planned {}, {}.", moments.day(&at), moments.clock(&at)),
    );
    let portions = plan.plan.portions.iter().map(|portion| paper::Portion {
        name: portion.number.to_string(),
        from: portion.from,
        to: portion.to,
    });
    let strip = Strip {
        word: piece.word.to_string(),
        from_end: plan.ends.0,
        far_end: plan.ends.1,
        length: plan.plan.length,
        squared_off: plan.zero,
        portions: portions.collect(),
        note: format!("{settled} After the first weighing the board knows better."),
        units: state.settings().units(),
    };
    Ok(paper::strip(&strip)?.pdf()?)
}

/// What stands on the label of a pack; `base` is the house's own address, as `http://kitchen.local:8080`.
#[must_use]
pub fn label(state: &State, pack: &Pack, now: &ZonedDateTime, base: Option<&str>) -> Label {
    let lain = Lain::of(state, pack, now);
    let sealed = pack.at.in_zone(now.time_zone()).strftime("%-d %b %Y").to_string();
    let frozen = pack.frozen.map(|at| at.in_zone(now.time_zone()).strftime("%-d %b %Y").to_string());
    let days = match frozen {
        Some(frozen) if frozen == sealed => vec![format!("packed, frozen {sealed}")],
        Some(frozen) => vec![format!("packed {sealed}"), format!("frozen {frozen}")],
        None => vec![format!("packed {sealed}")],
    };
    Label {
        word: pack.word.to_string(),
        places: places(pack),
        mass: Some(pack.mass),
        what: what(state, &lain),
        thickness: thickness(state, &lain),
        lines: days.into_iter().chain(salt(&lain)).collect(),
        url: base.map(|base| format!("{base}/pack/{}", pack.slug)),
        units: state.settings().units(),
    }
}

/// Labels of several packs as a PDF.
///
/// # Errors
/// [`PapersError::Paper`] without a pack, for an address too long for a code, or a sheet that starts past its last label.
pub fn labels(labels: &[Label], printing: Printing) -> Result<Vec<u8>, PapersError> {
    Ok(paper::labels(labels, printing)?.pdf()?)
}

/// A label as it stands on the page, at true size.
///
/// # Errors
/// [`PapersError::Paper`] for an address too long for a code.
pub fn label_svg(label: &Label, stock: Stock) -> Result<String, PapersError> {
    Ok(paper::label(label, stock)?.svg()?)
}

/// What a pack is called behind its word: `11+12`, `trim`.
fn places(pack: &Pack) -> String {
    let word = pack.word.to_string();
    pack.name.strip_prefix(&word).map_or(pack.name.as_str(), str::trim_start).to_owned()
}

/// Whether it was salted; nothing for a heap, which nobody salts.
fn salt(lain: &Lain<'_>) -> Option<String> {
    lain.heap.is_none().then(|| if is_salted(lain) { "salted" } else { "not salted" }.to_owned())
}

/// `strip loin, pair`, `lean trim, for mince`
pub(crate) fn what(state: &State, lain: &Lain<'_>) -> String {
    if let Some((part, called)) = &lain.heap {
        return match part {
            PartName::EndsFirst | PartName::EndsLast => "ends, for mince".to_owned(),
            PartName::LeanTrim => "lean trim, for mince".to_owned(),
            other => part_name(*other, called.as_deref()),
        };
    }
    let name = cut_name(state.settings(), lain.cut);
    let short = name.split(',').next().unwrap_or(&name).to_owned();
    match lain.portions.len() {
        0 | 1 if lain.chart.row.what == Kept::Roasts => format!("{short}, roast"),
        0 | 1 => format!("{short}, one"),
        2 => format!("{short}, pair"),
        count => format!("{short}, {count}"),
    }
}

/// How thick what is in a pack is, the mean of it.
fn thickness(state: &State, lain: &Lain<'_>) -> Option<quantity::Length> {
    let piece = state.piece(lain.pack.piece)?;
    let all: Option<Vec<Thickness>> =
        lain.portions.iter().map(|portion| season::thickness_of(state, piece, portion)).collect();
    let all = all.filter(|all| !all.is_empty())?;
    let sum: f64 = all.iter().map(|thickness| thickness.length().mm()).sum();
    Some(quantity::Length::from_mm(sum / all.len() as f64))
}

pub(crate) fn is_salted(lain: &Lain<'_>) -> bool {
    lain.pack.sealed.salted == Some(true) || lain.portions.iter().any(|portion| !portion.salted.is_empty())
}

/// What to write by hand where there is no printer: `TARN 11+12, 763 g`.
pub(crate) fn by_hand(state: &State, pack: &Pack) -> String {
    format!("{}, {}", pack.name, state.settings().units().mass(pack.mass, Grain::Reading))
}
