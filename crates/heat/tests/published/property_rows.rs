//! Every row of the property blocks for the docs' table: thermal.toml, property_example (handbook examples, from memory),
//! beef_enthalpy_measured (from memory), beef_specific_heat_measured, beef_conductivity_measured, freezing_point (published or
//! secondary); cooking.toml, salted_freezing_point and plain_freezing_point (published).

use super::rows::{Fit, Row, check};
use heat::{Composition, Meat, Overrides, freezing_point_c};

fn meat([water, protein, fat, ash]: [f64; 4], freezing: Option<f64>) -> Meat {
    let shares = Composition { water, protein, fat, carbohydrate: 0.0, ash };
    Meat::composed(shares, Overrides { freezing_point_c: freezing, ..Overrides::default() }).unwrap()
}

fn examples() -> Vec<Row> {
    let row = |what: &str, unit, told, ours, share| {
        Row::new("property_example", what, unit, "from memory", told, ours, Fit::Share(share))
    };
    let pork = meat([0.7263, 0.1955, 0.0714, 0.0102], Some(-2.2)).properties_at(-40.0).unwrap();
    // Tchigeov's curve of the ice, beside ours by Raoult with bound water.
    let carcass = meat([0.58, 0.175, 0.235, 0.01], Some(-1.7)).properties_at(-20.0).unwrap();
    let heat =
        |c: f64| meat([0.5821, 0.1748, 0.2255, 0.0082], Some(-1.7)).properties_at(c).unwrap().enthalpy_j_kg;
    vec![
        row("ice of a carcass at −20 °C (another curve of ice)", "", 0.516_38, carcass.ice_share, 0.01)
            .misses("Tchigeov's empirical curve beside Raoult's law with bound water"),
        row(
            "heat of 150 kg from 10 to −20 °C (Chen)",
            "kJ",
            34_737.28,
            150.0e-3 * (heat(10.0) - heat(-20.0)),
            5e-4,
        )
        .misses("a short formula beside a sum over constituents"),
        row("pork shoulder at −40 °C, density", "kg/m³", 991.846_3, pork.density_kg_m3, 0.002)
            .misses("follows from its ice"),
        row(
            "pork shoulder at −40 °C, parallel",
            "W/(m K)",
            1.961_687,
            pork.conductivity_parallel_w_m_k,
            0.01,
        )
        .misses("follows from its ice"),
        row(
            "pork shoulder at −40 °C, perpendicular",
            "W/(m K)",
            0.518_662,
            pork.conductivity_perpendicular_w_m_k,
            0.01,
        )
        .misses("follows from its ice"),
        row("pork shoulder at −40 °C, ice (another curve of ice)", "", 0.671_537, pork.ice_share, 0.01)
            .misses("Tchigeov's empirical curve beside Raoult's law with bound water"),
    ]
}

fn enthalpies() -> Vec<Row> {
    // Its beef began to freeze near −2 °C: the row's own, not the prior's −1.1.
    let beef = meat([0.72, 0.22, 0.05, 0.01], Some(-2.0));
    let h = |c: f64| beef.properties_at(c).unwrap().enthalpy_j_kg * 1e-3;
    let rows = [
        (-28.9, 14.7),
        (-23.3, 27.7),
        (-12.2, 62.8),
        (-9.4, 77.7),
        (-6.7, 101.2),
        (-5.6, 115.8),
        (-4.4, 136.9),
        (-3.9, 151.6),
        (-3.3, 170.9),
        (-2.8, 197.2),
        (-2.2, 236.5),
        (-1.7, 278.2),
        (-1.1, 280.0),
        (1.7, 288.4),
        (4.4, 297.9),
        (7.2, 306.8),
        (10.0, 315.8),
        (15.6, 333.5),
    ];
    rows.into_iter()
        .map(|(c, told)| {
            let what = format!("from −17.8 to {c} °C");
            let row = Row::new(
                "beef_enthalpy_measured",
                what,
                "kJ/kg",
                "from memory",
                told - 42.6,
                h(c) - h(-17.8),
                Fit::Share(0.12),
            );
            let cold = "well frozen meat still frees ice by Raoult's law; the table's hardly does";
            if c < -9.0 { row.misses(cold) } else { row }
        })
        .collect()
}

