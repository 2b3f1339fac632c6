//! What can be written down of a supper: in, pulled, a degree read, a later hour, a changed plan, what came of it.

use record::{Entry, Outcome, Pulled, PutOn, Serve, Served, Supper, SupperPlanned, TemperatureRead};
use uuid::Uuid;

use crate::house::Visit;
use crate::pages::table::plan_form;
use crate::reading::Reading;
use crate::sent::{Sent, nth_id};

/// Portions go into the low place, or onto the hot one.
pub(super) const IN: &str = "in";
/// Portions are pulled.
pub(super) const PULLED: &str = "pulled";
/// The degree of the low place is read.
pub(super) const READ: &str = "read";
/// The hour moves.
pub(super) const LATER: &str = "later";
/// What came of it.
pub(super) const CAME: &str = "came";

pub(super) fn read(form: &mut Reading<'_>, visit: &Visit, supper: Uuid, sent: &Sent) -> Option<Vec<Entry>> {
    let supper = visit.state.supper(supper)?;
    match sent.form() {
        IN => put_on(form, supper, sent),
        PULLED => pulled(form, sent),
        READ => {
            let at = form.temperature("at_c", 20.0..=300.0);
            let at = form.needs("at_c", at, "What does the probe on the rack show?")?;
            let place = form.text("place")?;
            Some(vec![form.entry(TemperatureRead { place, at })])
        }
        LATER => later(form, visit, supper),
        plan_form::PLAN => {
            let words = plan_form::draft(visit, Some(supper)).words;
            let planned = plan_form::read(form, sent, visit, &words, Some(supper))?;
            Some(vec![form.entry(planned)])
        }
        CAME => came(form, visit, supper, sent),
        _ => {
            form.refuse_whole(
                "This form is not one of the supper’s. Open the page anew and send it once more.",
            );
            None
        }
    }
}

fn ids(sent: &Sent, name: &str) -> Vec<Uuid> {
    sent.all(name).filter_map(|id| Uuid::parse_str(id).ok()).collect()
}

fn put_on(form: &mut Reading<'_>, supper: &Supper, sent: &Sent) -> Option<Vec<Entry>> {
    let on = form.text("on")?;
    let item = supper.planned.equipment.iter().find(|item| item.name == on);
    let (medium, temperature) = item.map_or((None, None), |item| (item.medium.clone(), item.temperature));
    let portions = ids(sent, "portion");
    Some(vec![form.entry(PutOn { portions, on, medium, temperature })])
}

fn pulled(form: &mut Reading<'_>, sent: &Sent) -> Option<Vec<Entry>> {
    let core = form.temperature("core_c", -5.0..=110.0);
    let portions = ids(sent, "portion");
    Some(vec![form.entry(Pulled { portions, core })])
}

/// The same plan at another hour.
fn later(form: &mut Reading<'_>, visit: &Visit, supper: &Supper) -> Option<Vec<Entry>> {
    let at = form.hour("serve");
    let at = form.needs("serve", at, "When shall it be on the plate?")?;
    let planned = SupperPlanned {
        supper: Some(supper.id),
        day: plan_form::day_of(visit, at),
        serve: Serve { at, ..supper.planned.serve.clone() },
        ..supper.planned.clone()
    };
    Some(vec![form.entry(planned)])
}

/// One entry a portion that something is said of; left as "not yet", nothing is written.
fn came(form: &mut Reading<'_>, visit: &Visit, supper: &Supper, sent: &Sent) -> Option<Vec<Entry>> {
    let note = form.text("note");
    let mut entries = Vec::new();
    for portion in ids(sent, "portion").into_iter().filter(|id| visit.state.portion(*id).is_some()) {
        let outcome = form.choice(&format!("{portion}_outcome"), Outcome::of);
        let core = form.temperature(&format!("{portion}_core"), 0.0..=110.0);
        let doneness = form.text(&format!("{portion}_doneness"));
        let Some(outcome) = outcome else {
            if core.is_some() || doneness.is_some() {
                let name = visit.state.portion(portion).map(record::Portion::name).unwrap_or_default();
                form.refuse_whole(format!("{name}: was it eaten, left over or thrown away?"));
            }
            continue;
        };
        let nth = u16::try_from(entries.len()).unwrap_or(u16::MAX);
        let served = Served {
            portion,
            supper: Some(supper.id),
            outcome,
            core,
            peak: None,
            doneness,
            // One sentence about the evening stands with its first plate.
            note: if nth == 0 { note.clone() } else { None },
        };
        let first = form.entry(served);
        entries.push(Entry { id: nth_id(sent.id(), nth), ..first });
    }
    if entries.is_empty() {
        form.refuse_whole("Nothing is said of any portion yet. Choose for one or more what became of it.");
        return None;
    }
    Some(entries)
}
