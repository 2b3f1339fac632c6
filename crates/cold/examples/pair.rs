//! A pair in the fridge: hours to soft and what they cost.
#![allow(clippy::print_stdout)]

use band::Value;
use cold::{Pack, Way, thaw};
use std::time::Instant;

fn main() -> Result<(), heat::HeatError> {
    let pack = Pack {
        cut: "beef-ribeye-roll".into(),
        portion_kg: Value::Known(0.380),
        thickness_m: Value::Range { low: 0.027, high: 0.033 },
        side_by_side: 2,
        wrap: "vacuum".into(),
        start_c: Value::Unknown,
    };
    for place in [Value::Unknown, Value::Known(3.2)] {
        let start = Instant::now();
        let soft = thaw(&pack, Way::Fridge, place, 256, 1)?;
        println!("{:.0} ms, {:?}, {:?}", start.elapsed().as_secs_f64() * 1e3, soft.band(), soft.narrow);
    }
    Ok(())
}
