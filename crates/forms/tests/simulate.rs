//! `simulate` through its form: against an exact series, against the band layer it stands on, and what it takes and refuses.

#![allow(clippy::expect_used, reason = "a figure of this file that cannot be read is a broken test")]

use band::Value;
use forms::{Flags, Verb, answer};
use heat::Until;
use heat::cook::{Form, Question, StageQuestion};
use quantity::{Span, Temperature};
use serde_json::Value as Json;

fn exact(form: &str) -> Json {
    let flags = Flags { exact: true, ..Flags::default() };
    match answer(Verb::Simulate, "form.toml", form.as_bytes(), &flags) {
        Ok(answer) => answer.json,
        Err(problems) => panic!("{}", problems.text(false)),
    }
}

fn refused(form: &str, flags: &Flags) -> String {
    answer(Verb::Simulate, "form.toml", form.as_bytes(), flags).expect_err("a refusal").text(false)
}

fn float(json: &Json) -> f64 {
    json.as_f64().expect("a number")
}

const CONSTANT: &str =
    "[meat]\nconductivity_w_m_k = 0.48\nspecific_heat_j_kg_k = 3500\ndensity_kg_m3 = 1060\n";

/// Both faces of a slab held at 60 °C from 5 °C: the classical series (Carslaw and Jaeger 1959, 3.4; published) summed here.
#[test]
fn a_slab_with_fixed_faces_follows_the_series() {
    let minutes = 20.0;
    let form = format!(
        "{CONSTANT}shape = {{ kind = \"slab\", thickness_mm = 40 }}\nstart = {{ temperature_c = 5 }}\n\
         stage = [{{ medium_c = 60, film_w_m2_k = \"fixed\", until = {{ minutes = {minutes} }} }}]\n"
    );
    // Inline tables of the form above belong to the root, so the table of the meat comes last.
    let (meat, rest) = form.split_at(CONSTANT.len());
    let answer = exact(&format!("{rest}{meat}"));
    let fourier = 0.48 / (3500.0 * 1060.0) * minutes * 60.0 / 0.02_f64.powi(2);
    let term = |n: f64| {
        let k = (2.0 * n + 1.0) * std::f64::consts::FRAC_PI_2;
        (if n as i64 % 2 == 0 { 2.0 } else { -2.0 }) / k * (-k * k * fourier).exp()
    };
    let wanted = 60.0 - 55.0 * (0..50).map(|n| term(f64::from(n))).sum::<f64>();
    let found = float(&answer["centre_c"]);
    assert!((found - wanted).abs() < 0.05, "{found} against {wanted}");
    assert!((float(&answer["surface_c"]) - 60.0).abs() < 1e-6);
    assert!((float(&answer["time_s"]) - 1200.0).abs() < 1e-6);
}

/// With media of the catalogue and nothing of its own, the form is the band layer's question, member for member.
#[test]
fn the_ensemble_is_the_band_layers() {
    let form = "
        [meat]
        cut = \"beef-strip-loin\"
        [shape]
        kind = \"steak\"
        thickness_mm = 38
        mass_g = 420
        [start]
        temperature_c = 4
        [[stage]]
        name = \"oven\"
        medium = \"oven\"
        medium_c = 110
        until = { centre_c = 48 }
        [[stage]]
        name = \"rest\"
        medium = \"rest\"
        until = { minutes = 8 }
    ";
    let flags = Flags { draws: 64, ..Flags::default() };
    let found = answer(Verb::Simulate, "-", form.as_bytes(), &flags).expect("a sound form").json;
    let mut question = Question::of_cut("beef-strip-loin", Form::Steak).expect("a cut of the catalogue");
    question.thickness_m = Value::Known(0.038);
    question.mass_kg = Value::Known(0.42);
    question.start_c = Value::Known(4.0);
    let mut oven = StageQuestion::new("oven", "oven", Until::Centre(Temperature::from_c(48.0)));
    oven.medium_c = Value::Known(110.0);
    question.stages = vec![oven, StageQuestion::new("rest", "rest", Until::Time(Span::from_min(8.0)))];
    let wanted = heat::cook::answer(&question, 64, 1).expect("an answer");
    for (key, band, places) in [("time_s", wanted.time_s, 0.01), ("peak_centre_c", wanted.peak_c, 0.001)] {
        for (end, wanted) in [("median", band.median), ("low", band.low), ("high", band.high)] {
            let found = float(&found[key][end]);
            assert!((found - wanted).abs() <= places, "{key} {end}: {found} against {wanted}");
        }
    }
    assert_eq!(found["narrow"][0]["input"], wanted.narrow_time()[0].input.as_str());
}

