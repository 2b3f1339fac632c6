//! `simulate`: heat in one piece.

mod caution;
mod face;
mod fields;
mod json;
mod run;
mod shape;
mod stage;
mod words;

pub(super) use fields::FIELDS;

use super::meat::{CUT, MEAT, MeatDraft};
use crate::problem::Problems;
use crate::read::{Table, form};
use crate::unknown::Unknowns;
use crate::{Answer, Flags};
use face::Gathered;
use heat::Settings;
use run::Asked;

pub(super) fn answer(file: &str, bytes: &[u8], flags: &Flags) -> Result<Answer, Problems> {
    let ran = form(file, bytes, FIELDS, flags, |root| {
        let asked = asked(root, flags)?;
        run::run(root, &asked, flags)
    })?;
    let cautions = caution::of(&ran, flags);
    Ok(Answer { json: json::of(&ran, &cautions, flags), text: words::of(&ran, &cautions, flags) })
}

/// Reads the whole form. What the check has refused reads as left out, so that everything else is still looked at.
fn asked(root: &Table<'_>, flags: &Flags) -> Option<Asked> {
    let mut unknowns = Unknowns::new(flags.exact);
    let meat = root.table(&MEAT).and_then(|table| MeatDraft::read(&table, &mut unknowns));
    let cut = root.table(&MEAT).and_then(|table| table.word(&CUT).map(str::to_owned));
    let shape = root.table(&fields::SHAPE).and_then(|table| shape::read(&table));
    let start = stage::start(root);
    let organisms = stage::organisms(root);
    let cover_m2_k_w = shape.map_or(0.0, |shape| shape.cover_m2_k_w);
    let mut gathered =
        Gathered { unknowns, slots: Vec::new(), cover_m2_k_w, door: None, longest: heat::Stage::LONGEST };
    let stages = stage::stages(root, shape.as_ref(), &organisms, &mut gathered);
    let shown = stage::sampled(root, &organisms, stages.as_deref().unwrap_or_default(), Settings::exact());
    Some(Asked {
        meat: meat?,
        shape: shape?,
        cut,
        start: start?,
        stages: stages?,
        organisms,
        gathered,
        shown: shown?,
    })
}
