//! Exact transient conduction in slab, cylinder and sphere, 40 terms of the series in 30-digit arithmetic (computed).
//! thermal.toml, conduction_series: (T − T∞)/(Tᵢ − T∞) at the centre, half way, the surface and in the mean, for hL/k and
//! αt/L² on the half thickness or radius. Tolerance of every row: 1e-6, met here in the limit of two fine grids; the
//! default settings' own distance is asserted beside it.

use super::rows::{Fit, Row};
use heat::{Constants, Face, Faces, Meat, Settings, Shape, Stage, Start, Until, simulate};
use quantity::{Length, Span, Temperature};

/// Shape, hL/k, αt/L²; centre, half way, surface, mean.
const ROWS: [(&str, f64, f64, [f64; 4]); 18] = [
    ("slab", 0.2, 1.0, [0.8549276557, 0.8349855661, 0.7760869388, 0.8284826546]),
    ("slab", 1.0, 0.1, [0.9931082548, 0.9505084521, 0.7235772387, 0.9195967475]),
    ("slab", 1.0, 0.5, [0.7725263834, 0.7025972593, 0.5045219279, 0.6811045654]),
    ("slab", 5.0, 0.05, [0.999046337, 0.952715801, 0.3973626244, 0.8682142229]),
    ("slab", 5.0, 0.3, [0.7363275207, 0.5862769523, 0.1894348766, 0.5444668681]),
    ("slab", 20.0, 0.2, [0.8042807593, 0.5995010863, 0.06215362198, 0.5425591524]),
    ("cylinder", 0.2, 1.0, [0.7164234255, 0.6994800351, 0.6498503799, 0.682870827]),
    ("cylinder", 1.0, 0.1, [0.9768165134, 0.9205024235, 0.68456455, 0.8432655096]),
    ("cylinder", 1.0, 0.5, [0.5485862039, 0.4958838525, 0.3527858375, 0.4473842636]),
    ("cylinder", 5.0, 0.05, [0.995845247, 0.9289409255, 0.3599244866, 0.7480639116]),
    ("cylinder", 5.0, 0.3, [0.4571904011, 0.35161863, 0.1055517737, 0.2660269125]),
    ("cylinder", 20.0, 0.2, [0.5546356037, 0.3907918072, 0.03501658636, 0.2652434732]),
    ("sphere", 0.2, 1.0, [0.5950695543, 0.5808769645, 0.5395144446, 0.561459884]),
    ("sphere", 1.0, 0.1, [0.9493053627, 0.8817484835, 0.6431765995, 0.7713649322]),
    ("sphere", 1.0, 0.5, [0.3707774298, 0.3338208067, 0.2360496693, 0.2870005165]),
    ("sphere", 5.0, 0.05, [0.9883994978, 0.8973669365, 0.3228075286, 0.6396495723]),
    ("sphere", 5.0, 0.3, [0.2459506041, 0.1837648154, 0.05181898597, 0.1175774279]),
    ("sphere", 20.0, 0.2, [0.3311135121, 0.2220542534, 0.0173697686, 0.1165262144]),
];

const RADIUS: f64 = 0.02;
const K: f64 = 0.5;
const DIFFUSIVITY: f64 = 1.25e-7;

/// Centre, half way, surface, mean, each as a share of the first difference.
fn ours(shape: &str, bi: f64, fo: f64, cells: usize, tolerance: f64) -> [f64; 4] {
    let constants = Constants {
        conductivity_w_m_k: K,
        specific_heat_j_kg_k: 4000.0,
        density_kg_m3: K / DIFFUSIVITY / 4000.0,
    };
    let meat = Meat::constant(constants).unwrap();
    let full = Length::from_m(2.0 * RADIUS);
    let shape = match shape {
        "slab" => Shape::Slab { thickness: full },
        "cylinder" => Shape::Cylinder { diameter: full },
        _ => Shape::Sphere { diameter: full },
    };
    let faces = Faces::all(Face::film(Temperature::from_c(0.0), bi * K / RADIUS));
    let stage = Stage::new("bath", faces, Until::Time(Span::from_s(fo * RADIUS * RADIUS / DIFFUSIVITY)));
    let depths = vec![Length::from_m(0.5 * RADIUS)];
    let settings = Settings { cells, tolerance, depths, colour: false, ..Settings::exact() };
    let start = Start::Even(Temperature::from_c(100.0));
    let found = simulate(&meat, &shape, &start, &[stage], &settings).unwrap();
    let half = found.curve.last().unwrap().at_depth_c[0];
    [found.centre_c, half, found.surface_c, found.mean_c].map(|t| t / 100.0)
}

