//! Which measurement would narrow a plan most: in closed form, since what a reading says does not change how sure it makes.

use super::question::Question;
use band::{Band, Value};
use catalogue::KNOTS;
use quantity::Length;
use roll::{KnifePlan, Posterior, RollError, Station};

/// A measurement still to be made.
#[derive(Clone, Debug, PartialEq)]
pub enum Measure {
    /// The whole, bag off.
    Mass,
    /// From tip to tip.
    Length,
    /// Width and height at these places, from the tip of the named end.
    Stations(Vec<Length>),
}

/// What a measurement would take away.
#[derive(Clone, Debug, PartialEq)]
pub struct Narrowing {
    /// What to measure.
    pub measure: Measure,
    /// The share of the variance of portions' weights that goes with it, 0 to 1.
    pub share: f64,
}

/// Where a roll tells most of itself: three stations bring portions from 6.9 to 4.7 %, one in the middle nothing.
const PLACES: [f64; 3] = [0.1, 0.5, 0.9];
/// Less than this is not worth a ruler.
const WORTH_NAMING: f64 = 0.05;

/// The measurement that narrows the portions still to be cut most, and by how much.
pub(crate) fn narrowing(question: &Question, plan: &KnifePlan) -> Option<Narrowing> {
    let now = spread(&question.piece, question, plan).ok()?;
    let candidates = candidates(question, plan);
    let shares = candidates.into_iter().filter_map(|(measure, piece)| {
        let then = spread(&piece, question, plan).ok()?;
        Some(Narrowing { measure, share: 1.0 - then / now })
    });
    shares.max_by(|a, b| a.share.total_cmp(&b.share)).filter(|narrowing| narrowing.share >= WORTH_NAMING)
}

/// Each measurement not made yet, with the piece as it would stand if the reading were the one expected.
fn candidates(question: &Question, plan: &KnifePlan) -> Vec<(Measure, roll::Piece)> {
    let mut all = Vec::new();
    let piece = &question.piece;
    if !piece.length.is_known() {
        all.push((Measure::Length, roll::Piece { length: Value::Known(plan.length.m()), ..piece.clone() }));
    }
    if !piece.mass.is_known() {
        all.push((Measure::Mass, roll::Piece { mass: Value::Known(plan.mass.median), ..piece.clone() }));
    }
    // A width says little of a piece whose length is a guess: the ruler along it comes first.
    if piece.length.is_known() && piece.stations.is_empty() && question.weighed.len() < 2 {
        let places: Vec<Length> = PLACES.iter().map(|share| plan.length * *share).collect();
        let expected: Option<Vec<Station>> = places.iter().map(|at| expected_box(piece, plan, *at)).collect();
        if let Some(stations) = expected {
            all.push((Measure::Stations(places), roll::Piece { stations, ..piece.clone() }));
        }
    }
    all
}

/// The box that such a piece is expected to fill at a place.
fn expected_box(piece: &roll::Piece, plan: &KnifePlan, at: Length) -> Option<Station> {
    let factor = piece.prior.shape_factor()?;
    let density = piece.prior.cut().section.as_ref()?.density_kg_m3;
    let profile = piece.prior.profile();
    let knot = ((at / plan.length) * (KNOTS - 1) as f64).round() as usize;
    let area_m2 = plan.mass.median / plan.length.m() * profile[knot.min(KNOTS - 1)] / (density * factor);
    let height = (area_m2 / ASPECT).sqrt();
    Some(Station { at, width: Length::from_m(height * ASPECT), height: Length::from_m(height) })
}

/// Width of a roll's section by its height (common practice; only their product counts here).
pub(crate) const ASPECT: f64 = 2.2;

/// Mean variance of the portions still to be cut, relative to their weight.
fn spread(piece: &roll::Piece, question: &Question, plan: &KnifePlan) -> Result<f64, RollError> {
    let mut posterior = Posterior::with(piece, &roll::Settings::default())?;
    for (portion, weighed) in plan.portions.iter().filter(|portion| portion.weighed).zip(&question.weighed) {
        posterior.weigh(portion.from, portion.to, true, weighed)?;
    }
    let ahead = plan.portions.iter().filter(|portion| !portion.weighed);
    let bands: Vec<Band> = ahead.map(|portion| posterior.between(portion.from, portion.to, true)).collect();
    let variance = |band: &Band| ((band.high - band.low) / band.median.max(f64::MIN_POSITIVE)).powi(2);
    Ok(bands.iter().map(variance).sum::<f64>() / bands.len().max(1) as f64)
}
