//! Reading bodies: every problem at once, unknown keys with the nearest known one, either unit system.

mod either;
mod field;
mod reader;
mod scalar;
mod strict;

pub use either::{Marks, Price};
pub use reader::{Note, Problem};
pub use strict::parse;

pub(crate) use either::{amount, one_of};
pub(crate) use field::{Field, Item};
pub(crate) use reader::{Reader, Writer, nearest, shown};
pub(crate) use scalar::Scalar;

/// A choice of fixed words: the enum, how it is read and how it is written.
macro_rules! choice {
    ($(#[doc = $doc:literal])+ $name:ident { $($(#[doc = $word_doc:literal])+ $variant:ident = $word:literal,)+ }) => {
        $(#[doc = $doc])+
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum $name { $($(#[doc = $word_doc])+ $variant,)+ }

        impl $name {
            /// Every choice, in the order forms list them.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)+];

            /// The word it is written as.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $(Self::$variant => $word,)+ }
            }

            /// The choice of that word, if there is one.
            #[must_use]
            pub fn of(word: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|choice| choice.word() == word)
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.word())
            }
        }

        impl $crate::read::Scalar for $name {
            type Limits = ();
            fn parse(value: &serde_json::Value, (): &()) -> Option<Self> {
                value.as_str().and_then(Self::of)
            }
            fn allowed((): &()) -> String {
                [$($word),+].join(" | ")
            }
            fn json(&self) -> serde_json::Value {
                self.word().into()
            }
            fn schema((): &()) -> serde_json::Value {
                serde_json::json!({ "enum": [$($word),+] })
            }
            fn words() -> &'static [&'static str] {
                &[$($word),+]
            }
        }
    };
}

/// An object of the record: its struct, how it is read, how it is written, what its keys mean.
macro_rules! object {
    ($(#[doc = $doc:literal])+ $name:ident {
        $($(#[doc = $field_doc:literal])+ $field:ident: $stem:literal $type:ty = $limits:expr;)+
    }) => {
        $(#[doc = $doc])+
        #[derive(Clone, Debug, PartialEq)]
        pub struct $name { $($(#[doc = $field_doc])+ pub $field: $type,)+ }

        impl $name {
            pub(crate) fn read(reader: &mut $crate::read::Reader<'_>) -> Option<Self> {
                // Every field is read before any is missed, so that all problems are found at once.
                $(let $field = <$type as $crate::read::Field>::read(reader, $stem, &$limits);)+
                Some(Self { $($field: $field?,)+ })
            }
            pub(crate) fn write(&self, writer: &mut $crate::read::Writer) {
                $($crate::read::Field::write(&self.$field, writer, $stem);)+
            }
            pub(crate) fn notes(notes: &mut Vec<$crate::read::Note>) {
                $(<$type as $crate::read::Field>::note(
                    notes, $stem, concat!($($field_doc),+).trim(), &$limits,
                );)+
            }
        }

        impl $crate::read::Item for $name {
            type Limits = ();
            fn item(value: &serde_json::Value, path: &str, (): &(), problems: &mut Vec<$crate::read::Problem>)
                -> Option<Self> {
                $crate::read::Reader::object(value, path, problems, Self::read)
            }
            fn json(&self) -> serde_json::Value {
                let mut writer = $crate::read::Writer::default();
                self.write(&mut writer);
                writer.into_value()
            }
            fn item_notes(notes: &mut Vec<$crate::read::Note>) {
                Self::notes(notes);
            }
            fn item_schema((): &()) -> serde_json::Value {
                let mut notes = Vec::new();
                Self::notes(&mut notes);
                $crate::schema::object(&notes)
            }
            fn allowed((): &()) -> String {
                "a table".to_owned()
            }
        }
    };
}

pub(crate) use {choice, object};
