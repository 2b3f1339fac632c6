//! Stefan and Neumann: a sharp front from a stepped surface into a half space, 30-digit roots (computed).
//! thermal.toml, stefan_one_phase (λ against Ste) and neumann_two_phase (front and temperatures).
//!
//! The half space is a slab thick enough that its far face does not feel the front. The front is read off the frozen share of
//! the slab. Row tolerances (1e-8 on λ, 1e-6 on the front) are those of the closed form; a grid of cells meets a
//! front within a cell, so these rows are known misses at their own tolerance and the distance reached is asserted.

use super::rows::{Fit, Row};
use heat::{Constants, Course, Face, Faces, Frozen, Meat, Settings, Shape, Stage, Start, Until, simulate};
use quantity::{Length, Span, Temperature};

/// A frozen front from the top face of a slab whose bottom passes nothing: its depth in m, and the temperatures at half and
/// twice that depth.
struct Front {
    depth: f64,
    half_c: f64,
    twice_c: f64,
}

struct Case {
    thawed: Constants,
    frozen: Frozen,
    surface_c: f64,
    start_c: f64,
    time_s: f64,
    /// From the exact solution, m: where to look.
    expected: f64,
    thickness: f64,
}

fn front(case: &Case, cells: usize) -> Front {
    let meat = Meat::frozen_constants(case.thawed, case.frozen).unwrap();
    let fixed = Face::Fixed(Course::Steady(Temperature::from_c(case.surface_c)));
    let faces = Faces { top: fixed, bottom: Face::Insulated, sides: Face::Insulated, ends: None };
    let stage = Stage::new("front", faces, Until::Time(Span::from_s(case.time_s)));
    let depths = [0.5, 2.0].map(|share| Length::from_m(share * case.expected)).to_vec();
    let settings = Settings { cells, tolerance: 2e-5, depths, colour: false, ..Settings::exact() };
    let shape = Shape::Slab { thickness: Length::from_m(case.thickness) };
    let start = Start::Even(Temperature::from_c(case.start_c));
    let found = simulate(&meat, &shape, &start, &[stage], &settings).unwrap();
    let frozen = if case.surface_c < case.start_c { found.ice_share } else { 1.0 - found.ice_share };
    let at = &found.curve.last().unwrap().at_depth_c;
    Front { depth: frozen * case.thickness, half_c: at[0], twice_c: at[1] }
}

/// λ = X / (2 √(αt)) against Ste = c ΔT / L, everything at the freezing point at the start.
const STEFAN: [(f64, f64); 6] = [
    (0.05, 0.1568209223),
    (0.1, 0.2200162727),
    (0.2, 0.3064239054),
    (0.2895, 0.363891704),
    (0.5, 0.4647859206),
    (1.0, 0.6200626333),
];

const CELL: &str = "the closed form's own tolerance; a grid meets a front within a part of its cell";

fn stefan_rows() -> Vec<Row> {
    let constants =
        Constants { conductivity_w_m_k: 1.5, specific_heat_j_kg_k: 2000.0, density_kg_m3: 1000.0 };
    let time_s: f64 = 3600.0;
    let spread = 2.0 * (1.5 / 2.0e6 * time_s).sqrt();
    let row = |(ste, lambda): (f64, f64)| {
        let frozen = Frozen { freezing_point_c: 0.0, latent_j_kg: 2000.0 * 20.0 / ste, constants };
        let case = Case {
            thawed: constants,
            frozen,
            surface_c: -20.0,
            start_c: 0.0,
            time_s,
            expected: lambda * spread,
            thickness: 2.0 * lambda * spread,
        };
        let found = front(&case, 100).depth / spread;
        Row::new(
            "stefan_one_phase",
            format!("λ at Ste {ste}"),
            "",
            "computed",
            lambda,
            found,
            Fit::Share(1e-8),
        )
        .misses(CELL)
    };
    STEFAN.into_iter().map(row).collect()
}

#[test]
fn stefan() {
    for row in stefan_rows() {
        let off = row.ours.median / row.told[0] - 1.0;
        println!("{}: {:+.3} %", row.what, 100.0 * off);
        assert!(off.abs() < 2e-3, "{}: {off:e}", row.what);
    }
}

