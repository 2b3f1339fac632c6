//! What the forms of the board write.

use record::{Corrected, Entry, Moved};
use season::BOARD;

use super::query::{Asked, Found};
use super::{heaps, weigh};
use crate::house::Visit;
use crate::reading::Reading;
use crate::sent::Sent;

/// Takes the last weighing back.
pub(super) const UNDO: &str = "undo";
/// The piece came out of the cold.
pub(super) const OUT: &str = "out";
/// What is left goes back.
pub(super) const COLD: &str = "cold";

/// What a form comes to.
pub(super) enum Told {
    /// A cut without a weight: nothing is written, the next mark is shown.
    Cut(Asked),
    /// Entries, and what the address says once they are written.
    Written(Option<Vec<Entry>>, Asked),
}

pub(super) fn read(reading: &mut Reading<'_>, visit: &Visit, found: &Found<'_>, sent: &Sent) -> Told {
    let here = found.asked.clone();
    match sent.form() {
        weigh::WEIGH => weigh::read(reading, visit, found),
        heaps::HEAP => {
            Told::Written(heaps::read(reading, found.piece.id).map(|body| vec![reading.entry(body)]), here)
        }
        UNDO => Told::Written(undo(reading, visit, found, sent), here),
        OUT => Told::Written(Some(vec![moved(reading, found, BOARD.to_owned())]), here),
        COLD => {
            let place = reading.text("place").unwrap_or_else(|| "fridge".to_owned());
            Told::Written(Some(vec![moved(reading, found, place)]), here)
        }
        _ => {
            reading.refuse_whole(
                "This form is not one of the board’s. Open the page anew and send it once more.",
            );
            Told::Written(None, here)
        }
    }
}

/// Takes back what the button named, if that is still the last: another device may have gone on.
fn undo(reading: &mut Reading<'_>, visit: &Visit, found: &Found<'_>, sent: &Sent) -> Option<Vec<Entry>> {
    let last = season::last_weighed(&visit.state, found.piece);
    match last.filter(|last| sent.get("entry") == Some(last.to_string().as_str())) {
        Some(entry) => {
            let body = Corrected { entry, because: "undone at the board".to_owned(), body: None };
            Some(vec![reading.entry(body)])
        }
        None => {
            reading.refuse_whole(
                "Something was weighed since this page was made. Look at the list before undoing.",
            );
            None
        }
    }
}

fn moved(reading: &mut Reading<'_>, found: &Found<'_>, place: String) -> Entry {
    reading.entry(Moved { what: found.piece.id, place, spot: None, frozen: None })
}
