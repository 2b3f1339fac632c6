//! The piece on the board: what the scale, the ruler and the eye say of it.

use crate::{Prior, RollError};
use band::Value;
use quantity::{Length, Mass};

/// A piece to be planned, uncut. Positions run from the end where the knife starts.
#[derive(Clone, Debug)]
pub struct Piece {
    /// What is known of such pieces.
    pub prior: Prior,
    /// Mass in kg, bag off.
    pub mass: Value,
    /// Length from tip to tip in m.
    pub length: Value,
    /// Its end faces.
    pub ends: Ends,
    /// The knife or saw.
    pub knife: Knife,
    /// Width and height measured along it, any number.
    pub stations: Vec<Station>,
    /// Smallest step of the scale that weighs the piece and its portions.
    pub scale_division: Mass,
}

impl Piece {
    /// A piece of which nothing is known but its cut: measurements are then set one by one.
    ///
    /// # Errors
    /// As [`Prior::of`].
    pub fn of(cut: &str) -> Result<Self, RollError> {
        Ok(Self::with(Prior::of(cut)?))
    }

    /// A piece of which nothing is known but what its prior says.
    #[must_use]
    pub fn with(prior: Prior) -> Self {
        Self {
            prior,
            mass: Value::Unknown,
            length: Value::Unknown,
            ends: Ends::default(),
            knife: Knife::default(),
            stations: Vec::new(),
            scale_division: Mass::from_g(1.0),
        }
    }
}

/// The two end faces, in the order of the knife.
#[derive(Clone, Copy, Debug, Default)]
pub struct Ends {
    /// Where the knife starts.
    pub first: End,
    /// The other one.
    pub last: End,
}

/// An end face that slants: its tip stands out beyond its lowest point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct End {
    /// By how much in m. Squaring it off costs half of that in full section.
    pub slant: Value,
    /// Cut off square before portions are cut; otherwise the first or last portion is thinner on one side by the slant.
    pub squared: bool,
}

impl Default for End {
    fn default() -> Self {
        Self { slant: Value::Unknown, squared: true }
    }
}

impl End {
    /// A face that slants by so much and is squared off.
    #[must_use]
    pub fn squared(slant: Length) -> Self {
        Self { slant: Value::Known(slant.m()), squared: true }
    }

    /// A face that slants by so much and stays on its portion.
    #[must_use]
    pub fn kept(slant: Length) -> Self {
        Self { slant: Value::Known(slant.m()), squared: false }
    }
}

/// What cuts, and how its marks are found.
#[derive(Clone, Copy, Debug, Default)]
pub struct Knife {
    /// What each cut takes: 0 for a knife.
    pub kerf: Length,
    /// How marks are found.
    pub marking: Marking,
}

/// How the marks are found.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Marking {
    /// Each next mark is measured from the face just cut.
    #[default]
    FreshFace,
    /// All marks are drawn before the first cut, so a cut beside its mark changes two portions.
    DrawnBefore,
}

/// Width and height of the piece at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// From the end where the knife starts.
    pub at: Length,
    /// Across.
    pub width: Length,
    /// Up.
    pub height: Length,
}

/// A portion already cut and weighed. Portions come in the order they were cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weighed {
    /// What the scale said.
    pub mass: Mass,
    /// From which mark to which, from the end where the knife starts; left out, the marks the plan showed.
    pub marks: Option<(Length, Length)>,
    /// Thickness as measured, where it was: then the knife's error is known.
    pub thickness: Option<Length>,
    /// For which want it was cut, by its place in the list; left out, the one the plan showed.
    pub want: Option<usize>,
}

impl Weighed {
    /// A portion cut at the marks the plan showed.
    #[must_use]
    pub fn at_the_plan(mass: Mass) -> Self {
        Self { mass, marks: None, thickness: None, want: None }
    }
}
