//! One steak on every road: `cargo run --release -p dinner --example ways`.

#![allow(clippy::print_stdout, reason = "a program that prints")]

use band::Value;
use dinner::{DinnerError, Habits, Holds, Hot, Low, Road, WaysAsked, ways};
use quantity::Temperature;
use std::time::Instant;

fn main() -> Result<(), DinnerError> {
    let asked = WaysAsked {
        cut: "beef-ribeye-roll".into(),
        whole: false,
        mass_kg: Value::Known(0.379),
        thickness_m: Value::Known(0.029),
        start_c: Value::Range { low: 3.0, high: 5.0 },
        frozen_c: Value::Unknown,
        wish: Temperature::from_c(55.0),
        low: Low { medium: "oven".into(), medium_c: Value::Known(110.0), probed: false, holds: Holds::All },
        hot: Hot { medium: "pan".into(), medium_c: Value::Unknown, holds: Holds::All },
        habits: Habits::default(),
        chance: 0.9,
        roads: Road::ALL.to_vec(),
    };
    let began = Instant::now();
    let answer = ways(&asked, 256, 1)?;
    println!("{:.0} ms", began.elapsed().as_secs_f64() * 1e3);
    for (road, way) in &answer.ways {
        match way {
            Ok(way) => println!(
                "{:12} in {:3.0} min before, takes {:.0} ({:.0} to {:.0}), pull {:.1}, peak {:.1} ({:.1} to {:.1}), grey {:.2} ({:.2} to {:.2}), \
                 lost {:.3}, slip {:.1} ({:.1} to {:.1}) K, hot {:.1} min, never {:.2}, {} points, {} layers",
                road.name(),
                way.in_before,
                way.takes.median,
                way.takes.low,
                way.takes.high,
                way.pull.c(),
                way.peak.median,
                way.peak.low,
                way.peak.high,
                way.grey.median,
                way.grey.low,
                way.grey.high,
                way.lost.median,
                way.slip.median,
                way.slip.low,
                way.slip.high,
                way.on_hot.median,
                way.never,
                way.curve.len(),
                way.section.len()
            ),
            Err(why) => println!("{:12} {why}", road.name()),
        }
    }
    println!("{:?}", answer.chill);
    Ok(())
}
