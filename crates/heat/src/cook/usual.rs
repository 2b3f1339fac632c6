//! What a steak is where nobody measured it.

use crate::Meat;
use band::{Input, Origin, Spread};
use catalogue::{Law, steak_prior};

/// Mass of a steak where nobody weighed it, kg: a full portion of rib or strip loin (assumed).
pub const USUAL_STEAK_KG: f64 = 0.35;

/// The thickness of a steak of which only the mass is known, m: what that mass leaves for the usual footprint. A footprint
/// known to a share leaves a thickness known to the same share, never below zero.
#[must_use]
pub fn usual_thickness(name: impl Into<String>, portion_kg: f64, meat: &Meat) -> Input {
    let area = &steak_prior().area_cm2;
    let (middle, share) = match area.law {
        Law::Normal { mean, sd } => (mean, sd / mean),
        Law::LogNormal { median, sd_ln } => (median, sd_ln),
        Law::Exact { value } => (value, 0.0),
        // The standard deviation of a uniform law is its width over √12.
        Law::Uniform { low, high } | Law::LogUniform { low, high } => {
            (f64::midpoint(low, high), (high - low) / (low + high) / 3f64.sqrt())
        }
    };
    let median = portion_kg / (meat.density_kg_m3() * middle * 1e-4);
    let spread = if share > 0.0 { Spread::LogNormal { median, sd_ln: share } } else { Spread::Exact(median) };
    let from = Origin::Prior { mark: "derived".to_owned(), source: area.basis.source.clone() };
    Input::new(name, spread, from)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cook::meat_of_cut;

    /// 380 g over 115 cm² (told of strip and rib steaks) at 1 060 kg/m³: 31 mm, a sixth either way.
    #[test]
    fn a_mass_leaves_a_thickness() -> Result<(), crate::HeatError> {
        let meat = meat_of_cut("beef-strip-loin", crate::Overrides::default())?;
        let thickness = usual_thickness("thickness", 0.380, &meat);
        assert!((0.030..0.033).contains(&thickness.spread.median()), "{thickness:?}");
        assert!(thickness.from.is_prior());
        let low = thickness.spread.quantile(0.1) / thickness.spread.median();
        assert!((0.75..0.85).contains(&low), "{low}");
        Ok(())
    }
}
