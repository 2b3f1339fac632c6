//! The verbs: each has its fields, its reading, its answer as JSON and its answer as a person reads it.

mod cut;
mod meat;
mod properties;
mod simulate;
mod worth;

use crate::field::Field;
use crate::problem::Problems;
use crate::{Answer, Flags};
use std::str::FromStr;
use thiserror::Error;

/// A computing command.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verb {
    /// The whole piece against the counter.
    Worth,
    /// The knife plan.
    Cut,
    /// Heat in one piece.
    Simulate,
    /// What the meat is at each temperature.
    Properties,
}

/// No verb has this name.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("\"{found}\" is no form; known: {known}")]
pub struct UnknownVerb {
    found: String,
    known: String,
}

impl Verb {
    /// Every verb.
    pub const ALL: [Self; 4] = [Self::Worth, Self::Cut, Self::Simulate, Self::Properties];

    /// Its name on the command line and in the address of its API.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Worth => "worth",
            Self::Cut => "cut",
            Self::Simulate => "simulate",
            Self::Properties => "properties",
        }
    }

    /// What it answers, in a sentence.
    #[must_use]
    pub const fn about(self) -> &'static str {
        match self {
            Self::Worth => {
                "Is the whole piece cheaper than the counter, and where do its grams and its money go?"
            }
            Self::Cut => "How many portions, how thick, and where along the piece does the knife go?",
            Self::Simulate => {
                "How long until the middle is there, how far does it rise, and what does the slice look like?"
            }
            Self::Properties => {
                "What is this meat at each temperature: ice, density, specific heat, conductivity, enthalpy?"
            }
        }
    }

    pub(crate) const fn fields(self) -> &'static [Field] {
        match self {
            Self::Worth => worth::FIELDS,
            Self::Cut => cut::FIELDS,
            Self::Simulate => simulate::FIELDS,
            Self::Properties => properties::FIELDS,
        }
    }

    pub(crate) fn answer(self, file: &str, bytes: &[u8], flags: &Flags) -> Result<Answer, Problems> {
        match self {
            Self::Worth => worth::answer(file, bytes, flags),
            Self::Cut => cut::answer(file, bytes, flags),
            Self::Simulate => simulate::answer(file, bytes, flags),
            Self::Properties => properties::answer(file, bytes, flags),
        }
    }
}

impl FromStr for Verb {
    type Err = UnknownVerb;
    fn from_str(name: &str) -> Result<Self, UnknownVerb> {
        Self::ALL.into_iter().find(|verb| verb.name() == name).ok_or_else(|| UnknownVerb {
            found: name.to_owned(),
            known: Self::ALL.map(Self::name).join(", "),
        })
    }
}

#[cfg(test)]
mod tests;
