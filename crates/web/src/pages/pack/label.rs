//! Labels as PDFs, and the address their codes lead to.

use axum::extract::{FromRequestParts, Path, Query, State};
use axum::http::header;
use axum::http::request::Parts;
use axum::response::Response;
use paper::{Printing, Stock};
use record::Pack;
use serde::Deserialize;
use std::convert::Infallible;
use std::net::IpAddr;

use crate::failure::Failure;
use crate::house::{House, Visit};
use crate::pages::piece::named;
use crate::pages::plan::pdf_named;
use crate::papers;

/// The house's own address, as the one who asks has opened it: what the codes of labels lead to.
#[derive(Clone, Debug)]
pub(crate) struct Base {
    /// `http://192.168.1.20:8080`; nothing where the request named no host.
    pub(crate) address: Option<String>,
    /// Whether that address opens on this machine alone.
    pub(crate) is_here_only: bool,
}

impl<S: Send + Sync> FromRequestParts<S> for Base {
    type Rejection = Infallible;

    async fn from_request_parts(parts: &mut Parts, _state: &S) -> Result<Self, Infallible> {
        let named = parts.headers.get(header::HOST).and_then(|host| host.to_str().ok());
        let host = named.or_else(|| parts.uri.authority().map(|authority| authority.as_str()));
        Ok(host.map_or(Self { address: None, is_here_only: true }, base_of))
    }
}

/// The base of a host and port.
fn base_of(host: &str) -> Base {
    let name = match host.rsplit_once(':') {
        Some((name, port)) if port.bytes().all(|byte| byte.is_ascii_digit()) => name,
        _ => host,
    };
    let bare = name.trim_start_matches('[').trim_end_matches(']');
    let loopback = bare.parse::<IpAddr>().is_ok_and(|address| address.is_loopback());
    Base { address: Some(format!("http://{host}")), is_here_only: loopback || bare == "localhost" }
}

/// How a PDF is asked for.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct On {
    on: Option<String>,
    from: Option<String>,
}

/// What labels are printed on: as asked, else as set, else the roll.
fn printing(visit: &Visit, on: Option<&str>, from: Option<&str>) -> Printing {
    let on = on.or_else(|| visit.settings().text("label.on"));
    match on {
        Some("sheet") => {
            Printing::Sheet { from: from.and_then(|from| from.trim().parse().ok()).unwrap_or(1) }
        }
        _ => Printing::Roll,
    }
}

/// `GET /pack/SLUG/label.pdf`
pub(crate) async fn pdf(
    State(house): State<House>,
    Path(slug): Path<String>,
    Query(on): Query<On>,
    base: Base,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let pack = visit.state.pack_of(&slug).ok_or_else(|| no_such_pack(&slug))?;
    print(&visit, &[pack], &on, &base, &format!("label-{}.pdf", pack.slug))
}

/// `GET /piece/WORD/labels.pdf`: every pack of a piece that still holds something.
pub(crate) async fn all(
    State(house): State<House>,
    Path(word): Path<String>,
    Query(on): Query<On>,
    base: Base,
) -> Result<Response, Failure> {
    let visit = house.visit();
    let piece = visit.state.piece(named(&visit, &word)?).ok_or(Failure::Fault)?;
    let packs: Vec<&Pack> = visit.state.packs_of(piece).filter(|pack| pack.gone.is_none()).collect();
    print(&visit, &packs, &on, &base, &format!("labels-{}.pdf", piece.word.slug()))
}

fn print(visit: &Visit, packs: &[&Pack], on: &On, base: &Base, name: &str) -> Result<Response, Failure> {
    let labels: Vec<_> = packs
        .iter()
        .map(|pack| papers::label(&visit.state, pack, visit.now(), base.address.as_deref()))
        .collect();
    let printing = printing(visit, on.on.as_deref(), on.from.as_deref());
    let pdf = papers::labels(&labels, printing);
    pdf.map(|pdf| pdf_named(name, pdf)).map_err(|error| {
        Failure::no_such("This print", format!("{}.", crate::words::sentence_case(&error.to_string())))
    })
}

pub(crate) fn no_such_pack(slug: &str) -> Failure {
    Failure::no_such(
        format!("A pack called {}", slug.to_uppercase()),
        "Every pack that is in the store stands there; one whose label is gone is found by its weight.",
    )
}

/// Both stocks, as the page shows them.
pub(super) const STOCKS: [(Stock, &str); 2] = [(Stock::Roll, "roll"), (Stock::Sheet, "sheet")];
