//! The problems: what both sides are given.

use heat::{Constants, Face, Faces, HeatError, Meat, Shape, Stage, Start, Until};
use quantity::{Length, Temperature};

/// A slab of the reference lean meat from one temperature in one medium until its middle is at another.
#[derive(Clone, Copy)]
pub(crate) struct Slab {
    pub(crate) half_m: f64,
    pub(crate) start_c: f64,
    pub(crate) medium_c: f64,
    /// W/(m²·K).
    pub(crate) film: f64,
    pub(crate) until_c: f64,
}

/// Three slabs that one setting has to bring within the error, so that no setting wins by a lucky crossing of errors.
pub(crate) struct Family {
    pub(crate) name: &'static str,
    pub(crate) slabs: [Slab; 3],
    /// Of the time.
    pub(crate) error: f64,
    /// How many times faster than the general solver, and than scipy.
    pub(crate) aims: [f64; 2],
}

const fn slab(full_mm: f64, start_c: f64, medium_c: f64, film: f64, until_c: f64) -> Slab {
    Slab { half_m: 0.5e-3 * full_mm, start_c, medium_c, film, until_c }
}

pub(crate) const FAMILIES: &[Family] = &[
    Family {
        name: "slab of 25, 38, 60 mm, cooking",
        slabs: [
            slab(25.0, 4.0, 56.0, 150.0, 54.0),
            slab(38.0, 4.0, 110.0, 15.0, 52.0),
            slab(60.0, 4.0, 110.0, 25.0, 52.0),
        ],
        error: 1e-3,
        aims: [4.0, 250.0],
    },
    Family {
        name: "slab of 25, 40, 60 mm, freezing",
        slabs: [
            slab(25.0, 4.0, -20.0, 10.0, -18.0),
            slab(40.0, 10.0, -18.0, 6.0, -15.0),
            slab(60.0, 4.0, -25.0, 25.0, -18.0),
        ],
        error: 1e-3,
        aims: [4.0, 250.0],
    },
    Family {
        name: "slab of 25, 30, 40 mm, thawing in water",
        slabs: [
            slab(25.0, -18.0, 20.0, 200.0, 0.0),
            slab(30.0, -18.0, 20.0, 200.0, 0.0),
            slab(40.0, -20.0, 20.0, 100.0, 0.0),
        ],
        error: 1e-3,
        aims: [20.0, 250.0],
    },
];

impl Slab {
    /// For our solver.
    pub(crate) fn case(&self, meat: &Meat) -> Case {
        Case::new(
            meat.clone(),
            Shape::Slab { thickness: Length::from_m(2.0 * self.half_m) },
            [self.start_c, self.medium_c, self.film, self.until_c],
        )
    }
}

/// A brick, all six faces in one medium.
#[derive(Clone, Copy)]
pub(crate) struct Brick {
    pub(crate) full_mm: [f64; 3],
    pub(crate) start_c: f64,
    pub(crate) medium_c: f64,
    /// W/(m²·K).
    pub(crate) film: f64,
    pub(crate) until_c: f64,
}

pub(crate) const BRICKS: [Brick; 2] = [
    Brick { full_mm: [40.0, 120.0, 160.0], start_c: 10.0, medium_c: -30.0, film: 40.0, until_c: -18.0 },
    Brick { full_mm: [60.0, 90.0, 150.0], start_c: 4.0, medium_c: -25.0, film: 25.0, until_c: -10.0 },
];

impl Brick {
    pub(crate) fn case(&self, meat: &Meat) -> Case {
        let [thickness, width, length] = self.full_mm.map(Length::from_mm);
        let numbers = [self.start_c, self.medium_c, self.film, self.until_c];
        Case::new(meat.clone(), Shape::Brick { thickness, width, length }, numbers)
    }
}

/// A member of an ensemble of cooked slabs of constant properties.
#[derive(Clone, Copy)]
pub(crate) struct Cook {
    pub(crate) start_c: f64,
    pub(crate) medium_c: f64,
    pub(crate) film: f64,
    /// Conductivity over the usual one.
    pub(crate) factor: f64,
}

pub(crate) const COOK_HALF_M: f64 = 0.019;
pub(crate) const COOK_UNTIL_C: f64 = 52.0;

/// Members spread evenly over four ranges (Kronecker sequence of the first four primes' square roots).
pub(crate) fn cooks(count: usize) -> Vec<Cook> {
    let spread = |i: usize, root: f64, low: f64, high: f64| low + (high - low) * (i as f64 * root).fract();
    (1..=count)
        .map(|i| Cook {
            start_c: spread(i, 2f64.sqrt(), 2.0, 12.0),
            medium_c: spread(i, 3f64.sqrt(), 90.0, 140.0),
            film: spread(i, 5f64.sqrt(), 10.0, 40.0),
            factor: spread(i, 7f64.sqrt(), 0.9, 1.1),
        })
        .collect()
}

impl Cook {
    pub(crate) fn case(&self, constants: Constants) -> Result<Case, HeatError> {
        let k = constants.conductivity_w_m_k * self.factor;
        let meat = Meat::constant(Constants { conductivity_w_m_k: k, ..constants })?;
        let shape = Shape::Slab { thickness: Length::from_m(2.0 * COOK_HALF_M) };
        Ok(Case::new(meat, shape, [self.start_c, self.medium_c, self.film, COOK_UNTIL_C]))
    }
}

/// A question ready for our solver.
pub(crate) struct Case {
    pub(crate) meat: Meat,
    pub(crate) shape: Shape,
    pub(crate) start: Start,
    pub(crate) stages: [Stage; 1],
}

impl Case {
    fn new(meat: Meat, shape: Shape, [start_c, medium_c, film, until_c]: [f64; 4]) -> Self {
        let faces = Faces::all(Face::film(Temperature::from_c(medium_c), film));
        let until = Until::Centre(Temperature::from_c(until_c));
        let mut stage = Stage::new("whole", faces, until);
        stage.at_most = quantity::Span::from_h(1000.0);
        Self { meat, shape, start: Start::Even(Temperature::from_c(start_c)), stages: [stage] }
    }
}
