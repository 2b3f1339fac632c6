//! The JSON API: the record and the verbs.

mod openapi;
mod verbs;

use axum::Router;
use axum::routing::get;

use crate::house::House;

/// Routes under `/api`.
pub(crate) fn routes() -> Router<House> {
    verbs::routes().route("/openapi.json", get(openapi::serve))
}
