//! Properties of beef from the constituents' polynomials (thermal.toml, property_computed: computed; tolerance 1e-5) and
//! two-phase conductivity for fixed inputs (two_phase_conductivity: computed; 1e-6).
//!
//! Known miss by choice: the rows' enthalpy and apparent specific heat are Chen's short formulas. Ours sum the
//! constituents, which is what the rows' `cp_unfrozen_sum` does; the distance of the two roads is asserted.

use super::rows::{Fit, Row as Told};
use heat::{Composition, Meat, Overrides, levy, parallel, perpendicular};

struct Row {
    cut: &'static str,
    shares: [f64; 4],
    c: f64,
    ice: f64,
    density: f64,
    parallel: f64,
    perpendicular: f64,
    chen_kj_kg: f64,
    sum_kj_kg_k: Option<f64>,
}

const ROWS: [Row; 11] = [
    Row {
        cut: "sirloin, lean",
        shares: [0.717, 0.2124, 0.044, 0.0108],
        c: -25.0,
        ice: 0.5890613,
        density: 1022.069,
        parallel: 1.698894,
        perpendicular: 0.5292356,
        chen_kj_kg: 33.97534,
        sum_kj_kg_k: None,
    },
    Row {
        cut: "sirloin, lean",
        shares: [0.717, 0.2124, 0.044, 0.0108],
        c: -18.0,
        ice: 0.5723473,
        density: 1022.416,
        parallel: 1.620977,
        perpendicular: 0.5384799,
        chen_kj_kg: 52.89717,
        sum_kj_kg_k: None,
    },
    Row {
        cut: "sirloin, lean",
        shares: [0.717, 0.2124, 0.044, 0.0108],
        c: -10.0,
        ice: 0.5245932,
        density: 1025.405,
        parallel: 1.489829,
        perpendicular: 0.5342082,
        chen_kj_kg: 84.08059,
        sum_kj_kg_k: None,
    },
    Row {
        cut: "sirloin, lean",
        shares: [0.717, 0.2124, 0.044, 0.0108],
        c: -5.0,
        ice: 0.4171464,
        density: 1034.498,
        parallel: 1.273592,
        perpendicular: 0.4998952,
        chen_kj_kg: 129.4577,
        sum_kj_kg_k: None,
    },
    Row {
        cut: "sirloin, lean",
        shares: [0.717, 0.2124, 0.044, 0.0108],
        c: -2.0,
        ice: 0.094806,
        density: 1065.107,
        parallel: 0.6636853,
        perpendicular: 0.4036373,
        chen_kj_kg: 242.7102,
        sum_kj_kg_k: None,
    },
    Row {
        cut: "sirloin, lean",
        shares: [0.717, 0.2124, 0.044, 0.0108],
        c: 4.0,
        ice: 0.0,
        density: 1073.994,
        parallel: 0.4887206,
        perpendicular: 0.3889446,
        chen_kj_kg: 295.0012,
        sum_kj_kg_k: Some(3.521144),
    },
    Row {
        cut: "sirloin, lean",
        shares: [0.717, 0.2124, 0.044, 0.0108],
        c: 20.0,
        ice: 0.0,
        density: 1071.272,
        parallel: 0.51113,
        perpendicular: 0.4098505,
        chen_kj_kg: 351.3991,
        sum_kj_kg_k: Some(3.526877),
    },
    Row {
        cut: "sirloin, lean",
        shares: [0.717, 0.2124, 0.044, 0.0108],
        c: 60.0,
        ice: 0.0,
        density: 1057.464,
        parallel: 0.5550106,
        perpendicular: 0.4490941,
        chen_kj_kg: 492.3937,
        sum_kj_kg_k: Some(3.548813),
    },
    Row {
        cut: "tenderloin, lean",
        shares: [0.684, 0.2078, 0.079, 0.0104],
        c: -30.0,
        ice: 0.5668301,
        density: 1024.147,
        parallel: 1.676734,
        perpendicular: 0.4793662,
        chen_kj_kg: 22.32136,
        sum_kj_kg_k: None,
    },
    Row {
        cut: "tenderloin, lean",
        shares: [0.684, 0.2078, 0.079, 0.0104],
        c: -12.0,
        ice: 0.5157553,
        density: 1025.574,
        parallel: 1.468494,
        perpendicular: 0.4940271,
        chen_kj_kg: 74.42679,
        sum_kj_kg_k: None,
    },
    Row {
        cut: "tenderloin, lean",
        shares: [0.684, 0.2078, 0.079, 0.0104],
        c: 5.0,
        ice: 0.0,
        density: 1072.521,
        parallel: 0.4755513,
        perpendicular: 0.3699048,
        chen_kj_kg: 289.6195,
        sum_kj_kg_k: Some(3.443641),
    },
];

