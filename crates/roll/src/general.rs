//! A plan's programme as plain numbers, for a general solver to check it or to race it.

use crate::board::Board;
use crate::piece::Piece;
use crate::posterior::Posterior;
use crate::programme::Problem;
use crate::want::{Limits, Want};
use crate::{RollError, Settings};
use std::fmt::Write;

/// What the programme of a plan minimises, in plain numbers.
///
/// Nodes 0 to n − 1 are places where a cut may go. A path starts at node 0. From a node it may take a unit of a line, if
/// the line's phase is the current one; go on to the next phase; leave one piece over, in phases that allow it, by at
/// least so many steps; or stop. Costs: of a unit, its own; of a piece left over from i to j, price · (up_to\[j\] −
/// past\[i\]); of stopping before the last node, the same to the last node, and `again` on top where a piece was left over
/// already or where the last phase should reach the end; of a portion wanted and not cut, `missing`.
#[derive(Clone, Debug)]
pub struct Programme(Problem);

impl Programme {
    /// The programme behind a plan for an uncut piece.
    ///
    /// # Errors
    /// As [`plan`](crate::plan()).
    pub fn of(piece: &Piece, wants: &[Want], limits: &Limits) -> Result<Self, RollError> {
        crate::plan::check(wants, limits)?;
        let posterior = Posterior::with(piece, &Settings::default())?;
        Ok(Self(Board::new(piece, wants, limits, posterior)?.problem()?))
    }

    /// Solves it and gives the least cost.
    #[must_use]
    pub fn solve(&self) -> f64 {
        self.0.solve().cost
    }

    /// Steps a solution compares.
    #[must_use]
    pub fn transitions(&self) -> u64 {
        self.0.transitions()
    }

    /// All of it as one JSON object. Costs of what may not be are `Infinity`, which Python reads and the standard lacks.
    #[must_use]
    pub fn json(&self) -> String {
        let problem = &self.0;
        let lines: Vec<String> = problem
            .lines
            .iter()
            .map(|line| {
                let units = line.units.map_or("null".to_owned(), |units| units.to_string());
                let cost: Vec<String> = line.cost.iter().map(|cost| list(cost)).collect();
                format!(
                    "{{\"units\": {units}, \"portions\": {}, \"phase\": {}, \"shortest\": {}, \"cost\": [{}]}}",
                    line.portions,
                    line.phase,
                    line.shortest,
                    cost.join(", ")
                )
            })
            .collect();
        format!(
            "{{\"nodes\": {}, \"phases\": {}, \"up_to\": {}, \"past\": {}, \"price\": {}, \"missing\": {}, \"again\": {}, \
             \"gap_in\": {:?}, \"gap_steps\": {}, \"last_reaches_end\": {}, \"lines\": [{}]}}",
            problem.nodes,
            problem.phases,
            list(&problem.up_to),
            list(&problem.past),
            problem.price,
            problem.missing,
            problem.again,
            problem.gap_in,
            problem.gap_steps,
            problem.last_reaches_end,
            lines.join(", ")
        )
    }
}

fn list(numbers: &[f64]) -> String {
    let mut text = String::from("[");
    for (index, number) in numbers.iter().enumerate() {
        let comma = if index == 0 { "" } else { ", " };
        // Writing to a string cannot fail.
        let _ = if number.is_infinite() {
            write!(text, "{comma}Infinity")
        } else {
            write!(text, "{comma}{number:?}")
        };
    }
    text.push(']');
    text
}
