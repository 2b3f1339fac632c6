//! A piece on the board, with what is cut and not weighed yet.

use axum::extract::Query;
use quantity::Length;
use record::Piece;
use season::{Board, board};
use serde::Deserialize;
use uuid::Uuid;

use crate::house::Visit;

/// What the address says beside the piece.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Asked {
    /// Portions cut and not weighed, as `174-204,204-234` in mm from the tip of the named end.
    made: Option<String>,
    /// Whether the end is reached before the plan is.
    end: Option<String>,
    /// Whether one more portion is weighed than the plan has.
    more: Option<String>,
}

/// The query of a request.
pub(super) type Sought = Query<Asked>;

/// At most so many portions wait for the scale; a longer list is a slip of the address.
const MOST: usize = 60;

impl Asked {
    pub(super) fn new(made: Vec<(Length, Length)>, end: bool) -> Self {
        let words: Vec<String> =
            made.iter().map(|(from, to)| format!("{:.1}-{:.1}", from.mm(), to.mm())).collect();
        Self {
            made: (!made.is_empty()).then(|| words.join(",")),
            end: end.then(|| "yes".to_owned()),
            more: None,
        }
    }

    /// Marks of portions cut and not weighed; what cannot be read is passed over.
    pub(super) fn made(&self) -> Vec<(Length, Length)> {
        let pair = |text: &str| {
            let (from, to) = text.split_once('-')?;
            let (from, to): (f64, f64) = (from.parse().ok()?, to.parse().ok()?);
            let on_a_piece = (0.0..=3000.0).contains(&from) && (0.0..=3000.0).contains(&to) && to > from;
            on_a_piece.then(|| (Length::from_mm(from), Length::from_mm(to)))
        };
        self.made.as_deref().unwrap_or_default().split(',').filter_map(pair).take(MOST).collect()
    }

    pub(super) fn is_end(&self) -> bool {
        self.end.is_some()
    }

    pub(super) fn is_more(&self) -> bool {
        self.more.is_some()
    }

    /// As the address carries it: nothing, or `?made=…`.
    pub(super) fn tail(&self) -> String {
        let made = self.made.as_ref().map(|made| format!("made={made}"));
        let parts: Vec<String> =
            made.into_iter().chain(self.end.as_ref().map(|_| "end=yes".to_owned())).collect();
        if parts.is_empty() { String::new() } else { format!("?{}", parts.join("&")) }
    }
}

/// A piece and its board.
pub(super) struct Found<'v> {
    pub(super) piece: &'v Piece,
    pub(super) board: Board<'v>,
    pub(super) asked: Asked,
}

pub(super) fn found<'v>(visit: &'v Visit, id: Uuid, asked: &Asked) -> Option<Found<'v>> {
    let piece = visit.state.piece(id)?;
    let board = board(&visit.state, piece, &asked.made(), visit.now());
    Some(Found { piece, board, asked: asked.clone() })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_cut_and_not_weighed_stands_in_the_address() {
        let made = vec![(Length::from_mm(174.0), Length::from_mm(204.0))];
        let asked = Asked::new(made.clone(), false);
        assert_eq!(asked.tail(), "?made=174.0-204.0");
        assert_eq!(asked.made(), made);
        let slips = Asked { made: Some("x,5-3,1-2-3,-4-9,10-20".into()), ..Asked::default() };
        assert_eq!(slips.made(), [(Length::from_mm(10.0), Length::from_mm(20.0))]);
    }
}
