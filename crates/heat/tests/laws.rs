//! Laws tried on every case of `laws.toml`: what must hold whatever the numbers are.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a check that cannot set up its case has failed"
)]

use heat::{
    Composition, Constants, Course, Evaporation, Face, Faces, Footprint, Frozen, History, Meat, Moist,
    Overrides, Settings, Shape, Stage, Start, Supply, Surroundings, Until, simulate,
};
use quantity::{Length, Mass, Span, Temperature};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    case: Vec<Case>,
}

#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    shape: String,
    thickness_mm: f64,
    width_mm: Option<f64>,
    length_mm: Option<f64>,
    mass_g: Option<f64>,
    meat: String,
    start_c: f64,
    medium_c: f64,
    film: f64,
    #[serde(default)]
    emissivity: f64,
    evaporation: Option<String>,
    #[serde(default)]
    below: bool,
    flip_s: Option<f64>,
    until_c: f64,
    then: Option<Then>,
    #[serde(default)]
    known_miss: Vec<KnownMiss>,
}

#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct Then {
    medium_c: f64,
    film: f64,
    minutes: f64,
}

#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct KnownMiss {
    law: String,
    by: f64,
    because: String,
}

fn cases() -> Vec<Case> {
    toml::from_str::<File>(include_str!("laws.toml")).unwrap().case
}

fn c(celsius: f64) -> Temperature {
    Temperature::from_c(celsius)
}

impl Case {
    fn meat(&self) -> Meat {
        let thawed =
            Constants { conductivity_w_m_k: 0.48, specific_heat_j_kg_k: 3520.0, density_kg_m3: 1050.0 };
        let ice = Constants { conductivity_w_m_k: 1.5, specific_heat_j_kg_k: 2100.0, density_kg_m3: 1050.0 };
        let frozen = Frozen { freezing_point_c: -1.1, latent_j_kg: 239_000.0, constants: ice };
        let lean = Composition { water: 0.72, protein: 0.22, fat: 0.05, carbohydrate: 0.0, ash: 0.01 };
        match self.meat.as_str() {
            "constant" => Meat::constant(thawed).unwrap(),
            "sharp" => Meat::frozen_constants(thawed, frozen).unwrap(),
            _ => Meat::composed(lean, Overrides::default()).unwrap(),
        }
    }

    fn shape(&self) -> Shape {
        let mm = Length::from_mm;
        let thickness = mm(self.thickness_mm);
        match self.shape.as_str() {
            "slab" => Shape::Slab { thickness },
            "cylinder" => Shape::Cylinder { diameter: thickness },
            "sphere" => Shape::Sphere { diameter: thickness },
            "cylinder with ends" => {
                Shape::FiniteCylinder { diameter: thickness, length: mm(self.length_mm.unwrap()) }
            }
            "roast" => Shape::Roast {
                mass: Mass::from_g(self.mass_g.unwrap()),
                height: Some(thickness),
                width: None,
                length: None,
            },
            "brick" => Shape::Brick {
                thickness,
                width: mm(self.width_mm.unwrap()),
                length: mm(self.length_mm.unwrap()),
            },
            _ => Shape::Steak { thickness, footprint: Footprint::Mass(Mass::from_g(self.mass_g.unwrap())) },
        }
    }

    /// A shape of several has half as many cells along each.
    fn axes(&self) -> usize {
        match self.shape.as_str() {
            "slab" | "cylinder" | "sphere" => 1,
            "steak" | "cylinder with ends" => 2,
            _ => 3,
        }
    }

    fn face(&self, medium_c: f64, film: f64) -> Face {
        let moist = Moist { vapour_pa: 2500.0, lean_share: 0.8 };
        let evaporation = match self.evaporation.as_deref() {
            Some("wet") => Evaporation::Wet(moist),
            Some("drying") => Evaporation::Drying(moist, Supply::USUAL),
            _ => Evaporation::None,
        };
        let around = Surroundings::plain(Course::Steady(c(medium_c)), film);
        Face::Open(Surroundings { emissivity: self.emissivity, evaporation, ..around })
    }

    fn stages(&self) -> Vec<Stage> {
        let mut faces = Faces::all(self.face(self.medium_c, self.film));
        if self.below {
            let over = self.face(25.0, 6.0);
            let pan = Surroundings::plain(Course::Steady(c(self.medium_c)), self.film);
            let pan = Face::Open(Surroundings { evaporation: Evaporation::BoilingOnly, ..pan });
            faces = Faces { bottom: pan, top: over.clone(), sides: over, ends: None };
        }
        let first = Stage {
            flip_every: self.flip_s.map(Span::from_s),
            ..Stage::new("first", faces, Until::Centre(c(self.until_c)))
        };
        let rest = self.then.as_ref().map(|then| {
            let faces = Faces::all(self.face(then.medium_c, then.film));
            Stage::new("then", faces, Until::Time(Span::from_min(then.minutes)))
        });
        std::iter::once(first).chain(rest).collect()
    }

