//! Forms that write: they post without script, and sending one twice counts once.

use super::field::Typed;
use maud::{Markup, Render, html};
use uuid::Uuid;

/// A form that writes an entry. Its hidden id is made with the page, so that the entry sent twice is one entry; the
/// script adds the moment it was sent, so that one kept through a dead network keeps its own hour.
#[must_use]
pub fn entry_form(to: &str, typed: &Typed, form: &str, fields: impl Render, buttons: impl Render) -> Markup {
    html! {
        form method="post" action=(to) data-entry autocomplete="off" {
            (hidden_id(typed, form))
            (fields)
            @for words in typed.whole() { p class="wrong" role="alert" { (words) } }
            div class="acts" { (buttons) }
        }
    }
}

/// The form's name and the id of the entry it will write: the one it was sent with, where it was refused.
#[must_use]
pub fn hidden_id(typed: &Typed, form: &str) -> Markup {
    let id = typed.get("id").and_then(|id| Uuid::parse_str(id).ok()).unwrap_or_else(Uuid::now_v7);
    html! {
        input type="hidden" name="form" value=(form);
        input type="hidden" name="id" value=(id);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    #[test]
    fn a_refused_form_keeps_its_id() {
        let id = Uuid::now_v7().to_string();
        let typed = Typed::sent("buy", BTreeMap::from([("id".to_owned(), id.clone())]));
        assert!(hidden_id(&typed, "buy").into_string().contains(&id));
        let one = hidden_id(&Typed::default(), "buy").into_string();
        let other = hidden_id(&Typed::default(), "buy").into_string();
        assert_ne!(one, other, "two pages write two entries");
    }
}
