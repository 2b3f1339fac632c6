//! Measured and printed cooks: ovens, pans and rest, as told by those who logged them, with what they leave unsaid drawn
//! from the catalogue's priors. One set of priors for every row.
//!
//! cooking.toml, cook_case, roast_timetable, carryover_measured. *measured* rows were logged by a cook (published as
//! personal notes or a newsgroup post); *recipe* rows are recipes (secondary). The oven rows were also what the law of the juice
//! was chosen on by hand, so they are in-sample: expect less of a new case. The rows on a grill, between plates and on a flat
//! top were not.

use band::{Band, Input, Origin, Spread, Value};
use heat::cook::{Form, Member, Prepared, Question, StageQuestion, answer};
use heat::{
    Composition, Course, Evaporation, Face, Faces, Meat, Overrides, Settings, Shape, Stage, Start,
    Surroundings, Until, simulate,
};
use quantity::{Length, Span, Temperature};
use rayon::prelude::*;

const DRAWS: usize = 128;
const SEED: u64 = 1;

/// A row: what was seen or told (from, to), in minutes, kelvins or per cent, the band we give, and whether it is known to
/// miss. A told range counts as inside where any of it is.
struct Row {
    what: &'static str,
    weight: &'static str,
    seen: [f64; 2],
    ours: Band,
    known_miss: Option<&'static str>,
}

fn row(what: &'static str, weight: &'static str, seen: f64, ours: Band) -> Row {
    Row { what, weight, seen: [seen, seen], ours, known_miss: None }
}

impl Row {
    fn told(self, from: f64, to: f64) -> Self {
        Self { seen: [from, to], ..self }
    }

    fn known_miss(self, because: &'static str) -> Self {
        Self { known_miss: Some(because), ..self }
    }
}

fn minutes(members: &[f64]) -> Band {
    Band::of(members).times(1.0 / 60.0)
}

/// An oven nobody says has a fan: 65 of 100 are without (assumed).
fn any_oven(ask: impl Fn(&str) -> Question) -> Vec<Member> {
    let still = answer(&ask("oven"), DRAWS, SEED).unwrap().members;
    let fan = answer(&ask("fan-oven"), DRAWS, SEED).unwrap().members;
    let share = DRAWS * 65 / 100;
    still.into_iter().take(share).chain(fan.into_iter().skip(share)).collect()
}

fn steak(thickness_mm: (f64, f64), start_c: (f64, f64)) -> Question {
    let mut question = Question::of_cut("beef-strip-loin", Form::Steak).unwrap();
    question.thickness_m = Value::Range { low: thickness_mm.0 * 1e-3, high: thickness_mm.1 * 1e-3 };
    question.start_c = Value::Range { low: start_c.0, high: start_c.1 };
    question
}

fn in_oven(mut question: Question, oven: &str, oven_c: f64, core_c: f64) -> Question {
    let mut stage = StageQuestion::new("oven", oven, Until::Centre(Temperature::from_c(core_c)));
    stage.medium_c = Value::Known(oven_c);
    stage.at_most = Span::from_h(24.0);
    question.stages.push(stage);
    question
}

/// `steak_250f_notes`: 45 min found again and again where a chart says 25 to 30.
fn steak_notes() -> Row {
    let members = any_oven(|oven| in_oven(steak((25.4, 38.1), (2.0, 16.0)), oven, 121.1, 46.1));
    let times: Vec<f64> = members.iter().map(|m| m.stage_s[0]).collect();
    row("steak 25–38 mm, 121 °C to 46", "measured", 45.0, minutes(&times))
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
    row("strip 25 mm, seared, 204 °C fan to 66", "measured", 7.0, minutes(&times))
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
    row("tri-tip 1.13 kg, 107 °C to 52", "measured", 75.0, minutes(&times)).told(60.0, 90.0)
}

/// A roast from its mass alone: section, cap and the rest are the catalogue's priors for the cut.
struct Roast {
    cut: &'static str,
    mass_kg: (f64, f64),
    start_c: (f64, f64),
    oven_c: f64,
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
        let mut question = in_oven(question, oven, case.oven_c, core_c);
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
        oven_c: 93.3,
        fan: 1.0,
        core_c: (47.3, 48.3),
        rest_min: 60.0,
    });
    [
        row("rib roast 3.46 kg, 93 °C fan to 48", "measured", 270.0, minutes(&found.oven_s))
            .known_miss("section, start and true air are not told; a quarter fast"),
        row("  its rise in an hour, K", "measured", 5.6, Band::of(&found.rise_k)),
    ]
}

