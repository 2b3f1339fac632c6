//! A practical guide's table of water-bath pasteurisation (secondary: two public copies agree cell by cell): minutes from 5 °C
//! until 5 logs of E. coli, 6.5 of Salmonella and 6 of Listeria are gone. thermal.toml, waterbath_pasteurisation; cooking.toml,
//! sous_vide_pasteurisation and sous_vide_pathogen_kinetics. From memory of its caption: diffusivity 1.11e-7 m²/s, film
//! 95 W/(m² K), a slab to 30 mm and a box of 2 : 3 : 5 above. Print is rounded up; tolerance 15 %.

use super::rows::{Fit, Row, check};
use heat::{Constants, Face, Faces, Meat, Organism, Settings, Shape, Stage, Start, Until, simulate};
use quantity::{Length, Temperature};

const BATHS: [f64; 8] = [55.0, 57.0, 58.0, 60.0, 61.0, 63.0, 64.0, 66.0];
const CELLS: [(f64, [f64; 8]); 9] = [
    (5.0, [120.0, 60.0, 45.0, 30.0, 25.0, 18.0, 16.0, 13.0]),
    (10.0, [120.0, 75.0, 55.0, 40.0, 35.0, 30.0, 25.0, 25.0]),
    (20.0, [150.0, 105.0, 90.0, 75.0, 60.0, 55.0, 50.0, 45.0]),
    (30.0, [180.0, 120.0, 120.0, 90.0, 90.0, 75.0, 75.0, 75.0]),
    (35.0, [195.0, 135.0, 120.0, 105.0, 105.0, 90.0, 90.0, 75.0]),
    (45.0, [240.0, 180.0, 165.0, 135.0, 135.0, 120.0, 105.0, 105.0]),
    (50.0, [270.0, 195.0, 180.0, 150.0, 150.0, 135.0, 120.0, 120.0]),
    (60.0, [315.0, 255.0, 225.0, 195.0, 180.0, 165.0, 165.0, 150.0]),
    (65.0, [360.0, 285.0, 255.0, 225.0, 210.0, 195.0, 180.0, 165.0]),
];
/// Name, minutes to a tenth at 55 °C, kelvins to a tenfold rate, powers of ten wanted.
const KILLS: [(&str, f64, f64, f64); 3] =
    [("E. coli", 19.35, 4.87, 5.0), ("Salmonella", 13.18, 7.58, 6.477), ("Listeria", 12.66, 9.22, 6.0)];

const BOX: &str =
    "the guide's one-dimensional stand-in (β 0.28) is slower than the box of 2 : 3 : 5 it stands for";
const ROUNDED: &str = "print is rounded up to five minutes";
const MISSES: [(f64, f64, &str); 13] = [
    (10.0, 66.0, ROUNDED),
    (35.0, 60.0, BOX),
    (35.0, 61.0, BOX),
    (35.0, 63.0, BOX),
    (35.0, 64.0, BOX),
    (35.0, 66.0, BOX),
    (45.0, 57.0, BOX),
    (45.0, 58.0, BOX),
    (45.0, 61.0, BOX),
    (45.0, 63.0, BOX),
    (45.0, 66.0, BOX),
    (50.0, 61.0, BOX),
    (50.0, 66.0, BOX),
];

fn minutes(thickness_mm: f64, bath_c: f64) -> f64 {
    let mm = Length::from_mm;
    let thickness = mm(thickness_mm);
    let shape = if thickness_mm <= 30.0 {
        Shape::Slab { thickness }
    } else {
        Shape::Brick { thickness, width: mm(1.5 * thickness_mm), length: mm(2.5 * thickness_mm) }
    };
    let k = 0.48;
    let meat = Meat::constant(Constants {
        conductivity_w_m_k: k,
        specific_heat_j_kg_k: 3500.0,
        density_kg_m3: k / 1.11e-7 / 3500.0,
    })
    .unwrap();
    let organisms = KILLS.map(|(name, d_min, z_k, _)| Organism {
        name: name.to_owned(),
        d_s: 60.0 * d_min,
        at_c: 55.0,
        z_k,
    });
    let settings = Settings { organisms: organisms.to_vec(), cells: 12, ..Settings::ensemble() };
    let faces = Faces::all(Face::film(Temperature::from_c(bath_c), 95.0));
    let stages: Vec<Stage> = KILLS
        .iter()
        .enumerate()
        .map(|(organism, (name, _, _, log10))| {
            // A kill is counted from the start of the first stage: one after the other, all three are met.
            Stage::new(*name, faces.clone(), Until::Kill { organism, log10: *log10 })
        })
        .collect();
    let start = Start::Even(Temperature::from_c(5.0));
    simulate(&meat, &shape, &start, &stages, &settings).unwrap().time_s / 60.0
}

pub(crate) fn rows() -> Vec<Row> {
    static ROWS: std::sync::LazyLock<Vec<Row>> = std::sync::LazyLock::new(compute);
    ROWS.clone()
}

fn compute() -> Vec<Row> {
    let mut rows = Vec::new();
    for (thickness, cells) in CELLS {
        for (bath, printed) in BATHS.into_iter().zip(cells) {
            let what = format!("{thickness} mm in {bath} °C");
            let (block, ours) = ("waterbath_pasteurisation", minutes(thickness, bath));
            let row = Row::new(block, what, "min", "secondary", printed, ours, Fit::Share(0.15));
            let known = MISSES.iter().find(|(mm, c, _)| (*mm, *c) == (thickness, bath));
            rows.push(known.map_or(row.clone(), |(_, _, because)| row.misses(because)));
        }
    }
    rows
}

#[test]
fn every_cell() {
    check(&rows());
}