/// One row of the two-phase block.
struct TwoPhase {
    id: &'static str,
    /// W/(m·K) and J/(kg·K) of the phase that grows, and of the one it grows into.
    growing: [f64; 2],
    initial: [f64; 2],
    density: f64,
    latent: f64,
    /// Phase change, surface, start, °C.
    at: [f64; 3],
    /// mm after 600, 3600 and 14 400 s.
    fronts: [f64; 3],
    /// °C at half and twice the front's depth.
    beside: [f64; 2],
}

const NEUMANN: [TwoPhase; 3] = [
    TwoPhase {
        id: "water_to_ice",
        growing: [2.22, 2050.0],
        initial: [0.561, 4218.0],
        density: 1000.0,
        latent: 333600.0,
        at: [0.0, -20.0, 10.0],
        fronts: [11.33131097, 27.75593, 55.51185999],
        beside: [-9.876753715, 8.030208926],
    },
    TwoPhase {
        id: "beef_like_freeze",
        growing: [1.5, 2100.0],
        initial: [0.48, 3520.0],
        density: 1050.0,
        latent: 239200.0,
        at: [-1.7, -20.0, 4.0],
        fronts: [10.48830123, 25.69098627, 51.38197254],
        beside: [-10.69632009, 2.678934],
    },
    TwoPhase {
        id: "beef_like_thaw",
        growing: [0.48, 3520.0],
        initial: [1.5, 2100.0],
        density: 1050.0,
        latent: 239200.0,
        at: [-1.7, 20.0, -18.0],
        fronts: [5.226192002, 12.8015037, 25.60300741],
        beside: [8.913209233, -4.37656361],
    },
];

fn neumann_rows() -> Vec<Row> {
    let mut rows = Vec::new();
    for row in NEUMANN {
        let TwoPhase { id, growing, initial, density, latent, fronts, .. } = row;
        let ([phase, surface, start], [half, twice]) = (row.at, row.beside);
        let of = |[k, c]: [f64; 2]| Constants {
            conductivity_w_m_k: k,
            specific_heat_j_kg_k: c,
            density_kg_m3: density,
        };
        let (frozen, thawed) = if surface < start { (growing, initial) } else { (initial, growing) };
        let frozen = Frozen { freezing_point_c: phase, latent_j_kg: latent, constants: of(frozen) };
        for (time_s, front_mm) in [600.0, 3600.0, 14400.0].into_iter().zip(fronts) {
            // Thick enough for the thermal wave of the warm side, which runs ahead of the front.
            let case = Case {
                thawed: of(thawed),
                frozen,
                surface_c: surface,
                start_c: start,
                time_s,
                expected: front_mm * 1e-3,
                thickness: 12e-3 * front_mm,
            };
            let found = front(&case, 300);
            let named = |what: &str| format!("{id}, {time_s} s, {what}");
            let block = "neumann_two_phase";
            let depth = 1e3 * found.depth;
            rows.push(
                Row::new(block, named("front"), "mm", "computed", front_mm, depth, Fit::Share(1e-6))
                    .misses(CELL),
            );
            for (place, told, ours) in [("half of it", half, found.half_c), ("twice", twice, found.twice_c)] {
                rows.push(Row::new(block, named(place), "K", "computed", told, ours, Fit::Within(0.1)));
            }
        }
    }
    rows
}

pub(crate) fn rows() -> Vec<Row> {
    static ROWS: std::sync::LazyLock<Vec<Row>> = std::sync::LazyLock::new(compute);
    ROWS.clone()
}

fn compute() -> Vec<Row> {
    stefan_rows().into_iter().chain(neumann_rows()).collect()
}

#[test]
fn neumann() {
    for row in neumann_rows() {
        let off = row.ours.median / row.told[0] - 1.0;
        println!("{}: {:.4} for {:.4}", row.what, row.ours.median, row.told[0]);
        assert!(if row.miss.is_some() { off.abs() < 3e-3 } else { row.inside() }, "{}: {off:e}", row.what);
    }
}
