//! A grid with what fills it, and what is around it.

use super::face::{FaceNow, Skin};
use super::grid::Grid;
use crate::property::Table;

/// A grid and what fills it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Block<'a> {
    pub(crate) grid: &'a Grid,
    pub(crate) table: &'a Table,
    /// Conductivity as a multiple of the table's.
    pub(crate) factor: f64,
    /// What is left of the thickness, a share: heat has less far to go along the first axis, and less room beside it. (All
    /// sizes are those of the raw piece, whose enthalpy is counted.)
    pub(crate) thin: f64,
}

impl Block<'_> {
    /// What multiplies the links along an axis.
    #[inline]
    pub(crate) fn links(&self, axis: usize) -> f64 {
        if axis == 0 { self.factor / self.thin } else { self.factor * self.thin }
    }

    /// What multiplies the areas at the ends of an axis.
    #[inline]
    pub(crate) fn areas(&self, axis: usize) -> f64 {
        if axis == 0 { 1.0 } else { self.thin }
    }
}

/// The faces at the ends of every axis at one moment, and what each of their cells has been through.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Around<'a, 'f> {
    pub(crate) faces: &'a [[FaceNow<'f>; 2]],
    pub(crate) skins: &'a [[Vec<Skin>; 2]],
}
