//! Measured and printed cooks: ovens, pans and rest, as told by those who logged them, with what they leave unsaid drawn
//! from the catalogue's priors. One set of priors for every row.
//!
//! cooking.toml, cook_case, roast_timetable, carryover_measured. *measured* rows were logged by a cook (published as
//! personal notes or a newsgroup post); *recipe* rows are recipes (secondary). The oven rows were also what the law of the juice
//! was chosen on by hand, so they are in-sample: expect less of a new case. The rows on a grill, between plates and on a flat
//! top were not.

use super::rows::{Fit, Row, check};
use band::{Band, Value};
use heat::cook::{Form, Member, Prepared, Question, StageQuestion, answer};
use heat::{Settings, Until, simulate};
use quantity::{Span, Temperature};
use rayon::prelude::*;

pub(crate) const DRAWS: usize = 128;
pub(crate) const SEED: u64 = 1;

pub(crate) fn row(
    block: &'static str,
    what: impl Into<String>,
    unit: &'static str,
    status: &'static str,
    seen: f64,
    ours: Band,
) -> Row {
    Row::new(block, what, unit, status, seen, 0.0, Fit::Band).band(ours)
}

pub(crate) fn minutes(members: &[f64]) -> Band {
    Band::of(members).times(1.0 / 60.0)
}

/// An oven nobody says has a fan: 65 of 100 are without (assumed).
fn any_oven(ask: impl Fn(&str) -> Question) -> Vec<Member> {
    let still = answer(&ask("oven"), DRAWS, SEED).unwrap().members;
    let fan = answer(&ask("fan-oven"), DRAWS, SEED).unwrap().members;
    let share = DRAWS * 65 / 100;
    still.into_iter().take(share).chain(fan.into_iter().skip(share)).collect()
}

pub(crate) fn steak(thickness_mm: (f64, f64), start_c: (f64, f64)) -> Question {
    let mut question = Question::of_cut("beef-strip-loin", Form::Steak).unwrap();
    question.thickness_m = Value::Range { low: thickness_mm.0 * 1e-3, high: thickness_mm.1 * 1e-3 };
    question.start_c = Value::Range { low: start_c.0, high: start_c.1 };
    question
}

pub(crate) fn in_oven(question: Question, oven: &str, oven_c: f64, core_c: f64) -> Question {
    in_some_oven(question, oven, Value::Known(oven_c), core_c)
}

fn in_some_oven(mut question: Question, oven: &str, oven_c: Value, core_c: f64) -> Question {
    let mut stage = StageQuestion::new("oven", oven, Until::Centre(Temperature::from_c(core_c)));
    stage.medium_c = oven_c;
    stage.at_most = Span::from_h(24.0);
    question.stages.push(stage);
    question
}

/// `steak_250f_notes`: 45 min found again and again where a chart says 25 to 30.
fn steak_notes() -> Row {
    let members = any_oven(|oven| in_oven(steak((25.4, 38.1), (2.0, 16.0)), oven, 121.1, 46.1));
    let times: Vec<f64> = members.iter().map(|m| m.stage_s[0]).collect();
    row("cook_case", "steak 25–38 mm, 121 °C to 46", "min", "measured", 45.0, minutes(&times))
}

/// `strip_sear_first`: 2 to 3 min a side in a pan, then 7 min in a fan oven at 204 °C.
fn strip_sear_first() -> Row {
    let members = |side_min: f64| {
        let mut question = steak((25.4, 25.5), (8.0, 16.0));
        let mut sear = StageQuestion::new("sear", "pan", Until::Time(Span::from_min(2.0 * side_min)));
        sear.flip_every = Some(Span::from_min(side_min));
        question.stages.push(sear);
        answer(&in_oven(question, "fan-oven", 204.4, 65.6), DRAWS, SEED).unwrap().members
    };
    // Two to three minutes a side are told: each third of the members gets its own.
    let sides = [members(2.0), members(2.5), members(3.0)];
    let times: Vec<f64> = (0..DRAWS).map(|i| sides[i % 3][i].stage_s[1]).collect();
    row("cook_case", "strip 25 mm, seared, then 204 °C fan to 66", "min", "measured", 7.0, minutes(&times))
}

/// `tri_tip_225f_a`: 1.13 kg from the room, 60 to 90 min to 52 °C; its thickness is not told (35 to 55 mm: 1.13 kg
/// over some 230 cm² are 47; assumed).
fn tri_tip() -> Row {
    let members = any_oven(|oven| {
        let mut question = Question::of_cut("beef-tri-tip", Form::Steak).unwrap();
        question.thickness_m = Value::Range { low: 0.035, high: 0.055 };
        question.mass_kg = Value::Known(1.13);
        question.start_c = Value::Range { low: 10.0, high: 20.0 };
        in_oven(question, oven, 107.2, 51.7)
    });
    let times: Vec<f64> = members.iter().map(|m| m.stage_s[0]).collect();
    row("cook_case", "tri-tip 1.13 kg, 107 °C to 52", "min", "measured", 75.0, minutes(&times))
        .told(60.0, 90.0)
}

