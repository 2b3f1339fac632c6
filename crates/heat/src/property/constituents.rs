//! The polynomials of the constituents, taken from the catalogue once.

use catalogue::{Constituent, ThermalProperty, constituents};
use std::sync::LazyLock;

/// Six constituents in the order water, ice, protein, fat, carbohydrate, ash.
pub(crate) const COUNT: usize = 6;
pub(crate) const WATER: usize = 0;
pub(crate) const ICE: usize = 1;

/// a + b t + c t².
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Poly([f64; 3]);

impl Poly {
    pub(crate) fn at(&self, t: f64) -> f64 {
        self.0[0] + t * (self.0[1] + t * self.0[2])
    }

    /// The integral from 0 °C.
    pub(crate) fn integral(&self, t: f64) -> f64 {
        t * (self.0[0] + t * (self.0[1] / 2.0 + t * self.0[2] / 3.0))
    }
}

/// Every polynomial, and the range that all of them cover.
#[derive(Debug)]
pub(crate) struct Fits {
    pub(crate) conductivity: [Poly; COUNT],
    pub(crate) density: [Poly; COUNT],
    pub(crate) specific_heat: [Poly; COUNT],
    pub(crate) fitted_c: (f64, f64),
}

static FITS: LazyLock<Fits> = LazyLock::new(|| {
    let mut fits = Fits {
        conductivity: Default::default(),
        density: Default::default(),
        specific_heat: Default::default(),
        fitted_c: (f64::NEG_INFINITY, f64::INFINITY),
    };
    for row in constituents() {
        let place = match row.of {
            Constituent::Water => WATER,
            Constituent::Ice => ICE,
            Constituent::Protein => 2,
            Constituent::Fat => 3,
            Constituent::Carbohydrate => 4,
            Constituent::Ash => 5,
        };
        let of_property = match row.property {
            ThermalProperty::Conductivity => &mut fits.conductivity,
            ThermalProperty::Density => &mut fits.density,
            ThermalProperty::SpecificHeat => &mut fits.specific_heat,
        };
        of_property[place] = Poly(row.poly_c);
        fits.fitted_c = (fits.fitted_c.0.max(row.fitted_c[0]), fits.fitted_c.1.min(row.fitted_c[1]));
    }
    fits
});

pub(crate) fn fits() -> &'static Fits {
    &FITS
}
