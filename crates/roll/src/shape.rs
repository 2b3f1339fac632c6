//! The posterior of one piece whose mass and length are taken as known: Gaussian, closed form, an update a measurement.

use crate::gauss::{Gaussian, Surprise};
use crate::hats::{self, AtKnots, Fill, KNOTS, dot};
use crate::piece::Marking;
use crate::prior::{Noise, Prior, Section};

/// Mass, length and ends: they turn positions into shares of the length and shares into grams.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Geometry {
    pub(crate) mass_g: f64,
    pub(crate) length_mm: f64,
    pub(crate) fill: Fill,
}

impl Geometry {
    pub(crate) fn new(mass_g: f64, length_mm: f64, slant_mm: [f64; 2]) -> Self {
        let fill = Fill { first: slant_mm[0] / length_mm, last: slant_mm[1] / length_mm };
        Self { mass_g, length_mm, fill }
    }

    /// Grams = this × the integral of profile × fill over shares of the length.
    pub(crate) fn grams(&self) -> f64 {
        self.mass_g / self.fill.whole()
    }

    /// Grams a millimetre = this × the profile.
    pub(crate) fn grams_a_mm(&self) -> f64 {
        self.grams() / self.length_mm
    }

    pub(crate) fn weights(&self, from_mm: f64, to_mm: f64) -> AtKnots {
        hats::integral(from_mm / self.length_mm, to_mm / self.length_mm, self.fill)
    }
}

/// The unknowns and what is known of them by now. Unknowns: the profile at 24 knots, the shape factor's error δ, and,
/// where marks were drawn before the first cut, how far the last cut went beside its mark.
#[derive(Clone, Debug)]
pub(crate) struct Shape {
    pub(crate) state: Gaussian,
    pub(crate) geometry: Geometry,
    noise: Noise,
    section: Option<Section>,
    floor: AtKnots,
    marking: Marking,
    /// Sd of a reading of the scale, g.
    scale_g: f64,
    pub(crate) log_likelihood: f64,
}

/// A profile never falls below this share of the prior's mean: a Gaussian does not know that meat is not negative.
const FLOOR: f64 = 0.05;
/// Numerical slack of the scale's own observation, as a variance.
const SLACK: f64 = 1e-6;
/// Sd of a thickness read off a ruler, mm: 1 mm either way, uniform.
const RULER_MM: f64 = 0.577_350_269_189_625_8;

/// A portion between two marks, and what is known of its faces.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Slice {
    pub(crate) from_mm: f64,
    pub(crate) to_mm: f64,
    /// Whether a knife makes the far face; otherwise it is the piece's own end.
    pub(crate) cut: bool,
    /// As measured.
    pub(crate) thickness_mm: Option<f64>,
}

impl Shape {
    /// The prior of a piece with the scale's word taken in. `doubt_of_whole` is the sd, as a share of the length, that
    /// unmeasured slants leave on the length of full section; `first_face_cut`: the first end is squared off.
    pub(crate) fn new(
        prior: &Prior,
        geometry: Geometry,
        marking: Marking,
        scale_g: f64,
        doubt_of_whole: f64,
        first_face_cut: bool,
    ) -> Self {
        let mut shape = Self {
            state: prior.shape.clone(),
            geometry,
            noise: prior.noise,
            section: prior.section,
            floor: std::array::from_fn(|knot| FLOOR * prior.shape.mean[knot]),
            marking,
            scale_g,
            log_likelihood: 0.0,
        };
        shape.weigh_whole(doubt_of_whole);
        if marking == Marking::DrawnBefore {
            shape.state.push(0.0, if first_face_cut { shape.noise.knife_mm.powi(2) } else { 0.0 });
        }
        shape
    }

    fn weigh_whole(&mut self, doubt_of_whole: f64) {
        let whole = self.geometry.fill.whole();
        let weights = self.padded(&hats::integral(0.0, 1.0, self.geometry.fill));
        let expected = dot(&weights, &self.state.mean);
        let noise = (self.scale_g / self.geometry.mass_g).powi(2) + SLACK + doubt_of_whole.powi(2);
        self.state.observe(&weights, expected, whole, noise);
        self.keep_positive();
    }