    fn run(&self, settings: &Settings) -> History {
        let start = Start::Even(c(self.start_c));
        let found = simulate(&self.meat(), &self.shape(), &start, &self.stages(), settings).unwrap();
        assert!(found.stages.iter().all(|stage| stage.reached), "{}: not reached", self.name);
        found
    }

    /// A known miss is asserted to miss, and by no more than it says.
    fn judge(&self, law: &str, distance: f64, allowed: f64) {
        println!("{:42} {law:16} {distance:.2e}", self.name);
        match self.known_miss.iter().find(|miss| miss.law == law) {
            Some(miss) => {
                assert!(!miss.because.is_empty());
                assert!(distance > allowed, "{}: {law} is no longer missed: {distance}", self.name);
                assert!(distance <= miss.by, "{}: {law} missed by {distance}, told {}", self.name, miss.by);
            }
            None => assert!(distance <= allowed, "{}: {law} missed by {distance}", self.name),
        }
    }
}

#[test]
fn energy_closes() {
    for case in cases() {
        for settings in [Settings::exact(), Settings::ensemble()] {
            case.judge("energy_closes", case.run(&settings).energy_error, 1e-6);
        }
    }
}

/// Half the cell moves no time by more than 0.1 % on a slab, 0.5 % elsewhere.
#[test]
fn twice_the_grid() {
    for case in cases() {
        let once = Settings { colour: false, ..Settings::exact() };
        let twice = Settings { cells: 2 * once.cells, ..once.clone() };
        let moved = case.run(&once).stages[0].time_s / case.run(&twice).stages[0].time_s - 1.0;
        let allowed = if case.shape == "slab" { 1e-3 } else { 5e-3 };
        case.judge("twice_the_grid", moved.abs(), allowed);
    }
}

/// A quarter of the error allowed a step (half the step) moves no time by more than 0.1 % on a slab, 0.5 % elsewhere.
#[test]
fn half_the_step() {
    for case in cases() {
        let once = Settings { colour: false, ..Settings::exact() };
        let twice = Settings { tolerance: 0.25 * once.tolerance, ..once.clone() };
        let moved = case.run(&once).stages[0].time_s / case.run(&twice).stages[0].time_s - 1.0;
        let allowed = if case.shape == "slab" { 1e-3 } else { 5e-3 };
        case.judge("half_the_step", moved.abs(), allowed);
    }
}

/// The middle only ever moves towards the one medium around it.
#[test]
fn monotone_under_one_medium() {
    for case in cases().into_iter().filter(|case| !case.below) {
        let settings = Settings { sample_every: Some(Span::from_s(20.0)), ..Settings::exact() };
        let found = case.run(&settings);
        let end = found.stages[0].time_s;
        let way = (case.medium_c - case.start_c).signum();
        let middle: Vec<f64> =
            found.curve.iter().filter(|row| row.t_s <= end).map(|row| way * row.centre_c).collect();
        let back = middle.windows(2).map(|pair| pair[0] - pair[1]).fold(0.0, f64::max);
        // A hundredth of a kelvin: what a step may be off.
        case.judge("monotone", back, 0.01);
    }
}

/// Even faces on the whole thickness are the half of it mirrored, and stay even.
#[test]
fn even_faces_stay_even() {
    for case in
        cases().into_iter().filter(|case| matches!(case.shape.as_str(), "slab" | "steak") && !case.below)
    {
        let stages = case.stages();
        let settings = Settings { colour: false, ..Settings::exact() };
        let half = case.run(&settings);
        // An uneven start of the same temperature everywhere makes the solver take the whole thickness.
        let start = Start::Profile(vec![(Length::from_mm(0.0), c(case.start_c))]);
        let whole = simulate(&case.meat(), &case.shape(), &start, &stages, &settings).unwrap();
        let apart = whole.time_s / half.time_s - 1.0;
        case.judge("even_time", apart.abs(), 1e-3);
        let n = whole.section.len();
        let lopsided =
            (0..n).map(|i| (whole.section[i].c - whole.section[n - 1 - i].c).abs()).fold(0.0, f64::max);
        case.judge("even", lopsided, 1e-6);
        assert!(((whole.heat_j / half.heat_j) - 1.0).abs() < 1e-3, "{}: heat of both halves", case.name);
    }
}

/// A slab warmed from above is the same slab warmed from below, turned round.
#[test]
fn top_and_bottom_are_the_same_kind_of_face() {
    for case in cases().into_iter().filter(|case| case.shape == "slab" && !case.below) {
        let warm = case.face(case.medium_c, case.film);
        let faces = |top: Face, bottom: Face| Faces { top, bottom, sides: Face::Insulated, ends: None };
        let run = |faces: Faces| {
            let stage = Stage::new("one side", faces, Until::Time(Span::from_min(20.0)));
            let start = Start::Even(c(case.start_c));
            simulate(&case.meat(), &case.shape(), &start, &[stage], &Settings::exact()).unwrap()
        };
        let (over, under) = (run(faces(warm.clone(), Face::Insulated)), run(faces(Face::Insulated, warm)));
        let n = over.section.len();
        let apart =
            (0..n).map(|i| (over.section[i].c - under.section[n - 1 - i].c).abs()).fold(0.0, f64::max);
        case.judge("turned", apart, 1e-3);
    }
}

