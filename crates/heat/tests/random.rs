//! It never fails: random pieces, media and stages give an answer or a refusal in words, and never a panic, a number that is
//! none, an endless run or a broken law.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a check that cannot set up its case has failed"
)]

use heat::{
    Composition, Constants, Course, Evaporation, Face, Faces, Footprint, Frozen, HeatError, Meat, Moist,
    Organism, Overrides, Reserve, Settings, Shape, Stage, Start, Supply, Surroundings, Until, simulate,
};
use quantity::{Length, Mass, Span, Temperature};

/// Numbers from a fixed seed (`SplitMix64`, Steele, Lea, Flood 2014): the same cases on every machine.
struct Dice(u64);

impl Dice {
    fn unit(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    fn factor(&mut self, low: f64, high: f64) -> f64 {
        low * (high / low).powf(self.unit())
    }

    fn one_of(&mut self, count: usize) -> usize {
        ((self.unit() * count as f64) as usize).min(count - 1)
    }

    fn chance(&mut self, share: f64) -> bool {
        self.unit() < share
    }
}

fn c(celsius: f64) -> Temperature {
    Temperature::from_c(celsius)
}

fn materials() -> Vec<Meat> {
    let shares = |water, protein, fat| Composition { water, protein, fat, carbohydrate: 0.0, ash: 0.01 };
    let salted = Overrides { salt_percent: 1.5, ..Overrides::default() };
    let thawed = Constants { conductivity_w_m_k: 0.48, specific_heat_j_kg_k: 3520.0, density_kg_m3: 1050.0 };
    let ice = Constants { conductivity_w_m_k: 1.5, specific_heat_j_kg_k: 2100.0, density_kg_m3: 1000.0 };
    let frozen = Frozen { freezing_point_c: -1.1, latent_j_kg: 239_000.0, constants: ice };
    vec![
        Meat::composed(shares(0.74, 0.21, 0.03), Overrides::default()).unwrap(),
        Meat::composed(shares(0.55, 0.17, 0.27), Overrides::default()).unwrap(),
        Meat::composed(shares(0.70, 0.22, 0.06), salted).unwrap(),
        Meat::constant(thawed).unwrap(),
        Meat::frozen_constants(thawed, frozen).unwrap(),
    ]
}

fn face(dice: &mut Dice) -> Face {
    let medium = match dice.one_of(5) {
        0 => dice.between(-40.0, -5.0),
        1 => dice.between(-2.0, 8.0),
        2 => dice.between(10.0, 60.0),
        3 => dice.between(60.0, 130.0),
        _ => dice.between(130.0, 260.0),
    };
    if dice.chance(0.03) {
        return Face::Insulated;
    }
    if dice.chance(0.03) {
        return Face::Fixed(Course::Steady(c(medium.min(120.0))));
    }
    let course = if dice.chance(0.15) {
        let row =
            |minute: f64, dice: &mut Dice| (Span::from_min(minute), c(medium + dice.between(-15.0, 15.0)));
        Course::Series(vec![row(0.0, dice), row(7.0, dice), row(7.0, dice), row(30.0, dice)])
    } else {
        Course::Steady(c(medium))
    };
    let moist = Moist { vapour_pa: dice.factor(200.0, 30_000.0), lean_share: dice.unit() };
    let supply = Supply {
        diffusivity_m2_s: dice.factor(5e-11, 1e-9),
        drawn_kg_m2: dice.between(0.0, 0.05),
        juice_share: dice.unit(),
    };
    let evaporation = match dice.one_of(if medium > 100.0 { 3 } else { 4 }) {
        0 => Evaporation::Wet(moist),
        1 => Evaporation::Drying(moist, supply),
        2 => Evaporation::BoilingOnly,
        _ => Evaporation::None,
    };
    Face::Open(Surroundings {
        emissivity: if dice.chance(0.5) { 0.9 } else { 0.0 },
        radiant_above_k: dice.between(-20.0, 60.0),
        cover_m2_k_w: if dice.chance(0.2) { dice.factor(1e-4, 0.1) } else { 0.0 },
        cover_share: if dice.chance(0.5) { 1.0 } else { dice.unit() },
        evaporation,
        reserve: dice.chance(0.15).then(|| Reserve {
            capacity_j_m2_k: dice.factor(500.0, 1e5),
            recovery_w_m2_k: dice.factor(1.0, 1000.0),
        }),
        ..Surroundings::plain(course, dice.factor(2.0, 3000.0))
    })
}

fn stage(dice: &mut Dice) -> Stage {
    let over = face(dice);
    let faces = if dice.chance(0.5) {
        Faces::all(over)
    } else {
        Faces { top: over, bottom: face(dice), sides: face(dice), ends: dice.chance(0.3).then(|| face(dice)) }
    };
    let until = match dice.one_of(5) {
        0 => Until::Time(Span::from_min(dice.factor(0.2, 300.0))),
        1 => Until::Mean(c(dice.between(-30.0, 70.0))),
        2 => Until::Surface(c(dice.between(-30.0, 90.0))),
        3 => Until::Kill { organism: 0, log10: dice.between(0.5, 7.0) },
        _ => Until::Centre(c(dice.between(-30.0, 80.0))),
    };
    Stage {
        flip_every: dice.chance(0.25).then(|| Span::from_s(dice.factor(30.0, 900.0))),
        at_most: Span::from_h(dice.factor(0.3, 10.0)),
        ..Stage::new("random", faces, until)
    }
}

fn try_case(dice: &mut Dice, meat: &Meat, shape: &Shape) -> Result<(), HeatError> {
    let start = match dice.one_of(3) {
        0 => Start::Even(c(dice.between(-35.0, -2.0))),
        1 => Start::Even(c(dice.between(-2.0, 40.0))),
        _ => Start::Profile(vec![
            (Length::from_mm(0.0), c(dice.between(-30.0, 60.0))),
            (Length::from_mm(20.0), c(dice.between(-30.0, 60.0))),
        ]),
    };
    let stages: Vec<Stage> = (0..=dice.one_of(3)).map(|_| stage(dice)).collect();
    let organism = Organism { name: "any".to_owned(), d_s: 760.0, at_c: 55.0, z_k: 7.6 };
    let settings = Settings { organisms: vec![organism], ..Settings::ensemble() };
    let found = simulate(meat, shape, &start, &stages, &settings)?;
    let told = || format!("{meat:?}\n{shape:?}\n{start:?}\n{stages:?}\n{found:?}", meat = meat.composition());
    let numbers = [
        found.time_s,
        found.centre_c,
        found.surface_c,
        found.mean_c,
        found.peak_centre_c,
        found.heat_j,
        found.mass_lost_kg,
        found.grey_share,
        found.ice_share,
        found.energy_error,
    ];
    assert!(numbers.iter().all(|number| number.is_finite()), "a number that is none: {}", told());
    if let Some(composition) = meat.composition() {
        let volume = match *shape {
            Shape::Slab { thickness } => thickness.m(),
            _ => f64::INFINITY,
        };
        let water = composition.water * meat.density_kg_m3() * volume;
        assert!(
            found.mass_lost_kg <= 1.000_001 * water,
            "more water lost than there was, {water}: {}",
            told()
        );
    }
    assert!(found.energy_error < 1e-6, "energy: {}", told());
    assert!((0.0..=1.0).contains(&found.grey_share) && (0.0..=1.0).contains(&found.ice_share), "{}", told());
    assert!(found.peak_centre_c >= found.centre_c - 1e-9, "{}", told());
    let flips =
        |(asked, end): (&Stage, &heat::StageEnd)| asked.flip_every.map_or(0.0, |f| end.time_s / f.s());
    let flips: f64 = stages.iter().zip(&found.stages).map(flips).sum();
    let tries = (found.work.steps + found.work.rejected) as f64;
    assert!(tries < 20_000.0 + 150.0 * flips, "endless, {tries} tries, {flips} flips: {}", told());
    Ok(())
}

fn run(seed: u64, count: usize, shape: impl Fn(&mut Dice) -> Shape) {
    let meats = materials();
    let mut dice = Dice(seed);
    let mut refused = 0;
    for _ in 0..count {
        let meat = &meats[dice.one_of(meats.len())];
        let shape = shape(&mut dice);
        match try_case(&mut dice, meat, &shape) {
            Ok(()) => {}
            // Hotter or colder than the figures reach: said in words, and no fault.
            Err(HeatError::OutsideFit { .. }) => refused += 1,
            Err(other) => panic!("{other}"),
        }
    }
    println!("{count} cases, {refused} outside the fit");
    assert!(refused * 6 < count, "{refused} of {count} refused");
}

#[test]
fn slabs() {
    run(1, 4000, |dice| Shape::Slab { thickness: Length::from_mm(dice.factor(5.0, 150.0)) });
}

#[test]
fn steaks() {
    run(2, 400, |dice| Shape::Steak {
        thickness: Length::from_mm(dice.factor(8.0, 80.0)),
        footprint: Footprint::MassAndAspect(Mass::from_g(dice.factor(100.0, 1500.0)), dice.between(1.0, 2.5)),
    });
}

#[test]
fn round_pieces_and_bricks() {
    run(3, 300, |dice| {
        let mm = |dice: &mut Dice| Length::from_mm(dice.factor(10.0, 200.0));
        match dice.one_of(5) {
            4 => Shape::Roast {
                mass: Mass::from_g(dice.factor(300.0, 6000.0)),
                height: dice.chance(0.5).then(|| Length::from_mm(dice.between(60.0, 130.0))),
                width: None,
                length: dice.chance(0.5).then(|| Length::from_mm(dice.between(100.0, 300.0))),
            },
            0 => Shape::Cylinder { diameter: mm(dice) },
            1 => Shape::Sphere { diameter: mm(dice) },
            2 => Shape::FiniteCylinder { diameter: mm(dice), length: mm(dice) },
            _ => Shape::Brick { thickness: mm(dice), width: mm(dice), length: mm(dice) },
        }
    });
}
