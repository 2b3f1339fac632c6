//! Official rules as the pages show them: in our words, with their authority.

use crate::load::parse;
use quantity::{Temperature, TemperatureUnit, group};
use serde::Deserialize;
use std::sync::LazyLock;

/// Whose rules a kitchen asks for first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Region {
    /// The United States.
    #[default]
    Us,
    /// Australia and New Zealand.
    Au,
}

/// One rule of one authority.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OfficialRule {
    /// What it rules; the same for all authorities that rule it.
    pub id: String,
    /// Where it holds.
    pub region: Region,
    /// Who says so.
    pub authority: String,
    /// Which of its rules.
    pub which: String,
    words: String,
    /// Temperatures as the authority prints them in °F, beside the °C of the words.
    #[serde(default)]
    fahrenheit: Vec<(f64, f64)>,
    limit_c: Option<f64>,
    /// The minutes it allows or asks for, where it is about time.
    pub minutes: Option<f64>,
    /// Its source.
    pub source: String,
}

impl OfficialRule {
    /// The rule in our words, temperatures in the reader's unit.
    #[must_use]
    pub fn words(&self, unit: TemperatureUnit) -> String {
        let mut shown = String::new();
        let mut rest = self.words.as_str();
        while let Some((before, after)) = rest.split_once("{c:") {
            shown.push_str(before);
            let (celsius, tail) = after.split_once('}').unwrap_or((after, ""));
            shown.push_str(&self.degrees(celsius, unit));
            rest = tail;
        }
        shown + rest
    }

    /// The authority and which of its rules: `US Department of Agriculture, leaving-out limit`.
    #[must_use]
    pub fn cited(&self) -> String {
        format!("{}, {}", self.authority, self.which)
    }

    /// The temperature it is about, if it is about one.
    #[must_use]
    pub fn limit(&self) -> Option<Temperature> {
        self.limit_c.map(Temperature::from_c)
    }

    fn degrees(&self, celsius: &str, unit: TemperatureUnit) -> String {
        let value: f64 = celsius.parse().unwrap_or(f64::NAN);
        match unit {
            TemperatureUnit::Celsius => format!("{celsius}\u{202f}°C"),
            TemperatureUnit::Fahrenheit => {
                let printed = self.fahrenheit.iter().find(|(c, _)| (c - value).abs() < 1e-9);
                let degrees = printed.map_or_else(|| Temperature::from_c(value).f(), |(_, f)| *f);
                format!("{}\u{202f}°F", group(degrees, 0))
            }
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    rule: Vec<OfficialRule>,
}

static FILE: LazyLock<File> =
    LazyLock::new(|| parse("rules.toml", include_str!("../../../catalogue/rules.toml")));

/// Every rule.
#[must_use]
pub fn official_rules() -> &'static [OfficialRule] {
    &FILE.rule
}

/// The rule of this id as the region has it; where the region has none, the US one, which names its authority.
#[must_use]
pub fn official_rule(id: &str, region: Region) -> Option<&'static OfficialRule> {
    let of = |region| official_rules().iter().find(move |rule| rule.id == id && rule.region == region);
    of(region).or_else(|| of(Region::Us))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Status, source};

    fn plain(words: &str) -> String {
        words.replace('\u{202f}', " ")
    }

    /// USDA consumer minimum: 145 °F with three minutes' rest, 62.8 °C (secondary; safety, `usda_consumer_minimum`).
    #[test]
    fn the_consumer_minimum_reads_in_both_units() {
        let rule = official_rule("consumer-minimum-whole", Region::Us).unwrap();
        assert_eq!(
            plain(&rule.words(TemperatureUnit::Celsius)),
            "Whole steaks and roasts: 62.8 °C in the middle, then three minutes’ rest."
        );
        assert!(plain(&rule.words(TemperatureUnit::Fahrenheit)).contains("145 °F"));
        assert_eq!((rule.limit().map(Temperature::c), rule.minutes), (Some(62.8), Some(3.0)));
    }

    #[test]
    fn no_rule_is_known_from_memory_only_and_no_hole_is_left_in_its_words() {
        for rule in official_rules() {
            let source = source(&rule.source).unwrap_or_else(|| panic!("{} names no source", rule.id));
            assert!(
                matches!(source.status, Status::Published | Status::Secondary),
                "{} would be shown as official",
                rule.id
            );
            for unit in [TemperatureUnit::Celsius, TemperatureUnit::Fahrenheit] {
                let words = rule.words(unit);
                assert!(!words.contains(['{', '}']) && words.ends_with('.'), "{words}");
            }
            assert!(rule.fahrenheit.iter().all(|(c, f)| (Temperature::from_f(*f).c() - c).abs() < 0.06));
        }
    }

    #[test]
    fn a_region_without_the_rule_gets_the_us_one_with_its_name() {
        assert_eq!(official_rule("leaving-out", Region::Au).unwrap().region, Region::Au);
        assert_eq!(official_rule("thawing", Region::Au).unwrap().region, Region::Us);
        assert!(official_rule("nothing", Region::Us).is_none());
    }
}
