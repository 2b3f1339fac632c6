//! A field with its label, its unit, what may stay unknown and, under it, what is wrong with what was typed.

use maud::{Markup, html};
use std::collections::BTreeMap;

/// What a form was sent with, and what stands against it: a refused form keeps what was typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Typed {
    form: String,
    values: BTreeMap<String, String>,
    wrong: BTreeMap<String, String>,
    whole: Vec<String>,
}

impl Typed {
    /// A form that was not sent yet, with the values it starts from.
    #[must_use]
    pub fn fresh(values: &[(&str, String)]) -> Self {
        Self {
            values: values.iter().map(|(name, value)| ((*name).to_owned(), value.clone())).collect(),
            ..Self::default()
        }
    }

    /// What came with the form of this name.
    #[must_use]
    pub fn sent(form: &str, values: BTreeMap<String, String>) -> Self {
        Self { form: form.to_owned(), values, ..Self::default() }
    }

    /// The same, if it was sent with the form of this name; else `fresh`: so that the other forms of a page stay as they
    /// were.
    #[must_use]
    pub fn of<'a>(&'a self, form: &str, fresh: &'a Self) -> &'a Self {
        if self.form == form { self } else { fresh }
    }

    /// Which form was sent.
    #[must_use]
    pub fn form(&self) -> &str {
        &self.form
    }

    /// What was typed, without the spaces around it; nothing if it was left empty.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&str> {
        self.values.get(name).map(|value| value.trim()).filter(|value| !value.is_empty())
    }

    /// Says what is wrong with a field.
    pub fn refuse(&mut self, name: &str, words: impl Into<String>) {
        self.wrong.entry(name.to_owned()).or_insert_with(|| words.into());
    }

    /// Says what is wrong with the form as a whole: what the record has against it.
    pub fn refuse_whole(&mut self, words: impl Into<String>) {
        self.whole.push(words.into());
    }

    /// Whether nothing stands against it.
    #[must_use]
    pub fn is_good(&self) -> bool {
        self.wrong.is_empty() && self.whole.is_empty()
    }

    /// What is wrong with a field, if anything.
    #[must_use]
    pub fn wrong(&self, name: &str) -> Option<&str> {
        self.wrong.get(name).map(String::as_str)
    }

    /// What is wrong as a whole, over the form's button.
    #[must_use]
    pub fn whole(&self) -> &[String] {
        &self.whole
    }
}

/// A field to be drawn.
#[derive(Clone, Debug)]
pub struct Field<'a> {
    name: &'a str,
    label: &'a str,
    unit: Option<&'a str>,
    unknown: Option<&'a str>,
    hint: Option<&'a str>,
    kind: Kind,
    whole: bool,
    required: bool,
    scale: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Decimal,
    Text,
    Date,
    When,
    Note,
}

impl<'a> Field<'a> {
    /// A number; either unit may be typed.
    #[must_use]
    pub fn number(name: &'a str, label: &'a str) -> Self {
        Self {
            name,
            label,
            unit: None,
            unknown: None,
            hint: None,
            kind: Kind::Decimal,
            whole: false,
            required: false,
            scale: false,
        }
    }

    /// A few words.
    #[must_use]
    pub fn text(name: &'a str, label: &'a str) -> Self {
        Self { kind: Kind::Text, ..Self::number(name, label) }
    }

    /// A day.
    #[must_use]
    pub fn date(name: &'a str, label: &'a str) -> Self {
        Self { kind: Kind::Date, ..Self::number(name, label) }
    }

    /// A day and hour; left empty it is now.
    #[must_use]
    pub fn when(name: &'a str, label: &'a str) -> Self {
        Self { kind: Kind::When, ..Self::number(name, label) }
    }

    /// A sentence or more.
    #[must_use]
    pub fn note(name: &'a str, label: &'a str) -> Self {
        Self { kind: Kind::Note, whole: true, ..Self::number(name, label) }
    }

    /// The unit behind it; a bare number is in this one.
    #[must_use]
    pub fn unit(self, unit: &'a str) -> Self {
        Self { unit: Some(unit), ..self }
    }

    /// The word that stands in it while it is unknown: `not on the bag`.
    #[must_use]
    pub fn unknown(self, word: &'a str) -> Self {
        Self { unknown: Some(word), ..self }
    }

    /// A sentence under it.
    #[must_use]
    pub fn hint(self, words: &'a str) -> Self {
        Self { hint: Some(words), ..self }
    }

    /// Over the full width of the form.
    #[must_use]
    pub fn wide(self) -> Self {
        Self { whole: true, ..self }
    }

    /// A scale that types may fill it: its digits come here wherever the focus is.
    #[must_use]
    pub fn from_scale(self) -> Self {
        Self { scale: true, ..self }
    }

    /// Cannot be left out.
    #[must_use]
    pub fn required(self) -> Self {
        Self { required: true, ..self }
    }