/// A roast from its mass alone: section, cap and the rest are the catalogue's priors for the cut.
struct Roast {
    cut: &'static str,
    mass_kg: (f64, f64),
    start_c: (f64, f64),
    oven_c: Value,
    /// 0 without, 1 with a fan, between: how likely.
    fan: f64,
    core_c: (f64, f64),
    rest_min: f64,
}

struct Roasted {
    oven_s: Vec<f64>,
    rise_k: Vec<f64>,
    loss: Vec<f64>,
}

fn roast(case: &Roast) -> Roasted {
    let mut out = Roasted { oven_s: Vec::new(), rise_k: Vec::new(), loss: Vec::new() };
    let (low, high) = case.core_c;
    // A told range of cores: each third of the members gets its own.
    let cores = [low + (high - low) / 6.0, 0.5 * (low + high), high - (high - low) / 6.0];
    let ask = |oven: &str, core_c: f64| {
        let mut question = Question::of_cut(case.cut, Form::Roast).unwrap();
        question.mass_kg = Value::Range { low: case.mass_kg.0, high: case.mass_kg.1 };
        question.start_c = Value::Range { low: case.start_c.0, high: case.start_c.1 };
        let mut question = in_some_oven(question, oven, case.oven_c, core_c);
        let rest = Until::Time(Span::from_min(case.rest_min));
        question.stages.push(StageQuestion::new("rest", "rest", rest));
        question
    };
    let with_fan = (DRAWS as f64 * case.fan).round() as usize;
    let settings = Settings { colour: false, ..ask("oven", low).settings() };
    for (third, core) in cores.into_iter().enumerate() {
        for (oven, takes) in [("fan-oven", 0..with_fan), ("oven", with_fan..DRAWS)] {
            let question = ask(oven, core);
            let prepared = Prepared::new(&question).unwrap();
            let draws = band::draw(prepared.inputs(), DRAWS, SEED);
            let mass = prepared.inputs().iter().position(|input| input.name == "mass").unwrap();
            let found: Vec<_> = takes
                .filter(|at| at % 3 == third)
                .collect::<Vec<_>>()
                .into_par_iter()
                .map(|at| {
                    let ready = prepared.member(draws.member(at)).unwrap();
                    let found = simulate(&ready.meat, &ready.shape, &ready.start, &ready.stages, &settings);
                    (found.unwrap(), 1.0 + ready.model_share, draws.member(at)[mass])
                })
                .collect();
            for (found, longer, mass_kg) in found {
                if found.stages[0].reached {
                    out.oven_s.push(found.stages[0].time_s * longer);
                    out.rise_k.push(found.peak_centre_c - core);
                    out.loss.push(found.mass_lost_kg / mass_kg);
                } else {
                    out.oven_s.push(f64::INFINITY);
                }
            }
        }
    }
    out
}

const RIB: &str = "beef-rib-roast-bone-in";
const ROLLED: &str = "beef-ribeye-roll";

/// `rib_roast_200f`: 3.46 kg in a fan oven at 93 °C, out at 48 °C after 270 min, 53 °C an hour later.
fn rib_roast_200f() -> [Row; 2] {
    let found = roast(&Roast {
        cut: RIB,
        mass_kg: (3.45, 3.47),
        start_c: (2.0, 16.0),
        oven_c: Value::Known(93.3),
        fan: 1.0,
        core_c: (47.3, 48.3),
        rest_min: 60.0,
    });
    [
        row(
            "cook_case",
            "rib roast 3.46 kg, 93 °C fan to 48",
            "min",
            "measured",
            270.0,
            minutes(&found.oven_s),
        )
        .misses("section, start and true air are not told; a quarter fast"),
        row(
            "carryover_measured",
            "rib roast 3.46 kg, 93 °C, in an hour",
            "K",
            "measured",
            5.6,
            Band::of(&found.rise_k),
        ),
    ]
}

/// `rib_roast_150f`, `rib_roast_250f`: recipes for 3 to 12 lb.
fn rib_recipe(oven_c: f64, seen: f64, what: &'static str) -> Row {
    let found = roast(&Roast {
        cut: RIB,
        mass_kg: (1.36, 5.44),
        start_c: (2.0, 16.0),
        oven_c: Value::Known(oven_c),
        fan: 0.35,
        core_c: (48.9, 57.2),
        rest_min: 30.0,
    });
    row("cook_case", what, "min", "recipe", seen, minutes(&found.oven_s))
}

