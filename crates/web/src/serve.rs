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
