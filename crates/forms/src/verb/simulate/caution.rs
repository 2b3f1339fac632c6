//! What the official rules say beside a cook that serves pink.

use super::run::Ran;
use crate::Flags;
use band::Band;
use catalogue::{Region, official_rule};
use quantity::{Grain, Temperature, TemperatureUnit, Units};

/// Above it, a middle is cooked and not merely thawed.
const COOKED_C: f64 = 40.0;

/// Cautions with their authority; none for a piece that is only cooled, frozen or thawed.
pub(super) fn of(ran: &Ran, flags: &Flags) -> Vec<String> {
    let peaks: Vec<f64> = ran.members.iter().map(|member| member.peak_centre_c).collect();
    let peak = Band::of(&peaks);
    let Some(rule) = official_rule("consumer-minimum-whole", Region::Us) else { return Vec::new() };
    let below = rule.limit().is_none_or(|limit| peak.low < limit.c());
    if peak.median < COOKED_C || !below {
        return Vec::new();
    }
    let (units, unit) = if flags.us {
        (Units::US, TemperatureUnit::Fahrenheit)
    } else {
        (Units::METRIC, TemperatureUnit::Celsius)
    };
    let here = units.temperature(Temperature::from_c(peak.median), Grain::Forecast);
    vec![
        format!("{} ({})", rule.words(unit), rule.cited()),
        format!(
            "This middle peaks at {here}. Whole, unminced, untenderised muscle only; not for anyone at risk (pregnant, very young, \
             old or ill). Local code and licensed practice rule."
        ),
    ]
}
