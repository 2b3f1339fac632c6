//! Lines of nodes side by side: conduction along them, and the tridiagonal solve.

use super::grid::Axis;

/// Thomas, for lines that lie side by side in a slice: `change` is the right-hand side first and the answer last.
pub(crate) fn eliminate(axis: &Axis, pull: f64, dtheta: &[f64], diagonal: &mut [f64], change: &mut [f64]) {
    let (n, stride) = (axis.size.len(), axis.stride);
    if stride == 1 && change.len() > n {
        return eliminate_abreast(axis, pull, dtheta, diagonal, change);
    }
    diagonal[..stride].iter_mut().for_each(|d| *d = 1.0 / *d);
    for i in 1..n {
        let (down, up) = (pull * axis.down[i], pull * axis.up[i - 1]);
        let (inverse, own) = diagonal[(i - 1) * stride..(i + 1) * stride].split_at_mut(stride);
        let (before, here) = change[(i - 1) * stride..(i + 1) * stride].split_at_mut(stride);
        let (dtheta_before, dtheta_here) = dtheta[(i - 1) * stride..(i + 1) * stride].split_at(stride);
        for j in 0..stride {
            let w = down * dtheta_before[j] * inverse[j];
            own[j] = 1.0 / (own[j] - w * up * dtheta_here[j]);
            here[j] += w * before[j];
        }
    }
    for j in 0..stride {
        change[(n - 1) * stride + j] *= diagonal[(n - 1) * stride + j];
    }
    for i in (0..n - 1).rev() {
        let up = pull * axis.up[i];
        let (here, after) = change[i * stride..(i + 2) * stride].split_at_mut(stride);
        let (inverse, dtheta_after) =
            (&diagonal[i * stride..(i + 1) * stride], &dtheta[(i + 1) * stride..(i + 2) * stride]);
        for j in 0..stride {
            here[j] = (here[j] + up * dtheta_after[j] * after[j]) * inverse[j];
        }
    }
}

/// The same for lines that lie one after the other: all go abreast, so that no quotient waits for the one before.
fn eliminate_abreast(axis: &Axis, pull: f64, dtheta: &[f64], diagonal: &mut [f64], change: &mut [f64]) {
    let n = axis.size.len();
    let all = change.len();
    let (dtheta, diagonal, change) = (&dtheta[..all], &mut diagonal[..all], &mut change[..all]);
    for first in (0..all).step_by(n) {
        diagonal[first] = 1.0 / diagonal[first];
    }
    for i in 1..n {
        let (down, up) = (pull * axis.down[i], pull * axis.up[i - 1]);
        for here in (i..all).step_by(n) {
            let w = down * dtheta[here - 1] * diagonal[here - 1];
            diagonal[here] = 1.0 / (diagonal[here] - w * up * dtheta[here]);
            change[here] += w * change[here - 1];
        }
    }
    for last in (n - 1..all).step_by(n) {
        change[last] *= diagonal[last];
    }
    for i in (0..n - 1).rev() {
        let up = pull * axis.up[i];
        for here in (i..all).step_by(n) {
            change[here] = (change[here] + up * dtheta[here + 1] * change[here + 1]) * diagonal[here];
        }
    }
}

/// One equation of a line: what multiplies the unknowns of its node and of those below and above, and the right-hand side.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Row {
    pub(crate) below: f64,
    pub(crate) own: f64,
    pub(crate) above: f64,
    pub(crate) right: f64,
}

/// One line of equations of any kind, from both ends to the middle at once, so that two quotients are under way instead of one.
pub(crate) fn eliminate_rows(rows: &mut [Row], change: &mut [f64]) {
    let n = rows.len();
    let change = &mut change[..n];
    let middle = n / 2;
    let (lower, upper) = rows.split_at_mut(middle);
    let (last, upper) = (upper.len() - 1, upper);
    // Each row's own becomes one over it, its right-hand side what is left for it.
    let (mut low, mut high) = (Eliminated::default(), Eliminated::default());
    for step in 0..middle.max(last) {
        if step < middle {
            low.take(&mut lower[step], |row| (row.below, row.above));
        }
        if step < last {
            high.take(&mut upper[last - step], |row| (row.above, row.below));
        }
    }
    let row = &upper[0];
    let own = row.own - low.of(row.below) - high.of(row.above);
    change[middle] = (row.right - low.right_of(row.below) - high.right_of(row.above)) / own;
    for step in 1..=middle.max(last) {
        if step <= middle {
            let (i, row) = (middle - step, &lower[middle - step]);
            change[i] = (row.right - row.above * change[i + 1]) * row.own;
        }
        if step <= last {
            let (i, row) = (middle + step, &upper[step]);
            change[i] = (row.right - row.below * change[i - 1]) * row.own;
        }
    }
}

/// The row that was eliminated last: one over its own, what couples it onwards, and its right-hand side.
#[derive(Clone, Copy, Default)]
struct Eliminated {
    inverse: f64,
    onwards: f64,
    right: f64,
}

impl Eliminated {
    #[inline(always)]
    fn take(&mut self, row: &mut Row, couples: impl Fn(&Row) -> (f64, f64)) {
        let (back, onwards) = couples(row);
        row.right -= self.right_of(back);
        row.own = 1.0 / (row.own - self.of(back));
        *self = Self { inverse: row.own, onwards, right: row.right };
    }

    #[inline(always)]
    fn of(&self, back: f64) -> f64 {
        back * self.inverse * self.onwards
    }

    #[inline(always)]
    fn right_of(&self, back: f64) -> f64 {
        back * self.inverse * self.right
    }
}

/// Adds the flow of heat along one axis to the rates, W/m³, from ∫k dT at every node.
pub(crate) fn conduct(axis: &Axis, factor: f64, theta: &[f64], rate: &mut [f64]) {
    let (n, stride) = (axis.size.len(), axis.stride);
    if stride == 1 {
        let (up, down) = (&axis.up[..n], &axis.down[..n]);
        for (theta, rate) in theta.chunks_exact(n).zip(rate.chunks_exact_mut(n)) {
            // Each rate is written once: passing it on through memory from link to link is what takes the time.
            rate[0] += factor * up[0] * (theta[1] - theta[0]);
            for i in 1..n - 1 {
                rate[i] += factor * (up[i] * (theta[i + 1] - theta[i]) - down[i] * (theta[i] - theta[i - 1]));
            }
            rate[n - 1] -= factor * down[n - 1] * (theta[n - 1] - theta[n - 2]);
        }
        return;
    }
    for (theta, rate) in theta.chunks_exact(n * stride).zip(rate.chunks_exact_mut(n * stride)) {
        for i in 0..n - 1 {
            let (up, down) = (factor * axis.up[i], factor * axis.down[i + 1]);
            let (here, next) = rate[i * stride..(i + 2) * stride].split_at_mut(stride);
            let (theta_here, theta_next) = theta[i * stride..(i + 2) * stride].split_at(stride);
            for j in 0..stride {
                let step = theta_next[j] - theta_here[j];
                here[j] += up * step;
                next[j] -= down * step;
            }
        }
    }
}
