//! Freezing one pack, alone in one layer.

use crate::Pack;
use crate::hours::Hours;
use crate::members::Stay;
use band::Value;
use heat::HeatError;

/// Hard through: no place of it is above this, °C. Nine tenths of what freezes in beef is ice there (1 − 1.1/10 with the
/// first ice at −1.1 °C), so packs can be stacked; it is not yet as cold as its freezer.
pub const HARD_C: f64 = -10.0;

/// Freezes a pack that lies alone and flat in still freezer air, to hard through ([`HARD_C`] in its middle). What else lies
/// in the freezer, and how it warms meanwhile, is not in this.
///
/// # Errors
/// [`HeatError`] for a cut the catalogue does not know, or a size no pack has.
pub fn freeze(pack: &Pack, freezer_c: Value, draws: usize, seed: u64) -> Result<Hours, HeatError> {
    let stay = Stay {
        pack,
        name: "freeze",
        medium: "still-air-freezer",
        place_c: freezer_c,
        until_c: HARD_C,
        from_medium: "fridge",
    };
    stay.run(draws, seed, |_| 0.0).map(|(hours, _)| hours)
}
