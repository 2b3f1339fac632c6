//! What can be written down of a thaw: packs out, the fridge's degree, salt.

use record::{Dose, Entry, Method, Salted, TakenOut, TemperatureRead};
use uuid::Uuid;

use crate::house::Visit;
use crate::reading::{Reading, Size};
use crate::sent::Sent;

/// Packs leave the store.
pub(super) const OUT: &str = "out";
/// The fridge is read.
pub(super) const READ: &str = "read";
/// Salt is given.
pub(super) const SALT: &str = "salt";

pub(super) fn read(form: &mut Reading<'_>, visit: &Visit, sent: &Sent) -> Option<Vec<Entry>> {
    match sent.form() {
        OUT => out(form, visit, sent),
        READ => {
            let at = form.temperature("at_c", -5.0..=45.0);
            let at = form.needs("at_c", at, "What does the thermometer show?")?;
            let place = form.text("place")?;
            Some(vec![form.entry(TemperatureRead { place, at })])
        }
        SALT => salt(form, sent),
        _ => {
            form.refuse_whole(
                "This form is not one of the thaw’s. Open the page anew and send it once more.",
            );
            None
        }
    }
}

fn ids(sent: &Sent, name: &str) -> Vec<Uuid> {
    sent.all(name).filter_map(|id| Uuid::parse_str(id).ok()).collect()
}

fn out(form: &mut Reading<'_>, visit: &Visit, sent: &Sent) -> Option<Vec<Entry>> {
    let packs: Vec<Uuid> =
        ids(sent, "pack").into_iter().filter(|id| visit.state.pack(*id).is_some()).collect();
    if packs.is_empty() {
        form.refuse_whole("No pack was named. Take one of the list.");
        return None;
    }
    let method = form.choice("method", Method::of).unwrap_or(Method::Fridge);
    let fridge = form.text("place").unwrap_or_else(|| "fridge".to_owned());
    let place = if method == Method::Fridge { fridge } else { "sink".to_owned() };
    Some(vec![form.entry(TakenOut { packs, place, method, temperature: None })])
}

fn salt(form: &mut Reading<'_>, sent: &Sent) -> Option<Vec<Entry>> {
    let percent = form.number("percent", 0.05..=5.0);
    let grams = form.mass("grams", Size::Small, 0.1..=2000.0);
    let dose = match (grams, percent) {
        (Some(grams), _) => Dose::Salt(grams),
        (None, Some(percent)) => Dose::Percent(percent),
        (None, None) => Dose::Unknown,
    };
    let crystal = form.text("crystal");
    let portions = ids(sent, "portion");
    if portions.is_empty() {
        form.refuse_whole("No portion was named.");
        return None;
    }
    Some(vec![form.entry(Salted { portions, dose, crystal })])
}
