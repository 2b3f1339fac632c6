//! Nine at table on the invented ribeye roll: the plan and what it cost.
#![allow(clippy::print_stdout)]

use band::Value;
use dinner::{Habits, Holds, Hot, Low, Portion, Seat, Table, plan};
use quantity::Temperature;
use std::time::Instant;

fn main() -> Result<(), dinner::DinnerError> {
    let portions = [
        (384, 29),
        (376, 28),
        (391, 30),
        (379, 29),
        (372, 29),
        (386, 30),
        (381, 30),
        (374, 30),
        (388, 31),
        (369, 28),
    ];
    let wishes = [55, 55, 50, 55, 60, 55, 50, 55, 70];
    let table = Table {
        cut: "beef-ribeye-roll".into(),
        seats: wishes
            .map(|wish| Seat { name: None, wish: Temperature::from_c(f64::from(wish)), portion: None })
            .into(),
        portions: (1..)
            .zip(portions)
            .map(|(n, (grams, mm))| Portion {
                name: format!("TARN {n}"),
                mass_kg: Value::Known(f64::from(grams) / 1e3),
                thickness_m: Value::Known(f64::from(mm) / 1e3),
                start_c: Value::Unknown,
                went_in: None,
                pulled: None,
            })
            .collect(),
        low: Low {
            medium: "oven".into(),
            medium_c: Value::Known(110.0),
            probed: std::env::args().any(|a| a == "probed"),
            holds: Holds::All,
        },
        wait: std::env::args().nth(2).unwrap_or_else(|| "foil-tent".into()),
        hot: Hot {
            medium: std::env::args().nth(3).unwrap_or_else(|| "pan".into()),
            medium_c: Value::Unknown,
            holds: Holds::Places(5),
        },
        habits: Habits::default(),
        chance: 0.9,
    };
    for _ in 0..1 {
        let start = Instant::now();
        let answer = plan(&table, 256, 1)?;
        println!("{:.0} ms", start.elapsed().as_secs_f64() * 1e3);
        for row in &answer.rows {
            println!(
                "wish {:.0}: in {:.0} before, pull {:.1}, pulled {:.0} ({:.0}..{:.0}) before, peak {:.1} ({:.1}..{:.1}), late 10: {:.2}",
                row.wish.c(),
                row.in_before,
                row.pull.c(),
                row.pulled_before.median,
                row.pulled_before.high,
                row.pulled_before.low,
                row.peak.median,
                row.peak.low,
                row.peak.high,
                band::chance(row.slack.iter().map(|s| *s >= 10.0)),
            );
        }
        println!(
            "chance {:.3} spread {:?} hold {:?} narrow {:?} passes {}",
            answer.chance, answer.finish_spread, answer.longest_hold, answer.narrow, answer.passes
        );
        println!("late all {:.2}", answer.chance_if_late(&vec![10.0; answer.rows.len()]));
    }
    Ok(())
}