    /// Takes in width × height at a place; `None` where the cut has no shape factor.
    pub(crate) fn measure(&mut self, at_mm: f64, box_mm2: f64) -> Option<Surprise> {
        let section = self.section?;
        let x = at_mm / self.geometry.length_mm;
        let (profile, delta) = (hats::value(&self.state.mean, x), self.state.mean[KNOTS]);
        // Linearised where the mean is: profile × (1 + δ).
        let mut weights = self.padded(&hats::hat(x).map(|weight| weight * (1.0 + delta)));
        weights[KNOTS] = profile;
        let per_mm = self.geometry.grams_a_mm();
        let observed = section.density_g_mm3 * section.factor * box_mm2 / per_mm;
        let noise = (section.sd_station * profile).powi(2);
        let surprise = self.state.observe(&weights, profile * (1.0 + delta), observed, noise);
        // What was read is the box; how likely that was, per mm², is what tells one mass and length from another.
        self.log_likelihood += surprise.log_likelihood() - per_mm.ln();
        self.keep_positive();
        Some(surprise)
    }

    /// Takes in a weighed portion.
    pub(crate) fn weigh(&mut self, slice: Slice, mass_g: f64) -> Surprise {
        let (weights, expected, noise) = match self.marking {
            Marking::FreshFace => self.behind_fresh_face(slice),
            Marking::DrawnBefore => self.between_drawn_marks(slice),
        };
        let grams = self.geometry.grams();
        let noise = noise + (self.scale_g / grams).powi(2);
        let surprise = self.state.observe(&weights, expected, mass_g / grams, noise);
        self.log_likelihood += surprise.log_likelihood() - grams.ln();
        if self.marking == Marking::DrawnBefore {
            self.state.remove(KNOTS + 1);
        }
        self.keep_positive();
        surprise
    }

    /// Expected grams between two places and the variance of a portion cut there, knife and roughness included.
    pub(crate) fn portion(&self, slice: Slice) -> (f64, f64) {
        let mut ahead = self.clone();
        let (weights, expected, noise) = match self.marking {
            Marking::FreshFace => ahead.behind_fresh_face(slice),
            Marking::DrawnBefore => ahead.between_drawn_marks(slice),
        };
        let grams = self.geometry.grams();
        (expected * grams, (ahead.state.variance(&weights) + noise) * grams * grams)
    }

    fn behind_fresh_face(&self, slice: Slice) -> (Vec<f64>, f64, f64) {
        let to_mm = slice.thickness_mm.map_or(slice.to_mm, |thickness| slice.from_mm + thickness);
        let weights = self.padded(&self.geometry.weights(slice.from_mm, to_mm));
        let expected = dot(&weights, &self.state.mean);
        let beside_mm = match (slice.thickness_mm, slice.cut) {
            (Some(_), _) => RULER_MM,
            (None, true) => self.noise.knife_mm,
            (None, false) => 0.0,
        };
        let face = hats::value(&self.state.mean, to_mm / self.geometry.length_mm);
        let rough = self.noise.rough(to_mm - slice.from_mm) * expected;
        (weights, expected, rough.powi(2) + (face * beside_mm / self.geometry.length_mm).powi(2))
    }

    /// As above; the far face joins the unknowns, and a cut beside its mark takes from one portion what it gives the next.
    fn between_drawn_marks(&mut self, slice: Slice) -> (Vec<f64>, f64, f64) {
        let variance = if slice.cut { self.noise.knife_mm.powi(2) } else { 0.0 };
        self.state.push(0.0, variance);
        if let Some(thickness) = slice.thickness_mm {
            let mut weights = vec![0.0; self.state.mean.len()];
            (weights[KNOTS + 1], weights[KNOTS + 2]) = (-1.0, 1.0);
            let expected = dot(&weights, &self.state.mean);
            self.state.observe(
                &weights,
                expected,
                thickness - (slice.to_mm - slice.from_mm),
                RULER_MM.powi(2),
            );
        }
        let length = self.geometry.length_mm;
        let mut weights = self.padded(&self.geometry.weights(slice.from_mm, slice.to_mm));
        weights[KNOTS + 1] = -hats::value(&self.state.mean, slice.from_mm / length) / length;
        weights[KNOTS + 2] = hats::value(&self.state.mean, slice.to_mm / length) / length;
        let expected = dot(&weights, &self.state.mean);
        let rough = self.noise.rough(slice.to_mm - slice.from_mm) * expected;
        (weights, expected, rough.powi(2))
    }

    /// Weights of the profile, and 0 for the other unknowns.
    fn padded(&self, weights: &AtKnots) -> Vec<f64> {
        let mut padded = weights.to_vec();
        padded.resize(self.state.mean.len(), 0.0);
        padded
    }

    fn keep_positive(&mut self) {
        for (mean, floor) in self.state.mean.iter_mut().zip(&self.floor) {
            *mean = mean.max(*floor);
        }
    }

    pub(crate) fn noise(&self) -> &Noise {
        &self.noise
    }

    pub(crate) fn section(&self) -> Option<&Section> {
        self.section.as_ref()
    }

    pub(crate) fn marking(&self) -> Marking {
        self.marking
    }
}
