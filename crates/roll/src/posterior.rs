//! Where the mass lies along one piece, by everything measured on it so far.

use crate::given::{Given, check_mass, check_station};
use crate::hats::KNOTS;
use crate::piece::{Piece, Station, Weighed};
use crate::prior::Prior;
use crate::shape::{Geometry, Shape, Slice};
use crate::{RollError, Settings};
use band::{Band, Input};
use quantity::{Length, Mass};

/// Mass along one piece: the prior, the scale, stations and weighed portions, in closed form.
///
/// Where scale and ruler have both spoken there is one Gaussian; otherwise one for each drawn mass and length, weighted
/// by how well it foretold what was measured.
///
/// # Holds
/// The covariance stays symmetric to the bit and positive definite; the whole weighs what the scale said, within its
/// error.
/// # Source
/// Kalman's update of a Gaussian by one linear observation at a time (any text on estimation). Priors:
/// `catalogue/profiles.toml`, `catalogue/cuts.toml`.
/// # Checked by
/// `tests/published/numpy.rs`: mean and covariance against numpy on random sequences; `tests/calibration.rs`: bands of
/// a thousand drawn pieces.
#[derive(Clone, Debug)]
pub struct Posterior {
    pub(crate) members: Vec<Member>,
    pub(crate) inputs: Vec<Input>,
    /// The member that stands for all in what is shown of the state: the likeliest.
    best: usize,
    /// Where the last weighed portion ended, mm, if one was.
    pub(crate) face_mm: Option<f64>,
    weighed: usize,
}

/// One guess at mass and length with what follows from it.
#[derive(Clone, Debug)]
pub(crate) struct Member {
    /// Weights of all members add to 1.
    pub(crate) weight: f64,
    pub(crate) shape: Shape,
}

/// A portion's weight against what was expected of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Foretold {
    /// What the scale said.
    pub mass: Mass,
    /// The band before it spoke, kg, the scale's own error included.
    pub band: Band,
    /// Observed less expected, in standard deviations.
    pub z: f64,
}

/// How many standard deviations a measurement may lie off before it is taken for a slip.
const SLIP: f64 = 6.0;
/// A weighed portion is taken for a slip only if it is off by this share as well: a household whose pieces differ is right.
const SLIP_SHARE: f64 = 0.4;
/// A box is taken for a slip of the unit only if it makes this share more than expected as well.
const BOX_SHARE: f64 = 1.0;
/// How many the least credible section lies below the expected.
const LEAST: f64 = 5.0;

impl Posterior {
    /// What mass, length and stations say of a piece.
    ///
    /// # Errors
    /// [`RollError`] for a number no such piece can have, a station beside it or too small or large for its mass, or a
    /// missing length the catalogue cannot stand in for.
    pub fn new(piece: &Piece) -> Result<Self, RollError> {
        Self::with(piece, &Settings::default())
    }

    /// As [`Posterior::new`], with the ensemble's settings.
    ///
    /// # Errors
    /// As [`Posterior::new`]; [`RollError::NotExact`] where exact answers were asked for and a number is missing.
    pub fn with(piece: &Piece, settings: &Settings) -> Result<Self, RollError> {
        let given = Given::read(piece, settings)?;
        let weight = 1.0 / given.geometries.len() as f64;
        let members = given
            .geometries
            .iter()
            .map(|geometry| {
                let doubt = given.doubt_mm / geometry.length_mm;
                let (marking, cut) =
                    (piece.knife.marking, piece.ends.first.squared && geometry.fill.first > 0.0);
                Member {
                    weight,
                    shape: Shape::new(&piece.prior, *geometry, marking, given.scale_g, doubt, cut),
                }
            })
            .collect();
        let mut posterior = Self { members, inputs: given.inputs, best: 0, face_mm: None, weighed: 0 };
        for (index, station) in piece.stations.iter().enumerate() {
            posterior.measure(index + 1, station, &piece.prior)?;
        }
        Ok(posterior)
    }

