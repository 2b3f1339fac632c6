//! The marking strip of a plan, as a PDF.

use axum::extract::{Path, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};

use crate::failure::Failure;
use crate::house::House;
use crate::pages::piece::named;
use crate::papers;

/// `GET /piece/WORD/strip.pdf`
pub(crate) async fn show(State(house): State<House>, Path(word): Path<String>) -> Result<Response, Failure> {
    let visit = house.visit();
    let id = named(&visit, &word)?;
    let made = house
        .compute(move || {
            let piece = visit.state.piece(id)?;
            Some(papers::strip(&visit.state, piece, visit.now()))
        })
        .await?;
    match made.ok_or(Failure::Fault)? {
        Ok(pdf) => Ok(pdf_named(&format!("strip-{}.pdf", word.to_lowercase()), pdf)),
        Err(error) => Err(Failure::no_such(
            format!("A strip of {}", word.to_uppercase()),
            format!("{error}. The knife plan says what is missing."),
        )),
    }
}

/// A PDF that the browser shows, and saves under that name.
pub(crate) fn pdf_named(name: &str, pdf: Vec<u8>) -> Response {
    let headers = [
        (header::CONTENT_TYPE, "application/pdf".to_owned()),
        (header::CONTENT_DISPOSITION, format!("inline; filename=\"{name}\"")),
    ];
    (headers, pdf).into_response()
}
