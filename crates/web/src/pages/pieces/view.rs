//! Every piece in words, the latest first.

use maud::{Markup, html};
use record::Piece;
use season::{Heap, Knot, PieceLedger, Whereabouts, life_of_piece};

use crate::house::Visit;
use crate::pages::shared::{cut_name, portions_of};
use crate::words::{and_list, counted, number_word, sentence_case};

/// All pieces as they are shown.
pub(super) struct View {
    pub(super) answer: Markup,
    /// Pieces with something left of them.
    pub(super) in_hand: Vec<Line>,
    /// Pieces that are eaten or gone.
    pub(super) past: Vec<Line>,
}

/// A piece in the list.
pub(super) struct Line {
    pub(super) word: String,
    pub(super) link: String,
    pub(super) what: String,
    pub(super) mass: String,
    pub(super) where_to: String,
    pub(super) day: String,
}

pub(super) fn view(visit: &Visit) -> View {
    let mut in_hand = Vec::new();
    let mut past = Vec::new();
    for piece in visit.state.pieces().rev() {
        let life = life_of_piece(&visit.state, piece);
        let line = line(visit, piece, life.now);
        if life.now.is_some() { in_hand.push(line) } else { past.push(line) }
    }
    View { answer: answer(&in_hand, &past), in_hand, past }
}

fn answer(in_hand: &[Line], past: &[Line]) -> Markup {
    let words: Vec<String> = in_hand.iter().map(|line| line.word.clone()).collect();
    match (in_hand.len(), past.len()) {
        (0, 0) => html! { "Every piece you write down will stand here, from the case to the plate." },
        (0, past) => html! { "Nothing is in hand; " (counted(past, "piece is", "pieces are")) " eaten." },
        (1, _) => html! { "One piece is in hand: " strong { (and_list(&words)) } "." },
        (count, _) => {
            html! { (sentence_case(&number_word(count))) " pieces are in hand: " (and_list(&words)) "." }
        }
    }
}

fn line(visit: &Visit, piece: &Piece, now: Option<Knot>) -> Line {
    let ledger = season::piece_ledger(&visit.state, piece, visit.at());
    Line {
        word: piece.word.to_string(),
        link: format!("/piece/{}", piece.word.slug()),
        what: cut_name(visit.settings(), &piece.received.cut),
        mass: visit.units.large(piece.received.mass),
        where_to: if piece.discarded.is_some() { "thrown away".to_owned() } else { standing(&ledger, now) },
        day: visit.moments.day(&visit.zoned(piece.at)),
    }
}

/// Where its portions are: `ten out, four in store`.
fn standing(ledger: &PieceLedger, now: Option<Knot>) -> String {
    let mut places: Vec<String> = Vec::new();
    for row in &ledger.rows {
        if let Heap::Portions { whereabouts, places: of, .. } = &row.heap {
            let count = number_word(of.len());
            places.push(match whereabouts {
                Whereabouts::Out(_) => format!("{count} out"),
                Whereabouts::Loose => format!("{} in no pack", portions_of(of.len())),
                Whereabouts::Heat => format!("{count} at the heat"),
                Whereabouts::Store(_) => format!("{count} in store"),
                Whereabouts::Spare => format!("{count} left over"),
                Whereabouts::Eaten => format!("{count} eaten"),
                Whereabouts::Discarded => format!("{count} thrown away"),
            });
        }
    }
    if places.is_empty() && now == Some(Knot::Cut) { "not cut yet".to_owned() } else { places.join(", ") }
}