    /// Takes in a weighed portion between two marks and says how well it was foretold. `cut`: a knife makes its far
    /// face; otherwise it is the piece's own end.
    ///
    /// # Errors
    /// [`RollError::WeighedUnlikely`] if no such piece can have given it; then nothing is taken in.
    pub fn weigh(
        &mut self,
        from: Length,
        to: Length,
        cut: bool,
        weighed: &Weighed,
    ) -> Result<Foretold, RollError> {
        let number = self.weighed + 1;
        check_mass(format!("the mass of portion {number}"), weighed.mass)?;
        let slice = Slice {
            from_mm: from.mm(),
            to_mm: to.mm(),
            cut,
            thickness_mm: weighed.thickness.map(|thickness| thickness.mm()),
        };
        let mut ahead = self.clone();
        let before = ahead.portion(slice);
        let mut surprise = None;
        for (index, member) in ahead.members.iter_mut().enumerate() {
            let heard = member.shape.weigh(slice, weighed.mass.g());
            if index == self.best {
                surprise = Some(heard);
            }
        }
        ahead.reweigh();
        let z = surprise.map_or(0.0, |surprise| surprise.z());
        let reach = (SLIP * before.variance.sqrt()).max(SLIP_SHARE * before.mean);
        let off = (weighed.mass.g() - before.mean).abs();
        if off > reach || !off.is_finite() {
            let [low, high] = [before.mean - reach, before.mean + reach].map(|g| Mass::from_g(g.max(0.0)));
            return Err(RollError::WeighedUnlikely { number, mass: weighed.mass, low, high });
        }
        ahead.face_mm = Some(slice.thickness_mm.map_or(slice.to_mm, |thickness| slice.from_mm + thickness));
        ahead.weighed = number;
        *self = ahead;
        let band = Band::normal(before.mean, before.variance.sqrt()).times(1e-3);
        Ok(Foretold { mass: weighed.mass, band, z })
    }

    /// Band of the mass in kg of a portion cut between two marks; `cut` as in [`Posterior::weigh`].
    #[must_use]
    pub fn between(&self, from: Length, to: Length, cut: bool) -> Band {
        let slice = Slice { from_mm: from.mm(), to_mm: to.mm(), cut, thickness_mm: None };
        let portion = self.portion(slice);
        Band::normal(portion.mean, portion.variance.sqrt()).times(1e-3)
    }

    /// Mean profile of the likeliest mass and length, at 24 evenly spaced knots.
    #[must_use]
    pub fn profile(&self) -> [f64; KNOTS] {
        std::array::from_fn(|knot| self.best().state.mean[knot])
    }

    /// Covariance of the likeliest state, row by row: the profile at the knots, the shape factor's error, and, where
    /// marks were drawn before, how far the last cut went beside its mark in mm. The side is the square root of its
    /// length.
    #[must_use]
    pub fn covariance(&self) -> &[f64] {
        &self.best().state.covariance
    }

    /// Mean of the same unknowns.
    #[must_use]
    pub fn mean(&self) -> &[f64] {
        &self.best().state.mean
    }

    /// Expected grams of a portion and their variance, over all members.
    pub(crate) fn portion(&self, slice: Slice) -> Moments {
        Moments::mixed(self.members.iter().map(|member| {
            let (mean, variance) = member.shape.portion(slice);
            (member.weight, mean, variance)
        }))
    }

    pub(crate) fn best(&self) -> &Shape {
        &self.members[self.best].shape
    }

    pub(crate) fn geometry(&self) -> &Geometry {
        &self.best().geometry
    }

    /// Whether mass and length are both known.
    pub(crate) fn is_sure(&self) -> bool {
        self.members.len() == 1
    }

    /// Expected mass of the whole, g.
    pub(crate) fn mass_g(&self) -> f64 {
        self.members.iter().map(|member| member.weight * member.shape.geometry.mass_g).sum()
    }

