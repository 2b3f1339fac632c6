//! Hand methods of freezing and thawing: they live here as cross-checks and nowhere in the product. Plank (published; bricks'
//! P and R in closed form, computed), Cleland & Earle, Pham 1986, Cleland et al. 1986 and 1987 (from memory). thermal.toml,
//! plank_brick, plank_brick_limit, e_factor, time_method, method_vs_reference, freezing_example.

use super::reference_slab::ref_lean;
use super::rows::{Fit, Row, check};
use heat::{Constants, Face, Faces, Frozen, Meat, Settings, Shape, Stage, Start, Until, simulate};
use quantity::{Length, Temperature};

/// Plank's P and R of a brick of sides 1 : b1 : b2.
fn plank_brick(b1: f64, b2: f64) -> (f64, f64) {
    let p = b1 * b2 / (2.0 * (b1 * b2 + b1 + b2));
    let root = ((b1 - b2) * (b1 - 1.0) + (b2 - 1.0).powi(2)).sqrt();
    let (r, s) = ((b1 + b2 + 1.0 + root) / 3.0, (b1 + b2 + 1.0 - root) / 3.0);
    let part = |x: f64| {
        let below = x - 1.0;
        // At x = 1 the logarithm's pole meets a zero: nothing.
        if below.abs() < 1e-12 { 0.0 } else { below * (b1 - x) * (b2 - x) * (x / below).ln() }
    };
    // A cube: 1/Q is nought, and what it divides too; the limit is met a hair beside.
    if root < 1e-9 {
        return (p, plank_brick(b1 + 1e-5, b2 + 1e-5).1);
    }
    (p, (part(r) - part(s)) / (8.0 * root) + (2.0 * b1 + 2.0 * b2 - 1.0) / 72.0)
}

/// Cleland et al. (1987): how much faster a brick is than its slab; Bi on the full thickness.
fn e_cleland(bi: f64, b1: f64, b2: f64) -> f64 {
    let share = |b: f64| {
        let x = 2.32 * b.powf(-1.77);
        x / (bi.powf(1.34) + x)
    };
    let (x1, x2) = (share(b1), share(b2));
    1.0 + x1 / b1 + (1.0 - x1) * 0.73 / b1.powf(2.5) + x2 / b2 + (1.0 - x2) * 0.50 / b2.powf(3.69)
}

/// The same by the ellipsoid that stands for it; Bi on the half thickness.
fn e_ellipsoid(bi: f64, b1: f64, b2: f64) -> f64 {
    let side = |b: f64| (1.0 + 2.0 / bi) / (b * b + 2.0 * b / bi);
    1.0 + side(b1) + side(b2)
}

/// Of lean beef as the reference slabs have it: volumetric heat from the freezing point to −10 °C, thawed and frozen heat, and
/// conductivity; from the material's own formulas.
const TF: f64 = -1.7;
const C_THAWED: f64 = 3.52e3 * 1050.0;
const C_FROZEN: f64 = 2.11e3 * 1050.0;

struct Slab {
    thickness: f64,
    film: f64,
    start_c: f64,
    air_c: f64,
}

/// Cleland & Earle, slab, centre to −10 °C, then on to `centre_c`; s.
fn cleland_earle(slab: &Slab, centre_c: f64) -> f64 {
    let (k, dh) = (1.48, heat_between(TF, -10.0));
    let bi = slab.film * slab.thickness / k;
    let ste = C_FROZEN * (TF - slab.air_c) / dh;
    let pk = C_THAWED * (slab.start_c - TF) / dh;
    let p = 0.5072 + 0.2018 * pk + ste * (0.3224 * pk + 0.0105 / bi + 0.0681);
    let r = 0.1684 + ste * (0.2740 * pk - 0.0135);
    let thickness = slab.thickness;
    let to_ten = dh / (TF - slab.air_c) * (p * thickness / slab.film + r * thickness * thickness / k);
    to_ten * (1.0 - 1.65 * ste / k * ((centre_c - slab.air_c) / (-10.0 - slab.air_c)).ln())
}

/// Pham 1986, slab, with the latent heat that makes the enthalpies agree; s.
fn pham(slab: &Slab, centre_c: f64) -> f64 {
    let (k, air) = (1.48, slab.air_c);
    let mean = 1.8 + 0.263 * centre_c + 0.105 * air;
    let (h1, h2) = (
        C_THAWED * (slab.start_c - mean),
        heat_between(slab.start_c, centre_c) - C_THAWED * (slab.start_c - mean),
    );
    let (t1, t2) = (0.5 * (slab.start_c + mean) - air, mean - air);
    let bi = slab.film * slab.thickness / k;
    slab.thickness / (2.0 * slab.film) * (h1 / t1 + h2 / t2) * (1.0 + bi / 4.0)
}

