//! When a stage ends.

use super::march::Piece;
use super::state::State;
use super::watch::Watch;
use crate::{Stage, Until};

/// The distance to a rule: its sign turns where the rule is met.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stop {
    rule: Until,
    /// The side the piece came from: the sign of the distance at the start of the stage.
    from: f64,
}

impl Stop {
    pub(crate) fn new(stage: &Stage, piece: &Piece, state: &State, watch: &Watch) -> Self {
        let mut stop = Self { rule: stage.until, from: 1.0 };
        // A kill is only ever reached from below.
        let may_turn = !matches!(stage.until, Until::Kill { .. });
        stop.from = if may_turn && stop.distance(piece, state, watch) < 0.0 { -1.0 } else { 1.0 };
        stop
    }

    /// Whether the rule is met as the piece stands: on the temperature, or beyond the kill.
    pub(crate) fn is_met(&self, piece: &Piece, state: &State, watch: &Watch) -> bool {
        let distance = self.distance(piece, state, watch);
        let beyond = matches!(self.rule, Until::Kill { .. }) && distance < 0.0;
        beyond || distance.abs() <= Self::NEAR
    }

    /// Kelvins or powers of ten still to go, positive before the rule is met. A time is no rule of the state.
    pub(crate) fn distance(&self, piece: &Piece, state: &State, watch: &Watch) -> f64 {
        self.from
            * match self.rule {
                Until::Centre(t) => piece.temperature(state, piece.middle()) - t.c(),
                Until::Surface(t) => piece.temperature(state, piece.middle_line()) - t.c(),
                Until::Mean(t) => piece.mean_temperature(state) - t.c(),
                Until::Kill { organism, log10 } => log10 - watch.kill(organism),
                Until::Time(_) => f64::INFINITY,
            }
    }

    /// Whether it is a rule of the way, not of the state.
    pub(crate) fn is_kill(&self) -> bool {
        matches!(self.rule, Until::Kill { .. })
    }

    /// How near counts as there.
    pub(crate) const NEAR: f64 = 2e-5;
}
