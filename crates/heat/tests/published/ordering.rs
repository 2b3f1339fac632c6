//! Orderings a model must respect, published without numbers or with one ratio (cooking.toml, ordering): Bengtsson et al.
//! (1976), J. Food Sci.; Rodas-González et al. (2015), Food Sci. Nutr. 3(6), 475; Gredell et al., Meat Muscle Biol.; Obuz &
//! Dikeman (2003), Meat Sci. (abstracts, published). And the wet bulb, by the psychrometer's own formula.

use super::rows::{Fit, Row, check};
use heat::{
    Composition, Course, Evaporation, Face, Faces, History, Meat, Moist, Overrides, Settings, Shape, Stage,
    Start, Supply, Surroundings, Until, simulate, vapour_from_wet_bulb,
};
use quantity::{Length, Span, Temperature};

fn c(celsius: f64) -> Temperature {
    Temperature::from_c(celsius)
}

/// An oven with a fan (175 °C: 33.4 W/(m² K) in all, secondary); a roast of semimembranosus, about a kilogram.
fn roast(oven_c: f64, vapour_pa: f64, start_c: f64, core_c: f64, sizes_mm: [f64; 3]) -> History {
    let lean = Composition { water: 0.74, protein: 0.215, fat: 0.03, carbohydrate: 0.0, ash: 0.011 };
    let meat = Meat::composed(lean, Overrides::default()).unwrap();
    let moist = Moist { vapour_pa, lean_share: 0.9 };
    let face = Face::Open(Surroundings {
        emissivity: 0.9,
        evaporation: Evaporation::Drying(moist, Supply::USUAL),
        ..Surroundings::plain(Course::Steady(c(oven_c)), 18.0)
    });
    let [thickness, width, length] = sizes_mm.map(Length::from_mm);
    let shape = Shape::Brick { thickness, width, length };
    let stage = Stage::new("oven", Faces::all(face), Until::Centre(c(core_c)));
    let settings = Settings { colour: false, ..Settings::ensemble() };
    let found = simulate(&meat, &shape, &Start::Even(c(start_c)), &[stage], &settings).unwrap();
    assert!(found.stages[0].reached);
    found
}

const KILO: [f64; 3] = [70.0, 100.0, 140.0];

/// Each as one ratio: told above or below one, or the ratio itself.
pub(crate) fn rows() -> Vec<Row> {
    static ROWS: std::sync::LazyLock<Vec<Row>> = std::sync::LazyLock::new(compute);
    ROWS.clone()
}

fn compute() -> Vec<Row> {
    let block = "ordering";
    let below = |what: &str, ours: f64| {
        Row::new(block, what, "", "published", 1.0, ours, Fit::Told).told(f64::NEG_INFINITY, 1.0)
    };
    let time = |oven, vapour, start, core| roast(oven, vapour, start, core, KILO);
    let mut rows = Vec::new();
    for oven in [175.0, 225.0] {
        let ratio = time(oven, 3000.0, -20.0, 65.0).time_s / time(oven, 3000.0, 5.0, 65.0).time_s;
        let what = format!("{oven} °C: from −20 °C over from +5 °C");
        rows.push(Row::new(block, what, "", "published", 1.5, ratio, Fit::Share(0.1)));
    }
    let (mild, hot) = (time(175.0, 3000.0, 5.0, 65.0), time(225.0, 3000.0, 5.0, 65.0));
    rows.push(below("time at 225 over 175 °C", hot.time_s / mild.time_s));
    rows.push(below("loss at 175 over 225 °C", mild.mass_lost_kg / hot.mass_lost_kg));
    let (dry, moist) = (time(80.0, 1500.0, 5.0, 60.0), time(80.0, 25_000.0, 5.0, 60.0));
    rows.push(below("80 °C: time in moist over dry air", moist.time_s / dry.time_s));
    rows.push(below("80 °C: loss in moist over dry air", moist.mass_lost_kg / dry.mass_lost_kg));
    let low = |vapour| roast(93.0, vapour, 5.0, 70.0, KILO);
    let high = |vapour| roast(149.0, vapour, 5.0, 70.0, KILO);
    rows.push(below("to 70 °C: time at 149 over 93 °C", high(3000.0).time_s / low(3000.0).time_s));
    rows.push(
        below("to 70 °C: loss at 149 over 93 °C", high(3000.0).mass_lost_kg / low(3000.0).mass_lost_kg)
            .misses("the juice law has no clock: a slow oven keeps what a long time would press out"),
    );
    rows.push(
        below("dry: loss at 204 over 80 °C", time(204.0, 3000.0, 5.0, 60.0).mass_lost_kg / dry.mass_lost_kg)
            .misses("as the row above"),
    );
    let (low, high) = (time(135.0, 3000.0, 5.0, 63.0), time(160.0, 3000.0, 5.0, 63.0));
    rows.push(below("loss at 135 over 160 °C", low.mass_lost_kg / high.mass_lost_kg));
    let share = |sizes: [f64; 3]| {
        let mass = 1.06e-6 * sizes.iter().product::<f64>();
        roast(135.0, 3000.0, 5.0, 63.0, sizes).mass_lost_kg / mass
    };
    rows.push(
        below(
            "loss of a kilogram and more over half a kilogram",
            share([75.0, 105.0, 145.0]) / share([55.0, 80.0, 110.0]),
        )
        .misses("the larger one's outer layers are hot for longer, and the juice law has no clock"),
    );
    rows
}

#[test]
fn every_row() {
    check(&rows());
}

/// A face that stays wet in hot air settles at the wet bulb, whose formula shares no figure with ours but the vapour curve.
#[test]
fn a_wet_face_settles_at_the_wet_bulb() {
    let lean = Composition { water: 0.74, protein: 0.215, fat: 0.03, carbohydrate: 0.0, ash: 0.011 };
    let meat = Meat::composed(lean, Overrides::default()).unwrap();
    for (air, wet) in [(60.0, 28.0), (90.0, 36.0), (120.0, 42.0), (120.0, 60.0)] {
        let moist = Moist { vapour_pa: vapour_from_wet_bulb(wet, air), lean_share: 1.0 };
        let around = Surroundings {
            evaporation: Evaporation::Wet(moist),
            ..Surroundings::plain(Course::Steady(c(air)), 20.0)
        };
        let stage = Stage {
            at_most: Span::from_h(3.0),
            ..Stage::new("stall", Faces::all(Face::Open(around)), Until::Centre(c(air - 5.0)))
        };
        let shape = Shape::Slab { thickness: Length::from_mm(40.0) };
        let found = simulate(&meat, &shape, &Start::Even(c(20.0)), &[stage], &Settings::exact()).unwrap();
        println!(
            "air {air}, wet bulb {wet}: settles at {:.1} °C, reached {}",
            found.centre_c, found.stages[0].reached
        );
        assert!(!found.stages[0].reached && (found.centre_c - wet).abs() < 2.5, "{}", found.centre_c);
    }
}
