//! What meat loses, and times between plates and in ovens as told without thickness or end point: cooking.toml, flat_top_grill,
//! shrinkage, steak_method_times (published abstracts), cook_loss (a lecture and a recipe page, secondary), cooking_yield and
//! patty_grill_loss (published abstracts). What is not told is drawn from the catalogue's priors or named as assumed.

use super::cook_case::{DRAWS, SEED, in_oven, minutes, row, steak};
use super::rows::{Row, check};
use band::{Band, Input, Origin, Spread, Value};
use heat::cook::{StageQuestion, answer};
use heat::{
    Composition, Course, Evaporation, Face, Faces, Meat, Overrides, Settings, Shape, Stage, Start,
    Surroundings, Until, simulate,
};
use quantity::{Length, Span, Temperature};

/// `steak_method_times`: a clam-shell grill, 7.0 min (published); 25 mm to 70.5 °C and plates of 160–200 °C (assumed),
/// 250–650 W/(m² K) between two plates (published).
fn clam_shell() -> Row {
    let uniform = |name: &str, low, high| Input::new(name, Spread::Uniform { low, high }, Origin::Given);
    let inputs = [
        uniform("plate", 160.0, 200.0),
        uniform("contact", 250.0, 650.0),
        uniform("thickness", 23.0, 27.0),
        uniform("start", 2.0, 7.0),
        Input::new("k", Spread::Normal { mean: 1.0, sd: 0.1 }, Origin::Given),
    ];
    let draws = band::draw(&inputs, DRAWS, SEED);
    let lean = Composition { water: 0.70, protein: 0.215, fat: 0.07, carbohydrate: 0.0, ash: 0.01 };
    let meat = Meat::composed(lean, Overrides::default()).unwrap();
    let times: Vec<f64> = draws
        .members()
        .map(|row| {
            let [plate, contact, thickness, start, k] = row.try_into().unwrap();
            let plain = Surroundings::plain(Course::Steady(Temperature::from_c(plate)), contact);
            let faces =
                Faces::all(Face::Open(Surroundings { evaporation: Evaporation::BoilingOnly, ..plain }));
            let stage = Stage::new("plates", faces, Until::Centre(Temperature::from_c(70.5)));
            let shape = Shape::Slab { thickness: Length::from_mm(thickness) };
            let start = Start::Even(Temperature::from_c(start));
            let meat = meat.with_conductivity_times(k);
            simulate(&meat, &shape, &start, &[stage], &Settings::ensemble()).unwrap().time_s
        })
        .collect();
    row("steak_method_times", "clam-shell, strip 25 mm to 70 °C", "min", "measured", 7.0, minutes(&times))
        .misses(
            "a steak between plates loses a quarter of its thickness; faces at 100 °C cannot do it at 25 mm",
        )
}

/// `flat_top_grill`, 180 steaks of round, loin, rib and chuck, 12.7 to 38.1 mm, 113 to 567 g, to 71.1 °C: mean yield 75.66 %
/// (published). Turned every 2 min (assumed).
fn flat_top() -> Row {
    let mut question = steak((12.7, 38.1), (2.0, 7.0));
    question.mass_kg = Value::Range { low: 0.113, high: 0.567 };
    let mut stage = StageQuestion::new("flat top", "flat-top", Until::Centre(Temperature::from_c(71.1)));
    stage.flip_every = Some(Span::from_min(2.0));
    stage.at_most = Span::from_h(3.0);
    question.stages.push(stage);
    let banded = answer(&question, DRAWS, SEED).unwrap();
    let mass = banded.draws.column(banded.inputs.iter().position(|input| input.name == "mass").unwrap());
    let loss: Vec<f64> =
        banded.members.iter().zip(mass).map(|(m, mass)| 100.0 * m.mass_lost_kg / mass).collect();
    row("flat_top_grill", "loss to 71 °C", "%", "measured", 24.34, Band::of(&loss)).misses(JUICE)
}

/// `shrinkage`, longissimus on a contact grill, core 60 to 70 °C: 23.3 % thinner (published). Ours get thinner by the volume of
/// the water they lose.
fn thinner() -> Row {
    let mut question = steak((20.0, 30.0), (2.0, 7.0));
    let mut stage = StageQuestion::new("plates", "flat-top", Until::Centre(Temperature::from_c(65.0)));
    stage.flip_every = Some(Span::from_s(30.0));
    question.stages.push(stage);
    let banded = answer(&question, DRAWS, SEED).unwrap();
    let column = |name: &str| banded.draws.column(banded.inputs.iter().position(|i| i.name == name).unwrap());
    let volume: Vec<f64> =
        column("area").iter().zip(column("thickness")).map(|(a, t)| 1e-4 * a * t).collect();
    let gone =
        banded.members.iter().zip(volume).map(|(m, volume)| 100.0 * m.mass_lost_kg / (1000.0 * volume));
    row(
        "shrinkage",
        "longissimus to 65 °C on a contact grill, thinner by",
        "%",
        "measured",
        23.3,
        Band::of(&gone.collect::<Vec<f64>>()),
    )
    .misses(JUICE)
}