fn specific_heats() -> Vec<Row> {
    let mean = |shares: [f64; 4], from: f64, to: f64| {
        let meat = meat(shares, None);
        let h = |c| meat.properties_at(c).unwrap().enthalpy_j_kg;
        (h(to) - h(from)) / (to - from) * 1e-3
    };
    let block = "beef_specific_heat_measured";
    let row = |what: &str, told: [f64; 2], ours, share| {
        Row::new(block, what, "kJ/(kg K)", "published", told[0], ours, Fit::Share(share))
            .told(told[0], told[1])
    };
    vec![
        row("lean, 74.5 % water, 0 to 10 °C", [3.6, 3.6], mean([0.745, 0.215, 0.03, 0.01], 0.0, 10.0), 0.05),
        row("lean, no water, 0 to 10 °C", [1.3, 1.4], mean([0.0, 0.84, 0.12, 0.04], 0.0, 10.0), 0.05)
            .misses("the fits give dry protein 2 kJ/(kg K); they were made on moist food"),
        row(
            "74.5 to 78.5 % water, 0 to 30 °C",
            [3.81, 3.81],
            mean([0.765, 0.20, 0.025, 0.01], 0.0, 30.0),
            0.05,
        ),
        row("lean, 72 % water, 0 to 100 °C", [3.43, 3.43], mean([0.72, 0.22, 0.05, 0.01], 0.0, 100.0), 0.05),
        row("fatty, 51 % water, 0 to 100 °C", [2.89, 2.89], mean([0.51, 0.15, 0.33, 0.01], 0.0, 100.0), 0.05)
            .misses("the fit gives fat and dry lean 2 kJ/(kg K); the old measurement had them lower"),
        row(
            "ground (65 % water assumed), 0 to 100 °C",
            [3.52, 3.52],
            mean([0.65, 0.18, 0.16, 0.01], 0.0, 100.0),
            0.05,
        ),
        row("veal, 77.5 % water, 0 to 32 °C", [3.6, 3.68], mean([0.775, 0.17, 0.044, 0.01], 0.0, 32.0), 0.05),
        row("kidney fat, rendered, 5 to 25 °C", [3.89, 4.06], mean([0.0, 0.0, 1.0, 0.0], 5.0, 25.0), 0.05)
            .misses("setting fat gives off heat that the constituents' fit does not hold"),
        row(
            "hind-shin fat, rendered, 4.5 to 25 °C",
            [3.35, 5.53],
            mean([0.0, 0.0, 1.0, 0.0], 4.5, 25.0),
            0.05,
        )
        .misses("as the kidney fat"),
    ]
}

fn points() -> Vec<Row> {
    let mut rows = Vec::new();
    for (salt, told) in [(0.5, -1.4), (2.0, -3.1), (3.0, -4.1), (4.0, -5.2), (5.0, -6.3)] {
        let what = format!("{salt} % salt in gel");
        rows.push(Row::new(
            "salted_freezing_point",
            what,
            "°C",
            "published",
            told,
            freezing_point_c(salt),
            Fit::Within(0.5),
        ));
    }
    let plain = freezing_point_c(0.0);
    rows.push(Row::new(
        "plain_freezing_point",
        "45 samples of beef",
        "°C",
        "published",
        -1.12,
        plain,
        Fit::Within(0.1),
    ));
    let row = |what: &str, status, told, ours, within| {
        Row::new("freezing_point", what, "°C", status, told, ours, Fit::Within(within))
    };
    rows.push(row("1.9 − 1.4 × 0.745 of water", "secondary", -0.857, plain, 0.3));
    rows.push(row("longissimus, pH 5.3", "published", -0.94, plain, 0.3));
    rows.push(
        row("longissimus, pH 7.0", "published", -0.72, plain, 0.3)
            .misses("dark, high-pH beef is another meat"),
    );
    let liver = meat([0.70, 0.20, 0.04, 0.013], None).properties_at(-30.0).unwrap();
    rows.push(
        Row::new(
            "beef_conductivity_measured",
            "liver at −30 °C, between the bounds",
            "W/(m K)",
            "published",
            1.3,
            1.3,
            Fit::Told,
        )
        .told(liver.conductivity_perpendicular_w_m_k, liver.conductivity_parallel_w_m_k),
    );
    rows
}

pub(crate) fn rows() -> Vec<Row> {
    [examples(), enthalpies(), specific_heats(), points()].concat()
}

#[test]
fn every_row() {
    check(&rows());
}
