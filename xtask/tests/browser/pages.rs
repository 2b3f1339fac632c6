//! The pages, a row each.

/// The moment the invented season stands at when it is looked at: a supper evening, the supper four hours away.
pub(crate) const NOW: &str = "2026-07-18T15:10:00+02:00";

/// Which record a page is looked at with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Record {
    /// The invented season.
    Season,
    /// A kitchen that has written nothing yet.
    Empty,
}

/// One page and what must be found on it.
#[derive(Debug)]
pub(crate) struct Page {
    pub(crate) name: &'static str,
    pub(crate) path: &'static str,
    pub(crate) record: Record,
    /// The five places stand on it; the board and the heat drop them and keep one way out.
    pub(crate) places: bool,
    /// It has an entry, so a button is reached by keyboard.
    pub(crate) button: bool,
}

const fn page(name: &'static str, path: &'static str) -> Page {
    Page { name, path, record: Record::Season, places: true, button: true }
}

/// Every page of the product.
pub(crate) const PAGES: &[Page] = &[
    page("today", "/"),
    Page { record: Record::Empty, ..page("first", "/") },
    page("case", "/case"),
    page("pieces", "/pieces"),
    page("piece", "/piece/tarn"),
    page("plan", "/piece/tarn/plan"),
    Page { places: false, ..page("board", "/piece/tarn/board") },
    page("packing", "/piece/tarn/pack"),
    page("portion", "/piece/tarn/4"),
    page("ways", "/table/2026-07-18/ways/tarn-4"),
    page("pack", "/pack/tarn-11-12"),
    page("store", "/store"),
    page("suppers", "/table"),
    page("table", "/table/2026-07-18"),
    page("thaw", "/table/2026-07-18/thaw"),
    page("books", "/books"),
    page("settings", "/books/settings"),
];

impl Page {
    /// The row of this name.
    pub(crate) fn named(name: &str) -> Result<&'static Self, String> {
        let names = || PAGES.iter().map(|page| page.name).collect::<Vec<_>>().join(", ");
        PAGES
            .iter()
            .find(|page| page.name == name)
            .ok_or_else(|| format!("no page {name:?}; there are {}", names()))
    }
}
