//! One pack, and where it lies.

use band::Value;

/// A pack of one or more like portions, laid flat. SI units and °C.
#[derive(Clone, Debug, PartialEq)]
pub struct Pack {
    /// The cut's name in the catalogue; its composition is the meat's.
    pub cut: String,
    /// Mass of one portion, kg.
    pub portion_kg: Value,
    /// Thickness of the thickest portion, m; left out, what its mass leaves for a steak of the usual footprint.
    pub thickness_m: Value,
    /// How many lie beside each other in it, never on each other: they share their rim.
    pub side_by_side: u32,
    /// Its wrap's name in the catalogue: `vacuum`, `film`; anything the catalogue does not know counts as bare.
    pub wrap: String,
    /// Its temperature at the start, °C; left out, what freezers (thawing) or fridges (freezing) are.
    pub start_c: Value,
}

/// Where a pack thaws.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Way {
    /// In the fridge, in one layer.
    Fridge,
    /// In cold water, changed as the rule asks.
    ColdWater,
    /// In warm water.
    WarmWater,
    /// On the counter. The rules do not allow it; the hours are given for who finds a pack there.
    Counter,
}

impl Way {
    /// The medium's name in the catalogue.
    #[must_use]
    pub const fn medium(self) -> &'static str {
        match self {
            Self::Fridge => "fridge",
            Self::ColdWater => "water-still",
            Self::WarmWater => "water-stirred",
            Self::Counter => "counter",
        }
    }
}