/// J/m³ of the reference material.
fn heat_between(from_c: f64, to_c: f64) -> f64 {
    let meat = ref_lean();
    let h = |c: f64| meat.properties_at(c).unwrap().enthalpy_j_kg * meat.density_kg_m3();
    h(from_c) - h(to_c)
}

/// Cleland et al. (1986), thawing of a slab, centre to 0 °C; s.
fn thaw_cleland(slab: &Slab) -> f64 {
    let (k, dh) = (0.48, heat_between(0.0, -10.0));
    let bi = slab.film * slab.thickness / k;
    let ste = C_THAWED * (slab.air_c - TF) / dh;
    let pk = C_FROZEN * (TF - slab.start_c) / dh;
    let fo = 1.4291 * (0.5 / (bi * ste) + 0.125 / ste).powf(1.0248) * ste.powf(0.2712) * pk.powf(0.0610);
    fo * C_THAWED * slab.thickness * slab.thickness / k
}

fn ours(meat: &Meat, shape: &Shape, (start_c, air_c, film): (f64, f64, f64), centre_c: f64) -> f64 {
    let faces = Faces::all(Face::film(Temperature::from_c(air_c), film));
    let stage = Stage::new("method", faces, Until::Centre(Temperature::from_c(centre_c)));
    let settings = Settings { colour: false, ..Settings::exact() };
    let start = Start::Even(Temperature::from_c(start_c));
    let found = simulate(meat, shape, &start, &[stage], &settings).unwrap();
    assert!(found.stages[0].reached);
    found.time_s
}

/// Plank's own case: nothing but latent heat, from the freezing point.
fn plank_case(shape: &Shape, density: f64, latent: f64, k: f64, at: (f64, f64, f64)) -> f64 {
    let constants = Constants { conductivity_w_m_k: k, specific_heat_j_kg_k: 20.0, density_kg_m3: density };
    let (freezing_point_c, air_c, film) = at;
    let frozen = Frozen { freezing_point_c, latent_j_kg: latent, constants };
    let meat = Meat::frozen_constants(constants, frozen).unwrap();
    ours(&meat, shape, (freezing_point_c + 0.01, air_c, film), freezing_point_c - 0.5)
}

fn plank_examples() -> Vec<Row> {
    let slab = |m: f64| Shape::Slab { thickness: Length::from_m(m) };
    let sphere = Shape::Sphere { diameter: Length::from_m(0.07) };
    let cases = [
        (
            "geankoplis_meat_slab",
            slab(0.0635),
            1057.0,
            251_250.0,
            1.038,
            (-2.75, -28.85, 17.0),
            23_944.4,
            "from memory",
        ),
        (
            "sh_beef_steak_5cm",
            slab(0.05),
            970.0,
            0.73 * 333_200.0,
            1.1,
            (-1.75, -30.0, 5.0),
            44_131.78,
            "secondary",
        ),
        ("sphere_7cm", sphere, 1000.0, 250_000.0, 1.2, (-1.25, -40.0, 30.0), 3606.63, "published"),
    ];
    let mut rows: Vec<Row> = cases
        .into_iter()
        .map(|(id, shape, density, latent, k, at, told, status)| {
            let found = plank_case(&shape, density, latent, k, at);
            Row::new(
                "freezing_example",
                format!("{id}, Plank's own case"),
                "s",
                status,
                told,
                found,
                Fit::Share(0.01),
            )
        })
        .collect();
    let m = Length::from_m;
    let brick = Shape::Brick { thickness: m(0.04), width: m(0.12), length: m(0.16) };
    let found = ours(&ref_lean(), &brick, (10.0, -30.0, 40.0), -10.0);
    let what = "ashrae_beef_brick, centre to −10 °C, method good to 10 %";
    rows.push(Row::new("freezing_example", what, "s", "from memory", 5241.39, found, Fit::Share(0.10)));
    rows
}

pub(crate) fn rows() -> Vec<Row> {
    static ROWS: std::sync::LazyLock<Vec<Row>> = std::sync::LazyLock::new(compute);
    ROWS.clone()
}

