//! Reference bricks: the three-dimensional version of the reference slabs, all six faces exposed (computed; the file's own
//! grid change is 0.03 to 0.4 %). thermal.toml, reference_brick, tolerance 1 %; and conduction_brick, the product of three
//! slabs in 30-digit arithmetic (computed, tolerance 1e-4 K).

use super::reference_slab::ref_lean;
use super::rows::{Fit, Row as Told, check};
use heat::{Constants, Face, Faces, Meat, Settings, Shape, Stage, Start, Until, simulate};
use quantity::{Length, Span, Temperature};

fn brick([thickness, width, length]: [f64; 3]) -> Shape {
    let m = Length::from_m;
    Shape::Brick { thickness: m(thickness), width: m(width), length: m(length) }
}

fn frozen_rows() -> Vec<Told> {
    let freeze = [(-2.0, 4263.7), (-5.0, 5096.3), (-10.0, 5459.1), (-18.0, 5945.0)];
    let thaw = [(-5.0, 2193.3), (-2.0, 8586.4), (-1.0, 8913.7), (0.0, 8975.8)];
    let cases = [
        ("freeze_brick_40x120x160", [0.04, 0.12, 0.16], 10.0, -30.0, 40.0, freeze),
        ("thaw_steak_30x90x140_water6", [0.03, 0.09, 0.14], -18.0, 6.0, 60.0, thaw),
    ];
    let meat = ref_lean();
    let mut told = Vec::new();
    for (id, sizes, start, medium, film, rows) in cases {
        for (centre, expected) in rows {
            let faces = Faces::all(Face::film(Temperature::from_c(medium), film));
            let stage = Stage::new(id, faces, Until::Centre(Temperature::from_c(centre)));
            let start = Start::Even(Temperature::from_c(start));
            let found = simulate(&meat, &brick(sizes), &start, &[stage], &Settings::exact()).unwrap();
            let what = format!("{id} to {centre} °C");
            told.push(Told::new(
                "reference_brick",
                what,
                "s",
                "computed",
                expected,
                found.time_s,
                Fit::Share(0.01),
            ));
        }
    }
    told
}

#[test]
fn freezing_and_thawing() {
    check(&frozen_rows());
}

struct Row {
    id: &'static str,
    sizes: [f64; 3],
    film: f64,
    k: f64,
    diffusivity: f64,
    start: f64,
    medium: f64,
    rows: [(f64, f64, f64); 5],
}

/// Minutes, centre, mean, °C.
const CONDUCTION: [Row; 2] = [
    Row {
        id: "ribeye_roll_chill",
        sizes: [0.12, 0.2, 0.45],
        film: 8.0,
        k: 0.47,
        diffusivity: 1.28e-7,
        start: 15.0,
        medium: 2.0,
        rows: [
            (60.0, 14.7908255, 12.6630467),
            (180.0, 12.5707339, 9.52803877),
            (360.0, 9.05535305, 6.58022704),
            (720.0, 4.90541719, 3.7331736),
            (1440.0, 2.45023855, 2.25389133),
        ],
    },
    Row {
        id: "steak_water_bath",
        sizes: [0.03, 0.09, 0.14],
        film: 95.0,
        k: 0.48,
        diffusivity: 1.35e-7,
        start: 4.0,
        medium: 56.0,
        rows: [
            (10.0, 18.3078234, 33.129277),
            (20.0, 33.6091502, 44.3868238),
            (30.0, 43.0936133, 49.9631827),
            (45.0, 50.5761412, 53.6930538),
            (60.0, 53.787058, 55.1083409),
        ],
    },
];

/// Known miss at the rows' 1e-4 K, which is that of the closed form.
fn conduction_rows() -> Vec<Told> {
    let mut told = Vec::new();
    for case in &CONDUCTION {
        let meat = Meat::constant(Constants {
            conductivity_w_m_k: case.k,
            specific_heat_j_kg_k: 3500.0,
            density_kg_m3: case.k / case.diffusivity / 3500.0,
        })
        .unwrap();
        for (minutes, centre, mean) in case.rows {
            let faces = Faces::all(Face::film(Temperature::from_c(case.medium), case.film));
            let stage = Stage::new(case.id, faces, Until::Time(Span::from_min(minutes)));
            let start = Start::Even(Temperature::from_c(case.start));
            let settings = Settings { colour: false, ..Settings::exact() };
            let found = simulate(&meat, &brick(case.sizes), &start, &[stage], &settings).unwrap();
            for (place, expected, ours) in [("centre", centre, found.centre_c), ("mean", mean, found.mean_c)]
            {
                let what = format!("{} {minutes} min, {place}", case.id);
                let row =
                    Told::new("conduction_brick", what, "°C", "computed", expected, ours, Fit::Within(1e-4));
                told.push(row.misses(
                    "the closed form's own tolerance; 13 nodes an axis leave hundredths of a kelvin",
                ));
            }
        }
    }
    told
}

/// Within 0.05 K in the middle and 0.25 K in the mean at the settings of one answer, whose nodes are drawn to the faces and few.
#[test]
fn conduction() {
    for row in conduction_rows() {
        let limit = if row.what.ends_with("centre") { 0.05 } else { 0.25 };
        println!("{}: {:+.4} K", row.what, row.off());
        assert!(row.off().abs() < limit, "{}: {}", row.what, row.off());
    }
}

pub(crate) fn rows() -> Vec<Told> {
    static ROWS: std::sync::LazyLock<Vec<Told>> = std::sync::LazyLock::new(compute);
    ROWS.clone()
}

fn compute() -> Vec<Told> {
    frozen_rows().into_iter().chain(conduction_rows()).collect()
}
