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
    let mut cautions = vec![
        format!("{} ({})", rule.words(unit), rule.cited()),
        format!(
            "This middle peaks at {here}. Whole, unminced, untenderised muscle only; not for anyone at risk (pregnant, very young, \
             old or ill). Local code and licensed practice rule."
        ),
    ];
    cautions.extend(kill(ran));
    cautions
}

/// From so many powers of ten on, a kill could be taken for a promise.
const COUNTS: f64 = 1.0;

/// What a counted kill is worth.
fn kill(ran: &Ran) -> Option<String> {
    let least =
        |at: usize| ran.members.iter().filter_map(|m| m.kills.get(at)).copied().fold(f64::INFINITY, f64::min);
    let counted = (0..ran.organisms.len()).any(|at| (COUNTS..f64::INFINITY).contains(&least(at)));
    let source = catalogue::source("mcminn").map(|source| source.citation.as_str())?;
    counted.then(|| {
        format!(
            "Kill is counted at the coldest place by straight lines of a guide; it replaces no official hold time. Holds below 60 °C fell short \
             of their promise when they were tested. ({source})"
        )
    })
}
