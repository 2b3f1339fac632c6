//! What every answer carries and every request is held against: no foreign host, no foreign site, no inline script.

use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderValue, Method, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use std::net::IpAddr;

use crate::failure::Failure;
use crate::house::House;

/// Everything from here, nothing from elsewhere, no inline script or style. Drawings carry classes, never colours.
const POLICY: &str =
    "default-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'; object-src 'none'";

/// Headers of every answer.
pub(crate) async fn headers(request: Request, next: Next) -> Response {
    let mut response = next.run(request).await;
    let headers = response.headers_mut();
    let mut set = |name: header::HeaderName, value: &'static str| {
        headers.entry(name).or_insert(HeaderValue::from_static(value));
    };
    set(header::CONTENT_SECURITY_POLICY, POLICY);
    set(header::X_CONTENT_TYPE_OPTIONS, "nosniff");
    set(header::REFERRER_POLICY, "same-origin");
    set(header::HeaderName::from_static("cross-origin-opener-policy"), "same-origin");
    set(header::HeaderName::from_static("cross-origin-resource-policy"), "same-origin");
    set(
        header::HeaderName::from_static("permissions-policy"),
        "camera=(self), geolocation=(), microphone=()",
    );
    // A page is asked for again each time: what it says may have changed a second ago.
    set(header::CACHE_CONTROL, "no-cache");
    response
}

/// Refuses requests for another host, which a foreign page could make through a name it points here, and entries sent by
/// a page of another site.
pub(crate) async fn origin(State(house): State<House>, request: Request, next: Next) -> Response {
    let headers = request.headers();
    let Some(host) = host(&request) else {
        return Failure::ForeignHost { host: "none".to_owned() }.into_response();
    };
    if !is_ours(&host, house.hosts()) {
        return Failure::ForeignHost { host }.into_response();
    }
    let writes = !matches!(*request.method(), Method::GET | Method::HEAD | Method::OPTIONS);
    if writes && is_foreign(headers, &host) {
        return Failure::ForeignSite.into_response();
    }
    next.run(request).await
}

fn host(request: &Request) -> Option<String> {
    let header = request.headers().get(header::HOST).and_then(|value| value.to_str().ok());
    header.or_else(|| request.uri().authority().map(|authority| authority.as_str())).map(str::to_lowercase)
}

/// An address, `localhost`, or a name the house was told is its own. An address cannot be pointed here by a foreign name.
fn is_ours(host: &str, names: &[String]) -> bool {
    let name = without_port(host);
    name == "localhost"
        || name.trim_start_matches('[').trim_end_matches(']').parse::<IpAddr>().is_ok()
        || names.iter().any(|ours| ours.eq_ignore_ascii_case(name))
}

fn without_port(host: &str) -> &str {
    match host.rsplit_once(':') {
        Some((name, port)) if port.bytes().all(|byte| byte.is_ascii_digit()) && !name.is_empty() => name,
        _ => host,
    }
}

fn is_foreign(headers: &HeaderMap, host: &str) -> bool {
    let text = |name: &str| headers.get(name).and_then(|value| value.to_str().ok());
    if let Some(site) = text("sec-fetch-site") {
        return !matches!(site, "same-origin" | "none");
    }
    // Older browsers: the origin's host must be this one. Programs send neither.
    text("origin").is_some_and(|origin| {
        origin.split_once("://").is_none_or(|(_, rest)| !rest.eq_ignore_ascii_case(host))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_that_a_foreign_page_points_here_is_not_ours() {
        let names = ["kitchen.local".to_owned()];
        for host in ["localhost:4173", "127.0.0.1:4173", "[::1]:4173", "192.168.1.7", "kitchen.local:4173"] {
            assert!(is_ours(host, &names), "{host}");
        }
        for host in ["evil.example", "localhost.evil.example", "127.0.0.1.evil.example:4173", ""] {
            assert!(!is_ours(host, &names), "{host}");
        }
    }

    #[test]
    fn an_entry_from_another_site_is_foreign() {
        let with = |name: &'static str, value: &'static str| {
            let mut headers = HeaderMap::new();
            headers.insert(name, HeaderValue::from_static(value));
            headers
        };
        assert!(is_foreign(&with("sec-fetch-site", "cross-site"), "localhost:1"));
        assert!(!is_foreign(&with("sec-fetch-site", "same-origin"), "localhost:1"));
        assert!(is_foreign(&with("origin", "http://evil.example"), "localhost:1"));
        assert!(is_foreign(&with("origin", "null"), "localhost:1"));
        assert!(!is_foreign(&with("origin", "http://localhost:1"), "localhost:1"));
        assert!(!is_foreign(&HeaderMap::new(), "localhost:1"), "a program sends neither");
    }
}
