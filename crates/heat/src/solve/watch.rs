//! What is followed along the way: peak, hottest, doses of colour and kill, the curve.

use super::grid::End;
use super::march::Piece;
use super::state::State;
use crate::colour::{GREY, denatured, ln_death_rate, ln_rate};
use crate::{Layer, Moment, Settings};

/// Everything noted after each step that is kept.
#[derive(Clone, Debug)]
pub(crate) struct Watch {
    /// The hottest each node has been, °C.
    pub(crate) hottest: Vec<f64>,
    /// kg of juice out so far (of the grid).
    pub(crate) juice: f64,
    /// Warmest the middle was, °C, and when, s.
    pub(crate) peak: (f64, f64),
    before: [(f64, f64); 2],
    /// Followed rates: colour first if it is followed, then the organisms.
    laws: Vec<Law>,
    pub(crate) curve: Vec<Moment>,
    colour: bool,
}

/// One rate over the middle line: its integral so far, and the rate at the last step with its logarithm.
#[derive(Clone, Debug)]
struct Law {
    organism: Option<crate::Organism>,
    dose: Vec<f64>,
    rate: Vec<(f64, f64)>,
}

impl Watch {
    pub(crate) fn new(piece: &Piece, state: &State, settings: &Settings) -> Self {
        let line = piece.grid.axes[0].size.len();
        let law =
            |organism| Law { organism, dose: vec![0.0; line], rate: vec![(f64::NEG_INFINITY, 0.0); line] };
        let mut laws: Vec<Law> = settings.organisms.iter().map(|o| law(Some(o.clone()))).collect();
        if settings.colour {
            laws.push(law(None));
        }
        let middle = piece.temperature(state, piece.middle());
        let mut watch = Self {
            hottest: (0..state.u.len()).map(|i| piece.temperature(state, i)).collect(),
            juice: 0.0,
            peak: (middle, 0.0),
            before: [(0.0, middle); 2],
            laws,
            curve: Vec::new(),
            colour: settings.colour,
        };
        watch.juice = piece.juice(&watch.hottest);
        watch.follow(piece, state, 0.0);
        watch
    }

    /// After a step of `dt` that ended at `time_s`; gives the juice it pressed out, kg (of the grid).
    pub(crate) fn after_step(&mut self, piece: &Piece, state: &State, time_s: f64, dt: f64) -> f64 {
        for (i, hottest) in self.hottest.iter_mut().enumerate() {
            *hottest = hottest.max(piece.temperature_now(i));
        }
        self.follow(piece, state, dt);
        let middle = piece.temperature(state, piece.middle());
        self.note_peak(time_s, middle);
        let juice = piece.juice(&self.hottest);
        let pressed = juice - self.juice;
        self.juice = juice;
        pressed
    }

    /// A parabola through three moments finds a peak between them.
    fn note_peak(&mut self, time_s: f64, middle: f64) {
        if middle > self.peak.0 {
            self.peak = (middle, time_s);
        }
        let [(ta, a), (tb, b)] = self.before;
        // Of two moments that are almost one the difference is rounding, and no slope.
        let (before, after) = (tb - ta, time_s - tb);
        let told = before.min(after) > LEAST_SPACING * before.max(after);
        if told && b > a && b > middle {
            let (left, right) = ((b - a) / (tb - ta), (middle - b) / (time_s - tb));
            let bend = (right - left) / (time_s - ta);
            let slope = left + bend * (tb - ta);
            let top = (tb - 0.5 * slope / bend).clamp(ta, time_s);
            let value = b + (slope + bend * (top - tb)) * (top - tb);
            // The top of an even parabola stands an eighth of the longer fall above its highest moment; one through a kink is none.
            let most = b + (b - a).max(b - middle) / 8.0;
            let value = value.min(most);
            if value.is_finite() && value > self.peak.0 {
                self.peak = (value, top);
            }
        }
        self.before = [self.before[1], (time_s, middle)];
    }

    /// Adds ∫rate dt, the logarithm of the rate straight over the step: exact where the temperature is.
    fn follow(&mut self, piece: &Piece, state: &State, dt: f64) {
        let start = piece.middle_line();
        for law in &mut self.laws {
            for (i, (dose, before)) in law.dose.iter_mut().zip(&mut law.rate).enumerate() {
                let t = piece.temperature(state, start + i);
                let ln = law.organism.as_ref().map_or_else(|| ln_rate(t), |o| ln_death_rate(o, t));
                let after = (ln, if ln > NOTHING { ln.exp() } else { 0.0 });
                *dose += dt * mean_of_exponentials(*before, after);
                *before = after;
            }
        }
    }

