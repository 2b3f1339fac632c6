//! How fine, and what to write down on the way.

use crate::HeatError;
use quantity::{Length, Span};

/// How fine the answer is, and what is kept of the way there.
#[derive(Clone, Debug, PartialEq)]
pub struct Settings {
    /// Cells in half a thickness or a radius.
    pub cells: usize,
    /// Error allowed in one step, as a share of 2e8 J/m³ (about 50 K of thawed meat).
    pub tolerance: f64,
    /// Spacing of the curve; without it only the first and the last moment.
    pub sample_every: Option<Span>,
    /// Extra depths of the curve, from the top face or the round surface.
    pub depths: Vec<Length>,
    /// Organisms whose kill is counted, log-linear.
    pub organisms: Vec<Organism>,
    /// Whether colour is followed.
    pub colour: bool,
}

/// A log-linear death law: `d_s` seconds at `at_c` kill nine in ten, ten times faster for each `z_k`.
#[derive(Clone, Debug, PartialEq)]
pub struct Organism {
    /// Its name.
    pub name: String,
    /// Decimal reduction time at `at_c`, s.
    pub d_s: f64,
    /// Where `d_s` holds, °C.
    pub at_c: f64,
    /// Kelvins to a tenfold rate.
    pub z_k: f64,
}

impl Settings {
    /// For one answer: its own error is 0.1 % of the time or less for a slab.
    #[must_use]
    pub fn exact() -> Self {
        Self {
            cells: 24,
            tolerance: 1e-3,
            sample_every: None,
            depths: Vec::new(),
            organisms: Vec::new(),
            colour: true,
        }
    }

    /// For a member of an ensemble, whose inputs are far less certain than this.
    #[must_use]
    pub fn ensemble() -> Self {
        Self { cells: 8, tolerance: 4e-3, ..Self::exact() }
    }

    /// Checks that the work asked for is finite.
    ///
    /// # Errors
    /// [`HeatError::OutOfRange`] names the setting.
    pub fn check(&self) -> Result<(), HeatError> {
        HeatError::check("cells", self.cells as f64, (3.0, 2000.0), "", "8 for bands, 24 for one answer")?;
        HeatError::check(
            "tolerance",
            self.tolerance,
            (1e-12, 0.1),
            "",
            "4e-3 for bands, 1e-3 for one answer",
        )?;
        if let Some(every) = self.sample_every {
            HeatError::check("sample every", every.s(), (0.1, 1e9), "s", "60 for a curve")?;
        }
        for depth in &self.depths {
            HeatError::check("depth", depth.mm(), (0.0, 2000.0), "mm", "from the top face")?;
        }
        for organism in &self.organisms {
            let name = &organism.name;
            HeatError::check(format_args!("{name}: D"), organism.d_s, (1e-9, 1e12), "s", "a time")?;
            HeatError::check(format_args!("{name}: z"), organism.z_k, (0.1, 200.0), "K", "about 7")?;
            HeatError::check(
                format_args!("{name}: at"),
                organism.at_c,
                (-50.0, 200.0),
                "°C",
                "where D holds",
            )?;
        }
        Ok(())
    }
}

impl Default for Settings {
    fn default() -> Self {
        Self::exact()
    }
}