#[test]
fn every_shape_is_there() {
    let shapes = [
        "kind = \"slab\", thickness_mm = 30",
        "kind = \"steak\", thickness_mm = 30, mass_g = 400",
        "kind = \"steak\", thickness_mm = 30, width_mm = 90, length_mm = 150",
        "kind = \"cylinder\", diameter_mm = 60",
        "kind = \"sphere\", diameter_mm = 60",
        "kind = \"finite-cylinder\", diameter_mm = 60, length_mm = 100",
        "kind = \"brick\", thickness_mm = 40, width_mm = 90, length_mm = 120, wrap = \"vacuum\"",
        "kind = \"roast\", mass_g = 2000, height_mm = 90, width_mm = 150, fat_mm = 5",
        "kind = \"roast\", mass_g = 2000, height_mm = 90, length_mm = 180",
    ];
    for shape in shapes {
        let form = format!(
            "meat = {{ cut = \"beef-strip-loin\" }}\nshape = {{ {shape} }}\nstart = {{ temperature_c = 4 }}\n\
             [[stage]]\nmedium_c = 56\nfilm_w_m2_k = 150\nuntil = {{ centre_c = 50 }}\n"
        );
        let found = exact(&form);
        assert_eq!(found["stages"][0]["reached"], true, "{shape}");
        assert!((float(&found["centre_c"]) - 50.0).abs() < 0.01, "{shape}: {}", found["centre_c"]);
        let flags = Flags { draws: 8, ..Flags::default() };
        let banded = answer(Verb::Simulate, "-", form.as_bytes(), &flags);
        banded.unwrap_or_else(|problems| panic!("{shape}: {}", problems.text(false)));
    }
}

#[test]
fn what_never_ends_is_an_answer() {
    let form = "meat = { cut = \"beef-strip-loin\" }\nshape = { kind = \"slab\", thickness_mm = 30 }\nstart = { temperature_c = 4 }\n\
                [[stage]]\nmedium_c = 45\nfilm_w_m2_k = 20\nuntil = { centre_c = 50 }\nat_most_min = 300\n";
    let found = exact(form);
    assert_eq!(found["stages"][0]["reached"], false);
    let flags = Flags { draws: 8, ..Flags::default() };
    let banded = answer(Verb::Simulate, "-", form.as_bytes(), &flags).expect("an answer").json;
    assert_eq!(banded["stages"][0]["reached"], false);
    assert_eq!(banded["stages"][0]["chance_reached"], 0.0);
    assert!(banded["time_s"].is_null(), "never is no number: {}", banded["time_s"]);
}

/// A series of one temperature is that temperature; a kill counted by the clock is minutes over D.
#[test]
fn series_and_kill_say_what_they_should() {
    let stage = |temperature: &str| {
        format!(
            "meat = {{ cut = \"beef-strip-loin\" }}\nshape = {{ kind = \"slab\", thickness_mm = 2 }}\nstart = {{ temperature_c = 60 }}\n\
             [[stage]]\n{temperature}\nfilm_w_m2_k = \"fixed\"\nuntil = {{ kill_log10 = {{ own = 3 }} }}\n\
             [[organism]]\nname = \"own\"\nd_min = 2\nat_c = 60\nz_c = 7\n"
        )
    };
    let steady = exact(&stage("medium_c = 60"));
    assert!((float(&steady["time_s"]) - 360.0).abs() < 0.5, "{}", steady["time_s"]);
    assert!((float(&steady["kill_log10"]["own"]) - 3.0).abs() < 1e-3);
    let series = exact(&stage("series_c = [[0, 60], [100, 60]]"));
    assert_eq!(series["time_s"], steady["time_s"]);
    let fahrenheit = exact(&stage("medium_f = 140"));
    assert_eq!(fahrenheit["time_s"], steady["time_s"]);
}

