//! The piece on the board, drawn: what is cut stands apart, the next mark is thick.

use quantity::{Length, Units};
use season::{Board, Plan};

use crate::pages::shared::{portions_of, side};
use crate::plot::piece::{Side, Slice};
use crate::words::{counted, number_word, sentence_case};

/// The drawing and the sentence that says the same.
pub(super) fn drawing(plan: &Plan, board: &Board<'_>, units: &Units, is_end: bool) -> (Side, String) {
    let from_zero = |length: Length| (length - plan.zero).mm();
    let weighed =
        plan.plan.portions.iter().filter(|portion| portion.weighed).zip(&board.cut).map(|(portion, cut)| {
            Slice {
                n: cut.portion.n,
                from_mm: from_zero(portion.from),
                to_mm: from_zero(portion.to),
                cut: true,
            }
        });
    let made = board.unweighed.iter().map(|made| Slice {
        n: made.n,
        from_mm: from_zero(made.from),
        to_mm: from_zero(made.to),
        cut: true,
    });
    // At the end nothing is planned any more.
    let planned = if is_end { &[] } else { board.ahead.as_slice() };
    let first = board.next.as_ref().map_or(1, |next| next.made.n);
    let ahead = (first..).zip(planned).map(|(n, portion)| Slice {
        n,
        from_mm: from_zero(portion.from),
        to_mm: from_zero(portion.to),
        cut: false,
    });
    let slices: Vec<Slice> = weighed.chain(made).chain(ahead).collect();
    let next = board.next.as_ref().filter(|_| !is_end).map(|next| (next.mark.mm(), units.length(next.mark)));
    let cut = board.cut.len() + board.unweighed.len();
    let sentence = match &next {
        Some((_, mark)) => format!(
            "The piece from the side, {} long. {} cut. The next mark stands at {mark}; {} planned after it.",
            units.length(plan.plan.length),
            sentence_case(&counted(cut, "portion is", "portions are")),
            number_word(board.ahead.len().saturating_sub(1))
        ),
        None => format!(
            "The piece from the side, {} long, cut into {}.",
            units.length(plan.plan.length),
            portions_of(cut)
        ),
    };
    (side::side(plan, units, slices, next), sentence)
}
