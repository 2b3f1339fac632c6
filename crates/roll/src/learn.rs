//! How the household's own pieces take the catalogue's place: the same pieces give the same prior.

use crate::RollError;
use crate::gauss::Gaussian;
use crate::hats::{KNOTS, dot};
use crate::piece::{Marking, Station};
use crate::prior::{Prior, profile_covariance};
use crate::shape::{Geometry, Shape, Slice};
use catalogue::LearnedFigure;
use quantity::{Length, Mass};

/// A piece the household has cut and weighed, uncut mass and length as measured then. Whatever was not measured is left
/// out and teaches nothing.
#[derive(Clone, Debug, Default)]
pub struct OwnPiece {
    /// Bag off.
    pub mass: Option<Mass>,
    /// From tip to tip.
    pub length: Option<Length>,
    /// Slant of the end where the knife started, and of the other.
    pub slants: [Option<Length>; 2],
    /// Grams squared off at either end, kept apart from the trim.
    pub squared_off: [Option<Mass>; 2],
    /// Width and height along it.
    pub stations: Vec<Station>,
    /// Portions in the order they were cut.
    pub portions: Vec<OwnPortion>,
    /// How its marks were found.
    pub marking: Marking,
    /// Whether the knife started at the catalogue's last end.
    pub turned: bool,
    /// Smallest step of the scale; left out, 1 g.
    pub scale_division: Option<Mass>,
}

/// A portion with its marks and weight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OwnPortion {
    /// Near face, from the end where the knife started.
    pub from: Length,
    /// Far mark.
    pub to: Length,
    /// What the scale said.
    pub mass: Mass,
    /// As measured, where it was.
    pub thickness: Option<Length>,
}

/// What the household's own pieces made of the catalogue's prior.
#[derive(Clone, Debug)]
pub struct Learned {
    /// The prior of the next piece.
    pub prior: Prior,
    /// How wide own pieces stray, beside the catalogue's width: 1 = as it says.
    pub width: f64,
    /// Sd of where the knife goes beside its mark.
    pub knife: Length,
    /// How well each weighed portion was foretold at the time, in standard deviations, oldest first.
    pub errors: Vec<f64>,
}

/// Folds the household's own pieces of one cut, oldest first, into the catalogue's prior.
///
/// 1. *Profile and shape factor*: each piece is the household's mean plus its own deviation; both are unknowns of one
///    Gaussian, every observation speaks to their sum, and the mean's part is kept. With pieces fully weighed out this
///    reads p ← (6 · catalogue + Σ p̂) / (6 + n).
/// 2. *Width*: λ² = (20 + Σ λ² z²) / (20 + n), z the error of a portion over what was expected of it, λ that of the moment.
/// 3. *Knife*: sd² = (20 · catalogue + Σ error²) / (20 + n), from portions whose thickness was measured.
/// 4. *Mass, length, slant*: normal on ln M, on ln L − ⅓ ln M and on ln slant, the catalogue worth 4, 4 and 2 pieces.
///
/// The weights 6, 20, 4, 2 are assumed: `catalogue/profiles.toml`, `[[worth]]`.
///
/// # Errors
/// As [`Prior::of`].
pub fn learn(cut: &str, pieces: &[OwnPiece]) -> Result<Learned, RollError> {
    let catalogue = Prior::of(cut)?;
    let mut household = Household::new(&catalogue);
    for piece in pieces {
        household.take(piece);
    }
    let mut prior = household.prior();
    (prior.ln_mass, prior.ln_slender) = mass_and_length(&catalogue, pieces);
    prior.slant = slants(&catalogue, pieces);
    prior.own_pieces = pieces.len();
    let (width, knife_mm) = (household.width2.sqrt(), household.knife_mm);
    Ok(Learned { prior, width, knife: Length::from_mm(knife_mm), errors: household.errors })
}

