//! The brick a roast is solved as: its section's area, and as long as its mass makes it.

use crate::HeatError;
use std::f64::consts::PI;

/// A side of the outline, m, and whether somebody measured it or it is what is usual.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Side {
    pub(crate) m: f64,
    pub(crate) told: bool,
}

/// Middle of a boneless rib section, where neither sides nor cut are known, m.
pub(crate) const USUAL_HEIGHT: f64 = 0.100;
pub(crate) const USUAL_WIDTH: f64 = 0.195;

/// Least and most of its own box that a roast can fill: a wedge, and a ruler that cut the corner.
const FILLS: (f64, f64) = (0.35, 1.1);

/// Height, width and length of the brick, m, of a volume in m³.
///
/// An outline of height and width is an ellipse, so a side of the brick is √(π/4) of it. What mass and told sides leave open
/// follows from them: the length first, then an untold side. Three told sides and a mass say how much of its box the roast
/// fills, and the section gives way.
///
/// # Errors
/// [`HeatError::OutOfRange`] where the told sides cannot hold the mass.
pub(crate) fn brick(
    volume: f64,
    height: Side,
    width: Side,
    length: Option<f64>,
) -> Result<[f64; 3], HeatError> {
    let round = (0.25 * PI).sqrt();
    let Some(length) = length else {
        let (height, width) = (round * height.m, round * width.m);
        return Ok([height, width, volume / (height * width)]);
    };
    let area = volume / length;
    Ok(match (height.told, width.told) {
        (true, true) => {
            let share = area / (height.m * width.m);
            HeatError::check(
                "mass over what its three sides could hold",
                (100.0 * share).round() / 100.0,
                FILLS,
                "of the box they make",
                "measure the sides again, full sizes, or leave one out",
            )?;
            [height.m * share.sqrt(), width.m * share.sqrt(), length]
        }
        (true, false) => [round * height.m, area / (round * height.m), length],
        (false, true) => [area / (round * width.m), round * width.m, length],
        (false, false) => {
            let squat = height.m / width.m;
            [(area * squat).sqrt(), (area / squat).sqrt(), length]
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEIGHT: Side = Side { m: 0.10, told: true };
    const WIDTH: Side = Side { m: 0.20, told: true };

    fn usual(side: Side) -> Side {
        Side { told: false, ..side }
    }

    /// Whatever is told, the brick holds the volume, and a told length stays.
    #[test]
    fn the_brick_holds_the_mass() -> Result<(), HeatError> {
        let volume = 0.003;
        let cases = [
            brick(volume, usual(HEIGHT), usual(WIDTH), None)?,
            brick(volume, HEIGHT, WIDTH, None)?,
            brick(volume, HEIGHT, WIDTH, Some(0.2))?,
            brick(volume, HEIGHT, usual(WIDTH), Some(0.2))?,
            brick(volume, usual(HEIGHT), WIDTH, Some(0.2))?,
            brick(volume, usual(HEIGHT), usual(WIDTH), Some(0.2))?,
        ];
        for sides in &cases {
            assert!((sides.iter().product::<f64>() / volume - 1.0).abs() < 1e-12, "{sides:?}");
        }
        assert!(cases[2..].iter().all(|sides| (sides[2] - 0.2).abs() < 1e-15));
        // π/4 of 10 × 20 cm are 157 cm²: 191 mm of it are three litres.
        assert!((cases[0][2] - 0.191).abs() < 5e-4, "{}", cases[0][2]);
        Ok(())
    }

    #[test]
    fn sides_that_cannot_hold_the_mass_are_refused() {
        assert!(brick(0.006, HEIGHT, WIDTH, Some(0.2)).is_err(), "more than the box");
        assert!(brick(0.001, HEIGHT, WIDTH, Some(0.2)).is_err(), "a quarter of the box");
    }
}
