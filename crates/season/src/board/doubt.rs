//! A weight that does not fit its mark is asked about before it is written down.

use band::Band;
use quantity::{Length, Mass};

/// What a weight that does not fit may mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Doubt {
    /// So much more than one portion that two may lie on the pan.
    TwoOnThePan,
    /// So little that part of it may lie beside the pan, or the scale was set to zero under it.
    NotAllOfIt,
    /// As much as a portion of this thickness: the knife went beside its mark.
    BesideTheMark(Length),
}

/// How many standard deviations a weight may lie off before it is asked about: of a thousand cuts one is asked in vain.
const ASKED: f64 = 4.5;
/// A band of 80 % of a normal spread is so many standard deviations wide.
const BAND_SD: f64 = 2.563_103_131_089_201;
/// From here on two portions are likelier than one thick one.
const DOUBLE: f64 = 1.6;
/// Below this, half a portion is likelier than a thin one.
const HALF: f64 = 0.6;

/// What stands against a weight, if anything: `expected` in kg, `thickness` between the marks.
#[must_use]
pub fn doubt(mass: Mass, expected: Band, thickness: Length) -> Option<Doubt> {
    let sd = (expected.high - expected.low) / BAND_SD;
    let off = (mass.kg() - expected.median) / sd.max(f64::MIN_POSITIVE);
    if off.abs() < ASKED {
        return None;
    }
    let share = mass.kg() / expected.median;
    Some(if share > DOUBLE {
        Doubt::TwoOnThePan
    } else if share < HALF {
        Doubt::NotAllOfIt
    } else {
        Doubt::BesideTheMark(thickness * share)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn about(grams: f64) -> Option<Doubt> {
        doubt(Mass::from_g(grams), Band { median: 0.379, low: 0.370, high: 0.388 }, Length::from_mm(30.0))
    }

    #[test]
    fn what_one_portion_cannot_weigh_is_asked_about() {
        assert_eq!(about(386.0), None);
        assert_eq!(about(612.0), Some(Doubt::TwoOnThePan));
        assert_eq!(about(120.0), Some(Doubt::NotAllOfIt));
        let Some(Doubt::BesideTheMark(thickness)) = about(430.0) else { panic!("asked") };
        assert!((thickness.mm() - 34.0).abs() < 0.1);
    }
}
