//! What is known of a piece before it is weighed: from the catalogue, or from the catalogue and the household's own pieces.

use crate::RollError;
use crate::gauss::Gaussian;
use crate::hats::{AtKnots, KNOTS};
use band::Origin;
use catalogue::{Cut, Profile};

/// What is known of a piece of one cut before it is weighed or measured.
///
/// [`Prior::of`] gives the catalogue's; [`learn`](crate::learn) folds the household's own pieces into it.
#[derive(Clone, Debug)]
pub struct Prior {
    pub(crate) cut: &'static Cut,
    /// Mean and covariance of the profile at the knots and, last, of the shape factor's error δ.
    pub(crate) shape: Gaussian,
    pub(crate) noise: Noise,
    pub(crate) section: Option<Section>,
    /// Mean and sd of ln(mass in g).
    pub(crate) ln_mass: (f64, f64),
    /// Mean and sd of ln(length in mm / mass in g ^ ⅓), where a prior is at hand.
    pub(crate) ln_slender: Option<(f64, f64)>,
    /// Median in mm and sd of the logarithm of the slant at the first and the last end.
    pub(crate) slant: Option<[(f64, f64); 2]>,
    /// Own pieces behind it.
    pub(crate) own_pieces: usize,
    turned: bool,
}

/// Noise below the profile's length scale, and that of the knife.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Noise {
    /// Relative sd of the mass of a portion `at_mm` thick.
    pub(crate) roughness: f64,
    pub(crate) at_mm: f64,
    /// Sd of where a cut goes beside its mark, mm.
    pub(crate) knife_mm: f64,
}

impl Noise {
    /// Relative sd of a portion's mass from roughness alone.
    pub(crate) fn rough(&self, thickness_mm: f64) -> f64 {
        self.roughness * (self.at_mm / thickness_mm.max(1.0)).sqrt()
    }
}

/// From a section's box to its grams.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Section {
    pub(crate) factor: f64,
    pub(crate) sd_station: f64,
    pub(crate) density_g_mm3: f64,
}

/// Independent part of a knot's variance: keeps the covariance positive definite through any number of observations.
const NUGGET: f64 = 1e-8;

impl Prior {
    /// The catalogue's prior of a cut.
    ///
    /// # Errors
    /// [`RollError::UnknownCut`] if the catalogue has no such name; [`RollError::NotSliced`] if the cut has no profile.
    pub fn of(cut: &str) -> Result<Self, RollError> {
        let found = catalogue::cut(cut).ok_or_else(|| RollError::UnknownCut { found: cut.to_owned() })?;
        let profile = found.profile().ok_or_else(|| RollError::NotSliced { cut: cut.to_owned() })?;
        let sd_common = found.section.as_ref().map_or(0.0, |section| section.sd_common);
        let rough = catalogue::roughness();
        Ok(Self {
            cut: found,
            shape: with_shape_factor(&profile.p, &profile_covariance(profile), sd_common),
            noise: Noise {
                roughness: rough.rel_sd,
                at_mm: rough.at_mm,
                // Anywhere within the bounds as likely: sd = half width / √3.
                knife_mm: catalogue::knife().within_mm / 3.0_f64.sqrt(),
            },
            section: found.section.as_ref().map(|section| Section {
                factor: section.factor,
                sd_station: section.sd_station,
                density_g_mm3: section.density_kg_m3 * 1e-6,
            }),
            ln_mass: (found.mass.typical_g.ln(), found.mass.sd_g / found.mass.typical_g),
            ln_slender: found
                .length
                .as_ref()
                .map(|length| (length.typical_mm.ln() - length.at_mass_g.ln() / 3.0, length.rel_sd)),
            slant: found
                .ends
                .as_ref()
                .map(|ends| [(ends.slant_first_mm, ends.log_sd), (ends.slant_last_mm, ends.log_sd)]),
            own_pieces: 0,
            turned: false,
        })
    }

