//! The page around an answer: skip link, head with clock and state of writing, five places, main, foot buttons.

use maud::{DOCTYPE, Markup, html};

use crate::assets;

/// The five places, in their order on every page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Next step, the day's rule, what is overdue.
    Today,
    /// Every piece; at the case; plan; board; packing.
    Pieces,
    /// Cold store.
    Store,
    /// Suppers, thaw and salt, dinner hour.
    Table,
    /// Yield, cost, settings.
    Books,
}

impl Place {
    const ALL: [(Self, &'static str, &'static str); 5] = [
        (Self::Today, "Today", "/"),
        (Self::Pieces, "Pieces", "/pieces"),
        (Self::Store, "Store", "/store"),
        (Self::Table, "Table", "/table"),
        (Self::Books, "Books", "/books"),
    ];
}

/// How a page is held: it decides sizes and whether the paper is dark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// In the hand or on a table.
    Near,
    /// At arm's length: board and heat.
    Far,
    /// With gloves or wet hands: the sealer.
    Glove,
    /// In the cellar, with gloves, in the dark.
    Cellar,
}

/// A page before it is put into its frame.
#[derive(Clone, Debug)]
pub struct Page {
    place: Place,
    title: String,
    main: Markup,
    held: Held,
    hands: Option<Markup>,
    way_out: Option<(String, String)>,
    days_in_head: bool,
}

impl Page {
    /// A page of a place; `title` names page and thing, as in the browser's tab.
    #[must_use]
    pub fn new(place: Place, title: impl Into<String>, main: Markup) -> Self {
        Self {
            place,
            title: title.into(),
            main,
            held: Held::Near,
            hands: None,
            way_out: None,
            days_in_head: place != Place::Today,
        }
    }

    /// How it is held.
    #[must_use]
    pub fn held(self, held: Held) -> Self {
        Self { held, ..self }
    }

    /// Two foot buttons instead of the bar of places, and one way out, top left: `‹ TARN`.
    #[must_use]
    pub fn hands(self, buttons: Markup, way_out_to: impl Into<String>, word: impl Into<String>) -> Self {
        Self { hands: Some(buttons), way_out: Some((way_out_to.into(), word.into())), ..self }
    }
}

/// What the head says besides the page.
#[derive(Clone, Debug)]
pub struct Head {
    /// `15:10`, or with its day.
    pub clock: String,
    /// The same with its day, for pages other than Today.
    pub clock_with_day: String,
    /// The same moment, ms since 1970, for the script's clock.
    pub now_ms: i64,
    /// Name of the kitchen's zone; empty where it has none.
    pub zone: String,
    /// Whether the clock is am, pm.
    pub twelve: bool,
    /// `all written down`, `nothing written yet`.
    pub writing: String,
    /// Number of the last entry the page was made from.
    pub number: u64,
}

/// The whole document.
#[must_use]
pub fn document(page: &Page, head: &Head) -> Markup {
    let class = match page.held {
        Held::Near => "",
        Held::Far => "far",
        Held::Glove => "glove",
        Held::Cellar => "glove cellar",
    };
    let root = (page.held == Held::Cellar).then_some("cellar");
    html! {
        (DOCTYPE)
        html lang="en" class=[root] {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover";
                meta name="color-scheme" content=(if root.is_some() { "dark" } else { "light dark" });
                title { (page.title) " – gambrel" }
                link rel="stylesheet" href=(assets::SHEET.path());
                link rel="icon" type="image/svg+xml" href=(assets::MARK.path());
                script src=(assets::SCRIPT.path()) defer {}
            }
            body class=[Some(class).filter(|class| !class.is_empty())] data-number=(head.number) data-now=(head.now_ms)
                data-zone=(head.zone) data-hours=(if head.twelve { "12" } else { "24" }) {
                a class="skip" href="#main" { "Skip to the answer" }
                (head_line(page, head))
                @if page.hands.is_none() { (places(page.place)) }
                main id="main" tabindex="-1" class=[page.hands.is_some().then_some("held")] { (page.main) }
                @if let Some(buttons) = &page.hands { div class="hands" role="region" aria-label="At hand" { (buttons) } }
            }
        }
    }
}

fn head_line(page: &Page, head: &Head) -> Markup {
    html! {
        header class="head" {
            @match &page.way_out {
                Some((to, word)) => a class="name" href=(to) { "‹ " (word) },
                None => a class="name" href="/" { (mark()) "gambrel" },
            }
            p class="state" {
                span data-clock data-day[page.days_in_head] { (if page.days_in_head { &head.clock_with_day } else { &head.clock }) }
                " · "
                span data-writing role="status" { (head.writing) }
            }
        }
    }
}

/// The frame a butcher hangs meat on.
fn mark() -> Markup {
    html! {
        svg viewBox="0 0 24 16" aria-hidden="true" {
            path d="M2 15V8H22V15M12 8V1" fill="none" stroke="currentColor" stroke-width="2.5" {}
        }
    }
}

fn places(here: Place) -> Markup {
    html! {
        nav class="places" aria-label="Places" {
            ul {
                @for (place, name, link) in Place::ALL {
                    li { a href=(link) aria-current=[(place == here).then_some("page")] { (name) } }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn head() -> Head {
        Head {
            clock: "15:10".into(),
            clock_with_day: "Sat 18 July, 15:10".into(),
            now_ms: 0,
            zone: "Europe/Berlin".into(),
            twelve: false,
            writing: "all written down".into(),
            number: 46,
        }
    }

    #[test]
    fn the_place_of_the_page_is_marked_and_the_answer_can_be_skipped_to() {
        let page = Page::new(Place::Store, "Store", html! { h1 { "Store" } });
        let drawn = document(&page, &head()).into_string();
        assert!(drawn.contains("<a href=\"/store\" aria-current=\"page\">Store</a>"));
        assert_eq!(drawn.matches("aria-current").count(), 1);
        assert!(drawn.contains("href=\"#main\"") && drawn.contains("<main id=\"main\""));
        assert!(drawn.contains("Sat 18 July, 15:10"));
    }

    #[test]
    fn the_board_drops_the_bar_and_keeps_one_way_out() {
        let page = Page::new(Place::Pieces, "Board", html! {}).held(Held::Far).hands(
            html! { button { "Cut. Next" } },
            "/piece/tarn",
            "TARN",
        );
        let drawn = document(&page, &head()).into_string();
        assert!(!drawn.contains("class=\"places\""));
        assert!(drawn.contains("‹ TARN") && drawn.contains("class=\"hands\""));
    }

    #[test]
    fn what_is_typed_is_escaped() {
        let page = Page::new(Place::Today, "<b>", html! { p { ("<script>") } });
        let drawn = document(&page, &head()).into_string();
        assert!(drawn.contains("&lt;script&gt;") && drawn.contains("<title>&lt;b&gt;"));
    }
}
