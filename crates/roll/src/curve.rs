//! Expected grams and their variance between any two marks still to be cut, tabulated once for a plan.

use crate::gauss::Gaussian;
use crate::hats::{self, AtKnots, KNOTS, dot};
use crate::piece::Marking;
use crate::posterior::{Member, Moments, Posterior};
use crate::shape::{Geometry, Shape};

/// The rest of a piece as the programme sees it: marks, and grams up to and past each.
pub(crate) struct Curve {
    /// Where a cut may go, mm; the first is the face the knife stands at, the last the end of what is portioned.
    pub(crate) marks: Vec<f64>,
    /// What the cut at each mark takes, mm; 0 where the face is cut already or is the piece's own end.
    pub(crate) kerf: Vec<f64>,
    /// What a cut takes, mm.
    pub(crate) saw: f64,
    /// Expected grams from the tip of the first end up to each mark.
    pub(crate) up_to: Vec<f64>,
    /// The same past what the cut takes.
    pub(crate) past: Vec<f64>,
    /// Grams a millimetre at each mark.
    pub(crate) density: Vec<f64>,
    within: Within,
    between: Option<Between>,
    noise: crate::prior::Noise,
    marking: Marking,
}

impl Curve {
    /// Tabulates a posterior over marks; `scale` turns its grams into those the scale left for the rest.
    pub(crate) fn new(posterior: &Posterior, marks: Vec<f64>, kerf: Vec<f64>, scale: f64) -> Self {
        let past_marks: Vec<f64> = marks.iter().zip(&kerf).map(|(mark, kerf)| mark + kerf).collect();
        let no_kerf = past_marks == marks;
        let of = |member: &Member| {
            let up_to = grams_up_to(&member.shape, &marks);
            let past = if no_kerf { up_to.clone() } else { grams_up_to(&member.shape, &past_marks) };
            Guess { weight: member.weight, up_to, past }
        };
        let guesses: Vec<Guess> = posterior.members.iter().map(of).collect();
        let up_to = mean(&guesses, marks.len(), scale, |guess| &guess.up_to);
        let past = mean(&guesses, marks.len(), scale, |guess| &guess.past);
        let density = marks.iter().map(|mark| scale * density(posterior, *mark)).collect();
        let best = posterior.best();
        Self {
            within: Within::new(best, &marks, &past_marks),
            between: (!posterior.is_sure()).then(|| Between::new(&guesses)),
            noise: *best.noise(),
            marking: best.marking(),
            saw: kerf.iter().copied().fold(0.0, f64::max),
            marks,
            kerf,
            up_to,
            past,
            density,
        }
    }

    pub(crate) fn end(&self) -> usize {
        self.marks.len() - 1
    }

    /// From the near face to the far mark, mm.
    pub(crate) fn thickness(&self, from: usize, to: usize) -> f64 {
        self.marks[to] - self.marks[from] - self.kerf[from]
    }

    pub(crate) fn grams(&self, from: usize, to: usize) -> f64 {
        self.up_to[to] - self.past[from]
    }

    /// Mean and variance of a portion's grams: shape, mass and length, roughness, knife.
    pub(crate) fn portion(&self, from: usize, to: usize) -> Moments {
        let parts = self.variances(from, to);
        Moments { mean: self.grams(from, to), variance: parts.shape + parts.size + parts.noise }
    }

    /// Variance of a portion's thickness from the knife alone, mm².
    pub(crate) fn knife_mm2(&self) -> f64 {
        let faces = if self.marking == Marking::DrawnBefore { 2.0 } else { 1.0 };
        faces * self.noise.knife_mm * self.noise.knife_mm
    }

    /// The same variance by where it comes from.
    pub(crate) fn variances(&self, from: usize, to: usize) -> Variances {
        let mean = self.grams(from, to);
        let rough = self.noise.rough(self.thickness(from, to)) * mean;
        let far = self.density[to] * self.noise.knife_mm;
        let near = match self.marking {
            Marking::FreshFace => 0.0,
            Marking::DrawnBefore => self.density[from] * self.noise.knife_mm,
        };
        Variances {
            shape: self.within.variance(from, to),
            size: self.between.as_ref().map_or(0.0, |between| between.variance(from, to)),
            noise: rough * rough + far * far + near * near,
        }
    }
}

/// A portion's variance in g² by where it comes from.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Variances {
    /// How the mass lies along the piece.
    pub(crate) shape: f64,
    /// Mass and length of the piece.
    pub(crate) size: f64,
    /// Roughness and the knife.
    pub(crate) noise: f64,
}

/// Expected grams from the tip up to each of ascending places.
pub(crate) fn grams_up_to(shape: &Shape, places_mm: &[f64]) -> Vec<f64> {
    let geometry = &shape.geometry;
    let (mut sum, mut last) = (0.0, 0.0);
    let up_to = |place: &f64| {
        let x = place / geometry.length_mm;
        sum += hats::integral_of(&shape.state.mean, last, x, geometry.fill);
        last = x;
        geometry.grams() * sum
    };
    places_mm.iter().map(up_to).collect()
}

/// Weights of the knots in the integral from the tip up to each of ascending places.
fn cumulative(geometry: &Geometry, places_mm: &[f64]) -> Vec<AtKnots> {
    let mut weights = [0.0; KNOTS];
    let mut last = 0.0;
    places_mm
        .iter()
        .map(|place| {
            let x = place / geometry.length_mm;
            hats::add_integral(&mut weights, last, x, geometry.fill);
            last = x;
            weights
        })
        .collect()
}