/// What is known of the household's mean piece, and of how pieces stray.
struct Household<'a> {
    catalogue: &'a Prior,
    /// Catalogue's covariance of the profile, row by row.
    covariance: Vec<f64>,
    /// Mean profile and shape factor's error of the household's pieces.
    mean: Gaussian,
    /// λ².
    width2: f64,
    sum_width: f64,
    knife_mm: f64,
    sum_knife: f64,
    knife_readings: f64,
    errors: Vec<f64>,
    /// Pieces whose shape was learned from.
    shaped: usize,
}

/// Sd of the part of the shape factor's error that goes with the person, and of that with the piece. Together the
/// catalogue's 0.06 for a first piece, nearly: half the variance each.
const FACTOR_OF_HOUSEHOLD: f64 = 0.05;
const FACTOR_OF_PIECE: f64 = 0.04;

impl<'a> Household<'a> {
    fn new(catalogue: &'a Prior) -> Self {
        let covariance = catalogue.cut.profile().map(profile_covariance).unwrap_or_default();
        let share: Vec<f64> =
            covariance.iter().map(|entry| entry / pieces(LearnedFigure::Profile, 6.0)).collect();
        let mut mean = Gaussian { mean: catalogue.shape.mean[..KNOTS].to_vec(), covariance: share };
        mean.push(0.0, FACTOR_OF_HOUSEHOLD.powi(2));
        Self {
            catalogue,
            covariance,
            mean,
            width2: 1.0,
            sum_width: 0.0,
            knife_mm: catalogue.noise.knife_mm,
            sum_knife: 0.0,
            knife_readings: 0.0,
            errors: Vec::new(),
            shaped: 0,
        }
    }

    fn take(&mut self, piece: &OwnPiece) {
        if let (Some(mass), Some(length)) = (piece.mass, piece.length)
            && mass.g() > 0.0
            && length.mm() > 0.0
        {
            self.take_shape(piece, mass, length);
        }
        self.take_knife(piece);
    }

    /// Runs the piece's observations through mean and deviation together and keeps what they say of the mean.
    fn take_shape(&mut self, piece: &OwnPiece, mass: Mass, length: Length) {
        let slant_mm = self.slants_of(piece);
        if slant_mm[0] + slant_mm[1] > 0.9 * length.mm() {
            return;
        }
        self.shaped += 1;
        let before = self.next_piece();
        let oriented = if piece.turned { before.turned() } else { before.clone() };
        let geometry = Geometry::new(mass.g(), length.mm(), slant_mm);
        let scale_g = piece.scale_division.map_or(1.0, |division| division.g()) / 3.0_f64.sqrt();
        let mut shape = Shape::new(&oriented, geometry, piece.marking, scale_g, 0.0, slant_mm[0] > 0.0);
        for station in &piece.stations {
            let _ = shape.measure(station.at.mm(), station.width.mm() * station.height.mm());
        }
        let learned = self.errors.len();
        for portion in &piece.portions {
            let slice = Slice {
                from_mm: portion.from.mm(),
                to_mm: portion.to.mm(),
                cut: portion.to.mm() < length.mm() - slant_mm[1] - 0.5 || slant_mm[1] > 0.0,
                thickness_mm: portion.thickness.map(|thickness| thickness.mm()),
            };
            self.errors.push(shape.weigh(slice, portion.mass.g()).z());
        }
        self.widen(learned);
        self.keep_mean(&before, &turned_back(&shape.state, piece.turned));
    }

    fn widen(&mut self, from: usize) {
        let fresh = &self.errors[from..];
        self.sum_width += fresh.iter().map(|z| self.width2 * z * z).sum::<f64>();
        let worth = readings(LearnedFigure::Width, 20.0);
        self.width2 = (worth + self.sum_width) / (worth + self.errors.len() as f64);
    }

