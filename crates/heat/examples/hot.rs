use heat::*;
use quantity::*;
fn main() {
    let lean = Composition { water: 0.72, protein: 0.22, fat: 0.05, carbohydrate: 0.0, ash: 0.01 };
    let meat = Meat::composed(lean, Overrides::default()).unwrap();
    let c = Temperature::from_c;
    let moist = Moist { vapour_pa: 3000.0, lean_share: 0.8 };
    let air = |t: f64, h: f64, e: f64, dry: bool| {
        Face::Open(Surroundings {
            emissivity: e,
            evaporation: if dry { Evaporation::Drying(moist, Supply::USUAL) } else { Evaporation::None },
            ..Surroundings::plain(Course::Steady(c(t)), h)
        })
    };
    let pan = Face::Open(Surroundings {
        evaporation: Evaporation::BoilingOnly,
        ..Surroundings::plain(Course::Steady(c(220.0)), 300.0)
    });
    let steak =
        Shape::Steak { thickness: Length::from_mm(38.0), footprint: Footprint::Mass(Mass::from_g(450.0)) };
    let stages = vec![
        Stage::new("oven", Faces::all(air(121.0, 7.0, 0.9, true)), Until::Centre(c(48.0))),
        Stage {
            flip_every: Some(Span::from_s(45.0)),
            ..Stage::new(
                "sear",
                Faces {
                    bottom: pan.clone(),
                    top: air(25.0, 6.0, 0.9, true),
                    sides: air(60.0, 6.0, 0.9, true),
                },
                Until::Time(Span::from_s(90.0)),
            )
        },
        Stage::new(
            "rest",
            Faces { bottom: air(22.0, 2.0, 0.9, true), ..Faces::all(air(22.0, 4.5, 0.9, true)) },
            Until::Time(Span::from_min(8.0)),
        ),
    ];
    let settings = Settings { cells: 8, tolerance: 1e-2, colour: true, ..Settings::exact() };
    let t0 = std::time::Instant::now();
    let n = 2000;
    let mut w = Work::default();
    for _ in 0..n {
        w = std::hint::black_box(simulate(&meat, &steak, &Start::Even(c(4.0)), &stages, &settings).unwrap())
            .work;
    }
    println!("{} us {w:?}", t0.elapsed().as_micros() as f64 / n as f64);
}