    /// The field with what was typed in it.
    #[must_use]
    pub fn draw(&self, typed: &Typed) -> Markup {
        let id = field_id(typed.form(), self.name);
        let wrong = typed.wrong(self.name);
        let described = self.described(&id, wrong.is_some());
        let value = typed.values.get(self.name).map_or("", String::as_str);
        html! {
            div class=(self.class(wrong.is_some())) {
                label for=(id) { (self.label) }
                div class="take" {
                    @if self.kind == Kind::Note {
                        textarea id=(id) name=(self.name) rows="2" aria-invalid=[wrong.map(|_| "true")]
                            aria-describedby=[described.as_deref()] placeholder=[self.unknown] { (value) }
                    } @else {
                        input id=(id) name=(self.name) type=(self.input_type()) value=(value) autocomplete="off"
                            step=[(self.kind == Kind::When).then_some("60")]
                            inputmode=[(self.kind == Kind::Decimal).then_some("decimal")]
                            placeholder=[self.unknown] required[self.required] data-typed[self.scale] aria-invalid=[wrong.map(|_| "true")]
                            aria-describedby=[described.as_deref()];
                    }
                    @if let Some(unit) = self.unit { span { (unit) } }
                }
                @if let Some(words) = wrong { span class="wrong" id={ (id) "-wrong" } { (words) } }
                @if let Some(words) = self.hint { span class="hint" id={ (id) "-hint" } { (words) } }
            }
        }
    }

    fn input_type(&self) -> &'static str {
        match self.kind {
            Kind::Date => "date",
            Kind::When => "datetime-local",
            Kind::Decimal | Kind::Text | Kind::Note => "text",
        }
    }

    fn class(&self, bad: bool) -> &'static str {
        match (self.whole, bad) {
            (false, false) => "field",
            (false, true) => "field bad",
            (true, false) => "field whole",
            (true, true) => "field whole bad",
        }
    }

    fn described(&self, id: &str, bad: bool) -> Option<String> {
        match (bad, self.hint.is_some()) {
            (true, true) => Some(format!("{id}-wrong {id}-hint")),
            (true, false) => Some(format!("{id}-wrong")),
            (false, true) => Some(format!("{id}-hint")),
            (false, false) => None,
        }
    }
}

/// One of a few: a row of buttons to tap, or a list to open where there are many.
#[derive(Clone, Debug)]
pub struct Choice<'a> {
    /// Name of the field.
    pub name: &'a str,
    /// Its label.
    pub label: &'a str,
    /// Values and the words for them.
    pub options: &'a [(&'a str, &'a str)],
    /// The value it starts from.
    pub start: &'a str,
}

impl Choice<'_> {
    /// All shown, two taps: choose, confirm.
    #[must_use]
    pub fn pick(&self, typed: &Typed) -> Markup {
        let chosen = typed.get(self.name).unwrap_or(self.start);
        html! {
            fieldset class="pick" {
                legend { (self.label) }
                @for (value, words) in self.options {
                    label { input type="radio" name=(self.name) value=(value) checked[*value == chosen]; (words) }
                }
                @if let Some(words) = typed.wrong(self.name) { span class="wrong" { (words) } }
            }
        }
    }

    /// A list that opens.
    #[must_use]
    pub fn list(&self, typed: &Typed) -> Markup {
        let chosen = typed.get(self.name).unwrap_or(self.start);
        let id = field_id(typed.form(), self.name);
        html! {
            div class="field" {
                label for=(id) { (self.label) }
                div class="take" {
                    select id=(id) name=(self.name) {
                        @for (value, words) in self.options {
                            option value=(value) selected[*value == chosen] { (words) }
                        }
                    }
                }
                @if let Some(words) = typed.wrong(self.name) { span class="wrong" { (words) } }
            }
        }
    }
}

/// Unique on a page with several forms.
fn field_id(form: &str, name: &str) -> String {
    if form.is_empty() { name.to_owned() } else { format!("{form}-{name}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_problem_stands_under_the_field_and_is_tied_to_it() {
        let values = BTreeMap::from([("mass".to_owned(), "6 400 kg".to_owned())]);
        let mut typed = Typed::sent("buy", values);
        typed.refuse("mass", "6 400 kg? The heaviest roll here is 12 kg. Did you mean 6.400?");
        let drawn = Field::number("mass", "Weight on the label").unit("kg").draw(&typed).into_string();
        assert!(drawn.contains("value=\"6 400 kg\""), "what was typed is kept: {drawn}");
        assert!(drawn.contains("aria-invalid=\"true\""));
        assert!(
            drawn.contains("aria-describedby=\"buy-mass-wrong\"") && drawn.contains("id=\"buy-mass-wrong\"")
        );
        assert!(!typed.is_good());
    }

    #[test]
    fn unknown_is_a_word_and_an_empty_field_is_none() {
        let typed = Typed::default();
        let drawn = Field::date("packed", "Packed on").unknown("not on the bag").draw(&typed).into_string();
        assert!(drawn.contains("placeholder=\"not on the bag\"") && !drawn.contains("aria-invalid"));
        assert_eq!(Typed::sent("buy", BTreeMap::from([("a".into(), "  ".into())])).get("a"), None);
    }

    #[test]
    fn one_form_of_a_page_does_not_fill_another() {
        let sent = Typed::sent("weight", BTreeMap::from([("mass".into(), "498".into())]));
        let fresh = Typed::default();
        assert_eq!(sent.of("weight", &fresh).get("mass"), Some("498"));
        assert_eq!(sent.of("core", &fresh).get("mass"), None);
    }

    #[test]
    fn a_choice_starts_where_it_is_told_and_keeps_what_was_chosen() {
        let lip = Choice {
            name: "lip",
            label: "Lip",
            options: &[("narrow", "narrow"), ("unknown", "cannot see")],
            start: "unknown",
        };
        let fresh = lip.pick(&Typed::default()).into_string();
        assert!(fresh.contains("value=\"unknown\" checked"), "{fresh}");
        let sent = Typed::sent("case", BTreeMap::from([("lip".into(), "narrow".into())]));
        assert!(lip.pick(&sent).into_string().contains("value=\"narrow\" checked"));
    }
}
