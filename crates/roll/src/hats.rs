//! Functions linear between evenly spaced knots on 0..1, and their exact integrals along a piece with slanted ends.

pub(crate) use catalogue::KNOTS;

/// A number for each knot.
pub(crate) type AtKnots = [f64; KNOTS];

const STEPS: f64 = (KNOTS - 1) as f64;

/// Share of the full section that is there, along a piece whose end faces slant: 0 at the tip, 1 from the end of the
/// slant on. Lengths as shares of the piece's length.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Fill {
    pub(crate) first: f64,
    pub(crate) last: f64,
}

impl Fill {
    /// Length of a piece of full section throughout that holds as much, as a share of the length.
    pub(crate) fn whole(&self) -> f64 {
        1.0 - (self.first + self.last) / 2.0
    }

    fn at(&self, x: f64) -> f64 {
        let first = if x < self.first { x / self.first } else { 1.0 };
        let last = if x > 1.0 - self.last { (1.0 - x) / self.last } else { 1.0 };
        (first * last).clamp(0.0, 1.0)
    }
}

/// The knot below `x` and the weight of the next one.
fn place(x: f64) -> (usize, f64) {
    let along = x.clamp(0.0, 1.0) * STEPS;
    let knot = (along as usize).min(KNOTS - 2);
    (knot, along - knot as f64)
}

/// Weights of the knots in the value at `x`.
pub(crate) fn hat(x: f64) -> AtKnots {
    let (knot, part) = place(x);
    let mut weights = [0.0; KNOTS];
    weights[knot] = 1.0 - part;
    weights[knot + 1] = part;
    weights
}

/// The value at `x` of what stands at the knots.
pub(crate) fn value(at_knots: &[f64], x: f64) -> f64 {
    let (knot, part) = place(x);
    at_knots[knot] * (1.0 - part) + at_knots[knot + 1] * part
}

/// Weights of the knots in the integral from `from` to `to` of the function times the fill.
pub(crate) fn integral(from: f64, to: f64, fill: Fill) -> AtKnots {
    let mut weights = [0.0; KNOTS];
    add_integral(&mut weights, from, to, fill);
    weights
}

/// Adds the weights of one stretch.
pub(crate) fn add_integral(weights: &mut AtKnots, from: f64, to: f64, fill: Fill) {
    each_point(from, to, fill, |knot, part, weight| {
        weights[knot] += weight * (1.0 - part);
        weights[knot + 1] += weight * part;
    });
}

/// The integral itself of what stands at the knots.
pub(crate) fn integral_of(at_knots: &[f64], from: f64, to: f64, fill: Fill) -> f64 {
    let mut sum = 0.0;
    each_point(from, to, fill, |knot, part, weight| {
        sum += weight * (at_knots[knot] * (1.0 - part) + at_knots[knot + 1] * part);
    });
    sum
}

/// Visits the points of an exact quadrature, each with its knot, its place behind it and its weight. Between knots and the
/// ends of the slants the product of two straight lines is a parabola, which Gauss's two points integrate without error.
fn each_point(from: f64, to: f64, fill: Fill, mut visit: impl FnMut(usize, f64, f64)) {
    let end = to.clamp(0.0, 1.0);
    let mut start = from.clamp(0.0, 1.0);
    while start < end {
        let next_knot = ((start * STEPS + 1e-9).floor() + 1.0) / STEPS;
        let mut stop = end.min(next_knot);
        for bend in [fill.first, 1.0 - fill.last] {
            if bend > start && bend < stop {
                stop = bend;
            }
        }
        let (middle, half) = ((start + stop) / 2.0, (stop - start) / 2.0);
        for x in [middle - half * GAUSS, middle + half * GAUSS] {
            let (knot, part) = place(x);
            visit(knot, part, half * fill.at(x));
        }
        start = stop;
    }
}

/// 1/√3, the two-point rule's place.
const GAUSS: f64 = 0.577_350_269_189_625_8;

pub(crate) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_straight_line_is_itself() {
        let line: AtKnots = std::array::from_fn(|knot| 2.0 + 3.0 * knot as f64 / STEPS);
        for x in [0.0, 0.013, 0.5, 0.999, 1.0] {
            assert!((value(&line, x) - (2.0 + 3.0 * x)).abs() < 1e-12);
            assert!((dot(&hat(x), &line) - (2.0 + 3.0 * x)).abs() < 1e-12);
        }
    }

    proptest! {
        #[test]
        fn integrals_of_a_line_are_exact(a in 0.0..1.0f64, b in 0.0..1.0f64, first in 0.0..0.3f64, last in 0.0..0.3f64) {
            let (from, to) = (a.min(b), a.max(b));
            let line: AtKnots = std::array::from_fn(|knot| 2.0 + 3.0 * knot as f64 / STEPS);
            let fill = Fill { first, last };
            // Simpson on a fine grid is exact but where a bend falls inside a step.
            let steps = 20_000;
            let h = (to - from) / steps as f64;
            let f = |x: f64| (2.0 + 3.0 * x) * fill.at(x);
            let sum: f64 = (0..steps)
                .map(|step| { let x = from + h * step as f64; h / 6.0 * (f(x) + 4.0 * f(x + h / 2.0) + f(x + h)) })
                .sum();
            prop_assert!((dot(&integral(from, to, fill), &line) - sum).abs() < 1e-7);
            let middle = (from + to) / 2.0;
            let mut two = integral(from, middle, fill);
            add_integral(&mut two, middle, to, fill);
            prop_assert!((dot(&two, &line) - dot(&integral(from, to, fill), &line)).abs() < 1e-12);
            prop_assert!((dot(&two, &line) - integral_of(&line, from, to, fill)).abs() < 1e-12);
        }

        #[test]
        fn the_whole_is_the_length_less_half_the_slants(first in 0.0..0.3f64, last in 0.0..0.3f64) {
            let fill = Fill { first, last };
            let sum: f64 = integral(0.0, 1.0, fill).iter().sum();
            prop_assert!((sum - fill.whole()).abs() < 1e-12);
        }
    }
}
