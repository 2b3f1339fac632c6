//! The house held against published rules. One file a source.
#![allow(clippy::expect_used, reason = "a test that cannot set up its case has failed")]

mod ncc_rebind;
mod owasp_csrf;

use axum::body::Body;
use axum::http::{Request, StatusCode};
use tower::ServiceExt;
use web::{House, Kitchen};

/// What the house answers to a request with these headers: an entry for POST, a page's data for GET.
async fn answered(method: &str, headers: &[(&str, &str)]) -> StatusCode {
    let entry = record::example::values().remove(0).to_string();
    let (path, body) =
        if method == "POST" { ("/api/entries", entry) } else { ("/api/pieces", String::new()) };
    let mut request = Request::builder().method(method).uri(path);
    if !headers.iter().any(|(name, _)| *name == "content-type") {
        request = request.header("content-type", "application/json");
    }
    for (name, value) in headers {
        request = request.header(*name, *value);
    }
    let house = House::new(Kitchen::in_memory(), None, Vec::new());
    let request = request.body(Body::from(body)).expect("a request");
    web::app(house).oneshot(request).await.expect("a response").status()
}