fn near(what: &str, found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance * expected.abs().max(1e-3),
        "{what}: {found} for {expected}"
    );
}

#[test]
fn every_row_within_its_tolerance() {
    let mut worst: f64 = 0.0;
    for row in &ROWS {
        let [water, protein, fat, ash] = row.shares;
        let shares = Composition { water, protein, fat, carbohydrate: 0.0, ash };
        let meat = Meat::composed(shares, Overrides { freezing_point_c: Some(-1.7), ..Overrides::default() })
            .unwrap();
        let found = meat.properties_at(row.c).unwrap();
        let name = |what: &str| format!("{} at {} °C, {what}", row.cut, row.c);
        near(&name("ice"), found.ice_share, row.ice, 1e-5);
        near(&name("density"), found.density_kg_m3, row.density, 1e-5);
        near(&name("parallel"), found.conductivity_parallel_w_m_k, row.parallel, 1e-5);
        near(&name("perpendicular"), found.conductivity_perpendicular_w_m_k, row.perpendicular, 1e-5);
        assert!(found.conductivity_w_m_k > row.perpendicular && found.conductivity_w_m_k < row.parallel);
        if let Some(sum) = row.sum_kj_kg_k {
            near(&name("specific heat"), found.specific_heat_j_kg_k * 1e-3, sum, 1e-5);
        }
        let off = found.enthalpy_j_kg * 1e-3 - row.chen_kj_kg;
        worst = worst.max(off.abs());
        println!(
            "{} {:6.1} °C: {:7.1} kJ/kg, Chen {:7.1}",
            row.cut,
            row.c,
            found.enthalpy_j_kg * 1e-3,
            row.chen_kj_kg
        );
    }
    assert!(worst < CHEN, "{worst} kJ/kg from Chen's formula");
}

/// kJ/kg; the latent heat between two temperatures is some 200.
const CHEN: f64 = 16.0;

#[test]
fn the_slope_of_enthalpy_is_the_specific_heat() {
    let shares = Composition { water: 0.717, protein: 0.2124, fat: 0.044, carbohydrate: 0.0, ash: 0.0108 };
    let meat = Meat::composed(shares, Overrides::default()).unwrap();
    for c in [-38.0, -18.0, -5.0, -2.0, 4.0, 60.0, 140.0] {
        let step = 1e-4;
        let h = |c: f64| meat.properties_at(c).unwrap().enthalpy_j_kg;
        let slope = (h(c + step) - h(c - step)) / (2.0 * step);
        near("slope", meat.properties_at(c).unwrap().specific_heat_j_kg_k, slope, 1e-4);
    }
}

#[test]
fn two_phases() {
    // k1, k2, share of 1; parallel, perpendicular, Levy.
    for (k1, k2, v1, [par, perp, lev]) in
        [(2.35, 0.45, 0.6, [1.59, 0.87396694, 1.3134054]), (2.35, 0.45, 0.3, [1.02, 0.59410112, 0.80821089])]
    {
        let parts = [(v1, k1), (1.0 - v1, k2)];
        near("parallel", parallel(&parts), par, 1e-6);
        near("perpendicular", perpendicular(&parts), perp, 1e-6);
        near("Levy", levy(v1, k1, k2), lev, 1e-6);
        near("Levy, turned round", levy(1.0 - v1, k2, k1), lev, 1e-6);
    }
}

/// Sweat, Haugh, Stadelman (1973), J. Food Sci. 38, abstract: white chicken meat, −75 to −10 °C and 0 to 20 °C (published);
/// composition from memory: 74.5 % water, 23.5 % protein, 1 % fat. Lean meat of another animal: within 10 %.
#[test]
fn conductivity_of_lean_white_meat_as_measured() {
    let shares = Composition { water: 0.745, protein: 0.235, fat: 0.01, carbohydrate: 0.0, ash: 0.01 };
    let meat = Meat::composed(shares, Overrides::default()).unwrap();
    for c in [-40.0, -30.0, -20.0, -10.0, 0.0, 10.0, 20.0] {
        let measured = if c < -5.0 { 1.07 - 0.0149 * c - 1.04e-4 * c * c } else { 0.476 + 6.0e-4 * c };
        let ours = meat.properties_at(c).unwrap().conductivity_w_m_k;
        println!(
            "{c:5} °C: measured {measured:.3}, ours {ours:.3}, {:+.1} %",
            100.0 * (ours / measured - 1.0)
        );
        near("conductivity", ours, measured, 0.10);
    }
}

