//! USDA AMS, Institutional Meat Purchase Specifications, Fresh Beef Series 100, November 2014, section 3.5 (from memory):
//! a portion of specified weight may miss it by 1/4 oz below 6 oz, 1/2 from 6 to 12, 3/4 from 12 to 18, 1 oz above; one of
//! specified thickness by 3/16 in up to 1 in, 1/4 in above. A school's form (published): 6 oz accepted from 5.5 to 6.5.

use quantity::{Length, Mass};
use roll::{Count, Target, Tolerance, Want};

fn ounces(of: f64) -> f64 {
    match Want::heavy("all", Count::Max, Mass::from_oz(of)).tolerance() {
        Tolerance::Mass(within) => within.oz(),
        Tolerance::Thickness(_) => f64::NAN,
    }
}

fn inches(of: f64) -> f64 {
    match Want::thick("all", Count::Max, Length::from_inch(of)).tolerance() {
        Tolerance::Thickness(within) => within.inch(),
        Tolerance::Mass(_) => f64::NAN,
    }
}

#[test]
fn weight() {
    for (specified, within) in [
        (3.0, 0.25),
        (5.99, 0.25),
        (6.0, 0.5),
        (11.9, 0.5),
        (12.0, 0.75),
        (17.9, 0.75),
        (18.0, 1.0),
        (40.0, 1.0),
    ] {
        assert!((ounces(specified) - within).abs() < 1e-9, "{specified} oz");
    }
}

#[test]
fn thickness() {
    for (specified, within) in [(0.5, 0.1875), (1.0, 0.1875), (1.001, 0.25), (2.0, 0.25)] {
        assert!((inches(specified) - within).abs() < 1e-9, "{specified} in");
    }
}

/// A portion guide (published): 250 g ± 10 g. The trade's row for 8.8 oz gives ± 14 g: a want may ask for less.
#[test]
fn a_want_may_ask_for_less() {
    let trade = Want::heavy("all", Count::Max, Mass::from_g(250.0));
    let guide = Want {
        target: Target::Mass { at: Mass::from_g(250.0), within: Some(Mass::from_g(10.0)) },
        ..trade.clone()
    };
    assert_eq!(guide.tolerance(), Tolerance::Mass(Mass::from_g(10.0)));
    assert!(matches!(trade.tolerance(), Tolerance::Mass(within) if (within.oz() - 0.5).abs() < 1e-9));
}
