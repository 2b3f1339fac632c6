//! The server: routes, what every request passes through, and the listening itself.

use axum::extract::DefaultBodyLimit;
use axum::http::StatusCode;
use axum::routing::get;
use axum::{Router, middleware};
use jiff::Timestamp;
use journal::Kitchen;
use std::net::SocketAddr;
use std::time::Duration;
use thiserror::Error;
use tokio::net::TcpListener;
use tower_http::compression::CompressionLayer;
use tower_http::timeout::TimeoutLayer;

use crate::house::House;
use crate::link::Links;
use crate::{api, assets, failure, guard, link, pages, sent};

/// How the house is opened.
#[derive(Clone, Debug)]
pub struct Options {
    /// Where it listens.
    pub at: SocketAddr,
    /// What its clock shall show when it opens, where that is not the machine's.
    pub now: Option<Timestamp>,
    /// Names it answers to besides its addresses: a name of the home network.
    pub hosts: Vec<String>,
    /// Links by which devices come in; nothing lets in whoever reaches the address, as on this machine alone.
    pub links: Option<Links>,
}

/// Why the house cannot be opened.
#[derive(Debug, Error)]
pub enum ServeError {
    /// The address is taken or not this machine's.
    #[error(
        "{at} cannot be listened at ({why}); another program may have that port. Try --at 127.0.0.1:0 for any free one"
    )]
    CannotListen {
        /// The address.
        at: SocketAddr,
        /// What the system says.
        why: std::io::Error,
    },
    /// Listening ended with an error.
    #[error("the house stopped listening: {0}")]
    Stopped(#[from] std::io::Error),
}

/// Opens the house and serves until `closing` is done; `opened` is told where it listens.
///
/// # Errors
/// [`ServeError`] if the address cannot be listened at.
pub async fn serve(
    kitchen: Kitchen,
    options: Options,
    opened: impl FnOnce(SocketAddr),
    closing: impl Future<Output = ()> + Send + 'static,
) -> Result<(), ServeError> {
    let at = options.at;
    let listener = TcpListener::bind(at).await.map_err(|why| ServeError::CannotListen { at, why })?;
    opened(listener.local_addr()?);
    let house = House::new(kitchen, options.now, options.hosts);
    tokio::spawn(house.clone().plan_ahead());
    let closes = house.clone();
    let closing = async move {
        closing.await;
        closes.close();
    };
    axum::serve(listener, guarded(house, options.links)).with_graceful_shutdown(closing).await?;
    Ok(())
}

/// All routes with what they pass through, for a server or a test.
pub fn app(house: House) -> Router {
    guarded(house, None)
}

/// All routes, behind links where there are any.
pub(crate) fn guarded(house: House, links: Option<Links>) -> Router {
    let routes = Router::new()
        .merge(pages::routes())
        .nest("/api", api::routes())
        .route("/assets/{name}", get(assets::serve));
    let routes = match links {
        None => routes,
        Some(links) => {
            let door = get(link::show).post(link::enter).with_state((house.clone(), links.clone()));
            routes.route("/come-in/{link}", door).layer(middleware::from_fn_with_state(links, link::guard))
        }
    };
    routes
        .layer(DefaultBodyLimit::max(sent::FORM_LIMIT))
        .layer(middleware::from_fn_with_state(house.clone(), guard::origin))
        .layer(middleware::from_fn_with_state(house.clone(), failure::frame))
        .layer(TimeoutLayer::with_status_code(StatusCode::SERVICE_UNAVAILABLE, Duration::from_secs(30)))
        .layer(CompressionLayer::new())
        .layer(middleware::from_fn(guard::headers))
        .with_state(house)
}

#[cfg(test)]
mod tests {
    use super::*;
    use axum::body::{Body, to_bytes};
    use axum::http::{Request, Response, header};
    use tower::ServiceExt;

    async fn ask(request: Request<Body>) -> (Response<()>, String) {
        let house = House::new(Kitchen::in_memory(), None, vec!["kitchen.local".to_owned()]);
        let answer = app(house).oneshot(request).await.unwrap();
        let (parts, body) = answer.into_parts();
        let bytes = to_bytes(body, 1_000_000).await.unwrap();
        (Response::from_parts(parts, ()), String::from_utf8_lossy(&bytes).into_owned())
    }

