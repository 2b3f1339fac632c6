//! What was given of a piece, checked, and what stands in for what was not.

use crate::piece::{End, Piece, Station};
use crate::prior::Prior;
use crate::shape::Geometry;
use crate::{RollError, Settings};
use band::{Input, Instrument, Origin, Spread, Value, draw};
use quantity::{Length, Mass};

/// A piece as given, with one or many guesses at its mass and length.
pub(crate) struct Given {
    /// Mass, length, ends: as asked of the ensemble, those left out with their prior.
    pub(crate) inputs: Vec<Input>,
    /// One where scale and ruler have spoken; otherwise as many as the ensemble has draws.
    pub(crate) geometries: Vec<Geometry>,
    /// Sd of the scale's reading, g; 0 where the mass is a guess.
    pub(crate) scale_g: f64,
    /// Sd that unmeasured slants leave on the length of full section, mm.
    pub(crate) doubt_mm: f64,
}

impl Given {
    pub(crate) fn read(piece: &Piece, settings: &Settings) -> Result<Self, RollError> {
        check_value("mass", piece.mass, 1000.0, 50.0, 60_000.0, "g")?;
        check_value("length", piece.length, 1000.0, 30.0, 2_000.0, "mm")?;
        let (slant_mm, slants) = slants(piece, settings)?;
        let scale = Instrument::Scale { division: piece.scale_division };
        let mass = piece.mass.input_or("mass", scale, || mass_prior(&piece.prior));
        let length = match (piece.length, piece.prior.ln_slender) {
            (Value::Unknown, None) => {
                return Err(RollError::LengthNeeded { cut: piece.prior.cut.id.clone() });
            }
            (given, slender) => given.input_or("length", Instrument::Ruler, || {
                length_prior(&piece.prior, slender, piece.mass.known().unwrap_or(mass.spread.median()))
            }),
        };
        if settings.exact {
            only_numbers("the mass", piece.mass)?;
            only_numbers("the length", piece.length)?;
        }
        let geometries = geometries(piece, [&mass, &length], slant_mm, settings)?;
        // A division either way, uniform: sd = division / √3.
        let reading = if piece.mass.is_known() { piece.scale_division.g() / 3.0_f64.sqrt() } else { 0.0 };
        let doubt_mm = slants.iter().map(|(_, sd_mm)| (sd_mm / 2.0).powi(2)).sum::<f64>().sqrt();
        let inputs = [mass, length].into_iter().chain(slants.into_iter().map(|(input, _)| input)).collect();
        Ok(Self { inputs, geometries, scale_g: reading, doubt_mm })
    }
}

/// One guess from scale and ruler, or an ensemble of them.
fn geometries(
    piece: &Piece,
    [mass, length]: [&Input; 2],
    slant_mm: [f64; 2],
    settings: &Settings,
) -> Result<Vec<Geometry>, RollError> {
    let pairs: Vec<(f64, f64)> = match (piece.mass.known(), piece.length.known()) {
        (Some(mass), Some(length)) => vec![(mass, length)],
        _ => {
            let exact_where_read = |input: &Input, value: Value| Input {
                spread: value.known().map_or(input.spread, Spread::Exact),
                ..input.clone()
            };
            let asked = [exact_where_read(mass, piece.mass), exact_where_read(length, piece.length)];
            let drawn = draw(&asked, settings.draws.max(1), settings.seed);
            let middle = mass.spread.median();
            // The length's prior is that of a piece of middle mass; each draw's goes with its own mass.
            let with_mass = |kg: f64, m: f64| match piece.length {
                Value::Unknown => (kg, m * (kg / middle).cbrt()),
                _ => (kg, m),
            };
            drawn.members().map(|member| with_mass(member[0], member[1])).collect()
        }
    };
    pairs
        .into_iter()
        .map(|(kg, m)| {
            let (mass_g, length_mm) = (kg * 1000.0, m * 1000.0);
            if slant_mm[0] + slant_mm[1] > 0.9 * length_mm {
                let [first, last] = slant_mm.map(Length::from_mm);
                return Err(RollError::EndsMeet { first, last, length: Length::from_mm(length_mm) });
            }
            Ok(Geometry::new(mass_g, length_mm, slant_mm))
        })
        .collect()
}

/// Slants in mm, each with its input and sd.
type Slants = ([f64; 2], Vec<(Input, f64)>);

