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

/// The same for one line whose cells gain by their neighbours' `u` too.
pub(crate) fn eliminate_mixed(
    axis: &Axis,
    pull: f64,
    dtheta: &[f64],
    (below, above): (&[f64], &[f64]),
    diagonal: &mut [f64],
    change: &mut [f64],
) {
    let n = axis.size.len();
    let (down, up) = (&axis.down[..n], &axis.up[..n]);
    let (dtheta, below, above) = (&dtheta[..n], &below[..n], &above[..n]);
    let (diagonal, change) = (&mut diagonal[..n], &mut change[..n]);
    // From both ends to the middle at once, so that two quotients are under way instead of one.
    let lower = |i: usize| below[i] - pull * down[i] * dtheta[i - 1];
    let upper = |i: usize| above[i] - pull * up[i] * dtheta[i + 1];
    let middle = n / 2;
    diagonal[0] = 1.0 / diagonal[0];
    diagonal[n - 1] = 1.0 / diagonal[n - 1];
    for step in 1..=middle {
        let (i, j) = (step, n - 1 - step);
        if i < middle {
            let w = lower(i) * diagonal[i - 1];
            diagonal[i] = 1.0 / (diagonal[i] - w * upper(i - 1));
            change[i] -= w * change[i - 1];
        }
        if j > middle {
            let w = upper(j) * diagonal[j + 1];
            diagonal[j] = 1.0 / (diagonal[j] - w * lower(j + 1));
            change[j] -= w * change[j + 1];
        }
    }
    let (mut own, mut right) = (diagonal[middle], change[middle]);
    if middle > 0 {
        let w = lower(middle) * diagonal[middle - 1];
        (own, right) = (own - w * upper(middle - 1), right - w * change[middle - 1]);
    }
    if middle + 1 < n {
        let w = upper(middle) * diagonal[middle + 1];
        (own, right) = (own - w * lower(middle + 1), right - w * change[middle + 1]);
    }
    change[middle] = right / own;
    for step in 1..=middle {
        let (i, j) = (middle - step, middle + step);
        change[i] = (change[i] - upper(i) * change[i + 1]) * diagonal[i];
        if j < n {
            change[j] = (change[j] - lower(j) * change[j - 1]) * diagonal[j];
        }
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
