//! Where portions may lie along a piece, and where a cut may go.

use crate::RollError;
use crate::piece::Piece;
use crate::posterior::Posterior;
use quantity::Length;

/// Where portions may lie, mm from the tip of the first end.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Frame {
    /// Where squaring the first end cuts; 0 where it is not squared.
    pub(crate) start: f64,
    pub(crate) start_cut: bool,
    /// Where squaring the last end cuts; the tip where it is not squared.
    pub(crate) end: f64,
    pub(crate) end_cut: bool,
    pub(crate) length: f64,
    pub(crate) kerf: f64,
    /// Slants that stay on portions.
    pub(crate) kept_slant: [f64; 2],
}

impl Frame {
    pub(crate) fn new(piece: &Piece, posterior: &Posterior) -> Result<Self, RollError> {
        let length = posterior.length_mm();
        let fill = posterior.geometry().fill;
        // The likeliest guess's slants as lengths: the same for every guess.
        let slants = [fill.first, fill.last].map(|share| share * posterior.geometry().length_mm);
        let squared = [piece.ends.first.squared, piece.ends.last.squared];
        let cut = [squared[0] && slants[0] > 0.0, squared[1] && slants[1] > 0.0];
        // Marks stand on whole millimetres, the squaring ones at or behind the lowest point of their face.
        let start = if cut[0] { (slants[0] - 1e-6).ceil() } else { 0.0 };
        let end = if cut[1] { (length - slants[1] + 1e-6).floor() } else { length };
        if end - start < 2.0 {
            let [first, last, length] = [slants[0], slants[1], length].map(Length::from_mm);
            return Err(RollError::EndsMeet { first, last, length });
        }
        let kept = |end: usize| if squared[end] { 0.0 } else { slants[end] };
        Ok(Self {
            start,
            start_cut: cut[0],
            end,
            end_cut: cut[1],
            length,
            kerf: piece.knife.kerf.mm(),
            kept_slant: [kept(0), kept(1)],
        })
    }

    /// What the cut at the knife's face takes.
    pub(crate) fn kerf_at(&self, face: f64, anything_cut: bool) -> f64 {
        let is_end = face >= self.end - 1e-9 && !self.end_cut;
        if (anything_cut || self.start_cut) && !is_end { self.kerf } else { 0.0 }
    }

    /// Marks from the knife's face to the end on whole millimetres, and what the cut at each takes.
    pub(crate) fn marks_from(&self, face: f64, anything_cut: bool) -> (Vec<f64>, Vec<f64>) {
        let face = face.min(self.end);
        let mut marks = vec![face];
        let mut next = face.floor() + 1.0;
        while next < self.end - 1e-9 {
            marks.push(next);
            next += 1.0;
        }
        if self.end > face {
            marks.push(self.end);
        }
        let mut kerf = vec![self.kerf; marks.len()];
        kerf[0] = self.kerf_at(face, anything_cut);
        if let (Some(last), true) = (kerf.last_mut(), marks.len() > 1) {
            *last = if self.end_cut { self.kerf } else { 0.0 };
        }
        (marks, kerf)
    }
}