    fn to(method: &str, path: &str) -> axum::http::request::Builder {
        Request::builder().method(method).uri(path).header(header::HOST, "kitchen.local:4180")
    }

    #[tokio::test]
    async fn every_answer_forbids_what_is_foreign_and_inline() {
        let (answer, page) = ask(to("GET", "/").body(Body::empty()).unwrap()).await;
        let policy = answer.headers()[header::CONTENT_SECURITY_POLICY].to_str().unwrap();
        assert!(policy.starts_with("default-src 'self'") && !policy.contains("unsafe"));
        assert_eq!(answer.headers()[header::X_CONTENT_TYPE_OPTIONS], "nosniff");
        assert!(!page.contains("<style") && !page.contains(" style=") && !page.contains("onclick="));
        assert_eq!(page.matches("<script").count(), 1, "one script, from a file");
    }

    #[tokio::test]
    async fn a_sheet_is_kept_for_good_and_an_old_one_is_gone() {
        let (answer, sheet) = ask(to("GET", assets::SHEET.path()).body(Body::empty()).unwrap()).await;
        assert_eq!(answer.status(), StatusCode::OK);
        assert_eq!(answer.headers()[header::CACHE_CONTROL], "public, max-age=31536000, immutable");
        assert!(sheet.starts_with("/* One sheet"));
        let (answer, _) = ask(to("GET", "/assets/sheet-0000000000.css").body(Body::empty()).unwrap()).await;
        assert_eq!(answer.status(), StatusCode::NOT_FOUND);
    }

    #[tokio::test]
    async fn the_phones_first_page_is_under_sixty_kilobytes_before_it_is_packed() {
        let mut sum = 0;
        for path in ["/", assets::SHEET.path(), assets::SCRIPT.path(), assets::MARK.path()] {
            sum += ask(to("GET", path).body(Body::empty()).unwrap()).await.1.len();
        }
        assert!(sum < 60_000, "{sum} bytes");
    }

    #[tokio::test]
    async fn what_is_not_here_is_a_page_for_people_and_a_problem_for_programs() {
        let (answer, page) = ask(to("GET", "/nowhere").body(Body::empty()).unwrap()).await;
        assert_eq!(answer.status(), StatusCode::NOT_FOUND);
        assert!(page.contains("/nowhere is not here.") && page.contains("aria-label=\"Places\""));
        let (answer, problem) = ask(to("GET", "/api/nowhere").body(Body::empty()).unwrap()).await;
        assert_eq!(answer.headers()[header::CONTENT_TYPE], "application/problem+json");
        assert!(problem.contains("\"status\":404"), "{problem}");
        let (answer, page) = ask(to("DELETE", "/pieces").body(Body::empty()).unwrap()).await;
        assert_eq!(answer.status(), StatusCode::METHOD_NOT_ALLOWED);
        assert!(page.contains("does not take that kind of request"));
    }

    #[tokio::test]
    async fn a_form_too_long_or_from_elsewhere_is_turned_away_with_a_sentence() {
        let form = |name: &'static str, value: &'static str| {
            to("POST", "/books/settings")
                .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded")
                .header(name, value)
        };
        let long = format!("form=settings&bag.lot={}", "x".repeat(sent::FORM_LIMIT));
        let (answer, page) = ask(form("x-from", "test").body(Body::from(long)).unwrap()).await;
        assert_eq!(answer.status(), StatusCode::PAYLOAD_TOO_LARGE);
        assert!(page.contains("at most 65536 bytes"), "{page}");
        let foreign = form("sec-fetch-site", "cross-site").body(Body::from("form=settings")).unwrap();
        let (answer, page) = ask(foreign).await;
        assert_eq!(answer.status(), StatusCode::FORBIDDEN);
        assert!(page.contains("Nothing was written."));
        let request = Request::get("/").header(header::HOST, "evil.example").body(Body::empty()).unwrap();
        assert_eq!(ask(request).await.0.status(), StatusCode::MISDIRECTED_REQUEST);
    }
}
