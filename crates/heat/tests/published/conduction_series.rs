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

/// Biot numbers, and for each the first eigenvalue and constant of the one-term solution (thermal.toml, conduction_one_term; computed).
const BIOT: [f64; 21] = [
    0.01, 0.02, 0.05, 0.1, 0.2, 0.3, 0.5, 0.7, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 7.0, 10.0, 15.0, 20.0, 30.0,
    50.0, 100.0,
];
const ONE_TERM: [(&str, [f64; 21], [f64; 21]); 3] = [
    (
        "slab",
        [
            0.099_833_638_55,
            0.140_951_676_4,
            0.221_760_393_9,
            0.311_052_848_2,
            0.432_840_719_9,
            0.521_791_176_3,
            0.653_271_187_1,
            0.750_558_056_2,
            0.860_333_589,
            0.988_240_732_4,
            1.076_873_986,
            1.192_458_829,
            1.264_591_571,
            1.313_837_716,
            1.376_615_041,
            1.428_870_011,
            1.472_915_732,
            1.496_128_952,
            1.520_167_384,
            1.540_005_942,
            1.555_245_129,
        ],
        [
            1.001_660_844,
            1.003_310_086,
            1.008_188_854,
            1.016_094_217,
            1.031_087_65,
            1.045_047_056,
            1.070_128_137,
            1.091_847_542,
            1.119_132_008,
            1.153_670_355,
            1.178_455_787,
            1.210_226_449,
            1.228_707_658,
            1.240_249_309,
            1.253_175_234,
            1.261_962_589,
            1.267_648_76,
            1.269_916_016,
            1.271_678_059,
            1.272_651_81,
            1.273_087_62,
        ],
    ),
    (
        "cylinder",
        [
            0.141_244_763_7,
            0.199_501_042_2,
            0.314_261_648_4,
            0.441_681_782_9,
            0.616_974_766_1,
            0.746_461_212_3,
            0.940_770_563_9,
            1.087_254_289,
            1.255_783_712,
            1.456_948_698,
            1.599_449_206,
            1.788_657_173,
            1.908_078_791,
            1.989_814_715,
            2.093_731_332,
            2.179_496_597,
            2.250_879_454,
            2.288_048_474,
            2.326_143_427,
            2.357_242_054,
            2.380_901_663,
        ],
        [
            1.002_495_829,
            1.004_983_299,
            1.012_395_314,
            1.024_579_359,
            1.048_304_374,
            1.071_161_517,
            1.114_254_631,
            1.153_885_476,
            1.207_092_058,
            1.280_677_453,
            1.338_377_145,
            1.419_094_929,
            1.469_795_567,
            1.502_869_103,
            1.541_106_296,
            1.567_691_842,
            1.585_035_191,
            1.591_943_67,
            1.597_288_351,
            1.600_221_242,
            1.601_523_874,
        ],
    ),
    (
        "sphere",
        [
            0.173_031_987_1,
            0.244_459_707_5,
            0.385_368_098_1,
            0.542_280_885_4,
            0.759_307_689,
            0.920_786_825_7,
            1.165_561_185,
            1.352_522_339,
            std::f64::consts::FRAC_PI_2,
            1.836_597_203,
            2.028_757_838,
            2.288_929_728,
            2.455_643_863,
            2.570_431_56,
            2.716_459_748,
            2.836_300_389,
            2.934_946_222,
            2.985_723_956,
            3.037_240_649,
            3.078_841_645,
            3.110_186_953,
        ],
        [
            1.002_998_062,
            1.005_992_209,
            1.014_950_593,
            1.029_797_705,
            1.059_154_75,
            1.088_020_913,
            1.144_106_342,
            1.197_759_339,
            1.273_239_545,
            1.384_962_561,
            1.479_318_976,
            1.622_680_606,
            1.720_172_3,
            1.787_000_863,
            1.867_346_583,
            1.924_908_59,
            1.962_958_151,
            1.978_137_647,
            1.989_840_188,
            1.996_220_607,
            1.999_033_473,
        ],
    ),
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
    let one_term = ONE_TERM.into_iter().flat_map(|(shape, zetas, constants)| {
        let found: Vec<(f64, f64)> =
            BIOT.iter().zip(zetas).map(|(bi, zeta)| first_term(shape, *bi, zeta)).collect();
        let worst = |told: [f64; 21], ours: fn(&(f64, f64)) -> f64| {
            found.iter().zip(told).map(|(found, told)| (ours(found) / told - 1.0).abs()).fold(0.0, f64::max)
        };
        let row = |what: &str, off: f64| {
            let what = format!("{shape}, {what}, worst distance over Bi 0.01 to 100");
            Row::new("conduction_one_term", what, "", "computed", 0.0, off, Fit::Within(1e-8)).misses(closed)
        };
        [row("ζ₁", worst(zetas, |found| found.0)), row("C₁", worst(constants, |found| found.1))]
    });
    series.into_iter().chain(one_term).collect()
}

/// Late in a bath one term is left: its eigenvalue, about which `zeta` tells when to look, and its constant.
fn first_term(shape: &str, bi: f64, zeta: f64) -> (f64, f64) {
    // Late enough that the second term is gone, early enough that the first is not.
    let early = if bi < 5.0 { 1.5 } else { 0.75 };
    let late = early + 1.0 / (zeta * zeta);
    let [a, b] = [early, late].map(|fo| {
        let (coarse, fine) = (ours(shape, bi, fo, 30, 1e-7)[0], ours(shape, bi, fo, 60, 1e-7)[0]);
        carried_on(shape, coarse, fine)
    });
    let found = ((a / b).ln() / (late - early)).sqrt();
    (found, a * (found * found * early).exp())
}

/// Over twenty-one Biot numbers each, to a ten-thousandth.
#[test]
fn one_term() {
    for row in rows().iter().filter(|row| row.block == "conduction_one_term") {
        println!("{}: {:.1e}", row.what, row.ours.median);
        assert!(row.ours.median < 1e-4, "{}: {:.1e}", row.what, row.ours.median);
    }
}