/// `steak_method_times`, forced-air oven, 22.8 min: 25 mm to 70.5 °C at 163 °C (the usual protocol; assumed).
fn forced_air() -> Row {
    let question = in_oven(steak((23.0, 27.0), (2.0, 7.0)), "fan-oven", 163.0, 70.5);
    let times: Vec<f64> =
        answer(&question, DRAWS, SEED).unwrap().members.iter().map(|m| m.stage_s[0]).collect();
    row(
        "steak_method_times",
        "forced-air oven, 25 mm to 70.5 °C (oven assumed)",
        "min",
        "measured",
        22.8,
        minutes(&times),
    )
}

/// Loss of a steak in a medium to a core, % of its mass.
fn loss(medium: &str, medium_c: Option<f64>, core_c: f64) -> Band {
    let mut question = steak((22.0, 32.0), (2.0, 7.0));
    question.mass_kg = Value::Known(0.35);
    let mut stage = StageQuestion::new("heat", medium, Until::Centre(Temperature::from_c(core_c)));
    stage.medium_c = medium_c.map_or(Value::Unknown, Value::Known);
    stage.flip_every = Some(Span::from_min(2.0));
    stage.at_most = Span::from_h(4.0);
    question.stages.push(stage);
    let members = answer(&question, DRAWS, SEED).unwrap().members;
    Band::of(&members.iter().map(|m| 100.0 * m.mass_lost_kg / 0.35).collect::<Vec<f64>>())
}

/// `patty_grill_loss`: frozen patties between plates at 177 to 218 °C, 9.65 to 11.05 mm apart, 120 s: 24 to 36 %.
fn patties() -> Row {
    let uniform = |name: &str, low, high| Input::new(name, Spread::Uniform { low, high }, Origin::Given);
    let inputs =
        [uniform("plate", 177.0, 218.0), uniform("contact", 250.0, 650.0), uniform("gap", 9.65, 11.05)];
    let draws = band::draw(&inputs, DRAWS, SEED);
    let mince = Composition { water: 0.58, protein: 0.17, fat: 0.238, carbohydrate: 0.0, ash: 0.01 };
    let meat = Meat::composed(mince, Overrides::default()).unwrap();
    let losses: Vec<f64> = draws
        .members()
        .map(|at| {
            let [plate, contact, gap] = at.try_into().unwrap();
            let plain = Surroundings::plain(Course::Steady(Temperature::from_c(plate)), contact);
            let faces =
                Faces::all(Face::Open(Surroundings { evaporation: Evaporation::BoilingOnly, ..plain }));
            let stage = Stage::new("plates", faces, Until::Time(Span::from_s(120.0)));
            let shape = Shape::Slab { thickness: Length::from_mm(gap) };
            let start = Start::Even(Temperature::from_c(-18.0));
            let found = simulate(&meat, &shape, &start, &[stage], &Settings::ensemble()).unwrap();
            100.0 * found.mass_lost_kg / (meat.density_kg_m3() * 1e-3 * gap)
        })
        .collect();
    row("patty_grill_loss", "frozen patties between plates, 120 s", "%", "measured", 30.0, Band::of(&losses))
        .told(24.0, 36.0)
        .misses("rendered fat is not in the model, and this mince is a quarter fat")
}

const JUICE: &str = "one juice law for pan, oven and bath, and without a clock: with its water counted once, thin steaks in a pan give off \
                     a sixth too little and hot roasts still too much";

pub(crate) fn rows() -> Vec<Row> {
    static ROWS: std::sync::LazyLock<Vec<Row>> = std::sync::LazyLock::new(compute);
    ROWS.clone()
}

fn compute() -> Vec<Row> {
    let lost = |block, what: &str, status, told: [f64; 2], ours| {
        row(block, what, "%", status, told[0], ours).told(told[0], told[1])
    };
    vec![
        clam_shell(),
        forced_air(),
        flat_top(),
        thinner(),
        patties(),
        lost("cook_loss", "typical (pan to 75 °C)", "told", [25.0, 35.0], loss("pan", None, 75.0))
            .misses(JUICE),
        lost("cook_loss", "juicy, rarer (pan to 52 °C)", "told", [10.0, 15.0], loss("pan", None, 52.0)),
        lost("cook_loss", "juicy and done (pan to 65 °C)", "told", [20.0, 20.0], loss("pan", None, 65.0)),
        lost(
            "cooking_yield",
            "ribeye, grilled (to 65 °C assumed), lost",
            "told",
            [17.0, 17.0],
            loss("grill", None, 65.0),
        ),
        lost(
            "cooking_yield",
            "chuck eye, grilled (to 71 °C assumed), lost",
            "told",
            [20.0, 20.0],
            loss("grill", None, 71.0),
        ),
    ]
}

#[test]
fn every_row() {
    check(&rows());
}