/// Two grids and the limit they point to.
#[test]
fn every_row_within_its_tolerance() {
    let mut worst: f64 = 0.0;
    for (shape, bi, fo, expected) in ROWS {
        let coarse = ours(shape, bi, fo, 40, TIGHT);
        let fine = ours(shape, bi, fo, 80, TIGHT);
        let places = ["centre", "half", "surface", "mean"].iter().zip(expected);
        for (i, (place, expected)) in places.enumerate() {
            let found = carried_on(shape, coarse[i], fine[i]);
            let off = (found / expected - 1.0).abs();
            worst = worst.max(off);
            assert!(off < 1e-6, "{shape} Bi {bi} Fo {fo} {place}: {found} for {expected}, {off:.1e}");
        }
    }
    println!("worst {worst:.1e}");
}

/// Steps so short that what is left is the grid.
const TIGHT: f64 = 5e-8;

#[test]
fn default_settings_within_a_few_thousandths() {
    let mut worst = [0.0_f64; 2];
    for (shape, bi, fo, expected) in ROWS {
        for (i, (settings, limit)) in
            [(Settings::exact(), 1.5e-3), (Settings::ensemble(), 6e-3)].iter().enumerate()
        {
            let found = ours(shape, bi, fo, settings.cells, settings.tolerance);
            for (found, expected) in found.iter().zip(expected) {
                worst[i] = worst[i].max((found - expected).abs());
                assert!((found - expected).abs() < *limit, "{shape} Bi {bi} Fo {fo}: {found} for {expected}");
            }
        }
    }
    println!("worst distance, exact {:.1e}, ensemble {:.1e}", worst[0], worst[1]);
}

/// The limit two fine grids point to.
fn limit(shape: &str, bi: f64, fo: f64) -> [f64; 4] {
    let (coarse, fine) = (ours(shape, bi, fo, 40, TIGHT), ours(shape, bi, fo, 80, TIGHT));
    std::array::from_fn(|i| carried_on(shape, coarse[i], fine[i]))
}

/// Errors fall with the square of the cell; of a slab, whose cells spread to their neighbours, with the cube.
fn carried_on(shape: &str, coarse: f64, fine: f64) -> f64 {
    fine + (fine - coarse) / if shape == "slab" { 7.0 } else { 3.0 }
}

/// First eigenvalue and constant of the one-term solution, from Bi 0.2, 1, 5, 20 of thermal.toml, conduction_one_term.
const ONE_TERM: [(&str, f64, f64, f64); 12] = [
    ("slab", 0.2, 0.432_840_719_9, 1.031_087_65),
    ("slab", 1.0, 0.860_333_589, 1.119_132_008),
    ("slab", 5.0, 1.313_837_716, 1.240_249_309),
    ("slab", 20.0, 1.496_128_952, 1.269_916_016),
    ("cylinder", 0.2, 0.616_974_766_1, 1.048_304_374),
    ("cylinder", 1.0, 1.255_783_712, 1.207_092_058),
    ("cylinder", 5.0, 1.989_814_715, 1.502_869_103),
    ("cylinder", 20.0, 2.288_048_474, 1.591_943_67),
    ("sphere", 0.2, 0.759_307_689, 1.059_154_75),
    ("sphere", 1.0, std::f64::consts::FRAC_PI_2, 1.273_239_545),
    ("sphere", 5.0, 2.570_431_56, 1.787_000_863),
    ("sphere", 20.0, 2.985_723_956, 1.978_137_647),
];

pub(crate) fn rows() -> Vec<Row> {
    static ROWS: std::sync::LazyLock<Vec<Row>> = std::sync::LazyLock::new(compute);
    ROWS.clone()
}

fn compute() -> Vec<Row> {
    let series = ROWS.map(|(shape, bi, fo, [centre, ..])| {
        let what =
            format!("{shape}, Bi {bi}, Fo {fo}, centre (half way, surface and mean are tested beside)");
        Row::new("conduction_series", what, "", "computed", centre, limit(shape, bi, fo)[0], Fit::Share(1e-6))
    });
    let closed =
        "the closed form's own tolerance; an eigenvalue read off a computed decay is as good as the decay";
    let one_term = ONE_TERM.into_iter().flat_map(|(shape, bi, zeta, c1)| {
        // Late enough that the second term is gone, early enough that the first is not.
        let (early, late) = if bi < 5.0 { (1.5, 2.0) } else { (0.75, 1.0) };
        let [a, b] = [early, late].map(|fo| limit(shape, bi, fo)[0]);
        let found = ((a / b).ln() / (late - early)).sqrt();
        let row = |what: &str, told, ours| {
            let what = format!("{shape}, Bi {bi}, {what}");
            Row::new("conduction_one_term", what, "", "computed", told, ours, Fit::Share(1e-8)).misses(closed)
        };
        let constant = a * (found * found * early).exp();
        [row("ζ₁", zeta, found), row("C₁", c1, constant)]
    });
    series.into_iter().chain(one_term).collect()
}

/// Late in a bath one term is left: its eigenvalue and its constant to a ten-thousandth.
#[test]
fn one_term() {
    for row in rows().iter().filter(|row| row.block == "conduction_one_term") {
        let off = (row.ours.median / row.told[0] - 1.0).abs();
        println!("{}: {off:.1e}", row.what);
        assert!(off < 1e-4, "{}: {off:.1e}", row.what);
    }
}
