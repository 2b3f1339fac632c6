//! First-order denaturation of myoglobin in beef chuck (Geileskey et al. 1998, as quoted in a thesis; secondary): constants,
//! printed statements, and values of the formula (computed). cooking.toml, myoglobin_kinetics, myoglobin_kinetics_qualifier,
//! myoglobin_check, myoglobin_formula_values. Ours is the loin's rate, twice the chuck's (the source's own ratio).

use super::rows::{Fit, Row, check};
use heat::colour::{GREY, denatured, ln_rate};

/// 1/min, of chuck.
fn rate(celsius: f64) -> f64 {
    60.0 * (ln_rate(celsius) - 2.0_f64.ln()).exp()
}

/// °C, 1/min, minutes to a tenth.
const VALUES: [(f64, f64, f64); 8] = [
    (50.0, 0.001057, 2178.0),
    (54.0, 0.003956, 582.0),
    (57.0, 0.01042, 220.9),
    (60.0, 0.02699, 85.3),
    (63.0, 0.06871, 33.5),
    (65.0, 0.1269, 18.1),
    (70.0, 0.5706, 4.04),
    (75.0, 2.457, 0.937),
];

pub(crate) fn rows() -> Vec<Row> {
    let mut rows = Vec::new();
    let formula = "myoglobin_formula_values";
    for (celsius, k, d) in VALUES {
        let what = format!("rate at {celsius} °C");
        rows.push(Row::new(formula, what, "1/min", "computed", k, rate(celsius), Fit::Share(1e-3)));
        let (what, ours) = (format!("tenfold fall at {celsius} °C"), 10.0_f64.ln() / rate(celsius));
        rows.push(Row::new(formula, what, "min", "computed", d, ours, Fit::Share(3e-3)));
    }
    let z = 0.2 / (rate(60.1) / rate(59.9)).log10();
    rows.push(Row::new(formula, "z at 60 °C", "K", "computed", 7.33, z, Fit::Within(0.01)));
    let check = "myoglobin_check";
    let minutes = -(1.0 - 0.065_f64).ln() / rate(63.0);
    rows.push(Row::new(
        check,
        "6.5 % at 63 °C, about a minute",
        "min",
        "secondary",
        1.0,
        minutes,
        Fit::Share(0.1),
    ));
    let minutes = -(1.0 - 0.93_f64).ln() / rate(60.0);
    rows.push(
        Row::new(check, "93 % at 60 °C, more than", "min", "secondary", 30.0, minutes, Fit::Told)
            .told(30.0, f64::INFINITY),
    );
    rows.push(Row::new(
        "myoglobin_kinetics",
        "well done from",
        "",
        "secondary",
        0.93,
        GREY,
        Fit::Within(0.0),
    ));
    let ratio = (ln_rate(60.0)).exp() * 60.0 / 0.02699;
    let (what, block) = ("loin over chuck at 60 °C", "myoglobin_kinetics_qualifier");
    rows.push(Row::new(block, what, "", "published", 2.0, ratio, Fit::Share(1e-3)));
    // The abstract's rounded energy, beside the thesis' 290.
    let energy = 8.314e-3 * 333.15 * 333.15 * (ln_rate(60.5) - ln_rate(59.5));
    rows.push(Row::new(
        block,
        "energy of activation",
        "kJ/mol",
        "published",
        300.0,
        energy,
        Fit::Share(0.05),
    ));
    rows
}

#[test]
fn every_row() {
    check(&rows());
}

/// The formula's 6.5 % is where the source puts rare, 93 % where it puts well done: a second at 63 °C is neither.
#[test]
fn a_dose_is_a_share() {
    assert!((denatured(rate(63.0)) - 0.065).abs() < 0.003);
}
