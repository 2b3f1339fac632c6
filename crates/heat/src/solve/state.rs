//! Everything about a piece that changes in a step.

use super::face::Skin;

#[derive(Clone, Debug)]
pub(crate) struct State {
    /// Table coordinate of each node.
    pub(crate) u: Vec<f64>,
    /// Mean enthalpy of each cell, J/m³.
    pub(crate) h: Vec<f64>,
    /// How fast both changed at the end of the last step, 1/s and W/m³.
    pub(crate) pace: Vec<f64>,
    pub(crate) rate: Vec<f64>,
    /// Whether they still tell what comes: not after a jump of the surroundings.
    pub(crate) goes_on: bool,
    /// What each face cell has been through, rim by rim.
    pub(crate) skins: Vec<Skin>,
    /// Water gone from each in the step at hand, kg/m², and the part that boiled.
    pub(crate) gone: Vec<(f64, f64)>,
    /// How fast the piece lost in the last step, kg/s (of the grid).
    pub(crate) losing: f64,
    /// Vapour gone so far, kg (of the grid, not of its copies).
    pub(crate) vapour: f64,
    /// Juice pressed out so far, kg (of the grid), and what of it the faces took up again on its way: that is in the vapour.
    pub(crate) juice: f64,
    pub(crate) taken_up: f64,
    /// Heat taken in, and moved either way, J (of the grid).
    pub(crate) heat: f64,
    pub(crate) moved: f64,
}

impl State {
    pub(crate) fn new(u: Vec<f64>, skins: Vec<Skin>) -> Self {
        let zeros = || vec![0.0; u.len()];
        Self {
            h: zeros(),
            pace: zeros(),
            rate: zeros(),
            goes_on: false,
            gone: vec![(0.0, 0.0); skins.len()],
            skins,
            losing: 0.0,
            vapour: 0.0,
            juice: 0.0,
            taken_up: 0.0,
            heat: 0.0,
            moved: 0.0,
            u,
        }
    }

    /// The same as another of the same grid, without new memory.
    pub(crate) fn copy_from(&mut self, other: &Self) {
        self.u.copy_from_slice(&other.u);
        self.h.copy_from_slice(&other.h);
        self.pace.copy_from_slice(&other.pace);
        self.rate.copy_from_slice(&other.rate);
        (self.goes_on, self.losing) = (other.goes_on, other.losing);
        self.skins.copy_from_slice(&other.skins);
        self.gone.fill((0.0, 0.0));
        (self.vapour, self.juice, self.taken_up) = (other.vapour, other.juice, other.taken_up);
        (self.heat, self.moved) = (other.heat, other.moved);
    }

    /// From here nothing goes on as before.
    pub(crate) fn turns(&mut self) {
        (self.goes_on, self.losing) = (false, 0.0);
        self.skins.iter_mut().for_each(|skin| (skin.drying, skin.boiling) = (0.0, 0.0));
    }
}