/// A brick of two huge sides and a broad disc are a slab; a long cylinder with ends is one without.
#[test]
fn huge_sides_do_not_matter() {
    for case in cases().into_iter().filter(|case| !case.below && case.then.is_none()) {
        let like = |shape: &str| Case { shape: shape.to_owned(), ..case.clone() };
        let brick = Case { width_mm: Some(2000.0), length_mm: Some(2000.0), ..like("brick") };
        let disc =
            Case { thickness_mm: 2000.0, length_mm: Some(case.thickness_mm), ..like("cylinder with ends") };
        let huge = match case.shape.as_str() {
            // Three axes cost most: the smooth rows stand for the others.
            "slab" if case.meat == "constant" => vec![brick, disc],
            "slab" => vec![disc],
            "cylinder" => vec![Case { length_mm: Some(2000.0), ..like("cylinder with ends") }],
            _ => continue,
        };
        let settings = Settings { cells: 48, colour: false, ..Settings::exact() };
        // Twice the cells where a shape has one axis: a shape of several has half as many along each.
        let time = case.run(&Settings { cells: 24, ..settings.clone() }).stages[0].time_s;
        for huge in huge {
            let apart = huge.run(&settings).stages[0].time_s / time - 1.0;
            case.judge("huge", apart.abs(), 1e-3);
        }
    }
}

/// In perfect contact nothing passes between two equal pieces: half a slab with its back insulated is one of
/// twice the thickness.
#[test]
fn a_pile_in_perfect_contact_is_one_piece() {
    for case in cases().into_iter().filter(|case| case.shape == "slab" && !case.below && case.then.is_none())
    {
        let settings = Settings { cells: 48, colour: false, ..Settings::exact() };
        let whole = case.run(&settings);
        let [mut stage] = <[Stage; 1]>::try_from(case.stages()).unwrap();
        stage.faces.top = Face::Insulated;
        let half = Shape::Slab { thickness: Length::from_mm(0.5 * case.thickness_mm) };
        // The insulated top is the middle of the pile.
        stage.until = Until::Surface(c(case.until_c));
        let start = Start::Even(c(case.start_c));
        // The whole thickness is solved where the faces differ: the same cells a millimetre.
        let fine = Settings { cells: settings.cells / 2, ..settings };
        let piled = simulate(&case.meat(), &half, &start, &[stage], &fine).unwrap();
        case.judge("piled", (piled.time_s / whole.time_s - 1.0).abs(), 1e-3);
        case.judge("piled heat", (2.0 * piled.heat_j / whole.heat_j - 1.0).abs(), 1e-3);
    }
}

/// Second order in space on a smooth case of any shape: twice the cells, a quarter of the error.
#[test]
fn second_order_in_space() {
    for case in cases().into_iter().filter(|case| case.meat == "constant") {
        let at = |cells: usize| {
            let settings = Settings { cells, tolerance: 1e-7, colour: false, ..Settings::exact() };
            case.run(&settings).time_s
        };
        let (a, b, d) = if case.axes() == 1 { (at(6), at(12), at(24)) } else { (at(12), at(24), at(48)) };
        let order = ((a - b) / (b - d)).abs().log2();
        println!("{}: order {order:.2}", case.name);
        assert!(order > 1.8, "{}: {order}", case.name);
    }
}

/// No water appears: what is lost only grows, and a cooked piece never weighs more than a raw one where nothing condenses.
#[test]
fn no_water_appears() {
    for case in cases().into_iter().filter(|case| case.evaporation.is_some()) {
        let found = case.run(&Settings::exact());
        let lost: Vec<f64> = found.stages.iter().map(|stage| stage.mass_lost_kg).collect();
        assert!(lost[0] > 0.0 && lost.windows(2).all(|pair| pair[1] >= pair[0]), "{}: {lost:?}", case.name);
    }
}

/// What each case costs: pinned beside the answers, so that a slow-down is a diff.
#[test]
fn work_is_pinned() {
    let mut lines = Vec::new();
    for case in cases() {
        let found = case.run(&Settings::ensemble());
        let (work, minutes) = (found.work, found.stages[0].time_s / 60.0);
        lines.push(format!(
            "{:42} {minutes:7.1} min  nodes {} steps {} rejected {} solves {}",
            case.name, work.nodes, work.steps, work.rejected, work.solves
        ));
    }
    insta::assert_snapshot!(lines.join("\n"));
}
