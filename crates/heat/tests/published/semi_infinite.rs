//! A half space that a film warms, exact (computed). thermal.toml, semi_infinite: share of the whole rise, tolerance 1e-6;
//! met in the limit of two fine grids. And incropera's double-sided grill (cooking.toml, analytic_case; statement published,
//! times computed by 60 terms of the series).

use heat::{Constants, Face, Faces, Meat, Settings, Shape, Stage, Start, Until, simulate};
use quantity::{Length, Span, Temperature};

fn meat(k: f64, diffusivity: f64) -> Meat {
    let (specific_heat_j_kg_k, conductivity_w_m_k) = (3500.0, k);
    let density_kg_m3 = k / diffusivity / specific_heat_j_kg_k;
    Meat::constant(Constants { conductivity_w_m_k, specific_heat_j_kg_k, density_kg_m3 }).unwrap()
}

#[test]
fn half_space() {
    for (depth, film, time_s, expected) in [
        (0.0, 60.0, 120.0, 0.385_903_351_9),
        (0.005, 60.0, 120.0, 0.110_561_775),
        (0.005, 800.0, 60.0, 0.168_450_166_6),
    ] {
        let ours = |cells: usize| {
            // 60 mm: eight times as deep as the warmth gets in two minutes.
            let shape = Shape::Slab { thickness: Length::from_mm(60.0) };
            let top = Face::film(Temperature::from_c(100.0), film);
            let faces = Faces { top, bottom: Face::Insulated, sides: Face::Insulated, ends: None };
            let stage = Stage::new("film", faces, Until::Time(Span::from_s(time_s)));
            let depths = vec![Length::from_m(depth)];
            let settings = Settings { cells, tolerance: 1e-7, depths, colour: false, ..Settings::exact() };
            let start = Start::Even(Temperature::from_c(0.0));
            let found = simulate(&meat(0.48, 1.35e-7), &shape, &start, &[stage], &settings).unwrap();
            found.curve.last().unwrap().at_depth_c[0] / 100.0
        };
        // 5 mm is a node of both grids.
        let (coarse, fine) = (ours(150), ours(300));
        let off = (fine + (fine - coarse) / 3.0) / expected - 1.0;
        println!("{depth} m, {film} W/(m² K): {off:+.1e}");
        assert!(off.abs() < 1e-6, "{depth} {film}: {off:e}");
    }
}

#[test]
fn double_sided_grill() {
    let water = Constants { conductivity_w_m_k: 0.613, specific_heat_j_kg_k: 4179.0, density_kg_m3: 997.0 };
    let meat = Meat::constant(water).unwrap();
    for (start, times) in [(20.0, [67.5, 263.7, 588.7]), (5.0, [79.9, 312.3, 697.0])] {
        for (thickness_mm, expected) in [10.0, 20.0, 30.0].into_iter().zip(times) {
            let shape = Shape::Slab { thickness: Length::from_mm(thickness_mm) };
            let faces = Faces::all(Face::film(Temperature::from_c(100.0), 5000.0));
            let stage = Stage::new("grill", faces, Until::Centre(Temperature::from_c(60.0)));
            let start = Start::Even(Temperature::from_c(start));
            let found = simulate(&meat, &shape, &start, &[stage], &Settings::exact()).unwrap();
            let off = found.time_s / expected - 1.0;
            println!("{thickness_mm} mm: {:+.3} %", 100.0 * off);
            assert!(off.abs() < 2e-3, "{thickness_mm}: {off}");
        }
    }
}
