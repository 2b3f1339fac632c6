//! The US twin of every metric result, beside it.

use super::money_text;
use rust_decimal::Decimal;
use serde_json::{Map, Value, json};

/// Adds beside each metric result its US twin: `cost_per_lb` beside `cost_per_kg`, `mass_oz` beside `mass_g`.
///
/// The unit stands in the key, so the keys alone say what is to be added. Bands and lists are converted number by number.
pub(crate) fn with_us_twins(answer: Value) -> Value {
    match answer {
        Value::Object(entries) => {
            let mut twinned = Map::new();
            for (key, value) in entries {
                let twin = Twin::of(&key).and_then(|(key, twin)| Some((key, twin.convert(&value)?)));
                twinned.insert(key, with_us_twins(value));
                twinned.extend(twin);
            }
            Value::Object(twinned)
        }
        Value::Array(values) => Value::Array(values.into_iter().map(with_us_twins).collect()),
        other => other,
    }
}

enum Twin {
    /// A factor and a step: `us = metric × factor + step`, to so many places.
    Number { factor: f64, step: f64, places: i32 },
    /// Money per kilo to money per pound, exact.
    PerMass,
}

/// Metric ending, US ending, factor, step, places that keep what the metric number says.
const ENDINGS: [(&str, &str, f64, f64, i32); 4] = [
    ("_kg", "_lb", 1.0 / 0.453_592_37, 0.0, 4),
    ("_g", "_oz", 1.0 / 28.349_523_125, 0.0, 3),
    ("_mm", "_in", 1.0 / 25.4, 0.0, 3),
    ("_c", "_f", 1.8, 32.0, 2),
];

/// Endings that look like a unit of their own and belong to a longer one.
const COMPOUND: [&str; 2] = ["_j_kg", "_kj_kg"];

impl Twin {
    fn of(key: &str) -> Option<(String, Self)> {
        if let Some(stem) = key.strip_suffix("_per_kg") {
            return Some((format!("{stem}_per_lb"), Self::PerMass));
        }
        if COMPOUND.iter().any(|ending| key.ends_with(ending)) {
            return None;
        }
        ENDINGS.iter().find_map(|&(metric, us, factor, step, places)| {
            // A list of temperatures may be called by its unit alone.
            let stem = if key == &metric[1..] { "" } else { key.strip_suffix(metric)? };
            let us = if stem.is_empty() { us[1..].to_owned() } else { format!("{stem}{us}") };
            Some((us, Self::Number { factor, step, places }))
        })
    }

    fn convert(&self, value: &Value) -> Option<Value> {
        match (self, value) {
            (_, Value::Null) => Some(Value::Null),
            (_, Value::Array(values)) => {
                values.iter().map(|value| self.convert(value)).collect::<Option<Vec<_>>>().map(Value::Array)
            }
            (_, Value::Object(band)) if band.contains_key("median") => {
                let ends = band.iter().map(|(end, value)| Some((end.clone(), self.convert(value)?)));
                ends.collect::<Option<Map<_, _>>>().map(Value::Object)
            }
            (Self::Number { factor, step, places }, Value::Number(metric)) => {
                Some(super::number(metric.as_f64()? * factor + step, *places))
            }
            (Self::PerMass, Value::String(metric)) => {
                let metric: Decimal = metric.parse().ok()?;
                Some(json!(money_text(metric * Decimal::new(45_359_237, 8), 4, 2)))
            }
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Factors: fabrication.toml, conversion (exact definitions, published).
    #[test]
    fn every_metric_result_has_its_twin() {
        let answer = json!({
            "usable_kg": 5.318,
            "cost_per_kg": { "median": "29.5500", "low": "28.60", "high": "30.70" },
            "ledger": [{ "mass_g": 438.0, "share": 0.1 }],
            "c": [0.0, 100.0],
            "conductivity_w_m_k": 0.5,
            "latent_kj_kg": 250.0,
        });
        let twinned = with_us_twins(answer);
        assert_eq!(twinned["usable_lb"], json!(11.7242));
        assert_eq!(twinned["cost_per_lb"]["median"], json!("13.4037"));
        assert_eq!(twinned["ledger"][0]["mass_oz"], json!(15.45));
        assert_eq!(twinned["f"], json!([32.0, 212.0]));
        let keys: Vec<&String> = twinned.as_object().expect("an object").keys().collect();
        assert_eq!(
            keys,
            [
                "usable_kg",
                "usable_lb",
                "cost_per_kg",
                "cost_per_lb",
                "ledger",
                "c",
                "f",
                "conductivity_w_m_k",
                "latent_kj_kg"
            ]
        );
    }
}