/// `roast_timetable`: 4 to 6 lb at 325 °F to 145 °F from the fridge; 23 to 25 min a pound bone in, 28 to 33 rolled.
fn timetable(cut: &'static str, seen: f64, what: &'static str) -> Row {
    let found = roast(&Roast {
        cut,
        mass_kg: (1.81, 2.72),
        start_c: (2.0, 7.0),
        oven_c: Value::Known(162.8),
        fan: 0.35,
        core_c: (62.7, 62.9),
        rest_min: 15.0,
    });
    row("roast_timetable", what, "min", "timetable", seen, minutes(&found.oven_s))
}

/// `steak_timetable`: 19 mm on a grill, 4 to 5 min a side to 62.8 °C (official, secondary).
fn grilled() -> Row {
    let mut question = steak((19.0, 19.1), (2.0, 7.0));
    let mut stage = StageQuestion::new("grill", "grill", Until::Centre(Temperature::from_c(62.8)));
    stage.flip_every = Some(Span::from_min(4.5));
    stage.at_most = Span::from_h(2.0);
    question.stages.push(stage);
    let times: Vec<f64> =
        answer(&question, DRAWS, SEED).unwrap().members.iter().map(|m| m.stage_s[0]).collect();
    row(
        "steak_timetable",
        "steak 19 mm, grill to 63 °C, turned once",
        "min",
        "timetable",
        9.0,
        minutes(&times),
    )
    .told(8.0, 10.0)
}

/// `carryover_measured`, five prime ribs of 5.49 kg, out at 65 °C, rise 5 K, loss 21.7 %; an untold hot oven (150 to 230 °C).
fn lowe_ribs() -> [Row; 2] {
    let found = roast(&Roast {
        cut: RIB,
        mass_kg: (5.4, 5.6),
        start_c: (2.0, 7.0),
        oven_c: Value::Range { low: 150.0, high: 230.0 },
        fan: 0.0,
        core_c: (64.5, 65.5),
        rest_min: 60.0,
    });
    let loss: Vec<f64> = found.loss.iter().map(|l| 100.0 * l).collect();
    let block = "carryover_measured";
    [
        row(block, "prime ribs 5.5 kg, untold hot oven", "K", "measured", 5.0, Band::of(&found.rise_k))
            .misses("told 119 min at 5.5 kg: either a smaller section or a hotter oven than assumed"),
        row(block, "prime ribs, loss", "%", "measured", 21.7, Band::of(&loss))
            .misses("as the row above; its outer layers are hot for longer than told"),
    ]
}

/// `carryover_measured`, nine pork loins, out at 83 °C, rise 2 K, loss 26.3 %; 2 to 3 kg (assumed) in an untold oven (120 to 200 °C), the
/// section of an eye of round (assumed), the meat a beef loin's.
fn lowe_pork() -> [Row; 2] {
    let found = roast(&Roast {
        cut: "beef-eye-of-round",
        mass_kg: (2.0, 3.0),
        start_c: (2.0, 7.0),
        oven_c: Value::Range { low: 120.0, high: 200.0 },
        fan: 0.0,
        core_c: (82.5, 83.5),
        rest_min: 45.0,
    });
    let loss: Vec<f64> = found.loss.iter().map(|l| 100.0 * l).collect();
    let block = "carryover_measured";
    [
        row(block, "pork loins (oven, mass, section assumed)", "K", "measured", 2.0, Band::of(&found.rise_k))
            .misses("oven, mass and section are not told; a slower oven leaves less to carry"),
        row(block, "pork loins, loss", "%", "measured", 26.3, Band::of(&loss)),
    ]
}

/// `roast_sear_450_then_275`: ten minutes at 232 °C, then 135 °C; rises at least 3 K in a rest of 15 min. Core 57 °C, 1.5 to 2.5 kg
/// (assumed).
fn canada() -> Row {
    let mut question = Question::of_cut("beef-eye-of-round", Form::Roast).unwrap();
    question.mass_kg = Value::Range { low: 1.5, high: 2.5 };
    let mut sear = StageQuestion::new("sear", "oven", Until::Time(Span::from_min(10.0)));
    sear.medium_c = Value::Known(232.2);
    question.stages.push(sear);
    let mut question = in_oven(question, "oven", 135.0, 57.0);
    question.stages.push(StageQuestion::new("rest", "rest", Until::Time(Span::from_min(15.0))));
    let members = answer(&question, 64, SEED).unwrap().members;
    let rise: Vec<f64> =
        members.iter().filter(|m| m.stage_s[1].is_finite()).map(|m| m.peak_c - 57.0).collect();
    row("cook_case", "roast 232 then 135 °C to 57: rise in 15 min", "K", "recipe", 3.0, Band::of(&rise))
        .told(3.0, f64::INFINITY)
}