    /// From what was learned of a piece to what that says of the mean piece: the piece is mean + deviation, so the mean
    /// follows by regression on the piece (exact for Gaussians: the observations touch the mean only through the piece).
    fn keep_mean(&mut self, before: &Prior, after: &Gaussian) {
        let size = KNOTS + 1;
        let gain = regression(&self.mean.covariance, &before.shape.covariance, size);
        let moved: Vec<f64> =
            (0..size).map(|unknown| after.mean[unknown] - before.shape.mean[unknown]).collect();
        let mut learned = vec![0.0; size * size];
        let wide = after.mean.len();
        for row in 0..size {
            for column in 0..size {
                let fell =
                    after.covariance[row * wide + column] - before.shape.covariance[row * size + column];
                learned[row * size + column] = fell;
            }
        }
        for row in 0..size {
            self.mean.mean[row] += dot(&gain[row * size..(row + 1) * size], &moved);
        }
        // Σ_mean + G (P_after − P_before) Gᵀ
        let half = product(&gain, &learned, size);
        for row in 0..size {
            for column in 0..=row {
                let change =
                    dot(&half[row * size..(row + 1) * size], &gain[column * size..(column + 1) * size]);
                self.mean.covariance[row * size + column] += change;
                self.mean.covariance[column * size + row] = self.mean.covariance[row * size + column];
            }
        }
    }

    fn take_knife(&mut self, piece: &OwnPiece) {
        for portion in &piece.portions {
            if let Some(thickness) = portion.thickness {
                let beside = thickness.mm() - (portion.to.mm() - portion.from.mm());
                self.sum_knife += beside * beside;
                self.knife_readings += 1.0;
            }
        }
        let worth = readings(LearnedFigure::Width, 20.0);
        let own = worth * self.catalogue.noise.knife_mm.powi(2) + self.sum_knife;
        self.knife_mm = (own / (worth + self.knife_readings)).sqrt();
    }

    /// The prior of the next piece. Until a piece has taught its shape the catalogue's stands as it is: its width holds the
    /// doubt about its mean.
    fn prior(&self) -> Prior {
        let mut prior = if self.shaped == 0 { self.catalogue.clone() } else { self.next_piece() };
        if self.shaped == 0 {
            prior.noise.knife_mm = self.knife_mm;
        }
        prior
    }

    /// Mean and deviation of a piece of this household.
    fn next_piece(&self) -> Prior {
        let mut prior = self.catalogue.clone();
        let size = KNOTS + 1;
        let mut shape = self.mean.clone();
        for row in 0..KNOTS {
            for column in 0..KNOTS {
                shape.covariance[row * size + column] += self.width2 * self.covariance[row * KNOTS + column];
            }
        }
        shape.covariance[size * size - 1] += FACTOR_OF_PIECE.powi(2);
        prior.shape = shape;
        prior.noise.roughness *= self.width2.sqrt();
        // Where thickness was measured the knife is known by itself; otherwise it goes with the width.
        prior.noise.knife_mm =
            self.knife_mm * if self.knife_readings > 0.0 { 1.0 } else { self.width2.sqrt() };
        prior
    }

    fn slants_of(&self, piece: &OwnPiece) -> [f64; 2] {
        std::array::from_fn(|end| {
            let at = if piece.turned { 1 - end } else { end };
            let prior = self.catalogue.slant.map_or(0.0, |slant| slant[at].0);
            piece.slants[end].map_or(prior, |slant| slant.mm().max(0.0))
        })
    }
}

/// A posterior as the catalogue looks at the piece, without the faces of marks drawn before.
fn turned_back(state: &Gaussian, turned: bool) -> Gaussian {
    let mut back = state.clone();
    while back.mean.len() > KNOTS + 1 {
        back.remove(KNOTS + 1);
    }
    if !turned {
        return back;
    }
    let size = KNOTS + 1;
    let other = |knot: usize| if knot < KNOTS { KNOTS - 1 - knot } else { knot };
    let mut straight = back.clone();
    for row in 0..size {
        straight.mean[row] = back.mean[other(row)];
        for column in 0..size {
            straight.covariance[row * size + column] = back.covariance[other(row) * size + other(column)];
        }
    }
    straight
}

/// Mean and sd of ln M and of ln L − ⅓ ln M.
type MassAndLength = ((f64, f64), Option<(f64, f64)>);

