use heat::*;
use quantity::*;
fn main() {
    let lean = Composition { water: 0.72, protein: 0.22, fat: 0.05, carbohydrate: 0.0, ash: 0.01 };
    let meat = Meat::composed(lean, Overrides::default()).unwrap();
    let c = Temperature::from_c;
    let moist = Moist { vapour_pa: 3000.0, lean_share: 0.8 };
    let air = |t: f64, h: f64, e: f64, k: u8| {
        Face::Open(Surroundings {
            emissivity: e,
            evaporation: match k {
                0 => Evaporation::None,
                1 => Evaporation::Wet(moist),
                _ => Evaporation::Drying(moist, Supply::USUAL),
            },
            ..Surroundings::plain(Course::Steady(c(t)), h)
        })
    };
    let pan = Face::Open(Surroundings {
        evaporation: Evaporation::BoilingOnly,
        ..Surroundings::plain(Course::Steady(c(220.0)), 300.0)
    });
    let steak =
        Shape::Steak { thickness: Length::from_mm(38.0), footprint: Footprint::Mass(Mass::from_g(450.0)) };
    for (name, side, top) in [
        ("insulated side", Face::Insulated, air(25.0, 6.0, 0.9, 0)),
        ("side none", air(60.0, 6.0, 0.9, 0), air(25.0, 6.0, 0.9, 0)),
        ("side none top dry", air(60.0, 6.0, 0.9, 0), air(25.0, 6.0, 0.9, 2)),
        ("side wet", air(60.0, 6.0, 0.9, 1), air(25.0, 6.0, 0.9, 1)),
        ("side dry", air(60.0, 6.0, 0.9, 2), air(25.0, 6.0, 0.9, 2)),
    ] {
        for tolerance in [1e-3, 3e-3, 1e-2] {
            let st = Stage {
                flip_every: Some(Span::from_s(60.0)),
                ..Stage::new(
                    "pan",
                    Faces { bottom: pan.clone(), top: top.clone(), sides: side.clone() },
                    Until::Centre(c(48.0)),
                )
            };
            let f = simulate(
                &meat,
                &steak,
                &Start::Even(c(4.0)),
                &[st],
                &Settings { cells: 8, tolerance, ..Settings::exact() },
            )
            .unwrap();
            println!("{name} {tolerance} {:.2} {:?}", f.time_s / 60., f.work);
        }
    }
}
