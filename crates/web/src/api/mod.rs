//! The JSON API: the record and the verbs.

use axum::Router;

use crate::house::House;

/// Routes under `/api`.
pub(crate) fn routes() -> Router<House> {
    Router::new()
}
