//! A half space that a film warms, exact (computed). thermal.toml, semi_infinite: share of the whole rise, tolerance 1e-6;
//! met in the limit of two fine grids. And incropera's double-sided grill (cooking.toml, analytic_case; statement published,
//! times computed by 60 terms of the series).

use super::rows::{Fit, Row, check};
use heat::{Constants, Face, Faces, Meat, Settings, Shape, Stage, Start, Until, simulate};
use quantity::{Length, Span, Temperature};

fn meat(k: f64, diffusivity: f64) -> Meat {
    let (specific_heat_j_kg_k, conductivity_w_m_k) = (3500.0, k);
    let density_kg_m3 = k / diffusivity / specific_heat_j_kg_k;
    Meat::constant(Constants { conductivity_w_m_k, specific_heat_j_kg_k, density_kg_m3 }).unwrap()
}

fn share(depth: f64, film: f64, time_s: f64, cells: usize) -> f64 {
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
}

fn grill(thickness_mm: f64, start_c: f64) -> f64 {
    let water = Constants { conductivity_w_m_k: 0.613, specific_heat_j_kg_k: 4179.0, density_kg_m3: 997.0 };
    let shape = Shape::Slab { thickness: Length::from_mm(thickness_mm) };
    let faces = Faces::all(Face::film(Temperature::from_c(100.0), 5000.0));
    let stage = Stage::new("grill", faces, Until::Centre(Temperature::from_c(60.0)));
    let start = Start::Even(Temperature::from_c(start_c));
    let meat = Meat::constant(water).unwrap();
    simulate(&meat, &shape, &start, &[stage], &Settings::exact()).unwrap().time_s
}

pub(crate) fn rows() -> Vec<Row> {
    static ROWS: std::sync::LazyLock<Vec<Row>> = std::sync::LazyLock::new(compute);
    ROWS.clone()
}

fn compute() -> Vec<Row> {
    let mut rows = Vec::new();
    for (depth, film, time_s, expected) in [
        (0.0, 60.0, 120.0, 0.385_903_351_9),
        (0.005, 60.0, 120.0, 0.110_561_775),
        (0.005, 800.0, 60.0, 0.168_450_166_6),
    ] {
        // 5 mm is a node of both grids.
        let (coarse, fine) = (share(depth, film, time_s, 150), share(depth, film, time_s, 300));
        let (found, what) =
            (fine + (fine - coarse) / 3.0, format!("{} mm deep, film {film}, {time_s} s", 1000.0 * depth));
        rows.push(Row::new(
            "semi_infinite",
            what,
            "of the rise",
            "computed",
            expected,
            found,
            Fit::Share(1e-6),
        ));
    }
    for (start, times) in [(20.0, [67.5, 263.7, 588.7]), (5.0, [79.9, 312.3, 697.0])] {
        for (mm, expected) in [10.0, 20.0, 30.0].into_iter().zip(times) {
            let (what, found) = (format!("double-sided grill, {mm} mm from {start} °C"), grill(mm, start));
            rows.push(Row::new("analytic_case", what, "s", "computed", expected, found, Fit::Share(2e-3)));
        }
    }
    rows
}

#[test]
fn every_row() {
    check(&rows());
}