/// `rib_roast_150f`, `rib_roast_250f`: recipes for 3 to 12 lb.
fn rib_recipe(oven_c: f64, seen: f64, what: &'static str) -> Row {
    let found = roast(&Roast {
        cut: RIB,
        mass_kg: (1.36, 5.44),
        start_c: (2.0, 16.0),
        oven_c,
        fan: 0.35,
        core_c: (48.9, 57.2),
        rest_min: 30.0,
    });
    row(what, "recipe", seen, minutes(&found.oven_s))
}

/// `roast_timetable`: 4 to 6 lb at 325 °F to 145 °F from the fridge; 23 to 25 min a pound bone in, 28 to 33 rolled.
fn timetable(cut: &'static str, seen: f64, what: &'static str) -> Row {
    let found = roast(&Roast {
        cut,
        mass_kg: (1.81, 2.72),
        start_c: (2.0, 7.0),
        oven_c: 162.8,
        fan: 0.35,
        core_c: (62.7, 62.9),
        rest_min: 15.0,
    });
    row(what, "timetable", seen, minutes(&found.oven_s))
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
    row("steak 19 mm, grill to 63 °C, turned once", "timetable", 9.0, minutes(&times)).told(8.0, 10.0)
}

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
    row("strip 25 mm between plates, to 70 °C", "measured", 7.0, minutes(&times)).known_miss(
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
    row("flat top to 71, loss, %", "measured", 24.3, Band::of(&loss))
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
    row("strip on a grill to 65, thinner by, %", "measured", 23.3, Band::of(&gone.collect::<Vec<f64>>()))
}

/// `carryover_measured`, five prime ribs of 5.49 kg, out at 65 °C, rise 5 K, loss 21.7 %; a hot oven (assumed 175–205 °C).
fn lowe_ribs() -> [Row; 2] {
    let found = roast(&Roast {
        cut: RIB,
        mass_kg: (5.4, 5.6),
        start_c: (2.0, 7.0),
        oven_c: 190.0,
        fan: 0.0,
        core_c: (64.5, 65.5),
        rest_min: 60.0,
    });
    let loss: Vec<f64> = found.loss.iter().map(|l| 100.0 * l).collect();
    [
        row("prime ribs 5.5 kg, rise, K", "measured", 5.0, Band::of(&found.rise_k))
            .known_miss("told 119 min at 5.5 kg: either a smaller section or a hotter oven than assumed"),
        row("  their loss, %", "measured", 21.7, Band::of(&loss))
            .known_miss("as the row above; its outer layers are hot for longer than told"),
    ]
}

#[test]
fn bands_against_what_was_seen() {
    let mut rows = vec![steak_notes(), tri_tip()];
    rows.extend(rib_roast_200f());
    rows.push(strip_sear_first());
    rows.push(rib_recipe(65.6, 360.0, "rib roast recipe, 66 °C"));
    rows.push(rib_recipe(121.1, 225.0, "rib roast recipe, 121 °C"));
    rows.push(timetable(RIB, 24.0 * 5.0, "rib roast 4–6 lb, 163 °C, bone in"));
    rows.push(timetable(ROLLED, 30.5 * 5.0, "rib roast 4–6 lb, 163 °C, rolled"));
    rows.push(grilled());
    rows.push(clam_shell());
    rows.push(flat_top());
    rows.push(thinner());
    rows.extend(lowe_ribs());
    let mut errors = Vec::new();
    for row in &rows {
        let Band { median, low, high } = row.ours;
        let [from, to] = row.seen;
        let inside = from <= high && to >= low;
        let seen = 0.5 * (from + to);
        println!(
            "{:42} {:9} seen {:6.1}  ours {median:6.1} ({low:6.1} to {high:6.1})  {}",
            row.what,
            row.weight,
            seen,
            if inside { "in" } else { "OUT" }
        );
        // A miss that comes inside is as much news as a row that falls out.
        assert_eq!(inside, row.known_miss.is_none(), "{}: {:?}", row.what, row.known_miss);
        if row.what.contains("°C") {
            errors.push((median / seen).ln());
        }
    }
    let mean = |values: &mut dyn Iterator<Item = f64>| values.sum::<f64>() / errors.len() as f64;
    let size = mean(&mut errors.iter().map(|e| e.abs()));
    let bias = mean(&mut errors.iter().copied());
    println!("times: mean |ln error| {size:.3}, bias {bias:+.3}, {} rows", errors.len());
    // 0.19: what a prototype that chose its constants on these rows reached. Ten rows that stray by a fifth each know their
    // middle to 0.06.
    assert!(size < 0.19 && bias.abs() < 0.06, "{size} {bias}");
}
