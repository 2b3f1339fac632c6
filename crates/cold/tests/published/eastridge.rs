//! Eastridge & Bowker (2011), J. Food Sci. 76(2), S156–S162, abstract: strip loin steaks thawed in a refrigerator, 18 to
//! 20 h (published). 1 inch thick, 37–40 °F air: secondary, a newspaper. thermal.toml, thawing_observation, eastridge_4c.
//! Film and shelf are not told, so ours are priors; one measured case, so it must lie in our band or our band in it.

use band::Value;
use cold::{Pack, Way, thaw};

#[test]
fn an_inch_of_strip_loin_in_the_fridge() {
    let pack = Pack {
        cut: "beef-strip-loin".into(),
        portion_kg: Value::Unknown,
        thickness_m: Value::Known(0.0254),
        side_by_side: 1,
        wrap: "vacuum".into(),
        start_c: Value::Unknown,
    };
    let hours = thaw(&pack, Way::Fridge, Value::Range { low: 2.8, high: 4.4 }, 256, 1).unwrap().band();
    println!("seen 18 to 20 h, ours {:.1} ({:.1} to {:.1})", hours.median, hours.low, hours.high);
    assert!(hours.low <= 20.0 && hours.high >= 18.0, "{hours:?}");
}
