//! The piece's shape: full sizes, never halves.

use crate::HeatError;
use crate::roast::{Side, USUAL_HEIGHT, USUAL_WIDTH, brick};
use quantity::{Length, Mass};
use std::f64::consts::PI;

/// A shape, by its full sizes.
///
/// Amounts (heat, mass) of a shape without ends are those of one square metre of slab, or one metre of cylinder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shape {
    /// Two parallel faces, no sides. Its top and bottom may differ.
    Slab {
        /// From face to face.
        thickness: Length,
    },
    /// A steak: two faces and a rim, solved as a disc whose radius is twice area over perimeter of its oval footprint.
    Steak {
        /// From face to face.
        thickness: Length,
        /// Area and outline.
        footprint: Footprint,
    },
    /// A cylinder without ends.
    Cylinder {
        /// Across.
        diameter: Length,
    },
    /// A sphere.
    Sphere {
        /// Across.
        diameter: Length,
    },
    /// A cylinder with ends; stood on end, so that top and bottom are its ends and the sides its mantle.
    FiniteCylinder {
        /// Across.
        diameter: Length,
        /// From end to end.
        length: Length,
    },
    /// Six flat faces.
    Brick {
        /// From top to bottom.
        thickness: Length,
        /// One side.
        width: Length,
        /// The other side.
        length: Length,
    },
    /// A roast, from its mass and any of the sizes of its outline: solved as a brick of its section's area and its mass.
    Roast {
        /// Its mass.
        mass: Mass,
        /// From top to bottom.
        height: Option<Length>,
        /// Across.
        width: Option<Length>,
        /// Along.
        length: Option<Length>,
    },
}

/// What is known of a steak's outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Footprint {
    /// Its mass alone: the area follows from thickness and density, the oval from [`Footprint::USUAL_ASPECT`].
    Mass(Mass),
    /// Mass, and length over width of the oval.
    MassAndAspect(Mass, f64),
    /// The two sides of the oval.
    Sides {
        /// The short one.
        width: Length,
        /// The long one.
        length: Length,
    },
}

impl Footprint {
    /// Length over width of a steak of which only the mass is known; middle of 1.3 to 2 (assumed: loin and rib steaks).
    pub const USUAL_ASPECT: f64 = 1.6;

    /// Half axes of the oval in m, short one first, for a thickness in m and a density in kg/m³.
    #[must_use]
    pub fn half_axes(&self, thickness_m: f64, density_kg_m3: f64) -> (f64, f64) {
        let from_mass = |mass: Mass, aspect: f64| {
            let area = mass.kg() / (density_kg_m3 * thickness_m);
            let short = (area / (PI * aspect)).sqrt();
            (short, short * aspect)
        };
        match *self {
            Self::Mass(mass) => from_mass(mass, Self::USUAL_ASPECT),
            Self::MassAndAspect(mass, aspect) => from_mass(mass, aspect),
            Self::Sides { width, length } => (0.5 * width.m(), 0.5 * length.m()),
        }
    }
}

/// Perimeter of an ellipse of half axes `a` and `b`, in their unit (Ramanujan's second formula: within 4e-5 to aspect 4).
#[must_use]
pub fn ellipse_perimeter(a: f64, b: f64) -> f64 {
    let lambda = ((a - b) / (a + b)).powi(2);
    PI * (a + b) * (1.0 + 3.0 * lambda / (10.0 + (4.0 - 3.0 * lambda).sqrt()))
}

impl Shape {
    /// The shape that is solved: a roast's brick, any other itself. kg/m³.
    ///
    /// # Errors
    /// [`HeatError::OutOfRange`] where a roast's sides cannot hold its mass.
    pub(crate) fn solved(&self, density_kg_m3: f64) -> Result<Self, HeatError> {
        let Self::Roast { mass, height, width, length } = *self else { return Ok(*self) };
        let side = |given: Option<Length>, usual: f64| {
            given.map_or(Side { m: usual, told: false }, |given| Side { m: given.m(), told: true })
        };
        let volume = mass.kg() / density_kg_m3;
        let (height, width) = (side(height, USUAL_HEIGHT), side(width, USUAL_WIDTH));
        let sides = brick(volume, height, width, length.map(|length| length.m()))?;
        let [thickness, width, length] = sides.map(Length::from_m);
        let brick = Self::Brick { thickness, width, length };
        brick.check()?;
        Ok(brick)
    }

    /// Checks every size against what can be solved and what a kitchen holds.
    ///
    /// # Errors
    /// [`HeatError::OutOfRange`] names the size.
    pub fn check(&self) -> Result<(), HeatError> {
        let size = |what: &str, length: Length| {
            HeatError::check(what, length.mm(), (0.5, 2000.0), "mm", "give the full size in millimetres")
        };
        match *self {
            Self::Slab { thickness } => size("thickness", thickness),
            Self::Cylinder { diameter } | Self::Sphere { diameter } => size("diameter", diameter),
            Self::FiniteCylinder { diameter, length } => {
                size("diameter", diameter)?;
                size("length", length)
            }
            Self::Brick { thickness, width, length } => {
                size("thickness", thickness)?;
                size("width", width)?;
                size("length", length)
            }
            Self::Steak { thickness, footprint } => {
                size("thickness", thickness)?;
                match footprint {
                    Footprint::Sides { width, length } => {
                        size("width", width)?;
                        size("length", length)
                    }
                    Footprint::Mass(mass) => check_mass(mass),
                    Footprint::MassAndAspect(mass, aspect) => {
                        check_mass(mass)?;
                        HeatError::check(
                            "length over width",
                            aspect,
                            (1.0, 5.0),
                            "",
                            "give length over width",
                        )
                    }
                }
            }
            Self::Roast { mass, height, width, length } => {
                check_mass(mass)?;
                let sides = [("height", height), ("width", width), ("length", length)];
                sides
                    .into_iter()
                    .filter_map(|(what, side)| Some((what, side?)))
                    .try_for_each(|(w, s)| size(w, s))
            }
        }
    }
}

fn check_mass(mass: Mass) -> Result<(), HeatError> {
    HeatError::check("mass", mass.g(), (1.0, 200_000.0), "g", "give the mass in grams")
}
