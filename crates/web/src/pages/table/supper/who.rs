//! Who eats what.

use maud::{Markup, html};
use quantity::{Grain, Length, Mass};
use season::{SupperPlan, portions_words, thickness_of};

use crate::house::Visit;
use crate::pages::table::hours::seen_from;
use crate::words::{counted, number_word, sentence_case};

/// Seats with their portions.
pub(super) struct Who {
    lines: Vec<Line>,
    count: String,
    mass: String,
    spare: Option<String>,
}

struct Line {
    seat: String,
    wish: String,
    portion: String,
    link: String,
    mass: String,
    thick: String,
    at: String,
}

pub(super) fn who(visit: &Visit, plan: &SupperPlan<'_>) -> Who {
    let plates = &plan.plan.plates;
    let mass: Mass = plates.iter().map(|plate| plan.portion(plate.portion).weighed.mass).sum();
    Who {
        lines: plates.iter().map(|plate| line(visit, plan, plate)).collect(),
        count: sentence_case(&number_word(plates.len())),
        mass: visit.units.mass(mass, Grain::Reading),
        spare: spare(visit, plan),
    }
}

fn line(visit: &Visit, plan: &SupperPlan<'_>, plate: &season::DinnerPlate) -> Line {
    let portion = plan.portion(plate.portion);
    let seat = &plan.asked.table.seats[plate.seat];
    let wish = &plan.asked.wishes[plate.seat];
    let word = wish.word.clone().unwrap_or_else(|| visit.units.temperature(seat.wish, Grain::Forecast));
    let piece = visit.state.piece(portion.piece);
    let thick = piece.and_then(|piece| thickness_of(&visit.state, piece, portion));
    let length = |length: Length| visit.units.length(length);
    Line {
        seat: seat.name.clone().unwrap_or_else(|| format!("Seat {}", plate.seat + 1)),
        wish: if wish.is_assumed { format!("{word}, not asked") } else { word },
        portion: portion.name(),
        link: format!("/piece/{}/{}", portion.word.slug(), portion.n),
        mass: visit.units.mass(portion.weighed.mass, Grain::Reading),
        thick: thick.map_or_else(|| "not measured".to_owned(), |thick| length(thick.length())),
        at: seen_from(visit, &plan.serve).time(&plan.at(plan.plan.rows[plate.row].in_before)),
    }
}

fn spare(visit: &Visit, plan: &SupperPlan<'_>) -> Option<String> {
    let spare: Vec<_> = plan.plan.spare.iter().map(|&place| plan.portion(place)).collect();
    if spare.is_empty() {
        return None;
    }
    let mass: Mass = spare.iter().map(|portion| portion.weighed.mass).sum();
    let words = portions_words(&spare);
    let count = if spare.len() == 1 {
        "Spare".to_owned()
    } else {
        sentence_case(&counted(spare.len(), "spare", "spare"))
    };
    Some(format!(
        "{count}: {words}, {}. How long it keeps stands under thaw and salt.",
        visit.units.mass(mass, Grain::Reading)
    ))
}

impl Who {
    pub(super) fn draw(&self) -> Markup {
        html! {
            table {
                caption id="who" { "Who eats what" small { "Thinnest to the most done, thickest to the rarest" } }
                thead { tr {
                    th scope="col" { "Seat" } th scope="col" { "Portion" } th scope="col" class="r" { "Weight" } th scope="col" class="r" { "In at" }
                } }
                tbody { @for line in &self.lines {
                    tr {
                        th scope="row" { (line.seat) small { (line.wish) } }
                        td class="n" { a href=(line.link) { (line.portion) } }
                        td class="r n" { (line.mass) small { (line.thick) } }
                        td class="r n" { (line.at) }
                    }
                } }
                tfoot { tr { th scope="row" { (self.count) } td {} td class="r n" { (self.mass) } td {} } }
            }
            @if let Some(words) = &self.spare { p class="quiet" { (words) } }
        }
    }
}
