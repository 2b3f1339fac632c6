//! Drawn pieces whose truth is known: mass, length and every gram along them.

use catalogue::{KNOTS, Profile};
use nalgebra::{DMatrix, DVector};
use rand::{Rng, SeedableRng, rngs::ChaCha8Rng};

/// A source of draws with a fixed seed.
pub(crate) struct Dice(ChaCha8Rng);

impl Dice {
    pub(crate) fn new(seed: u64) -> Self {
        Self(ChaCha8Rng::seed_from_u64(seed))
    }

    pub(crate) fn unit(&mut self) -> f64 {
        ((self.0.next_u64() >> 11) as f64 + 0.5) / (1u64 << 53) as f64
    }

    /// Uniform within ±`half`.
    pub(crate) fn within(&mut self, half: f64) -> f64 {
        half * (2.0 * self.unit() - 1.0)
    }

    /// Standard normal (Box and Muller).
    pub(crate) fn normal(&mut self) -> f64 {
        (-2.0 * self.unit().ln()).sqrt() * (std::f64::consts::TAU * self.unit()).cos()
    }
}

/// How the world differs from what the catalogue assumes.
#[derive(Clone, Copy, Debug)]
pub(crate) struct World {
    pub(crate) shape_sd: f64,
    pub(crate) length_scale: Option<f64>,
    pub(crate) roughness: f64,
    pub(crate) knife_mm: f64,
    /// Taper more than assumed: p gains half of this at the first end and loses half at the last.
    pub(crate) tilt: f64,
    /// True shape factor over the assumed one, less 1; the piece's own part comes on top.
    pub(crate) factor_off: f64,
    pub(crate) factor_sd: f64,
}

impl World {
    pub(crate) const AS_ASSUMED: Self = Self {
        shape_sd: 1.0,
        length_scale: None,
        roughness: 0.02,
        knife_mm: 1.5,
        tilt: 0.0,
        factor_off: 0.0,
        factor_sd: 0.06,
    };
}

/// A way to draw pieces of one cut.
pub(crate) struct Mould {
    mean: DVector<f64>,
    root: DMatrix<f64>,
    pub(crate) world: World,
}

impl Mould {
    pub(crate) fn new(profile: &Profile, world: World) -> Self {
        let place = |knot: usize| knot as f64 / (KNOTS - 1) as f64;
        let scale = world.length_scale.unwrap_or(profile.length_scale);
        let sd = |knot: usize| world.shape_sd * profile.rel_sd[knot] * profile.p[knot];
        let covariance = DMatrix::from_fn(KNOTS, KNOTS, |i, j| {
            let apart = (place(i) - place(j)) / scale;
            sd(i) * sd(j) * ((-0.5 * apart * apart).exp() + if i == j { 1e-8 } else { 0.0 })
        });
        let mean =
            DVector::from_fn(KNOTS, |knot, _| profile.p[knot] * (1.0 + world.tilt * (0.5 - place(knot))));
        let root = covariance.cholesky().expect("a covariance").l();
        Self { mean, root, world }
    }

    pub(crate) fn piece(&self, mass_g: f64, length_mm: f64, dice: &mut Dice) -> Truth {
        let standard = DVector::from_fn(KNOTS, |_, _| dice.normal());
        let mut p: Vec<f64> = (&self.mean + &self.root * standard).iter().copied().collect();
        for (p, mean) in p.iter_mut().zip(self.mean.iter()) {
            *p = p.max(0.05 * mean);
        }
        let whole = integral(&p, 0.0, 1.0);
        p.iter_mut().for_each(|p| *p /= whole);
        let factor = 1.0 + self.world.factor_off + self.world.factor_sd * dice.normal();
        Truth { mass_g, length_mm, p, factor, world: self.world }
    }
}

/// One drawn piece.
pub(crate) struct Truth {
    pub(crate) mass_g: f64,
    pub(crate) length_mm: f64,
    p: Vec<f64>,
    /// True over assumed shape factor.
    factor: f64,
    world: World,
}

impl Truth {
    /// Grams a portion weighs when the knife goes for these marks: where it went (mm), and the grams.
    pub(crate) fn cut(&self, from_mm: f64, mark_mm: f64, dice: &mut Dice) -> (f64, f64) {
        let to_mm = mark_mm + dice.within(self.world.knife_mm);
        let grams = self.mass_g * integral(&self.p, from_mm / self.length_mm, to_mm / self.length_mm);
        let rough = self.world.roughness * (38.0 / (to_mm - from_mm)).sqrt();
        (to_mm, grams * (1.0 + rough * dice.normal()))
    }

    /// Grams between two places, by a knife and a muscle without fault.
    pub(crate) fn exactly(&self, from_mm: f64, to_mm: f64) -> f64 {
        self.mass_g * integral(&self.p, from_mm / self.length_mm, to_mm / self.length_mm)
    }

    /// The area width × height, mm², that a ruler gives at a place, for a density in g/mm³ and an assumed factor.
    pub(crate) fn box_mm2(&self, at_mm: f64, density: f64, factor: f64, sd: f64, dice: &mut Dice) -> f64 {
        let per_mm = self.mass_g / self.length_mm * value(&self.p, at_mm / self.length_mm);
        per_mm / (density * factor * self.factor) * (1.0 + sd * dice.normal())
    }
}

/// Value between knots.
fn value(p: &[f64], x: f64) -> f64 {
    let along = x.clamp(0.0, 1.0) * (KNOTS - 1) as f64;
    let knot = (along as usize).min(KNOTS - 2);
    p[knot] + (p[knot + 1] - p[knot]) * (along - knot as f64)
}

/// Integral of the straight lines between knots, by Simpson on 400 parts: exact but for the parts that hold a knot.
fn integral(p: &[f64], from: f64, to: f64) -> f64 {
    let parts = if to - from > 0.5 { (KNOTS - 1) * 4 } else { 60 };
    let h = (to - from) / parts as f64;
    (0..parts)
        .map(|part| {
            let x = from + h * part as f64;
            h / 6.0 * (value(p, x) + 4.0 * value(p, x + h / 2.0) + value(p, x + h))
        })
        .sum()
}

/// Errors in per cent of what was foretold, and whether bands held.
#[derive(Default)]
pub(crate) struct Tally {
    square: f64,
    held: f64,
    sd: f64,
    count: f64,
}

impl Tally {
    pub(crate) fn add(&mut self, truth: f64, band: band::Band) {
        // An 80 % band of a normal is 2.563 sd wide.
        let sd = band.width() / (2.0 * 1.281_551_565_544_600_4);
        self.square += ((truth - band.median) / band.median).powi(2);
        self.sd += sd / band.median;
        self.held += f64::from(u8::from(band.holds(truth)));
        self.count += 1.0;
    }

    /// Root mean square error, per cent.
    pub(crate) fn rms(&self) -> f64 {
        100.0 * (self.square / self.count).sqrt()
    }

    /// Mean sd that was claimed, per cent.
    pub(crate) fn sd(&self) -> f64 {
        100.0 * self.sd / self.count
    }

    /// How often the band held, per cent.
    pub(crate) fn holds(&self) -> f64 {
        100.0 * self.held / self.count
    }
}
