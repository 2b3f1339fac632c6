//! Textbook chilling and roasting with constant properties. thermal.toml, conduction_example: inputs published (Geankoplis,
//! Cengel, Kreith & Bohn), answers of the exact series (computed); a chart's own answer stands beside where it was seen.

use heat::{Constants, Face, Faces, Meat, Settings, Shape, Stage, Start, Until, simulate};
use quantity::{Length, Temperature};

fn time(shape: &Shape, constants: Constants, film: f64, start: f64, medium: f64, until: Until) -> f64 {
    let meat = Meat::constant(constants).unwrap();
    let faces = Faces::all(Face::film(Temperature::from_c(medium), film));
    let stage = Stage::new("example", faces, until);
    let start = Start::Even(Temperature::from_c(start));
    simulate(&meat, shape, &start, &[stage], &Settings::exact()).unwrap().time_s
}

fn near(what: &str, found: f64, expected: f64, tolerance: f64) {
    println!("{what}: {found:.1} s for {expected:.1}, {:+.3} %", 100.0 * (found / expected - 1.0));
    assert!((found / expected - 1.0).abs() < tolerance, "{what}: {found} for {expected}");
}

#[test]
fn beef_slab_chilled() {
    let shape = Shape::Slab { thickness: Length::from_m(0.203) };
    let beef = Constants { conductivity_w_m_k: 0.498, specific_heat_j_kg_k: 3480.0, density_kg_m3: 1073.0 };
    let found = time(&shape, beef, 39.7, 37.8, 1.7, Until::Centre(Temperature::from_c(10.0)));
    near("exact", found, 67_005.18, 1e-3);
    // Read off a chart as Fo = 0.90: 3.6 % long, inside the row's 5 %.
    near("chart", found, 69_522.31, 0.05);
}

#[test]
fn steaks_in_the_cold_room() {
    let shape = Shape::Slab { thickness: Length::from_m(0.02) };
    let density_kg_m3 = 0.45 / 9.1e-8 / 3500.0;
    let beef = Constants { conductivity_w_m_k: 0.45, specific_heat_j_kg_k: 3500.0, density_kg_m3 };
    let found = time(&shape, beef, 9.0, 25.0, -11.0, Until::Surface(Temperature::from_c(2.0)));
    near("exact", found, 5586.43, 1e-3);
    near("printed", found, 5590.0, 1e-3);
}

#[test]
fn roast_as_a_sphere() {
    let shape = Shape::Sphere { diameter: Length::from_m(2.0 * 0.071_012_403_3) };
    let roast = Constants { conductivity_w_m_k: 0.5, specific_heat_j_kg_k: 4000.0, density_kg_m3: 1000.0 };
    let found = time(&shape, roast, 18.0, 20.0, 163.0, Until::Centre(Temperature::from_c(77.0)));
    near("full series", found, 132.787 * 60.0, 3e-3);
    // One term of the series, and the print: 1 % long.
    near("one term", found, 134.281_5 * 60.0, 0.015);
}