    /// Powers of ten of an organism's kill at the place of least kill.
    pub(crate) fn kill(&self, organism: usize) -> f64 {
        self.laws.get(organism).map_or(0.0, |law| law.dose.iter().copied().fold(f64::INFINITY, f64::min))
    }

    /// Denatured share at each node of the middle line.
    fn colours(&self) -> Option<impl Iterator<Item = f64> + '_> {
        let law = if self.colour { self.laws.last() } else { None }?;
        Some(law.dose.iter().map(|dose| denatured(*dose)))
    }

    /// Share of the thickness beyond [`GREY`]; ln(dose) is straight between nodes.
    pub(crate) fn grey_share(&self, piece: &Piece) -> f64 {
        let Some(law) = self.laws.last().filter(|_| self.colour) else { return 0.0 };
        let limit = (-(1.0 - GREY).ln()).ln();
        let depth = &piece.grid.axes[0].depth;
        let over = |i: usize| law.dose[i].max(1e-300).ln() - limit;
        let mut grey = 0.0;
        for i in 0..depth.len() - 1 {
            let (a, b) = (over(i), over(i + 1));
            let share = match (a > 0.0, b > 0.0) {
                (true, true) => 1.0,
                (false, false) => 0.0,
                _ => a.max(b) / (a - b).abs(),
            };
            grey += share * (depth[i + 1] - depth[i]);
        }
        (grey / depth[depth.len() - 1]).min(1.0)
    }

    /// Temperature and colour from face to face (or from the surface to the middle).
    pub(crate) fn section(&self, piece: &Piece, state: &State) -> Vec<Layer> {
        let axis = &piece.grid.axes[0];
        let start = piece.middle_line();
        let mut colours = self.colours();
        let mut layers: Vec<Layer> = (0..axis.depth.len())
            .map(|i| Layer {
                depth_m: axis.depth[i],
                c: piece.temperature(state, start + i),
                colour_share: colours.as_mut().and_then(Iterator::next).unwrap_or(0.0),
            })
            .collect();
        if axis.ends == [End::Top, End::Middle] {
            let full = 2.0 * axis.depth[axis.depth.len() - 1];
            let mirrored: Vec<Layer> =
                layers.iter().rev().skip(1).map(|l| Layer { depth_m: full - l.depth_m, ..*l }).collect();
            layers.extend(mirrored);
        }
        layers
    }

    /// One row of the curve.
    pub(crate) fn note(&mut self, piece: &Piece, state: &State, settings: &Settings, t_s: f64) {
        let section = if settings.depths.is_empty() { Vec::new() } else { self.section(piece, state) };
        let at = |depth: f64| {
            let i = section.partition_point(|l| l.depth_m <= depth).clamp(1, section.len() - 1);
            let (a, b) = (&section[i - 1], &section[i]);
            let s = ((depth - a.depth_m) / (b.depth_m - a.depth_m)).clamp(0.0, 1.0);
            a.c + s * (b.c - a.c)
        };
        self.curve.push(Moment {
            t_s,
            centre_c: piece.temperature(state, piece.middle()),
            surface_c: piece.temperature(state, piece.middle_line()),
            mean_c: piece.mean_temperature(state),
            at_depth_c: settings.depths.iter().map(|d| at(d.m())).collect(),
            plate_c: piece.plate_c(state),
        });
    }
}

/// ln of a rate, 1/s, of which a year makes a ten-billionth.
const NOTHING: f64 = -40.0;

/// Three moments make a parabola if the shorter span between them is at least this share of the longer.
const LEAST_SPACING: f64 = 0.01;

/// Mean of exp over a straight line from one exponent to another, each with its exp. What is nothing at both ends is nothing.
fn mean_of_exponentials(a: (f64, f64), b: (f64, f64)) -> f64 {
    let gap = b.0 - a.0;
    if gap.abs() < 1e-3 || a.1 + b.1 == 0.0 { 0.5 * (a.1 + b.1) } else { (b.1 - a.1) / gap }
}