fn slants(piece: &Piece, settings: &Settings) -> Result<Slants, RollError> {
    let ends = [("slant of the first end", piece.ends.first), ("slant of the last end", piece.ends.last)];
    let mut slant_mm = [0.0; 2];
    let mut inputs = Vec::new();
    for (number, (name, end)) in ends.into_iter().enumerate() {
        check_value(name, end.slant, 1000.0, 0.0, 300.0, "mm")?;
        if settings.exact {
            only_numbers(name, end.slant)?;
        }
        let input = slant_input(name, end, piece, number);
        let sd_mm = match input.spread {
            Spread::LogNormal { median, sd_ln } => median * sd_ln * 1000.0,
            // A slant judged by eye or ruler is as good as the ruler: nothing beside the shape.
            Spread::Uniform { low, high } if !end.slant.is_known() => (high - low) * 1000.0 / 12.0_f64.sqrt(),
            _ => 0.0,
        };
        slant_mm[number] = end.slant.known().unwrap_or(input.spread.median()) * 1000.0;
        inputs.push((input, sd_mm));
    }
    Ok((slant_mm, inputs))
}

fn slant_input(name: &str, end: End, piece: &Piece, number: usize) -> Input {
    end.slant.input_or(name, Instrument::Ruler, || match (piece.prior.slant, &piece.prior.cut.ends) {
        (Some(slant), Some(ends)) => {
            let (median, sd_ln) = slant[number];
            (Spread::LogNormal { median: median / 1000.0, sd_ln }, piece.prior.origin(&ends.basis))
        }
        // A cut that is not squared off has no slant to speak of.
        _ => (Spread::Exact(0.0), Origin::Given),
    })
}

fn mass_prior(prior: &Prior) -> (Spread, Origin) {
    let (ln_g, sd_ln) = prior.ln_mass;
    (Spread::LogNormal { median: ln_g.exp() / 1000.0, sd_ln }, prior.origin(&prior.cut.mass.basis))
}

/// Of a piece of this mass in kg.
fn length_prior(prior: &Prior, slender: Option<(f64, f64)>, kg: f64) -> (Spread, Origin) {
    let (ln_slender, sd_ln) = slender.unwrap_or((0.0, 0.0));
    let median = (ln_slender + (kg * 1000.0).ln() / 3.0).exp() / 1000.0;
    let origin = prior.cut.length.as_ref().map_or(Origin::Given, |length| prior.origin(&length.basis));
    (Spread::LogNormal { median, sd_ln }, origin)
}

fn only_numbers(what: &'static str, value: Value) -> Result<(), RollError> {
    if value.is_known() { Ok(()) } else { Err(RollError::NotExact { what }) }
}

/// Whether what was given of a number lies where such a number can.
fn check_value(
    what: &str,
    value: Value,
    per_unit: f64,
    low: f64,
    high: f64,
    unit: &str,
) -> Result<(), RollError> {
    let given = match value {
        Value::Known(number) => [number, number],
        Value::Range { low, high } => [low, high],
        Value::Unknown => return Ok(()),
    };
    let inside = |number: f64| (low..=high).contains(&(number * per_unit));
    if given.into_iter().all(inside) && given[0] <= given[1] {
        return Ok(());
    }
    let found = if given[0] == given[1] {
        format!("{} {unit}", given[0] * per_unit)
    } else {
        format!("{} to {} {unit}", given[0] * per_unit, given[1] * per_unit)
    };
    Err(RollError::Impossible { what: what.to_owned(), found, allowed: format!("{low} to {high} {unit}") })
}

/// Whether a station is a box that can be measured.
pub(crate) fn check_station(number: usize, station: &Station) -> Result<(), RollError> {
    for (side, length) in [("width", station.width), ("height", station.height)] {
        if !(5.0..=800.0).contains(&length.mm()) {
            return Err(RollError::Impossible {
                what: format!("the {side} of station {number}"),
                found: format!("{} mm", length.mm()),
                allowed: "5 to 800 mm".to_owned(),
            });
        }
    }
    Ok(())
}

/// Whether a length or mass that must be above zero is.
pub(crate) fn check_positive(what: String, found: f64, unit: &str) -> Result<(), RollError> {
    if found.is_finite() && found > 0.0 {
        return Ok(());
    }
    Err(RollError::Impossible { what, found: format!("{found} {unit}"), allowed: "above 0".to_owned() })
}

/// Grams of a mass that must be a portion's.
pub(crate) fn check_mass(what: String, mass: Mass) -> Result<(), RollError> {
    check_positive(what, mass.g(), "g")
}
