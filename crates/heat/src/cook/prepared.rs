//! A question made ready for whoever draws its members.

use super::cap::Cap;
use super::plan::Plan;
use super::question::Question;
use crate::{HeatError, Meat, Shape, Stage, Start};
use band::Input;

/// A question with its inputs named, for planners that draw once for several questions: the error of one oven is common to
/// all that lies in it. [`super::answer`] is the way for a single question.
pub struct Prepared<'a>(Plan<'a>);

/// What [`crate::simulate`] takes for one member.
#[derive(Clone, Debug)]
pub struct Ready {
    /// The material.
    pub meat: Meat,
    /// Its shape.
    pub shape: Shape,
    /// Where it starts.
    pub start: Start,
    /// What it goes through.
    pub stages: Vec<Stage>,
    /// The share by which a true outline's times differ from those of the shape that is solved; times by the clock are as they are.
    pub model_share: f64,
    /// What lies over a roast's mantle; the stages' faces have it already.
    pub cap: Option<Cap>,
}

impl<'a> Prepared<'a> {
    /// Names the inputs of a question: sizes first (`thickness`, `outline`, `mass`), then what is common to a kitchen.
    ///
    /// # Errors
    /// As [`super::answer`].
    pub fn new(question: &'a Question) -> Result<Self, HeatError> {
        Plan::new(question).map(Self)
    }

    /// The inputs, in the order of a row of draws.
    #[must_use]
    pub fn inputs(&self) -> &[Input] {
        &self.0.inputs
    }

    /// The member a row of draws stands for; one number an input, in SI units and °C.
    ///
    /// # Errors
    /// [`HeatError::OutOfRange`] for a size no piece has.
    ///
    /// # Panics
    /// If the row is shorter than [`Prepared::inputs`].
    pub fn member(&self, row: &[f64]) -> Result<Ready, HeatError> {
        self.0.piece(row)
    }
}
