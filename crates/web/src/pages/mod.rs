//! A folder a page: `query.rs` asks the state, `view.rs` puts the answer into words, `markup.rs` is markup only, `mod.rs`
//! is the handler.

mod bag;
mod board;
mod books;
mod case;
mod entry;
mod pack;
mod piece;
mod pieces;
mod plan;
mod served;
mod settings;
pub(crate) mod shared;
mod store;
mod table;
mod thaw;
mod today;
mod ways;
mod write;

use axum::Router;
use axum::routing::get;

use crate::house::House;

/// Routes of all pages.
pub(crate) fn routes() -> Router<House> {
    Router::new()
        .route("/", get(today::show))
        .route("/case", get(case::show).post(case::bought))
        .route("/books", get(books::show))
        .route("/books/pieces.csv", get(books::csv))
        .route("/books/settings", get(settings::show).post(settings::write))
        .route("/entry/{number}", get(entry::show).post(entry::write))
        .route("/write/weight", get(write::weight))
        .route("/write/temperature", get(write::temperature).post(write::write_temperature))
        .route("/pieces", get(pieces::show))
        .route("/piece/{word}", get(piece::show).post(piece::write))
        .route("/piece/{word}/plan", get(plan::show).post(plan::write))
        .route("/piece/{word}/strip.pdf", get(plan::strip))
        .route("/piece/{word}/board", get(board::show).post(board::write))
        .route("/piece/{word}/pack", get(pack::show).post(pack::write))
        .route("/piece/{word}/labels.pdf", get(pack::labels))
        .route("/pack/{slug}/label.pdf", get(pack::pdf))
        .route("/pack/{slug}", get(bag::show).post(bag::write))
        .route("/PACK/{slug}", get(bag::capitals))
        .route("/store", get(store::show).post(store::write))
        .route("/table", get(table::show).post(table::write))
        .route("/table/{slug}", get(table::supper::show).post(table::supper::write))
        .route("/table/{slug}/thaw", get(thaw::show).post(thaw::write))
        .route("/piece/{word}/{n}/ways", get(ways::of_portion))
        .route("/table/{slug}/ways/{portion}", get(ways::at_supper))
        .route("/piece/{word}/{n}", get(served::show).post(served::write))
}