    /// The cut it is of.
    #[must_use]
    pub fn cut(&self) -> &'static Cut {
        self.cut
    }

    /// How many of the household's own pieces are in it.
    #[must_use]
    pub fn own_pieces(&self) -> usize {
        self.own_pieces
    }

    /// Mean profile at 24 evenly spaced knots, first end first; its integral is 1.
    #[must_use]
    pub fn profile(&self) -> [f64; KNOTS] {
        std::array::from_fn(|knot| self.shape.mean[knot])
    }

    /// Sd between pieces of the profile at its knots.
    #[must_use]
    pub fn profile_sd(&self) -> [f64; KNOTS] {
        let size = self.shape.mean.len();
        std::array::from_fn(|knot| self.shape.covariance[knot * size + knot].sqrt())
    }

    /// Share of its box that a section fills, by what was learned so far; `None` where the catalogue has none.
    #[must_use]
    pub fn shape_factor(&self) -> Option<f64> {
        self.section.map(|section| section.factor / (1.0 + self.shape.mean[KNOTS]))
    }

    /// The same piece looked at from its other end.
    #[must_use]
    pub fn turned(&self) -> Self {
        let mut turned = self.clone();
        let size = self.shape.mean.len();
        let other = |knot: usize| if knot < KNOTS { KNOTS - 1 - knot } else { knot };
        for row in 0..size {
            turned.shape.mean[row] = self.shape.mean[other(row)];
            for column in 0..size {
                turned.shape.covariance[row * size + column] =
                    self.shape.covariance[other(row) * size + other(column)];
            }
        }
        turned.turned = !self.turned;
        if let Some(slant) = &mut turned.slant {
            slant.swap(0, 1);
        }
        turned
    }

    /// Whether the knife starts at the catalogue's last end.
    #[must_use]
    pub fn is_turned(&self) -> bool {
        self.turned
    }

    /// What a figure of it rests on, as the origin of an input.
    pub(crate) fn origin(&self, catalogue: &catalogue::Basis) -> Origin {
        let (mark, source) = if self.own_pieces > 0 {
            ("own pieces".to_owned(), format!("{} of the household's own pieces", self.own_pieces))
        } else {
            (catalogue.mark.word().to_owned(), catalogue.source.clone())
        };
        Origin::Prior { mark, source }
    }
}

/// C_ij = σᵢ σⱼ p̄ᵢ p̄ⱼ exp(−½ ((xᵢ − xⱼ)/ℓ)²).
pub(crate) fn profile_covariance(profile: &Profile) -> Vec<f64> {
    let sd: AtKnots = std::array::from_fn(|knot| profile.rel_sd[knot] * profile.p[knot]);
    let place = |knot: usize| knot as f64 / (KNOTS - 1) as f64;
    let mut covariance = Vec::with_capacity(KNOTS * KNOTS);
    for row in 0..KNOTS {
        for column in 0..KNOTS {
            let apart = (place(row) - place(column)) / profile.length_scale;
            let nugget = if row == column { NUGGET } else { 0.0 };
            covariance.push(sd[row] * sd[column] * ((-0.5 * apart * apart).exp() + nugget));
        }
    }
    covariance
}

/// The profile's Gaussian with the shape factor's error as one more unknown.
pub(crate) fn with_shape_factor(mean: &[f64], covariance: &[f64], sd_common: f64) -> Gaussian {
    let mut shape = Gaussian { mean: mean.to_vec(), covariance: covariance.to_vec() };
    shape.push(0.0, (sd_common * sd_common).max(1e-12));
    shape
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn turning_twice_is_not_turning() {
        let prior = Prior::of("beef-tenderloin").expect("a roll");
        let twice = prior.turned().turned();
        assert_eq!(prior.shape.mean, twice.shape.mean);
        assert_eq!(prior.shape.covariance, twice.shape.covariance);
        assert_eq!(prior.profile()[0], prior.turned().profile()[KNOTS - 1]);
    }

    #[test]
    fn a_cut_without_a_shape_is_refused_by_name() {
        assert!(matches!(Prior::of("beef-round"), Err(RollError::NotSliced { cut }) if cut == "beef-round"));
        assert!(matches!(Prior::of("beef-ribeye"), Err(RollError::UnknownCut { .. })));
    }
}
