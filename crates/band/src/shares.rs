//! Which input carries an answer's width: first-order variance shares from the ensemble that gave the answer.

use crate::{Draws, Input};

/// One line of "what would narrow it".
#[derive(Clone, Debug, PartialEq)]
pub struct Narrow {
    /// The input's name.
    pub input: String,
    /// The share of the answer's variance it carries by itself, 0 to 1.
    pub share: f64,
}

/// Inputs that carry enough of the answer's variance to be worth naming, largest first.
///
/// Shares below [`naming_floor`] are left out: so few draws cannot tell them from nothing.
#[must_use]
pub fn narrow(inputs: &[Input], draws: &Draws, outputs: &[f64]) -> Vec<Narrow> {
    let floor = naming_floor(draws.len());
    let mut named: Vec<Narrow> = inputs
        .iter()
        .zip(shares(draws, outputs))
        .filter(|(_, share)| *share >= floor)
        .map(|(input, share)| Narrow { input: input.name.clone(), share })
        .collect();
    named.sort_by(|a, b| b.share.total_cmp(&a.share));
    named
}

/// The smallest share that is named: 0.1, and more for fewer than 256 draws.
///
/// An input that does nothing shows a share of about (χ²₆ − 6) / draws; 25.6 / draws is passed by it twice in 100,000.
#[must_use]
pub fn naming_floor(draws: usize) -> f64 {
    (25.6 / draws.max(1) as f64).max(0.1)
}

/// First-order shares of variance, Var(E(output | input)) / Var(output), one for each input; 0 where either is constant.
///
/// The conditional mean is fitted on the input's ranks by polynomials to the sixth degree, and the part such a fit takes
/// from pure chance is taken off, so an input that does nothing has a share of 0 on average. Members whose output is not
/// finite ("never") are left out. What several inputs do only together is in no share: they may add up to less than 1.
///
/// # Source
/// The idea, shares from given data by a fit on few smooth functions: Plischke, *Reliability Engineering & System Safety*
/// 95, 354–360, 2010, who uses harmonics (from memory). Taking off the chance part: the adjusted coefficient of
/// determination, any regression text.
/// # Checked by
/// `tests/published/shares.rs`: a linear sum and the Ishigami function in closed form; inputs that do nothing.
#[must_use]
pub fn shares(draws: &Draws, outputs: &[f64]) -> Vec<f64> {
    let kept: Vec<usize> =
        (0..draws.len().min(outputs.len())).filter(|&member| outputs[member].is_finite()).collect();
    let mean = kept.iter().map(|&member| outputs[member]).sum::<f64>() / kept.len().max(1) as f64;
    let centred: Vec<(usize, f64)> = kept.iter().map(|&member| (member, outputs[member] - mean)).collect();
    let total: f64 = centred.iter().map(|(_, output)| output * output).sum();
    // Rounding alone must not pass for variance.
    let constant = total <= (1e-14 * mean).powi(2) * kept.len() as f64;
    let basis = if constant { Vec::new() } else { polynomials_on_ranks(centred.len()) };
    (0..draws.inputs())
        .map(|input| if constant { 0.0 } else { share_of(draws, input, &centred, total, &basis) })
        .collect()
}

const DEGREE: usize = 6;

fn share_of(draws: &Draws, input: usize, centred: &[(usize, f64)], total: f64, basis: &[Vec<f64>]) -> f64 {
    let count = centred.len();
    if count < 2 * DEGREE + 2 {
        return 0.0;
    }
    let mut by_rank: Vec<(f64, f64)> =
        centred.iter().map(|&(member, output)| (draws.member(member)[input], output)).collect();
    by_rank.sort_by(|a, b| a.0.total_cmp(&b.0));
    if by_rank.first().map(|first| first.0) == by_rank.last().map(|last| last.0) {
        return 0.0;
    }
    let explained: f64 = basis
        .iter()
        .map(|polynomial| polynomial.iter().zip(&by_rank).map(|(p, (_, y))| p * y).sum::<f64>().powi(2))
        .sum();
    let spare = (count - 1 - DEGREE) as f64 / (count - 1) as f64;
    (1.0 - (1.0 - explained / total) / spare).clamp(0.0, 1.0)
}

/// Polynomials of degree 1 to 6 on `count` evenly spaced ranks, each of length 1 and at right angles to the others
/// (Gram's polynomials, by their three-term recurrence), so each is fitted by itself.
fn polynomials_on_ranks(count: usize) -> Vec<Vec<f64>> {
    let place = |rank: usize| (2 * rank + 1) as f64 / count as f64 - 1.0;
    let mut before = vec![0.0; count];
    let mut last = vec![1.0 / (count as f64).sqrt(); count];
    let mut all = Vec::with_capacity(DEGREE);
    for _ in 0..DEGREE {
        let raised: Vec<f64> = last.iter().enumerate().map(|(rank, p)| place(rank) * p).collect();
        let along: f64 = raised.iter().zip(&before).map(|(a, b)| a * b).sum();
        let rest: Vec<f64> = raised.iter().zip(&before).map(|(a, b)| a - along * b).collect();
        let length = rest.iter().map(|p| p * p).sum::<f64>().sqrt();
        before = std::mem::replace(&mut last, rest.into_iter().map(|p| p / length).collect());
        all.push(last.clone());
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_polynomials_are_at_right_angles() {
        for count in [14, 64, 256, 1000] {
            let all = polynomials_on_ranks(count);
            for (i, p) in all.iter().enumerate() {
                assert!(p.iter().sum::<f64>().abs() < 1e-10, "degree {} has a mean", i + 1);
                for (j, q) in all.iter().enumerate() {
                    let dot: f64 = p.iter().zip(q).map(|(a, b)| a * b).sum();
                    let expected = f64::from(u8::from(i == j));
                    assert!(
                        (dot - expected).abs() < 1e-9,
                        "{count} ranks, degrees {} and {}: {dot}",
                        i + 1,
                        j + 1
                    );
                }
            }
        }
    }
}