    /// Expected length, mm.
    pub(crate) fn length_mm(&self) -> f64 {
        self.members.iter().map(|member| member.weight * member.shape.geometry.length_mm).sum()
    }

    fn measure(&mut self, number: usize, station: &Station, prior: &Prior) -> Result<(), RollError> {
        check_station(number, station)?;
        let (at_mm, box_mm2) = (station.at.mm(), station.width.mm() * station.height.mm());
        if !(0.0..=self.length_mm()).contains(&at_mm) {
            let length = Length::from_mm(self.length_mm());
            return Err(RollError::StationOff { number, at: station.at, length });
        }
        let before = self.members.clone();
        for member in &mut self.members {
            if member.shape.measure(at_mm, box_mm2).is_none() {
                return Err(RollError::NoSection { cut: prior.cut.id.clone() });
            }
        }
        self.reweigh();
        self.refuse_impossible_box(number, station, &before[self.best].shape)
    }

    /// Refuses a box that the likeliest mass and length cannot have.
    fn refuse_impossible_box(
        &self,
        number: usize,
        station: &Station,
        before: &Shape,
    ) -> Result<(), RollError> {
        let Some(section) = before.section() else { return Ok(()) };
        let x = station.at.mm() / before.geometry.length_mm;
        let weights = before.state.mean.iter().enumerate();
        let hat = crate::hats::hat(x);
        let weights: Vec<f64> = weights.map(|(knot, _)| hat.get(knot).copied().unwrap_or(0.0)).collect();
        let (profile, sd) =
            (crate::hats::value(&before.state.mean, x), before.state.variance(&weights).sqrt());
        let per_mm = before.geometry.grams_a_mm();
        let full = section.density_g_mm3 * station.width.mm() * station.height.mm();
        let needs = per_mm * (profile - LEAST * sd);
        if full < needs {
            return Err(RollError::StationTooSmall {
                number,
                width: station.width,
                height: station.height,
                holds_g_mm: full,
                needs_g_mm: needs,
            });
        }
        let delta_sd = before.state.variance(&unit(before.state.mean.len(), KNOTS)).sqrt();
        let spread = (sd.powi(2) + profile.powi(2) * (delta_sd.powi(2) + section.sd_station.powi(2))).sqrt();
        let allows = per_mm * (profile + (SLIP * spread).max(BOX_SHARE * profile));
        if full * section.factor > allows {
            return Err(RollError::StationTooLarge {
                number,
                width: station.width,
                height: station.height,
                makes_g_mm: full * section.factor,
                allows_g_mm: allows,
            });
        }
        Ok(())
    }

    /// Weighs the members anew by how well each foretold everything so far.
    fn reweigh(&mut self) {
        let likelihoods: Vec<f64> = self.members.iter().map(|member| member.shape.log_likelihood).collect();
        let highest = likelihoods.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let weights: Vec<f64> = likelihoods.iter().map(|likelihood| (likelihood - highest).exp()).collect();
        let sum: f64 = weights.iter().sum();
        for (member, weight) in self.members.iter_mut().zip(weights) {
            member.weight = weight / sum;
        }
        self.best = likelihoods.iter().position(|likelihood| *likelihood == highest).unwrap_or(0);
    }
}

fn unit(size: usize, place: usize) -> Vec<f64> {
    (0..size).map(|index| f64::from(u8::from(index == place))).collect()
}

/// Mean and variance of a mass in g.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Moments {
    pub(crate) mean: f64,
    pub(crate) variance: f64,
}

impl Moments {
    /// Of a mixture: (weight, mean, variance) each.
    pub(crate) fn mixed(parts: impl Iterator<Item = (f64, f64, f64)> + Clone) -> Self {
        let mean: f64 = parts.clone().map(|(weight, mean, _)| weight * mean).sum();
        let variance =
            parts.map(|(weight, each, variance)| weight * (variance + (each - mean).powi(2))).sum();
        Self { mean, variance }
    }
}
