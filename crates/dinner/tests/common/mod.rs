//! Tables for the tests.
#![allow(dead_code, reason = "each test file uses its own part")]

use band::Value;
use dinner::{Habits, Holds, Hot, Low, Portion, Seat, Table};
use quantity::Temperature;

/// A portion of so many grams and millimetres.
pub(crate) fn portion(name: &str, grams: f64, mm: f64) -> Portion {
    Portion {
        name: name.into(),
        mass_kg: Value::Known(grams / 1000.0),
        thickness_m: Value::Known(mm / 1000.0),
        start_c: Value::Unknown,
        went_in: None,
        pulled: None,
    }
}

/// A seat that wants this peak, °C.
pub(crate) fn seat(wish_c: f64) -> Seat {
    Seat { name: None, wish: Temperature::from_c(wish_c), portion: None }
}

/// Strip loin from an oven at 110 °C by its dial, seared in a pan.
pub(crate) fn table(seats: &[f64], portions: &[(f64, f64)]) -> Table {
    Table {
        cut: "beef-strip-loin".into(),
        seats: seats.iter().map(|wish| seat(*wish)).collect(),
        portions: portions
            .iter()
            .enumerate()
            .map(|(n, (grams, mm))| portion(&format!("DUSK {}", n + 1), *grams, *mm))
            .collect(),
        low: Low { medium: "oven".into(), medium_c: Value::Known(110.0), probed: false, holds: Holds::All },
        wait: "foil-tent".into(),
        hot: Hot { medium: "pan".into(), medium_c: Value::Unknown, holds: Holds::All },
        habits: Habits::default(),
        chance: 0.9,
    }
}