/// `steak_250f_chart`, four rows a wet steak from the fridge cannot meet (the file's own note); and `steak_300f`, a large
/// ribeye whose thickness (25 to 38 mm) and core (46 to 54 °C) are assumed.
fn charts() -> Vec<Row> {
    let mut rows = Vec::new();
    for (core, from, to, miss) in [
        (40.6, 20.0, 25.0, true),
        (46.1, 25.0, 30.0, true),
        (51.7, 30.0, 35.0, true),
        (57.2, 35.0, 40.0, true),
    ] {
        let members = any_oven(|oven| in_oven(steak((38.1, 38.2), (2.0, 16.0)), oven, 121.1, core));
        let times: Vec<f64> = members.iter().map(|m| m.stage_s[0]).collect();
        let what = format!("chart, steak 38 mm, 121 °C to {core}");
        let told =
            row("cook_case", what, "min", "estimate", 0.5 * (from + to), minutes(&times)).told(from, to);
        let because = "an optimistic chart: it needs a warm start, a fan and next to no evaporation";
        rows.push(if miss { told.misses(because) } else { told });
    }
    let members = any_oven(|oven| in_oven(steak((25.4, 38.1), (10.0, 20.0)), oven, 148.9, 50.0));
    let times: Vec<f64> = members.iter().map(|m| m.stage_s[0]).collect();
    rows.push(
        row(
            "cook_case",
            "large ribeye, 149 °C (thickness, core assumed)",
            "min",
            "weak",
            15.0,
            minutes(&times),
        )
        .misses("thickness and core are not told: 15 min at 149 °C is a rare or thin one"),
    );
    rows
}

pub(crate) fn rows() -> Vec<Row> {
    static ROWS: std::sync::LazyLock<Vec<Row>> = std::sync::LazyLock::new(compute);
    ROWS.clone()
}

fn compute() -> Vec<Row> {
    let mut rows = vec![steak_notes(), tri_tip(), strip_sear_first()];
    rows.push(rib_recipe(65.6, 360.0, "rib roast recipe, 66 °C"));
    rows.push(rib_recipe(121.1, 225.0, "rib roast recipe, 121 °C"));
    let [roast, rise] = rib_roast_200f();
    rows.push(roast);
    rows.extend(charts());
    rows.push(canada());
    rows.push(timetable(RIB, 24.0 * 5.0, "rib roast 4–6 lb, 163 °C, bone in"));
    rows.push(timetable(ROLLED, 30.5 * 5.0, "rib roast 4–6 lb, 163 °C, rolled"));
    rows.push(grilled());
    rows.push(rise);
    rows.extend(lowe_ribs());
    rows.extend(lowe_pork());
    rows
}

/// Rows as told, with what they leave unsaid drawn. Charts and rows of which nothing is told count for nothing.
pub(crate) struct Coverage {
    /// Share of the rows in the band: times; losses, rises and shrinking.
    pub(crate) times: f64,
    pub(crate) others: f64,
    /// Of the times: mean |ln error| and bias.
    pub(crate) size: f64,
    pub(crate) bias: f64,
    pub(crate) counts: [usize; 2],
}

pub(crate) fn coverage(rows: &[Row]) -> Coverage {
    let counted =
        |row: &&Row| matches!(row.status, "measured" | "recipe" | "timetable") && row.fit == Fit::Band;
    let (times, others): (Vec<&Row>, Vec<&Row>) =
        rows.iter().filter(counted).partition(|row| row.unit == "min");
    let share = |rows: &[&Row]| band::chance(rows.iter().map(|row| row.inside()));
    let errors: Vec<f64> =
        times.iter().map(|row| (row.ours.median / (0.5 * (row.told[0] + row.told[1]))).ln()).collect();
    let mean = |of: fn(&f64) -> f64| errors.iter().map(of).sum::<f64>() / errors.len() as f64;
    Coverage {
        times: share(&times),
        others: share(&others),
        size: mean(|e| e.abs()),
        bias: mean(|e| *e),
        counts: [times.len(), others.len()],
    }
}

#[test]
fn bands_against_what_was_seen() {
    let rows = [rows(), super::loss::rows()].concat();
    check(&rows);
    let Coverage { times, others, size, bias, counts } = coverage(&rows);
    println!("bands hold {times:.2} of {} times and {others:.2} of {} others", counts[0], counts[1]);
    println!("times: mean |ln error| {size:.3}, bias {bias:+.3}");
    assert!((0.70..=0.90).contains(&times), "{times}");
    // 0.19: what a prototype that chose its constants on these rows reached.
    assert!(size < 0.195 && bias.abs() < 0.1, "{size} {bias}");
}
