//! What a request can come to besides its answer. A browser gets a page, a program a problem document (RFC 9457).

use axum::Json;
use axum::extract::{Request, State};
use axum::http::{StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use journal::Refused;
use maud::{Markup, html};
use serde_json::json;
use thiserror::Error;

use crate::house::House;
use crate::parts::{Page, Place, answer, said};

/// Why there is no answer.
#[derive(Clone, Debug, Error)]
pub(crate) enum Failure {
    /// No page or thing of that name.
    #[error("{what} is not here. {instead}")]
    NotFound {
        /// What was asked for, as people say it.
        what: String,
        /// What to do.
        instead: String,
    },
    /// The page is there, but not for this kind of request.
    #[error("This address does not take that kind of request.")]
    WrongMethod,
    /// What came is longer than anything a form sends.
    #[error("What was sent is longer than this address takes: at most {limit} bytes.")]
    TooLong {
        /// What is allowed.
        limit: usize,
    },
    /// What came could not be read as a form.
    #[error("What was sent could not be read as a form: {found}.")]
    Unreadable {
        /// What the reader says.
        found: String,
    },
    /// A host that is not this house.
    #[error(
        "This house does not answer to the name {host}. Open it by its address, or start it with that name."
    )]
    ForeignHost {
        /// What was asked for.
        host: String,
    },
    /// A form of another site.
    #[error("A page of another site tried to write here. Nothing was written.")]
    ForeignSite,
    /// The id of the form stands for something else already.
    #[error(
        "This form was sent before and said something else, as number {number} of the record. Open the page again."
    )]
    Conflict {
        /// The number of the entry that has the id.
        number: u64,
    },
    /// The hour of an entry, or this machine's, cannot be.
    #[error("{why}")]
    Clock {
        /// What the journal says, with what to do.
        why: String,
    },
    /// A device that came by no link.
    #[error(
        "This house opens by a link that works once. The program that serves it shows one where it runs; open that."
    )]
    NotLetIn,
    /// The record could not be written or read.
    #[error("{why}")]
    Journal {
        /// What the journal says, with what to do.
        why: String,
    },
    /// A fault of the program.
    #[error("The program met a fault of its own. What is written down is safe on disk.")]
    Fault,
}

impl Failure {
    /// No such piece, pack or supper; says where the list is.
    pub(crate) fn no_such(what: impl Into<String>, instead: impl Into<String>) -> Self {
        Self::NotFound { what: what.into(), instead: instead.into() }
    }

    fn status(&self) -> StatusCode {
        match self {
            Self::NotFound { .. } => StatusCode::NOT_FOUND,
            Self::WrongMethod => StatusCode::METHOD_NOT_ALLOWED,
            Self::TooLong { .. } => StatusCode::PAYLOAD_TOO_LARGE,
            Self::Unreadable { .. } => StatusCode::BAD_REQUEST,
            Self::ForeignHost { .. } => StatusCode::MISDIRECTED_REQUEST,
            Self::ForeignSite => StatusCode::FORBIDDEN,
            Self::NotLetIn => StatusCode::FORBIDDEN,
            Self::Conflict { .. } => StatusCode::CONFLICT,
            Self::Clock { .. } => StatusCode::UNPROCESSABLE_ENTITY,
            Self::Journal { .. } => StatusCode::SERVICE_UNAVAILABLE,
            Self::Fault => StatusCode::INTERNAL_SERVER_ERROR,
        }
    }

    fn heading(&self) -> &'static str {
        match self {
            Self::NotFound { .. } => "Not here",
            Self::WrongMethod | Self::Unreadable { .. } | Self::TooLong { .. } => "Not understood",
            Self::ForeignHost { .. } | Self::ForeignSite | Self::NotLetIn => "Not let in",
            Self::Conflict { .. } | Self::Clock { .. } | Self::Journal { .. } => "Not written down",
            Self::Fault => "A fault of the program",
        }
    }

    fn page(&self) -> Page {
        let main: Markup = html! {
            h1 { (self.heading()) }
            (answer(self.to_string()))
            (said("What is written down stays as it was."))
            div class="acts" { a class="press first" href="/" { "To today" } }
        };
        Page::new(Place::Today, self.heading(), main)
    }
}

impl From<Refused> for Failure {
    fn from(refused: Refused) -> Self {
        let why = crate::words::sentence_case(&format!("{}.", refused.to_string().trim_end_matches('.')));
        match refused {
            Refused::Conflict { number, .. } => Self::Conflict { number },
            Refused::NotYet { .. } | Refused::ClockWentBack { .. } | Refused::MayNotFollow { .. } => {
                Self::Clock { why }
            }
            Refused::Journal(_) => Self::Journal { why },
        }
    }
}

impl IntoResponse for Failure {
    /// The status alone, with the failure for [`frame`] to put into words of the right kind.
    fn into_response(self) -> Response {
        let mut response = self.status().into_response();
        response.extensions_mut().insert(self);
        response
    }
}

/// Puts a failure into words: a page for a browser, a problem document for whatever asks under `/api`.
pub(crate) async fn frame(State(house): State<House>, request: Request, next: Next) -> Response {
    let is_api = request.uri().path().starts_with("/api");
    let path = request.uri().path().to_owned();
    let mut response = next.run(request).await;
    let bare = response.headers().get(header::CONTENT_TYPE).is_none();
    let failure = response.extensions_mut().remove::<Failure>().or_else(|| match response.status() {
        StatusCode::METHOD_NOT_ALLOWED if bare => Some(Failure::WrongMethod),
        StatusCode::NOT_FOUND if bare => {
            Some(Failure::no_such(path.clone(), "The five places stand at the head or the foot of the page."))
        }
        _ => None,
    });
    match failure {
        None => response,
        Some(failure) if is_api => problem(&failure),
        Some(failure) => house.visit().answer(failure.status(), &failure.page()),
    }
}

fn problem(failure: &Failure) -> Response {
    let body = json!({
        "type": "about:blank",
        "title": failure.heading(),
        "status": failure.status().as_u16(),
        "detail": failure.to_string(),
    });
    let mut response = (failure.status(), Json(body)).into_response();
    response
        .headers_mut()
        .insert(header::CONTENT_TYPE, header::HeaderValue::from_static("application/problem+json"));
    response
}