/// Enthalpy of beef, kJ/kg from −40 °C, after Mott (1964) as tabulated in textbooks (from memory): compared by differences from
/// −17.8 °C; tolerance 12 %. thermal.toml, beef_enthalpy_measured. That beef began to freeze near −2 °C, not at −1.1, so the
/// rows on the way are met with its own freezing point; from frozen to thawed the choice does not matter.
#[test]
fn enthalpy_as_tabulated() {
    let shares = Composition { water: 0.72, protein: 0.22, fat: 0.05, carbohydrate: 0.0, ash: 0.01 };
    let frozen_to_thawed = [(1.7, 288.4), (4.4, 297.9), (10.0, 315.8), (15.6, 333.5)];
    let on_the_way = [(-5.6, 115.8), (-3.9, 151.6), (-2.8, 197.2)];
    for (freezing, rows) in [(None, &frozen_to_thawed[..]), (Some(-2.0), &on_the_way[..])] {
        let overrides = Overrides { freezing_point_c: freezing, ..Overrides::default() };
        let meat = Meat::composed(shares, overrides).unwrap();
        let h = |c| meat.properties_at(c).unwrap().enthalpy_j_kg * 1e-3;
        for &(c, tabulated) in rows {
            let (ours, theirs) = (h(c) - h(-17.8), tabulated - 42.6);
            println!("{c:5} °C: tabulated {theirs:.1}, ours {ours:.1} kJ/kg above −17.8 °C");
            near("enthalpy", ours, theirs, 0.12);
        }
    }
}

/// James & James (2002), Meat Refrigeration, table 13.2 after Morley (1972), mean specific heats of beef (published).
#[test]
fn specific_heat_as_measured() {
    let mean = |water: f64, protein: f64, fat: f64, from: f64, to: f64| {
        let shares = Composition { water, protein, fat, carbohydrate: 0.0, ash: 0.01 };
        let meat = Meat::composed(shares, Overrides::default()).unwrap();
        let h = |c| meat.properties_at(c).unwrap().enthalpy_j_kg;
        (h(to) - h(from)) / (to - from) * 1e-3
    };
    // Water and fat as told, protein the rest.
    near("lean, 74.5 % water", mean(0.745, 0.215, 0.03, 0.0, 10.0), 3.6, 0.02);
    near("lean, 72 % water", mean(0.72, 0.22, 0.05, 0.0, 100.0), 3.43, 0.06);
    // Known miss: 8 % high. The fit gives fat and dry lean 2 kJ/(kg K); the old measurement had them lower.
    let fatty = mean(0.51, 0.15, 0.33, 0.0, 100.0);
    assert!((1.07..1.09).contains(&(fatty / 2.89)), "{fatty}");
}

pub(crate) fn rows() -> Vec<Told> {
    let mut rows = Vec::new();
    for row in &ROWS {
        let [water, protein, fat, ash] = row.shares;
        let shares = Composition { water, protein, fat, carbohydrate: 0.0, ash };
        let overrides = Overrides { freezing_point_c: Some(-1.7), ..Overrides::default() };
        let found = Meat::composed(shares, overrides).unwrap().properties_at(row.c).unwrap();
        let mut push = |what: &str, unit, told, ours| {
            let what = format!("{} at {} °C, {what}", row.cut, row.c);
            rows.push(Told::new("property_computed", what, unit, "computed", told, ours, Fit::Share(1e-5)));
        };
        push("ice", "", row.ice, found.ice_share);
        push("density", "kg/m³", row.density, found.density_kg_m3);
        push("parallel", "W/(m K)", row.parallel, found.conductivity_parallel_w_m_k);
        push("perpendicular", "W/(m K)", row.perpendicular, found.conductivity_perpendicular_w_m_k);
        if let Some(sum) = row.sum_kj_kg_k {
            push("specific heat", "kJ/(kg K)", sum, found.specific_heat_j_kg_k * 1e-3);
        }
        let (what, ours) =
            (format!("{} at {} °C, enthalpy (Chen)", row.cut, row.c), found.enthalpy_j_kg * 1e-3);
        let row =
            Told::new("property_computed", what, "kJ/kg", "computed", row.chen_kj_kg, ours, Fit::Share(1e-5));
        rows.push(row.misses("Chen's short formula beside a sum over constituents"));
    }
    for (k1, k2, share, [par, perp, lev]) in
        [(2.35, 0.45, 0.6, [1.59, 0.87396694, 1.3134054]), (2.35, 0.45, 0.3, [1.02, 0.59410112, 0.80821089])]
    {
        let parts = [(share, k1), (1.0 - share, k2)];
        let found = [
            ("parallel", par, parallel(&parts)),
            ("perpendicular", perp, perpendicular(&parts)),
            ("Levy", lev, levy(share, k1, k2)),
        ];
        for (what, told, ours) in found {
            let what = format!("share {share}, {what}");
            rows.push(Told::new(
                "two_phase_conductivity",
                what,
                "W/(m K)",
                "computed",
                told,
                ours,
                Fit::Share(1e-6),
            ));
        }
    }
    rows
}
