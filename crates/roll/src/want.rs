//! What is wanted of a piece.

use quantity::{Length, Mass};

/// One line of wishes: so many portions of this kind.
#[derive(Clone, Debug, PartialEq)]
pub struct Want {
    /// What the asker calls it.
    pub name: String,
    /// How many.
    pub count: Count,
    /// How thick or how heavy.
    pub target: Target,
    /// From which end.
    pub from: FromEnd,
    /// In pairs of neighbours, as alike as can be.
    pub twins: bool,
}

impl Want {
    /// So many of one thickness, with the trade's tolerance, from either end.
    #[must_use]
    pub fn thick(name: &str, count: Count, thickness: Length) -> Self {
        Self::new(name, count, Target::Thickness { at: thickness, within: None })
    }

    /// So many of one mass, with the trade's tolerance, from either end.
    #[must_use]
    pub fn heavy(name: &str, count: Count, mass: Mass) -> Self {
        Self::new(name, count, Target::Mass { at: mass, within: None })
    }

    /// A piece of this length kept whole.
    #[must_use]
    pub fn roast(name: &str, length: Length) -> Self {
        Self::new(name, Count::Exactly(1), Target::Roast { length, within: None })
    }

    fn new(name: &str, count: Count, target: Target) -> Self {
        Self { name: name.to_owned(), count, target, from: FromEnd::Any, twins: false }
    }

    /// The same, from this end.
    #[must_use]
    pub fn from_end(self, from: FromEnd) -> Self {
        Self { from, ..self }
    }

    /// The same, in pairs of neighbours.
    #[must_use]
    pub fn in_twins(self) -> Self {
        Self { twins: true, ..self }
    }

    /// How far it may miss its target, either way.
    #[must_use]
    pub fn tolerance(&self) -> Tolerance {
        match self.target {
            Target::Thickness { at, within } | Target::Roast { length: at, within } => {
                Tolerance::Thickness(within.unwrap_or_else(|| catalogue::portion_thickness_tolerance(at)))
            }
            Target::Mass { at, within } => {
                Tolerance::Mass(within.unwrap_or_else(|| catalogue::portion_mass_tolerance(at)))
            }
        }
    }
}

/// How many portions.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Count {
    /// This many.
    Exactly(u32),
    /// As many as sensible.
    Max,
}

/// What a portion should be. Where no tolerance is given, the trade's stands in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Target {
    /// So thick.
    Thickness {
        /// The wished thickness.
        at: Length,
        /// Either way.
        within: Option<Length>,
    },
    /// So heavy.
    Mass {
        /// The wished mass.
        at: Mass,
        /// Either way.
        within: Option<Mass>,
    },
    /// A piece of this length kept whole; the limits on thickness do not bind it.
    Roast {
        /// The wished length.
        length: Length,
        /// Either way.
        within: Option<Length>,
    },
}

/// How far a portion may miss, in the target's own kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tolerance {
    /// Of a thickness.
    Thickness(Length),
    /// Of a mass.
    Mass(Mass),
}

/// Which end portions come from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FromEnd {
    /// Either.
    #[default]
    Any,
    /// Before all others, where the knife starts.
    First,
    /// After all others, at the other end.
    Last,
}

/// What a portion's thickness must keep within, on both of its sides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// No thinner anywhere.
    pub thinnest: Length,
    /// No thicker anywhere.
    pub thickest: Length,
}

impl Default for Limits {
    /// 20 to 65 mm: thinner overcooks before it browns, thicker is a roast (common practice).
    fn default() -> Self {
        Self { thinnest: Length::from_mm(20.0), thickest: Length::from_mm(65.0) }
    }
}
