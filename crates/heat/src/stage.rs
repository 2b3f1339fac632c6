//! A stage: what surrounds the piece, and the rule that ends it.

use crate::{Faces, HeatError};
use quantity::{Length, Span, Temperature};

/// The piece's temperature at the start.
#[derive(Clone, Debug, PartialEq)]
pub enum Start {
    /// The same throughout.
    Even(Temperature),
    /// By depth from the top face or the round surface, linear between rows, held outside them.
    Profile(Vec<(Length, Temperature)>),
}

/// One stretch of a cook, a freeze or a thaw.
#[derive(Clone, Debug, PartialEq)]
pub struct Stage {
    /// What the person calls it: *oven*, *sear*, *rest*.
    pub name: String,
    /// What each face sees.
    pub faces: Faces,
    /// Top and bottom surroundings change places each time this much has passed.
    pub flip_every: Option<Span>,
    /// The rule that ends it.
    pub until: Until,
    /// It ends here at the latest, and is then not `reached` (unless `until` is a time).
    pub at_most: Span,
}

/// The rule that ends a stage; a temperature counts as reached from either side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Until {
    /// The middle of the piece.
    Centre(Temperature),
    /// The mean over the mass.
    Mean(Temperature),
    /// The middle of the top face.
    Surface(Temperature),
    /// A length of time.
    Time(Span),
    /// A kill of `log10` powers of ten, at the place of least kill, of the organism of this index in
    /// [`crate::Settings::organisms`]. Counted from the start of the first stage.
    Kill {
        /// Which organism.
        organism: usize,
        /// Powers of ten.
        log10: f64,
    },
}

impl Stage {
    /// A week: longer than anything in a kitchen takes.
    pub const LONGEST: Span = Span::from_h(24.0 * 7.0);

    /// A stage of one set of faces until a rule is met, at most a week.
    #[must_use]
    pub fn new(name: impl Into<String>, faces: Faces, until: Until) -> Self {
        Self { name: name.into(), faces, flip_every: None, until, at_most: Self::LONGEST }
    }

    /// Checks faces, times and the rule.
    ///
    /// # Errors
    /// [`HeatError::OutOfRange`] and its like, naming the stage.
    pub fn check(&self) -> Result<(), HeatError> {
        self.faces.check(&self.name)?;
        let check = |what: &str, found, range, unit, hint| {
            HeatError::check(format_args!("{}: {what}", self.name), found, range, unit, hint)
        };
        check("at most", self.at_most.h(), (0.0, 24.0 * 366.0), "h", "a year at most")?;
        if let Some(every) = self.flip_every {
            check("flip", every.s(), (1.0, 1e9), "s", "give the seconds between two turns")?;
        }
        match self.until {
            Until::Centre(t) | Until::Mean(t) | Until::Surface(t) => {
                check("until", t.c(), (-100.0, 300.0), "°C", "a temperature the meat can reach")
            }
            Until::Time(span) => check("until", span.h(), (0.0, 24.0 * 366.0), "h", "a year at most"),
            Until::Kill { log10, .. } => check("until", log10, (0.0, 100.0), "log10", "for example 6.5"),
        }
    }
}