#[test]
fn with_exact_nothing_is_taken_from_what_is_usual() {
    let flags = Flags { exact: true, ..Flags::default() };
    let form = "meat = { cut = \"beef-strip-loin\" }\nshape = { kind = \"steak\", thickness_mm = 30 }\n\
                [[stage]]\nname = \"oven\"\nmedium = \"oven\"\nuntil = { centre_c = 50 }\n\
                [[stage]]\nname = \"pan\"\nmedium = \"pan\"\nmedium_c = 220\nfilm_w_m2_k = 300\nuntil = { minutes = 1 }\n";
    let said = refused(form, &flags);
    for key in [
        "shape.mass_g",
        "start",
        "stage[1].medium_c",
        "stage[1].film_w_m2_k",
        "stage[1].humidity",
        "stage[2].medium",
    ] {
        assert!(said.contains(key), "{key} is not named:\n{said}");
    }
    let usual = Flags { draws: 8, ..Flags::default() };
    let banded = answer(Verb::Simulate, "-", form.as_bytes(), &usual).expect("priors stand in").json;
    let assumed: Vec<&str> = banded["assumed"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(|row| row["input"].as_str())
        .collect();
    for input in ["start", "area", "oven: temperature", "oven: film", "pan: film above"] {
        assert!(assumed.contains(&input), "{input} is not in {assumed:?}");
    }
}

fn banded(form: &str) -> serde_json::Value {
    let flags = Flags { draws: 16, ..Flags::default() };
    match answer(Verb::Simulate, "-", form.as_bytes(), &flags) {
        Ok(answer) => answer.json,
        Err(problems) => panic!("{form}\n{}", problems.text(false)),
    }
}

fn median_s(found: &serde_json::Value) -> f64 {
    float(if found["time_s"]["median"].is_null() { &found["time_s"] } else { &found["time_s"]["median"] })
}

/// Every medium of the catalogue by its name alone, as a stage and as a face.
#[test]
fn every_medium_is_reachable() {
    for medium in catalogue::media() {
        let name = &medium.name;
        let piece = "meat = { cut = \"beef-strip-loin\" }\nshape = { kind = \"steak\", thickness_mm = 30, mass_g = 400 }\n\
                     start = { temperature_c = 6 }\n[[stage]]\nuntil = { minutes = 4 }\n";
        let stage = banded(&format!("{piece}medium = \"{name}\"\n"));
        assert!(float(&stage["energy_error"]) < 1e-6, "{name}");
        banded(&format!("{piece}medium = \"still-air\"\nfaces.bottom = {{ medium = \"{name}\" }}\n"));
    }
}

/// A door opened every ten minutes makes an oven slower, and two pieces on each other are one of twice the thickness.
#[test]
fn doors_and_stacks() {
    let form = |shape: &str, door: &str| {
        banded(&format!(
            "meat = {{ cut = \"beef-strip-loin\" }}\nshape = {{ kind = \"slab\", {shape} }}\nstart = {{ temperature_c = 6 }}\n\
             [[stage]]\nmedium = \"oven\"\nmedium_c = 150\nuntil = {{ centre_c = 50 }}\n{door}"
        ))
    };
    let shut = median_s(&form("thickness_mm = 40", ""));
    let opened = median_s(&form("thickness_mm = 40", "door = { every_min = 10, open_s = 30 }\n"));
    assert!((1.02..1.3).contains(&(opened / shut)), "{shut} s shut, {opened} s opened");
    let two = median_s(&form("thickness_mm = 20, stack = 2", ""));
    assert!((two / shut - 1.0).abs() < 0.02, "{two} s of two, {shut} s of one");
    let refused = refused(
        "meat = { cut = \"beef-strip-loin\" }\nshape = { kind = \"sphere\", diameter_mm = 40, stack = 2 }\n\
         [[stage]]\nmedium = \"pan\"\ndoor = { every_min = 10, open_s = 30 }\nuntil = { centre_c = 50 }\n",
        &Flags::default(),
    );
    assert!(
        refused.contains("stack says nothing about a sphere") && refused.contains("door says nothing here"),
        "{refused}"
    );
}

/// A pan told to give way heats less than one that does not, with every input taken as true and with bands.
#[test]
fn a_plate_of_ones_own() {
    let form = |plate: &str| {
        format!(
            "meat = {{ cut = \"beef-strip-loin\" }}\nshape = {{ kind = \"slab\", thickness_mm = 25 }}\nstart = {{ temperature_c = 5 }}\n\
             [[stage]]\nmedium = \"pan\"\nmedium_c = 220\nfilm_w_m2_k = 300\nflip_every_s = 60\nuntil = {{ minutes = 6 }}\n{plate}\
             faces.top = {{ medium_c = 25, film_w_m2_k = 6 }}\n"
        )
    };
    let (gives, thin) = (
        "plate = { held_kj_m2_k = 27, recovery_w_m2_k = 100 }\n",
        "plate = { held_kj_m2_k = 6, recovery_w_m2_k = 30 }\n",
    );
    let centre = |plate: &str| float(&exact(&form(plate))["centre_c"]);
    let (firm, iron, foil) = (centre(""), centre(gives), centre(thin));
    assert!(firm > iron + 1.0 && iron > foil + 1.0, "{firm} {iron} {foil}");
    assert!(
        float(&banded(&form(gives))["centre_c"]["median"])
            > float(&banded(&form(thin))["centre_c"]["median"]) + 1.0
    );
}
