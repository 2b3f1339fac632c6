use heat::*;
use quantity::*;
fn main() {
    let lean = Composition { water: 0.72, protein: 0.22, fat: 0.05, carbohydrate: 0.0, ash: 0.01 };
    let meat = Meat::composed(lean, Overrides::default()).unwrap();
    for t in [-40., -30., -20., -10., -5., -2., -1.2, -1.0, 4., 20., 60., 100., 150.] {
        println!("{:?}", meat.properties_at(t).unwrap());
    }
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
    let cases: Vec<(&str, f64, Vec<Stage>)> = vec![
        (
            "film only",
            4.0,
            vec![Stage::new("oven", Faces::all(Face::film(c(110.0), 12.0)), Until::Centre(c(52.0)))],
        ),
        (
            "oven dry",
            4.0,
            vec![Stage::new("oven", Faces::all(air(121.0, 7.0, 0.9, true)), Until::Centre(c(54.0)))],
        ),
        (
            "oven+sear+rest",
            4.0,
            vec![
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
            ],
        ),
        (
            "pan flip 60",
            4.0,
            vec![Stage {
                flip_every: Some(Span::from_s(60.0)),
                ..Stage::new(
                    "pan",
                    Faces {
                        bottom: pan.clone(),
                        top: air(25.0, 6.0, 0.9, true),
                        sides: air(60.0, 6.0, 0.9, true),
                    },
                    Until::Centre(c(48.0)),
                )
            }],
        ),
        (
            "fridge thaw",
            -18.0,
            vec![Stage::new("fridge", Faces::all(air(4.0, 2.0, 0.9, false)), Until::Centre(c(0.0)))],
        ),
        (
            "water thaw",
            -18.0,
            vec![Stage::new("water", Faces::all(air(15.0, 60.0, 0.0, false)), Until::Centre(c(0.0)))],
        ),
        (
            "freeze",
            4.0,
            vec![Stage::new("freezer", Faces::all(air(-20.0, 6.0, 0.9, false)), Until::Centre(c(-15.0)))],
        ),
        (
            "bath",
            4.0,
            vec![Stage::new("bath", Faces::all(air(56.0, 150.0, 0.0, false)), Until::Centre(c(55.0)))],
        ),
    ];
    for (name, start, stages) in &cases {
        let mut reference: f64 = 0.0;
        for (cells, tolerance) in
            [(48, 2e-5), (24, 1e-4), (16, 2e-4), (16, 1e-3), (8, 1e-3), (8, 3e-3), (8, 1e-2)]
        {
            let settings = Settings { cells, tolerance, colour: true, ..Settings::exact() };
            let t0 = std::time::Instant::now();
            let mut n = 0;
            let mut f = Default::default();
            while t0.elapsed().as_millis() < 50 || n == 0 {
                f = simulate(&meat, &steak, &Start::Even(c(*start)), stages, &settings).unwrap();
                n += 1;
            }
            let us = t0.elapsed().as_micros() as f64 / n as f64;
            if reference == 0.0 {
                reference = f.stages[0].time_s;
            }
            println!(
                "{name:15} {cells:3} {tolerance:.0e}: {:9.2} min {:+.2}% core {:.2} surf {:.2} peak {:.2} grey {:.3} lost {:.1} g | {:?} {us:.0} us {:.0} ns e {:.0e}",
                f.stages[0].time_s / 60.,
                100. * (f.stages[0].time_s / reference - 1.),
                f.centre_c,
                f.surface_c,
                f.peak_centre_c,
                f.grey_share,
                1e3 * f.mass_lost_kg,
                f.work,
                1e3 * us / (f.work.solves as f64 * 5.0),
                f.energy_error
            );
        }
    }
}
