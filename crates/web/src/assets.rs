//! The sheet, the script and the mark: embedded, addressed by their content, so that a browser keeps them for good.

use axum::http::{StatusCode, Uri, header};
use axum::response::{IntoResponse, Response};
use std::sync::LazyLock;

/// An embedded file with its address.
pub(crate) struct Asset {
    path: LazyLock<String>,
    media_type: &'static str,
    text: &'static str,
}

impl Asset {
    /// Its address, which changes with its content.
    pub(crate) fn path(&self) -> &str {
        &self.path
    }
}

/// The one sheet.
pub(crate) static SHEET: Asset = Asset {
    path: LazyLock::new(|| address("sheet", SHEET_TEXT, "css")),
    media_type: "text/css; charset=utf-8",
    text: SHEET_TEXT,
};
/// The one script.
pub(crate) static SCRIPT: Asset = Asset {
    path: LazyLock::new(|| address("house", SCRIPT_TEXT, "js")),
    media_type: "text/javascript; charset=utf-8",
    text: SCRIPT_TEXT,
};
/// The mark, for the browser's tab.
pub(crate) static MARK: Asset = Asset {
    path: LazyLock::new(|| address("mark", MARK_TEXT, "svg")),
    media_type: "image/svg+xml",
    text: MARK_TEXT,
};

/// Serves an embedded file; one of another content has another address and is not found here.
pub(crate) async fn serve(uri: Uri) -> Response {
    let found = [&SHEET, &SCRIPT, &MARK].into_iter().find(|asset| asset.path() == uri.path());
    match found {
        Some(asset) => (
            [
                (header::CONTENT_TYPE, asset.media_type),
                (header::CACHE_CONTROL, "public, max-age=31536000, immutable"),
            ],
            asset.text,
        )
            .into_response(),
        None => StatusCode::NOT_FOUND.into_response(),
    }
}

fn address(stem: &str, content: &str, ending: &str) -> String {
    let hash = blake3::hash(content.as_bytes()).to_hex();
    format!("/assets/{stem}-{}.{ending}", hash.get(..10).unwrap_or_default())
}

/// The layers in their order; `layers.css` fixes who has the last word.
const SHEET_TEXT: &str = concat!(
    include_str!("../assets/css/layers.css"),
    include_str!("../assets/css/tokens.css"),
    include_str!("../assets/css/reset.css"),
    include_str!("../assets/css/type.css"),
    include_str!("../assets/css/frame.css"),
    include_str!("../assets/css/controls.css"),
    include_str!("../assets/css/tables.css"),
    include_str!("../assets/css/drawing.css"),
    include_str!("../assets/css/pages/far.css"),
    include_str!("../assets/css/pages/pieces.css"),
    include_str!("../assets/css/pages/board.css"),
    include_str!("../assets/css/pages/plan.css"),
    include_str!("../assets/css/pages/pack.css"),
    include_str!("../assets/css/pages/store.css"),
    include_str!("../assets/css/pages/table.css"),
    include_str!("../assets/css/pages/ways.css"),
    include_str!("../assets/css/pages/settings.css"),
    include_str!("../assets/css/print.css"),
);
const SCRIPT_TEXT: &str = include_str!("../assets/js/house.js");
const MARK_TEXT: &str = include_str!("../assets/mark.svg");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_address_changes_with_the_content() {
        assert_ne!(address("sheet", "a", "css"), address("sheet", "b", "css"));
        assert!(SHEET.path().starts_with("/assets/sheet-") && SHEET.path().ends_with(".css"));
    }

    #[test]
    fn colours_stand_in_tokens_alone() {
        // The label's own black and white is paper and stands in tokens too; `#main` and the like are no colours.
        let sheet = SHEET_TEXT.replace(include_str!("../assets/css/tokens.css"), "");
        let screen = sheet.replace(include_str!("../assets/css/print.css"), "");
        for word in screen.split(|c: char| !(c.is_ascii_alphanumeric() || c == '#')) {
            let is_colour = word.starts_with('#') && word[1..].chars().all(|c| c.is_ascii_hexdigit());
            assert!(!is_colour || word.len() < 4, "{word} is a colour outside the tokens");
        }
    }

    #[test]
    fn the_script_is_small() {
        assert!(SCRIPT_TEXT.len() <= 12 * 1024, "{} bytes", SCRIPT_TEXT.len());
    }
}
