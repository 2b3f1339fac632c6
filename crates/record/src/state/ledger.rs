//! Grams of a piece: what came in equals what went out plus what is unexplained.

use super::{Piece, State};
use crate::{PartName, Use};
use quantity::Mass;

/// Where the liquid of the bag is known from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Purge {
    /// It was weighed.
    Weighed(Mass),
    /// What the label says less what the piece weighed with the bag off.
    FromBagOff(Mass),
}

impl Purge {
    /// Its mass.
    #[must_use]
    pub const fn mass(self) -> Mass {
        match self {
            Self::Weighed(mass) | Self::FromBagOff(mass) => mass,
        }
    }
}

/// The grams of one piece. `came_in` = purge + portions + parts + discarded uncut + `unexplained`, always.
#[derive(Clone, Debug, PartialEq)]
pub struct Ledger {
    /// Mass on the label: what was paid for.
    pub came_in: Mass,
    /// Liquid of the bag; nothing if it was neither weighed nor can be told.
    pub purge: Option<Purge>,
    /// All portions.
    pub portions: Mass,
    /// Heaps by name and use, in the order they were first weighed; purge is not among them.
    pub parts: Vec<(PartName, Use, Mass)>,
    /// Thrown away before it was cut.
    pub discarded: Mass,
    /// What came in less all of the above; while the piece is being cut it is what still lies on the board.
    pub unexplained: Mass,
    /// How much label and scale may be wrong together, at worst.
    pub scale_error: Mass,
    /// Whether anything was cut off yet.
    pub is_cut: bool,
}

impl Ledger {
    pub(super) fn of(state: &State, piece: &Piece) -> Self {
        let came_in = piece.received.mass;
        let division = state.settings.scale_division();
        let mut parts: Vec<(PartName, Use, Mass)> = Vec::new();
        let mut weighed_purge = piece.measured.purge;
        let mut scale_error = label_error(came_in);
        for part in state.parts_of(piece) {
            let (name, keep, mass) = (part.weighed.part, part.weighed.keep, part.weighed.mass);
            scale_error = scale_error + self::scale_error(mass, division);
            if name == PartName::Purge {
                // Weighed as a heap it is the whole of it, whatever was measured on receipt.
                weighed_purge = Some(mass);
                continue;
            }
            match parts.iter_mut().find(|(a, b, _)| (*a, *b) == (name, keep)) {
                Some((_, _, sum)) => *sum = *sum + mass,
                None => parts.push((name, keep, mass)),
            }
        }
        let mut portions = Mass::default();
        for portion in state.portions_of(piece) {
            portions = portions + portion.weighed.mass;
            scale_error = scale_error + self::scale_error(portion.weighed.mass, division);
        }
        let from_bag_off = || {
            let left = came_in - piece.measured.bag_off?;
            (left.g() >= 0.0).then_some(Purge::FromBagOff(left))
        };
        let purge = weighed_purge.map(Purge::Weighed).or_else(from_bag_off);
        let out = purge.map_or(Mass::default(), Purge::mass)
            + portions
            + parts.iter().map(|(_, _, mass)| *mass).sum::<Mass>();
        let rest = came_in - out;
        let is_cut = portions.g() > 0.0 || !parts.is_empty();
        let discarded = match &piece.discarded {
            Some(thrown) => thrown.mass.unwrap_or(if rest.g() > 0.0 { rest } else { Mass::default() }),
            None => Mass::default(),
        };
        Self {
            came_in,
            purge,
            portions,
            parts,
            discarded,
            unexplained: rest - discarded,
            scale_error,
            is_cut,
        }
    }

    /// Everything that is accounted for.
    #[must_use]
    pub fn accounted(&self) -> Mass {
        self.came_in - self.unexplained
    }

    /// What has come off the piece as portions and heaps.
    #[must_use]
    pub fn cut(&self) -> Mass {
        self.portions + self.parts.iter().map(|(_, _, mass)| *mass).sum()
    }

    /// Whether what is unexplained lies inside the error of label and scale.
    #[must_use]
    pub fn is_inside_the_scales_error(&self) -> bool {
        self.unexplained.g().abs() <= self.scale_error.g()
    }
}

/// How much a reading of the kitchen's scale may be wrong at worst: one, two or three divisions by load.
///
/// The limits in service of a class III instrument, UK SI 1995/1907 (published): up to 500 divisions one, up to 2 000 two,
/// above three. A kitchen scale promises no class; this is what a sound one holds.
#[must_use]
pub fn scale_error(mass: Mass, division: Mass) -> Mass {
    let loads = mass / division;
    division
        * if loads <= 500.0 {
            1.0
        } else if loads <= 2000.0 {
            2.0
        } else {
            3.0
        }
}

/// How much the mass on a label may be wrong at worst, by the same limits.
///
/// Division of the shop's scale: 2 g to 6 kg, 5 g to 15 kg, 10 g above (common practice of verified counter scales).
#[must_use]
pub fn label_error(mass: Mass) -> Mass {
    let division = if mass.kg() <= 6.0 {
        2.0
    } else if mass.kg() <= 15.0 {
        5.0
    } else {
        10.0
    };
    scale_error(mass, Mass::from_g(division))
}
