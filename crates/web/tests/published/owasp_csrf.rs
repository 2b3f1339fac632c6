//! OWASP Cheat Sheet Series, Cross-Site Request Forgery Prevention (published). standards.toml, fetch_metadata: five rows.
//!
//! The fallback row: without `Sec-Fetch-Site` the origin decides; without an origin either, the sheet rejects on a
//! sensitive endpoint. Here a browser cannot come without both: JSON needs its leave first (CORS), and types that do not
//! are refused. A program, which sends neither, is let in: that is what the record's address is for.

use crate::answered;
use axum::http::StatusCode;

const HOST: (&str, &str) = ("host", "127.0.0.1:4180");

#[tokio::test]
async fn fetch_metadata() {
    let rows = [
        ("POST", "same-origin", true),
        ("POST", "cross-site", false),
        ("GET", "cross-site", true),
        ("GET", "none", true),
    ];
    for (method, site, allowed) in rows {
        let status = answered(method, &[HOST, ("sec-fetch-site", site)]).await;
        assert_eq!(status.is_success(), allowed, "{method} {site}: {status}");
        assert!(allowed || status == StatusCode::FORBIDDEN, "{method} {site}: {status}");
    }
}

#[tokio::test]
async fn without_fetch_metadata_the_origin_decides() {
    let rows = [
        (Some("http://127.0.0.1:4180"), true),
        (Some("http://evil.example"), false),
        (Some("http://127.0.0.1:3000"), false),
        (Some("null"), false),
        (None, true),
    ];
    for (origin, allowed) in rows {
        let origin = origin.map(|origin| ("origin", origin));
        let headers: Vec<_> = std::iter::once(HOST).chain(origin).collect();
        let status = answered("POST", &headers).await;
        assert_eq!(status.is_success(), allowed, "{origin:?}: {status}");
    }
    // What a form of another site can send without asking is never an entry, origin or not.
    let form = answered("POST", &[HOST, ("content-type", "text/plain")]).await;
    assert!(!form.is_success(), "{form}");
}
