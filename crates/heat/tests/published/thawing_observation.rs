//! Thawing and freezing as measured, mostly told in abstracts without film or end point.
//!
//! Eastridge & Bowker (2011), J. Food Sci. 76(2), S156–S162: strip loin steaks, 18–20 h in air at 4 °C (published), one inch
//! (secondary, a newspaper). Known miss: 20 min at 20 °C and 11 min at 39 °C in moving water (published, end point not told):
//! conduction alone needs longer; kept. Yun et al. (2021), Food Sci. Anim. Resour. 41(6), 1012: freezing rates of pork loin
//! 0.26 to 1.42 cm/h from still air at −20 °C to 3 m/s at −40 °C (published). thermal.toml, thawing_observation and
//! freezing_observation.

use band::Value;
use heat::cook::{Form, Question, StageQuestion, answer};
use heat::{Composition, Face, Faces, Meat, Overrides, Settings, Shape, Stage, Start, Until, simulate};
use quantity::{Length, Temperature};

fn steak(medium: &str, medium_c: f64, until: f64) -> band::Band {
    let mut question = Question::of_cut("beef-strip-loin", Form::Steak).unwrap();
    question.thickness_m = Value::Known(0.0254);
    question.start_c = Value::Range { low: -22.0, high: -16.0 };
    let mut stage = StageQuestion::new("thaw", medium, Until::Centre(Temperature::from_c(until)));
    stage.medium_c = Value::Known(medium_c);
    question.stages.push(stage);
    answer(&question, 128, 1).unwrap().stages[0].time_s.times(1.0 / 60.0)
}

#[test]
fn still_air() {
    let ours = steak("fridge", 4.0, 0.0).times(1.0 / 60.0);
    println!("fridge at 4 °C: seen 18–20 h, ours {:.1} h ({:.1} to {:.1})", ours.median, ours.low, ours.high);
    assert!(ours.holds(18.0) || ours.holds(20.0) || (ours.low > 18.0 && ours.high < 20.0), "{ours:?}");
}

/// Known miss, 1.5 to 2 times: see the head of this file.
#[test]
fn moving_water() {
    for (medium_c, seen) in [(20.0, 20.0), (39.0, 11.0)] {
        let ours = steak("water-stirred", medium_c, -1.0);
        println!(
            "water at {medium_c} °C: seen {seen} min, ours {:.1} ({:.1} to {:.1})",
            ours.median, ours.low, ours.high
        );
        assert!(!ours.holds(seen) && ours.low > seen, "no longer a miss: {ours:?}");
        assert!(ours.median < 2.3 * seen, "{ours:?}");
    }
    // What does not depend on the end point: the ratio of the two.
    let ratio = steak("water-stirred", 20.0, -1.0).median / steak("water-stirred", 39.0, -1.0).median;
    println!("ratio of the two: seen 1.82, ours {ratio:.2}");
    assert!((ratio / (20.0 / 11.0) - 1.0).abs() < 0.15, "{ratio}");
}

/// The nominal rate of the refrigeration institute (from memory): half the thickness over the time from the surface's 0 °C to
/// the middle's 10 K below freezing; for a loin taken as a slab of 60 mm (assumed).
#[test]
fn freezing_rates() {
    let pork = Composition { water: 0.73, protein: 0.22, fat: 0.04, carbohydrate: 0.0, ash: 0.01 };
    let meat = Meat::composed(pork, Overrides::default()).unwrap();
    let rate = |air_c: f64, film: f64| {
        let shape = Shape::Slab { thickness: Length::from_mm(60.0) };
        let faces = Faces::all(Face::film(Temperature::from_c(air_c), film));
        let to = |until| Stage::new("freeze", faces.clone(), until);
        let stages =
            [to(Until::Surface(Temperature::from_c(0.0))), to(Until::Centre(Temperature::from_c(-11.1)))];
        let start = Start::Even(Temperature::from_c(4.0));
        let found = simulate(&meat, &shape, &start, &stages, &Settings::exact()).unwrap();
        3.0 / (found.stages[1].time_s / 3600.0)
    };
    let (slow, fast) = (rate(-20.0, 7.0), rate(-40.0, 30.0));
    println!("freezing: {slow:.2} to {fast:.2} cm/h, seen 0.26 to 1.42");
    // Neither thickness nor film is told: the order of magnitude at both ends, and their ratio.
    let within = |ours: f64, seen: f64| (0.6..1.7).contains(&(ours / seen));
    assert!(within(slow, 0.26) && within(fast, 1.42) && within(fast / slow, 1.42 / 0.26), "{slow} {fast}");
}