fn compute() -> Vec<Row> {
    let mut rows = Vec::new();
    for (b1, b2, p, r) in [
        (1.0, 1.0, 0.166_666_666_7, 0.041_666_666_67),
        (2.0, 2.0, 0.25, 0.071_550_104_42),
        (3.0, 4.0, 0.315_789_473_7, 0.088_673_431_33),
        (1.0, 3.0, 0.214_285_714_3, 0.055_769_200_89),
        (1.5, 2.5, 0.241_935_483_9, 0.068_555_655_12),
    ] {
        let found = plank_brick(b1, b2);
        let tolerance = if b1 == b2 && b1 == 1.0 { 1e-4 } else { 1e-8 };
        let row = |what: &str, told, ours| {
            Row::new(
                "plank_brick",
                format!("1 : {b1} : {b2}, {what}"),
                "",
                "computed",
                told,
                ours,
                Fit::Share(tolerance),
            )
        };
        rows.extend([row("P", p, found.0), row("R", r, found.1)]);
    }
    let (p, r) = plank_brick(1e6, 1e6 + 1.0);
    let limit = |what: &str, told, ours| {
        Row::new("plank_brick_limit", what, "", "published", told, ours, Fit::Share(1e-4))
    };
    rows.extend([limit("slab, P", 0.5, p), limit("slab, R", 0.125, r)]);
    let (p, r) = plank_brick(1.0, 1e6);
    rows.extend([limit("square rod, P", 0.25, p), limit("square rod, R", 0.0625, r)]);
    for (bi, b1, b2, told, [e1, e2], by_ellipsoid) in [
        (0.5, 1.0, 1.0, 2.887_969_2, [1.273_239_5, 1.5], 2.393_835_1),
        (0.963_855_421_7, 3.0, 4.0, 1.166_689_6, [3.819_718_6, 6.0], 1.253_738_6),
        (5.0, 1.5, 2.0, 1.383_832_7, [1.909_859_3, 3.0], 1.505_690_6),
        (10.0, 1.2, 1.8, 1.564_352, [1.527_887_5, 2.7], 1.642_55),
    ] {
        let row = |what: &str, told, ours| {
            Row::new(
                "e_factor",
                format!("1 : {b1} : {b2}, Bi {bi:.3}, {what}"),
                "",
                "computed",
                told,
                ours,
                Fit::Share(1e-6),
            )
        };
        rows.push(row("side ratios", told, e_cleland(bi, b1, b2)));
        rows.push(row("ellipsoid", by_ellipsoid, e_ellipsoid(0.5 * bi, e1, e2)));
    }
    rows.extend(plank_examples());
    rows.extend(against_slabs());
    rows
}

/// Formula over our own time; told: formula over the numerical reference.
fn against_slabs() -> Vec<Row> {
    let still = Slab { thickness: 0.025, film: 10.0, start_c: 4.0, air_c: -20.0 };
    let blast = Slab { thickness: 0.06, film: 25.0, start_c: 4.0, air_c: -25.0 };
    let mut rows = Vec::new();
    for (name, slab, centre, by_cleland, by_pham) in [
        ("25 mm still to −10 °C", &still, -10.0, 0.902, 0.925),
        ("25 mm still to −18 °C", &still, -18.0, 0.867, 0.834),
        ("60 mm blast to −10 °C", &blast, -10.0, 0.942, 0.945),
        ("60 mm blast to −18 °C", &blast, -18.0, 0.929, 0.955),
    ] {
        let shape = Shape::Slab { thickness: Length::from_m(slab.thickness) };
        let time = ours(&ref_lean(), &shape, (slab.start_c, slab.air_c, slab.film), centre);
        let row = |what: &str, told, ours| {
            Row::new(
                "method_vs_reference",
                format!("{what}, {name}"),
                "of the time",
                "computed",
                told,
                ours,
                Fit::Share(0.03),
            )
        };
        rows.push(row("Cleland & Earle", by_cleland, cleland_earle(slab, centre) / time));
        rows.push(row("Pham 1986", by_pham, pham(slab, centre) / time));
    }
    for (name, air_c, film, told) in
        [("25 mm in water at 20 °C", 20.0, 200.0, 1.084), ("25 mm in a fridge at 4 °C", 4.0, 8.0, 0.924)]
    {
        let slab = Slab { thickness: 0.025, film, start_c: -18.0, air_c };
        let shape = Shape::Slab { thickness: Length::from_m(slab.thickness) };
        let time = ours(&ref_lean(), &shape, (slab.start_c, air_c, film), 0.0);
        let (what, ratio) = (format!("Cleland et al. 1986, thawing {name}"), thaw_cleland(&slab) / time);
        rows.push(Row::new(
            "method_vs_reference",
            what,
            "of the time",
            "computed",
            told,
            ratio,
            Fit::Share(0.03),
        ));
    }
    let m = Length::from_m;
    let slab = |thickness: f64| Shape::Slab { thickness: m(thickness) };
    let brick = |[a, b, c]: [f64; 3]| Shape::Brick { thickness: m(a), width: m(b), length: m(c) };
    for (name, sizes, at, centre, told) in [
        ("freezing 40 × 120 × 160 mm to −10 °C", [0.04, 0.12, 0.16], (10.0, -30.0, 40.0), -10.0, 1.098),
        ("thawing 30 × 90 × 140 mm to 0 °C", [0.03, 0.09, 0.14], (-18.0, 6.0, 60.0), 0.0, 1.063),
    ] {
        let ratio =
            ours(&ref_lean(), &slab(sizes[0]), at, centre) / ours(&ref_lean(), &brick(sizes), at, centre);
        let what = format!("slab over brick, {name}");
        rows.push(Row::new("method_vs_reference", what, "", "computed", told, ratio, Fit::Share(0.01)));
    }
    rows
}

#[test]
fn every_row() {
    check(&rows());
}
