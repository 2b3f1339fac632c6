//! Reference slabs of lean meat with a freezing range: centre times by an enthalpy solution with grid refinement
//! (100/200/400 cells a half thickness), a second, explicit scheme agreeing within 0.04 % (computed).
//! thermal.toml, reference_slab and reference_material: 71.7 % water, bound 8.496 %, freezing from −1.7 °C, Chen's enthalpy,
//! conductivity 0.48 + 1.02 (1 − tf/t) W/(m·K), 1050 kg/m³. Tolerance of every row: 0.2 %.

use super::rows::{Fit, Row as Told};
use heat::{Face, Faces, Measured, Meat, Settings, Shape, Stage, Start, Until, Work, simulate};
use quantity::{Length, Temperature};

const TF: f64 = -1.7;

/// Chen's enthalpy, J/kg from −40 °C.
fn enthalpy(t: f64) -> f64 {
    let (solids, water, bound, latent) = (0.283, 0.717, 0.08496, 333.6);
    let frozen = |t: f64| (t + 40.0) * (1.55 + 1.26 * solids - (water - bound) * latent * TF / (-40.0 * t));
    1e3 * if t <= TF {
        frozen(t)
    } else {
        frozen(TF) + (t - TF) * (4.19 - 2.30 * solids - 0.628 * solids.powi(3))
    }
}

fn conductivity(t: f64) -> f64 {
    if t < TF { 0.48 + 1.02 * (1.0 - TF / t) } else { 0.48 }
}

/// The material as a table: rows dense just below the freezing point, where the curve bends.
pub(crate) fn ref_lean() -> Meat {
    let mut c: Vec<f64> = (0..=4000).map(|i| TF - 38.3 * (f64::from(4000 - i) / 4000.0).powi(3)).collect();
    c[0] = -40.0;
    c.extend([0.0, 20.0, 60.0, 120.0]);
    let (h, k) = (c.iter().map(|t| enthalpy(*t)).collect(), c.iter().map(|t| conductivity(*t)).collect());
    Meat::measured(Measured { c, enthalpy_j_kg: h, conductivity_w_m_k: k, density_kg_m3: 1050.0 }).unwrap()
}

pub(crate) struct Row {
    pub(crate) id: &'static str,
    pub(crate) thickness_mm: f64,
    pub(crate) start_c: f64,
    pub(crate) medium_c: f64,
    pub(crate) film: f64,
    pub(crate) centre: &'static [(f64, f64)],
}

pub(crate) const ROWS: [Row; 5] = [
    Row {
        id: "freeze_steak_25mm_still",
        thickness_mm: 25.0,
        start_c: 4.0,
        medium_c: -20.0,
        film: 10.0,
        centre: &[(-1.0, 1487.0), (-2.0, 6658.57), (-5.0, 13395.9), (-10.0, 17950.4), (-18.0, 25787.1)],
    },
    Row {
        id: "freeze_pack_60mm_blast",
        thickness_mm: 60.0,
        start_c: 4.0,
        medium_c: -25.0,
        film: 25.0,
        centre: &[(-2.0, 10419.0), (-5.0, 13527.3), (-10.0, 16212.5), (-18.0, 20224.6)],
    },
    Row {
        id: "thaw_steak_25mm_water20",
        thickness_mm: 25.0,
        start_c: -18.0,
        medium_c: 20.0,
        film: 200.0,
        centre: &[(-5.0, 746.298), (-2.0, 1867.61), (-1.0, 1914.52), (0.0, 1928.43)],
    },
    Row {
        id: "thaw_steak_25mm_fridge4",
        thickness_mm: 25.0,
        start_c: -18.0,
        medium_c: 4.0,
        film: 8.0,
        centre: &[(-5.0, 10447.5), (-2.0, 41816.0), (-1.0, 48544.5), (0.0, 49924.6)],
    },
    Row {
        id: "freeze_pack_40mm_still",
        thickness_mm: 40.0,
        start_c: 10.0,
        medium_c: -18.0,
        film: 6.0,
        centre: &[(-2.0, 22202.0), (-5.0, 43359.5), (-10.0, 57937.2), (-15.0, 72483.4)],
    },
];

/// Time to each centre temperature as a share of the row's, less one; and the work it took.
fn off(row: &Row, centre: f64, expected: f64, settings: &Settings) -> (f64, Work) {
    let shape = Shape::Slab { thickness: Length::from_mm(row.thickness_mm) };
    let faces = Faces::all(Face::film(Temperature::from_c(row.medium_c), row.film));
    let stage = Stage::new(row.id, faces, Until::Centre(Temperature::from_c(centre)));
    let start = Start::Even(Temperature::from_c(row.start_c));
    let found = simulate(&ref_lean(), &shape, &start, &[stage], settings).unwrap();
    assert!(found.energy_error < 1e-6, "{}: {}", row.id, found.energy_error);
    (found.time_s / expected - 1.0, found.work)
}

#[test]
fn every_row_within_its_tolerance() {
    for row in &ROWS {
        for (centre, expected) in row.centre {
            let (off, work) = off(row, *centre, *expected, &Settings::exact());
            println!("{:26} to {centre:5} °C: {:+.3} %  {work:?}", row.id, 100.0 * off);
            assert!(off.abs() < 0.002, "{} to {centre}: {off}", row.id);
        }
    }
}

/// In the limit the rows are met far inside their tolerance, which says that the curve and the cells are right.
#[test]
fn a_fine_grid_meets_them_ten_times_better() {
    for row in &ROWS {
        let Some((centre, expected)) = row.centre.last() else { continue };
        let fine = Settings { cells: 64, tolerance: 5e-5, colour: false, ..Settings::exact() };
        let (off, _) = off(row, *centre, *expected, &fine);
        println!("{:26} to {centre:5} °C: {:+.4} %", row.id, 100.0 * off);
        assert!(off.abs() < 1e-4, "{} to {centre}: {off}", row.id);
    }
}

/// What a member of an ensemble costs and how far it strays: pinned, so that a slow-down is a diff. Times on the plateau (to
/// −2 °C while thawing or freezing) stray furthest: there the middle stands still while a front is still on its way.
#[test]
fn work_and_distance_of_a_member() {
    let mut lines = Vec::new();
    for row in &ROWS {
        let Some((centre, expected)) = row.centre.last() else { continue };
        let (off, work) = off(row, *centre, *expected, &Settings::ensemble());
        assert!(off.abs() < 0.006, "{} to {centre}: {off}", row.id);
        lines.push(format!(
            "{} {:+.2} % nodes {} steps {} rejected {} solves {}",
            row.id,
            100.0 * off,
            work.nodes,
            work.steps,
            work.rejected,
            work.solves
        ));
    }
    insta::assert_snapshot!(lines.join("\n"));
}

pub(crate) fn rows() -> Vec<Told> {
    static ROWS: std::sync::LazyLock<Vec<Told>> = std::sync::LazyLock::new(compute);
    ROWS.clone()
}

fn compute() -> Vec<Told> {
    let all = ROWS.iter().flat_map(|row| row.centre.iter().map(move |at| (row, at)));
    all.map(|(row, (centre, expected))| {
        let found = expected * (1.0 + off(row, *centre, *expected, &Settings::exact()).0);
        let what = format!("{} to {centre} °C", row.id);
        Told::new("reference_slab", what, "s", "computed", *expected, found, Fit::Share(0.002))
    })
    .collect()
}
