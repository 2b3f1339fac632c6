//! Cells in which ice begins, one by one, and a whole field settled to the last joule.

use super::block::{Around, Block};
use super::field::Field;
use super::spread::{Effort, Reach, u_at_enthalpy};

/// J/m³ that count as settled: less than a millionth of a kelvin.
const SETTLED: f64 = 1.0;
/// Rounds of Newton before the cells are left to settle by themselves.
const NEWTON_ROUNDS: usize = 12;

impl Field {
    /// Marks the cells in which ice begins, or in a neighbour, or between them: ∫k dT is counted from there. Gives whether any cell
    /// lies where the curve bends.
    pub(super) fn find_kinks(&mut self, block: &Block) -> bool {
        let straight_from = block.table.straight_from();
        if self.ahead.iter().all(|theta| *theta >= straight_from) {
            return false;
        }
        self.kinks.fill(false);
        for links in &block.grid.links {
            for i in 0..self.ahead.len() - links.stride {
                let next = i + links.stride;
                if links.up[i] > 0.0 && (self.ahead[i] < 0.0) != (self.ahead[next] < 0.0) {
                    (self.kinks[i], self.kinks[next]) = (true, true);
                }
            }
        }
        true
    }

    /// The `u` at which a cell carries `h`, its links held at their lengths; all stand at `u` before.
    pub(super) fn close_in(&self, block: &Block, i: usize, h: f64, u: &[f64], effort: Effort) -> f64 {
        let mut reaches = [Reach::default(); 6];
        let mut count = 0;
        let mut reach = |lean: f64, other: usize| {
            // Its end lies near where the neighbour stands on the curve.
            let span = self.ahead[other] - self.ahead[i];
            reaches[count] = Reach { share: 2.0 * lean, span, cell: u[other] as u32 };
            count += 1;
        };
        for links in &block.grid.links {
            if links.lean_up[i] > 0.0 {
                reach(links.lean_up[i], i + links.stride);
            }
            if links.lean_down[i] > 0.0 {
                reach(links.lean_down[i], i - links.stride);
            }
        }
        u_at_enthalpy(block.table, &mut reaches[..count], h, u[i], effort)
    }

    /// Mean enthalpy of every cell at `u`, J/m³.
    pub(crate) fn means(&mut self, block: &Block, u: &[f64]) -> &[f64] {
        self.stand(block.table, u);
        self.weigh(block, u, f64::INFINITY);
        &self.mean
    }

    /// Finds the `u` that carry `h` with the links they themselves make: rounds of Newton, each followed by the cells in which ice
    /// begins one by one, which cannot go astray at the kink.
    pub(crate) fn settle(&mut self, block: &Block, h: &[f64], u: &mut [f64]) {
        if !block.grid.leans {
            return;
        }
        for round in 0..400 {
            self.means(block, u);
            if h.iter().zip(&self.mean).all(|(h, mean)| (h - mean).abs() < SETTLED) {
                return;
            }
            if round < NEWTON_ROUNDS {
                self.newton(block, h, u);
                if self.find_kinks(block) {
                    for i in (0..h.len()).filter(|i| self.kinks[*i]) {
                        u[i] = self.close_in(block, i, h[i], u, Effort::TO_THE_END);
                    }
                }
            } else {
                // Where Newton circles round the kink the cells by themselves still close in, half a step at a time.
                for (i, h) in h.iter().enumerate() {
                    let alone = self.close_in(block, i, *h, u, Effort::TO_THE_END);
                    u[i] = 0.5 * (u[i] + alone);
                }
            }
        }
    }

    /// One round for the means alone, nothing flowing and nothing held.
    fn newton(&mut self, block: &Block, h: &[f64], u: &mut [f64]) {
        for (change, (h, mean)) in self.change.iter_mut().zip(h.iter().zip(&self.mean)) {
            *change = h - mean;
        }
        let held = std::mem::take(&mut self.passing.any_held);
        for a in (0..block.grid.links.len()).rev() {
            self.solve(block, &Around { faces: &[], skins: &[], since: 0.0 }, a, 0.0);
        }
        self.passing.any_held = held;
        for (i, u) in u.iter_mut().enumerate() {
            *u += self.change[i];
            self.ahead[i] = self.theta[i] + self.dtheta[i] * self.change[i];
        }
    }
}
