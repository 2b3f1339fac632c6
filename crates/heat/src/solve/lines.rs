//! Lines of nodes along one axis of a grid: differences between neighbours, and the tridiagonal solve.

use super::grid::Links;

/// Adds to every node `factor` times what its neighbours lead it by, weighted with what couples it to the next and to the one
/// before; so heat flows, and so a cell's mean leans.
pub(crate) fn add_leads(
    stride: usize,
    (up, down): (&[f64], &[f64]),
    factor: f64,
    of: &[f64],
    to: &mut [f64],
) {
    let n = to.len();
    let (of, up, down) = (&of[..n], &up[..n], &down[..n]);
    if stride == 1 {
        // Lines end to end: what would couple one to the next is nothing. So few nodes are not worth the parts below.
        let (mut before, mut here) = (of[0], of[0]);
        for k in 0..n {
            let after = if k + 1 < n { of[k + 1] } else { here };
            to[k] += factor * (up[k] * (after - here) - down[k] * (here - before));
            (before, here) = (here, after);
        }
        return;
    }
    for k in 0..stride {
        to[k] += factor * up[k] * (of[k + stride] - of[k]);
    }
    let inside = stride..n - stride;
    let (before, here, after) = (&of[..n - 2 * stride], &of[inside.clone()], &of[2 * stride..]);
    let (up, rest) = (&up[inside.clone()], &down[n - stride..]);
    let down = &down[inside.clone()];
    let (inner, last) = to[stride..].split_at_mut(n - 2 * stride);
    for (k, to) in inner.iter_mut().enumerate() {
        *to += factor * (up[k] * (after[k] - here[k]) - down[k] * (here[k] - before[k]));
    }
    for (k, to) in last.iter_mut().enumerate() {
        *to -= factor * rest[k] * (of[n - stride + k] - of[n - 2 * stride + k]);
    }
}

/// The equations of all lines of a grid along one axis: what multiplies the unknown of the node before, of the node itself, and of
/// the next.
#[derive(Clone, Debug)]
pub(crate) struct Rows {
    pub(crate) before: Vec<f64>,
    pub(crate) own: Vec<f64>,
    pub(crate) after: Vec<f64>,
}

impl Rows {
    pub(crate) fn new(nodes: usize) -> Self {
        Self { before: vec![0.0; nodes], own: vec![0.0; nodes], after: vec![0.0; nodes] }
    }

    /// Solves; `change` is the right-hand side first and the answer last.
    pub(crate) fn eliminate(&mut self, links: &Links, change: &mut [f64]) {
        if links.length == change.len() {
            return self.eliminate_one(change);
        }
        if links.stride == 1 {
            return self.eliminate_abreast(links.length, change);
        }
        let whole = links.length * links.stride;
        for start in (0..change.len()).step_by(whole) {
            self.eliminate_beside(start..start + whole, links.stride, change);
        }
    }

    /// Thomas, for lines that lie side by side.
    fn eliminate_beside(&mut self, lines: std::ops::Range<usize>, stride: usize, change: &mut [f64]) {
        let (before, own, after) =
            (&self.before[lines.clone()], &mut self.own[lines.clone()], &self.after[lines.clone()]);
        let change = &mut change[lines];
        let all = change.len();
        own[..stride].iter_mut().for_each(|d| *d = 1.0 / *d);
        for row in (stride..all).step_by(stride) {
            let (inverse, own) = own[row - stride..row + stride].split_at_mut(stride);
            let (last, here) = change[row - stride..row + stride].split_at_mut(stride);
            let (back, on) = (&before[row..row + stride], &after[row - stride..row]);
            for j in 0..stride {
                let w = back[j] * inverse[j];
                own[j] = 1.0 / (own[j] - w * on[j]);
                here[j] -= w * last[j];
            }
        }
        for (change, inverse) in change[all - stride..].iter_mut().zip(&own[all - stride..]) {
            *change *= inverse;
        }
        for row in (0..all - stride).step_by(stride).rev() {
            let (here, next) = change[row..row + 2 * stride].split_at_mut(stride);
            let (inverse, on) = (&own[row..row + stride], &after[row..row + stride]);
            for j in 0..stride {
                here[j] = (here[j] - on[j] * next[j]) * inverse[j];
            }
        }
    }

    /// The same for lines that lie one after the other: all go abreast, so that no quotient waits for the one before.
    fn eliminate_abreast(&mut self, n: usize, change: &mut [f64]) {
        let all = change.len();
        let (before, own, after) = (&self.before[..all], &mut self.own[..all], &self.after[..all]);
        for first in (0..all).step_by(n) {
            own[first] = 1.0 / own[first];
        }
        for i in 1..n {
            for here in (i..all).step_by(n) {
                let w = before[here] * own[here - 1];
                own[here] = 1.0 / (own[here] - w * after[here - 1]);
                change[here] -= w * change[here - 1];
            }
        }
        for last in (n - 1..all).step_by(n) {
            change[last] *= own[last];
        }
        for i in (0..n - 1).rev() {
            for here in (i..all).step_by(n) {
                change[here] = (change[here] - after[here] * change[here + 1]) * own[here];
            }
        }
    }

    /// One line alone, from both ends to the middle at once, so that two quotients are under way instead of one.
    fn eliminate_one(&mut self, change: &mut [f64]) {
        let n = change.len();
        let (before, own, after) = (&self.before[..n], &mut self.own[..n], &self.after[..n]);
        let middle = n / 2;
        own[0] = 1.0 / own[0];
        own[n - 1] = 1.0 / own[n - 1];
        for step in 1..middle {
            let (i, j) = (step, n - 1 - step);
            let w = before[i] * own[i - 1];
            own[i] = 1.0 / (own[i] - w * after[i - 1]);
            change[i] -= w * change[i - 1];
            if j > middle {
                let w = after[j] * own[j + 1];
                own[j] = 1.0 / (own[j] - w * before[j + 1]);
                change[j] -= w * change[j + 1];
            }
        }
        let (low, high) = (before[middle] * own[middle - 1], after[middle] * own[middle + 1]);
        let left = own[middle] - low * after[middle - 1] - high * before[middle + 1];
        change[middle] = (change[middle] - low * change[middle - 1] - high * change[middle + 1]) / left;
        for step in 1..=middle {
            let (i, j) = (middle - step, middle + step);
            change[i] = (change[i] - after[i] * change[i + 1]) * own[i];
            if j < n {
                change[j] = (change[j] - before[j] * change[j - 1]) * own[j];
            }
        }
    }
}
