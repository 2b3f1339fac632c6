//! Warming curves, and one thickness between a few that were computed.

/// The core over time: minutes, °C.
pub(crate) type Curve = Vec<(f64, f64)>;

/// Minutes at which a warming core first stands at a temperature, straight between points; infinite where it never does.
pub(crate) fn at(curve: &[(f64, f64)], celsius: f64) -> f64 {
    // A curve that was warmed to just this temperature ends a hair above it or below.
    let Some(next) = curve.iter().position(|(_, core)| *core >= celsius - HAIR_K) else {
        return f64::INFINITY;
    };
    let (to, b) = curve[next];
    let Some(&(from, a)) = next.checked_sub(1).and_then(|before| curve.get(before)) else { return to };
    from + (to - from) * (celsius - a) / (b - a)
}

/// K; a stage ends within a fiftieth of this of its rule.
const HAIR_K: f64 = 1e-3;

/// Places that span what is asked for, evenly in the logarithm.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Spread(Vec<f64>);

impl Spread {
    /// Two places where the largest is hardly larger than the smallest, up to four where it is far larger. Minutes go with
    /// a power of the thickness between one and two, so that between such places a polynomial of their logarithms is
    /// true to a thousandth (tested below).
    pub(crate) fn over(values: impl IntoIterator<Item = f64>) -> Self {
        let (low, high) =
            values.into_iter().fold((f64::INFINITY, 0.0_f64), |(low, high), v| (low.min(v), high.max(v)));
        let ratio = high / low;
        let steps = match ratio {
            r if r <= 1.0 + 1e-9 => return Self(vec![low]),
            r if r < 1.2 => 1,
            r if r < 1.6 => 2,
            _ => 3,
        };
        let place = |step: usize| low * ratio.powf(step as f64 / steps as f64);
        Self((0..=steps).map(place).collect())
    }

    pub(crate) fn places(&self) -> &[f64] {
        &self.0
    }

    /// The value at `x` of what is known at the places; infinite where it is at either neighbour.
    pub(crate) fn between(&self, x: f64, values: &[f64]) -> f64 {
        let last = self.0.len() - 1;
        let below = self.0.partition_point(|place| *place <= x).saturating_sub(1).min(last);
        let above = (below + 1).min(last);
        if !(values[below].is_finite() && values[above].is_finite()) {
            return f64::INFINITY;
        }
        // A neighbour farther off that is never reached would spoil the polynomial.
        if values.iter().any(|value| !value.is_finite()) {
            return self.straight(x, below, above, values);
        }
        let logs: Vec<f64> = self.0.iter().map(|place| place.ln()).collect();
        let x = x.ln();
        let weight = |i: usize| -> f64 {
            logs.iter().enumerate().filter(|(j, _)| *j != i).map(|(_, l)| (x - l) / (logs[i] - l)).product()
        };
        values.iter().enumerate().map(|(i, value)| weight(i) * value.max(1e-9).ln()).sum::<f64>().exp()
    }

    fn straight(&self, x: f64, below: usize, above: usize, values: &[f64]) -> f64 {
        if below == above {
            return values[below];
        }
        let share = (x / self.0[below]).ln() / (self.0[above] / self.0[below]).ln();
        (values[below].ln() * (1.0 - share) + values[above].ln() * share).exp()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_power_of_the_thickness_is_met_between_the_places() {
        for high in [0.031, 0.036, 0.05, 0.065] {
            let spread = Spread::over([0.028, high]);
            let minutes: Vec<f64> = spread.places().iter().map(|x| 4e4 * x.powf(1.4)).collect();
            for step in 0..=20 {
                let x = 0.028 + (high - 0.028) * f64::from(step) / 20.0;
                let exact = 4e4 * x.powf(1.4);
                assert!((spread.between(x, &minutes) / exact - 1.0).abs() < 1e-12);
            }
        }
    }

    #[test]
    fn what_is_never_reached_is_not_made_up() {
        let spread = Spread(vec![0.02, 0.03, 0.04]);
        let minutes = [30.0, 50.0, f64::INFINITY];
        assert!((spread.between(0.025, &minutes) - 38.0).abs() < 2.0);
        assert_eq!(spread.between(0.035, &minutes), f64::INFINITY);
        assert!((Spread::over([0.03, 0.03]).between(0.03, &[44.0]) - 44.0).abs() < 1e-9);
    }

    #[test]
    fn a_core_is_found_between_two_points() {
        let curve = [(0.0, 4.0), (10.0, 20.0), (20.0, 50.0)];
        assert!((at(&curve, 35.0) - 15.0).abs() < 1e-12);
        assert_eq!(at(&curve, 4.0), 0.0);
        assert_eq!(at(&curve, 60.0), f64::INFINITY);
        let end = at(&curve, 50.00001);
        assert!((end - 20.0).abs() < 1e-3, "the end of a curve is met from either side: {end}");
    }
}
