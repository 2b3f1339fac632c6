//! A weight: of which piece? The last five, and what of each is weighed next.

use axum::extract::State;
use axum::response::Response;
use maud::html;
use record::Piece;

use crate::failure::Failure;
use crate::house::{House, Visit};
use crate::pages::shared::cut_name;
use crate::parts::{Page, Place, Row, acts, answer, rows};

/// As many as are ever in hand at once.
const SHOWN: usize = 5;

/// `GET /write/weight`
pub(crate) async fn show(State(house): State<House>) -> Result<Response, Failure> {
    let visit = house.visit();
    let pieces: Vec<Row> = visit
        .state
        .pieces()
        .rev()
        .filter(|piece| piece.discarded.is_none())
        .take(SHOWN)
        .map(|piece| row(&visit, piece))
        .collect();
    let main = html! {
        h1 { "A weight" }
        @if pieces.is_empty() {
            (answer("Nothing is in hand. Write down a piece first."))
            (acts(html! { a class="press first" href="/case" { "A first piece" } }))
        } @else {
            (answer("Of which piece?"))
            (rows(&pieces))
        }
    };
    Ok(visit.page(&Page::new(Place::Today, "A weight", main)))
}

/// An uncut piece is weighed with its bag off; one on the board is weighed there; of a cut one heaps are left.
fn row(visit: &Visit, piece: &Piece) -> Row {
    let slug = piece.word.slug();
    let settled = season::own_yield(&visit.state, piece).is_some();
    let (link, more) = if piece.portions.is_empty() {
        (format!("/piece/{slug}?open=bag#bag"), "the bag off, the purge")
    } else if settled {
        (format!("/piece/{slug}?open=heap#heap"), "a heap of trim, fat or bone")
    } else {
        (format!("/piece/{slug}/board"), "the next portion, on the board")
    };
    Row {
        link: Some(link),
        words: format!("{}, {}", piece.word, cut_name(visit.settings(), &piece.received.cut)),
        more: Some(more.to_owned()),
    }
}