fn density(posterior: &Posterior, mark_mm: f64) -> f64 {
    let of = |shape: &Shape| {
        shape.geometry.grams_a_mm() * hats::value(&shape.state.mean, mark_mm / shape.geometry.length_mm)
    };
    posterior.members.iter().map(|member| member.weight * of(&member.shape)).sum()
}

/// Var(F(b) − F(a)) = K(a, a) + K(b, b) − 2 K(a, b) for the cumulative grams F of one Gaussian.
struct Within {
    past: Vec<AtKnots>,
    times_up_to: Vec<AtKnots>,
    own_past: Vec<f64>,
    own_up_to: Vec<f64>,
}

impl Within {
    fn new(shape: &Shape, marks: &[f64], past_marks: &[f64]) -> Self {
        let grams = shape.geometry.grams();
        let scaled = |places: &[f64]| -> Vec<AtKnots> {
            cumulative(&shape.geometry, places)
                .into_iter()
                .map(|weights| weights.map(|w| w * grams))
                .collect()
        };
        let (up_to, past) = (scaled(marks), scaled(past_marks));
        let times = |all: &[AtKnots]| -> Vec<AtKnots> {
            all.iter().map(|weights| times(&shape.state, weights)).collect()
        };
        let (times_up_to, times_past) = (times(&up_to), times(&past));
        let own = |all: &[AtKnots], times: &[AtKnots]| -> Vec<f64> {
            all.iter().zip(times).map(|(weights, times)| dot(weights, times)).collect()
        };
        Self { own_past: own(&past, &times_past), own_up_to: own(&up_to, &times_up_to), past, times_up_to }
    }

    fn variance(&self, from: usize, to: usize) -> f64 {
        let both = dot(&self.past[from], &self.times_up_to[to]);
        (self.own_past[from] + self.own_up_to[to] - 2.0 * both).max(0.0)
    }
}

/// The profile's block of the covariance times a vector.
fn times(state: &Gaussian, weights: &AtKnots) -> AtKnots {
    let size = state.mean.len();
    std::array::from_fn(|row| dot(&state.covariance[row * size..row * size + KNOTS], weights))
}

/// One guess at mass and length: its weight, and expected grams up to and past each mark.
struct Guess {
    weight: f64,
    up_to: Vec<f64>,
    past: Vec<f64>,
}

fn mean(guesses: &[Guess], marks: usize, scale: f64, pick: fn(&Guess) -> &Vec<f64>) -> Vec<f64> {
    let mut sum = vec![0.0; marks];
    for guess in guesses {
        for (sum, grams) in sum.iter_mut().zip(pick(guess)) {
            *sum += scale * guess.weight * grams;
        }
    }
    sum
}

/// Spread of a portion's expected grams over guesses at mass and length.
///
/// The curves of all guesses differ in few ways: their covariance is taken apart by pivoted Cholesky until what is left
/// is nothing beside it, and each way keeps one number at each mark.
struct Between {
    /// For each way: up to and past each mark, side by side.
    ways: Vec<(Vec<f64>, Vec<f64>)>,
}

/// Share of the largest variance that may be left out.
const NOTHING: f64 = 1e-6;
const MOST_WAYS: usize = 12;

impl Between {
    fn new(guesses: &[Guess]) -> Self {
        let marks = guesses.first().map_or(0, |guess| guess.up_to.len());
        let (up_to, past) =
            (mean(guesses, marks, 1.0, |guess| &guess.up_to), mean(guesses, marks, 1.0, |guess| &guess.past));
        // Deviation of each guess at each place, weighted so that products add up to a covariance.
        let deviations: Vec<Vec<f64>> = guesses
            .iter()
            .map(|guess| {
                let root = guess.weight.sqrt();
                let far = guess.up_to.iter().zip(&up_to);
                let near = guess.past.iter().zip(&past);
                far.chain(near).map(|(grams, mean)| root * (grams - mean)).collect()
            })
            .collect();
        Self {
            ways: pivoted_cholesky(&deviations, 2 * marks).into_iter().map(|way| split(way, marks)).collect(),
        }
    }

    fn variance(&self, from: usize, to: usize) -> f64 {
        self.ways.iter().map(|(up_to, past)| (up_to[to] - past[from]).powi(2)).sum()
    }
}

fn split(mut way: Vec<f64>, at: usize) -> (Vec<f64>, Vec<f64>) {
    let past = way.split_off(at);
    (way, past)
}

/// Columns whose products with themselves add up to the covariance of the deviations (a row a guess).
fn pivoted_cholesky(deviations: &[Vec<f64>], places: usize) -> Vec<Vec<f64>> {
    let mut left = vec![0.0; places];
    for row in deviations {
        for (left, deviation) in left.iter_mut().zip(row) {
            *left += deviation * deviation;
        }
    }
    let largest = left.iter().copied().fold(0.0, f64::max);
    let mut columns: Vec<Vec<f64>> = Vec::new();
    while columns.len() < MOST_WAYS {
        let Some(pivot) = (0..places).max_by(|a, b| left[*a].total_cmp(&left[*b])) else { break };
        if left[pivot] <= NOTHING * largest {
            break;
        }
        let mut column = vec![0.0; places];
        for row in deviations {
            for (entry, deviation) in column.iter_mut().zip(row) {
                *entry += row[pivot] * deviation;
            }
        }
        for earlier in &columns {
            let along = earlier[pivot];
            for (entry, other) in column.iter_mut().zip(earlier) {
                *entry -= along * other;
            }
        }
        let root = left[pivot].sqrt();
        for (entry, left) in column.iter_mut().zip(&mut left) {
            *entry /= root;
            *left -= *entry * *entry;
        }
        columns.push(column);
    }
    columns
}
