//! Who comes in where the house listens beyond this machine: whoever opened a link that works once.
//!
//! The link is printed where the program runs; once it is used, the next one is. The device that used it keeps a cookie
//! until the program ends. Both are 128 random bits, what OWASP ASVS 7.2.3 asks for, and the house keeps only their hashes.
//! The page behind the link has a button, since programs that look a link over before a person does would use it up.

use axum::extract::{Path, Request, State};
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Redirect, Response};
use maud::html;
use std::sync::{Arc, Mutex, PoisonError};

use crate::failure::Failure;
use crate::house::House;
use crate::parts::{Page, Place, answer, said};

/// Where the link leads; its secret follows.
const DOOR: &str = "/come-in/";
const COOKIE: &str = "gambrel-device";

/// The links of one house. Cheap to copy.
#[derive(Clone)]
pub struct Links(Arc<Inner>);

struct Inner {
    tell: Box<dyn Fn(&str) + Send + Sync>,
    held: Mutex<Held>,
}

/// Hashes, never the secrets themselves.
#[derive(Default)]
struct Held {
    link: Option<blake3::Hash>,
    devices: Vec<blake3::Hash>,
}

impl Links {
    /// Links for a house; `tell` is given the path of each new one, to show it to the person at the machine.
    #[must_use]
    pub fn new(tell: impl Fn(&str) + Send + Sync + 'static) -> Self {
        Self(Arc::new(Inner { tell: Box::new(tell), held: Mutex::default() }))
    }

    /// Makes a new link and tells of it; the one before no longer works.
    pub fn make(&self) {
        let Some(secret) = secret() else { return };
        self.held().link = Some(hash(&secret));
        (self.0.tell)(&format!("{DOOR}{secret}"));
    }

    /// Uses the link up; the device's own secret, if it was the link.
    fn spend(&self, link: &str) -> Option<String> {
        let device = secret()?;
        {
            let mut held = self.held();
            // Hashes compare in constant time.
            held.link.take_if(|known| *known == hash(link))?;
            held.devices.push(hash(&device));
        }
        self.make();
        Some(device)
    }

    fn is_link(&self, link: &str) -> bool {
        self.held().link.is_some_and(|known| known == hash(link))
    }

    fn knows(&self, headers: &HeaderMap) -> bool {
        let Some(device) = cookie(headers) else { return false };
        self.held().devices.contains(&hash(device))
    }

    fn held(&self) -> std::sync::MutexGuard<'_, Held> {
        self.0.held.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl std::fmt::Debug for Links {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Links")
    }
}

/// Lets in devices that are known, and anybody as far as the page behind a link and what it is drawn with.
pub(crate) async fn guard(State(links): State<Links>, request: Request, next: Next) -> Response {
    let open = [DOOR, "/assets/"].iter().any(|open| request.uri().path().starts_with(open));
    if open || links.knows(request.headers()) {
        return next.run(request).await;
    }
    Failure::NotLetIn.into_response()
}

/// The page behind the link.
pub(crate) async fn show(State((house, links)): State<(House, Links)>, Path(link): Path<String>) -> Response {
    if !links.is_link(&link) {
        return Failure::NotLetIn.into_response();
    }
    let main = html! {
        h1 { "Come in" }
        (answer("This device may read and write this kitchen's record."))
        (said("The link works once. The next one stands where the program runs."))
        form method="post" action=(format!("{DOOR}{link}")) {
            div class="acts" { button class="press first" { "Come in" } }
        }
    };
    let mut response = house.visit().page(&Page::new(Place::Today, "Come in", main));
    response.headers_mut().insert(header::REFERRER_POLICY, HeaderValue::from_static("no-referrer"));
    response
}

/// Uses the link up and lets the device in.
pub(crate) async fn enter(State((_, links)): State<(House, Links)>, Path(link): Path<String>) -> Response {
    let Some(device) = links.spend(&link) else { return Failure::NotLetIn.into_response() };
    // Without Secure: on the home network the house speaks plain http, and browsers would not keep the cookie.
    let cookie = format!("{COOKIE}={device}; Path=/; HttpOnly; SameSite=Strict; Max-Age=31536000");
    let mut response = Redirect::to("/").into_response();
    match HeaderValue::from_str(&cookie) {
        Ok(cookie) => drop(response.headers_mut().insert(header::SET_COOKIE, cookie)),
        Err(_) => *response.status_mut() = StatusCode::INTERNAL_SERVER_ERROR,
    }
    response
}

fn cookie(headers: &HeaderMap) -> Option<&str> {
    let cookies = headers.get_all(header::COOKIE).iter().filter_map(|cookies| cookies.to_str().ok());
    cookies
        .flat_map(|cookies| cookies.split(';'))
        .find_map(|cookie| cookie.trim().strip_prefix(COOKIE)?.strip_prefix('='))
}

/// 128 random bits of the system, in hexadecimal digits; nothing if the system has none to give.
fn secret() -> Option<String> {
    let mut bytes = [0; 16];
    getrandom::fill(&mut bytes).ok()?;
    Some(format!("{:032x}", u128::from_be_bytes(bytes)))
}

fn hash(secret: &str) -> blake3::Hash {
    blake3::hash(secret.as_bytes())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Kitchen, serve::guarded};
    use axum::Router;
    use axum::body::Body;
    use axum::http::Method;
    use tower::ServiceExt;

    async fn ask(app: &Router, method: Method, path: &str, cookie: Option<&str>) -> Response {
        let mut request =
            Request::builder().method(method).uri(path).header(header::HOST, "192.168.1.20:4180");
        if let Some(cookie) = cookie {
            request = request.header(header::COOKIE, cookie);
        }
        app.clone().oneshot(request.body(Body::empty()).expect("a request")).await.expect("a response")
    }

    #[tokio::test]
    async fn a_link_lets_one_device_in_and_the_next_one_is_told() {
        let told = Arc::new(Mutex::new(Vec::new()));
        let list = Arc::clone(&told);
        let links = Links::new(move |path| list.lock().expect("a list").push(path.to_owned()));
        links.make();
        let house = House::new(Kitchen::in_memory(), None, Vec::new());
        let app = guarded(house, Some(links));
        let link = told.lock().expect("a list")[0].clone();
        for path in ["/", "/api/entries", "/piece/tarn", "/nowhere"] {
            assert_eq!(ask(&app, Method::GET, path, None).await.status(), StatusCode::FORBIDDEN, "{path}");
        }
        let forged = format!("{COOKIE}={}", "0".repeat(64));
        assert_eq!(ask(&app, Method::GET, "/", Some(&forged)).await.status(), StatusCode::FORBIDDEN);
        // Looked over, twice, and still good.
        for _ in 0..2 {
            assert_eq!(ask(&app, Method::GET, &link, None).await.status(), StatusCode::OK);
        }
        let entered = ask(&app, Method::POST, &link, None).await;
        assert_eq!(entered.status(), StatusCode::SEE_OTHER);
        let cookie = entered.headers()[header::SET_COOKIE].to_str().expect("text").to_owned();
        assert!(cookie.contains("HttpOnly") && cookie.contains("SameSite=Strict"), "{cookie}");
        let cookie = cookie.split(';').next().expect("a cookie");
        assert_eq!(ask(&app, Method::GET, "/api/entries", Some(cookie)).await.status(), StatusCode::OK);
        // The link is used up; another one was told.
        assert_eq!(ask(&app, Method::POST, &link, None).await.status(), StatusCode::FORBIDDEN);
        let links = told.lock().expect("a list").clone();
        assert!(links.len() == 2 && links[0] != links[1], "{links:?}");
    }
}
