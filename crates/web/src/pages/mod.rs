//! A folder a page: `query.rs` asks the state, `view.rs` puts the answer into words, `markup.rs` is markup only, `mod.rs`
//! is the handler.

use axum::Router;

use crate::house::House;

/// Routes of all pages.
pub(crate) fn routes() -> Router<House> {
    Router::new()
}
