//! How thick a portion is: measured, between its marks, or from its grams and its place.

use catalogue::{KNOTS, cut};
use quantity::Length;
use record::{Piece, Portion, State};

/// A thickness, and what it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Thickness {
    /// A ruler said so.
    Measured(Length),
    /// The distance of its two marks.
    Marked(Length),
    /// Nobody measured: its share of the grams on the board, by how mass lies along such a cut.
    Reckoned(Length),
}

impl Thickness {
    /// The thickness itself.
    #[must_use]
    pub const fn length(self) -> Length {
        match self {
            Self::Measured(length) | Self::Marked(length) | Self::Reckoned(length) => length,
        }
    }
}

/// How thick a portion is; nothing where it was not measured and the catalogue has no shape of its cut.
#[must_use]
pub fn thickness_of(state: &State, piece: &Piece, portion: &Portion) -> Option<Thickness> {
    if let Some(measured) = portion.weighed.thickness {
        return Some(Thickness::Measured(measured));
    }
    if let (Some(from), Some(to)) = (portion.weighed.from, portion.weighed.to) {
        return Some(Thickness::Marked(to - from));
    }
    reckoned(state, piece, portion).map(Thickness::Reckoned)
}

/// Grams of the portion ÷ (grams a millimetre of the whole × the profile at its place).
fn reckoned(state: &State, piece: &Piece, portion: &Portion) -> Option<Length> {
    let cut = cut(&piece.received.cut)?;
    let profile = cut.profile()?;
    let whole = board_mass(piece);
    let length = piece.measured.length.or_else(|| Some(cut.length.as_ref()?.typical(whole)))?;
    let (mut before, mut all) = (0.0, 0.0);
    for other in state.portions_of(piece) {
        if other.n < portion.n {
            before += other.weighed.mass.g();
        }
        all += other.weighed.mass.g();
    }
    let place = (before + portion.weighed.mass.g() / 2.0) / all.max(f64::MIN_POSITIVE);
    let knot = ((place * (KNOTS - 1) as f64).round() as usize).min(KNOTS - 1);
    let grams_a_mm = whole.g() / length.mm() * profile.p[knot];
    (grams_a_mm > 0.0).then(|| Length::from_mm(portion.weighed.mass.g() / grams_a_mm))
}

/// What lay on the board before the knife: trimmed and weighed again, else bag off, else by the label.
#[must_use]
pub fn board_mass(piece: &Piece) -> quantity::Mass {
    piece.measured.on_board.or(piece.measured.bag_off).unwrap_or(piece.received.mass)
}