fn mass_and_length(catalogue: &Prior, own: &[OwnPiece]) -> MassAndLength {
    let worth = pieces(LearnedFigure::MassAndLength, 4.0);
    let grams = |piece: &OwnPiece| piece.mass.map(|mass| mass.g()).filter(|grams| *grams > 0.0);
    let masses: Vec<f64> = own.iter().filter_map(grams).map(f64::ln).collect();
    let slender: Vec<f64> = own
        .iter()
        .filter_map(|piece| {
            Some((grams(piece)?, piece.length.map(|length| length.mm()).filter(|mm| *mm > 0.0)?))
        })
        .map(|(grams, mm)| mm.ln() - grams.ln() / 3.0)
        .collect();
    let length = catalogue.ln_slender.map(|prior| shrunk(prior, &slender, worth));
    (shrunk(catalogue.ln_mass, &masses, worth), length)
}

/// Slant from the grams squared off: they are half of full section over its length.
fn slants(catalogue: &Prior, own: &[OwnPiece]) -> Option<[(f64, f64); 2]> {
    let priors = catalogue.slant?;
    let worth = pieces(LearnedFigure::Slant, 2.0);
    let seen = |end: usize| -> Vec<f64> {
        own.iter().filter_map(|piece| slant_of(catalogue, piece, end)).map(f64::ln).collect()
    };
    Some(std::array::from_fn(|end| {
        let (median, sd) = priors[end];
        let (ln_median, sd) = shrunk((median.ln(), sd), &seen(end), worth);
        (ln_median.exp(), sd)
    }))
}

/// Slant in mm at one of the catalogue's ends, by the grams it took to square it.
fn slant_of(catalogue: &Prior, piece: &OwnPiece, end: usize) -> Option<f64> {
    let side = if piece.turned { 1 - end } else { end };
    let grams = piece.squared_off[side]?.g();
    let section = catalogue.shape.mean[if end == 0 { 0 } else { KNOTS - 1 }];
    let grams_a_mm = piece.mass?.g() / piece.length?.mm() * section;
    (grams > 0.0 && grams_a_mm > 0.0).then(|| 2.0 * grams / grams_a_mm)
}

/// Mean and sd of a normal, the prior worth so many values.
fn shrunk((mean, sd): (f64, f64), values: &[f64], worth: f64) -> (f64, f64) {
    let count = values.len() as f64;
    let new_mean = (worth * mean + values.iter().sum::<f64>()) / (worth + count);
    let strayed: f64 = values.iter().map(|value| (value - new_mean).powi(2)).sum();
    (new_mean, ((worth * sd * sd + strayed) / (worth + count)).sqrt())
}

fn pieces(figure: LearnedFigure, otherwise: f64) -> f64 {
    catalogue::worth_of(figure).and_then(|row| row.pieces).unwrap_or(otherwise)
}

fn readings(figure: LearnedFigure, otherwise: f64) -> f64 {
    catalogue::worth_of(figure).and_then(|row| row.readings).unwrap_or(otherwise)
}

/// A B⁻¹ for symmetric A, B of one size, row by row.
fn regression(a: &[f64], b: &[f64], size: usize) -> Vec<f64> {
    let matrix = |entries: &[f64]| nalgebra::DMatrix::from_row_slice(size, size, entries);
    let solved = matrix(b).cholesky().map(|factor| factor.solve(&matrix(a)));
    // B⁻¹ A, turned over, is A B⁻¹. A covariance with its independent part always has a factor.
    solved.map_or_else(|| vec![0.0; size * size], |solved| solved.as_slice().to_vec())
}

fn product(a: &[f64], b: &[f64], size: usize) -> Vec<f64> {
    let mut all = Vec::with_capacity(size * size);
    for row in a.chunks_exact(size) {
        for column in 0..size {
            all.push(row.iter().enumerate().map(|(inner, entry)| entry * b[inner * size + column]).sum());
        }
    }
    all
}

#[cfg(test)]
mod tests;
