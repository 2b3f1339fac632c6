//! A random piece with its meat, media and stages, and the laws any answer has to keep: for the tests and for
//! `cargo xtask bench heat-random`.

use heat::{
    Composition, Constants, Course, Evaporation, Face, Faces, Footprint, Frozen, HeatError, History, Meat,
    Moist, Organism, Overrides, Reserve, Settings, Shape, Stage, Start, Supply, Surroundings, Until,
    saturation_pa, simulate,
};
use quantity::{Length, Mass, Span, Temperature};
use std::f64::consts::PI;

/// Numbers from a fixed seed (`SplitMix64`, Steele, Lea, Flood 2014): the same cases on every machine.
pub(crate) struct Dice(u64);

impl Dice {
    /// The dice of one case: any case can be thrown again alone.
    pub(crate) fn of(seed: u64, index: u64) -> Self {
        let mut dice = Self(seed.wrapping_mul(0x2545_F491_4F6C_DD1D) ^ index);
        // Neighbouring indices start far apart.
        dice.0 = dice.unit().to_bits() ^ dice.0.rotate_left(32);
        dice
    }

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

pub(crate) fn materials() -> Result<Vec<Meat>, HeatError> {
    let shares = |water, protein, fat| Composition { water, protein, fat, carbohydrate: 0.0, ash: 0.01 };
    let salted = Overrides { salt_percent: 1.5, ..Overrides::default() };
    let thawed = Constants { conductivity_w_m_k: 0.48, specific_heat_j_kg_k: 3520.0, density_kg_m3: 1050.0 };
    let ice = Constants { conductivity_w_m_k: 1.5, specific_heat_j_kg_k: 2100.0, density_kg_m3: 1000.0 };
    let frozen = Frozen { freezing_point_c: -1.1, latent_j_kg: 239_000.0, constants: ice };
    [
        Meat::composed(shares(0.74, 0.21, 0.03), Overrides::default()),
        Meat::composed(shares(0.55, 0.17, 0.27), Overrides::default()),
        Meat::composed(shares(0.70, 0.22, 0.06), salted),
        Meat::constant(thawed),
        Meat::frozen_constants(thawed, frozen),
    ]
    .into_iter()
    .collect()
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

/// What the steps of a member of a band may be off, K.
pub(crate) const TOO_HOT_K: f64 = 1.0;

/// What a piece is drawn from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    Slab,
    Steak,
    Cylinder,
    Sphere,
    FiniteCylinder,
    Brick,
    Roast,
}

impl Kind {
    fn shape(self, dice: &mut Dice) -> Shape {
        let mm = |dice: &mut Dice| Length::from_mm(dice.factor(10.0, 200.0));
        match self {
            Self::Slab => Shape::Slab { thickness: Length::from_mm(dice.factor(5.0, 150.0)) },
            Self::Steak => Shape::Steak {
                thickness: Length::from_mm(dice.factor(8.0, 80.0)),
                footprint: Footprint::MassAndAspect(
                    Mass::from_g(dice.factor(100.0, 1500.0)),
                    dice.between(1.0, 2.5),
                ),
            },
            Self::Cylinder => Shape::Cylinder { diameter: mm(dice) },
            Self::Sphere => Shape::Sphere { diameter: mm(dice) },
            Self::FiniteCylinder => Shape::FiniteCylinder { diameter: mm(dice), length: mm(dice) },
            Self::Brick => Shape::Brick { thickness: mm(dice), width: mm(dice), length: mm(dice) },
            Self::Roast => Shape::Roast {
                mass: Mass::from_g(dice.factor(300.0, 6000.0)),
                height: dice.chance(0.5).then(|| Length::from_mm(dice.between(60.0, 130.0))),
                width: None,
                length: dice.chance(0.5).then(|| Length::from_mm(dice.between(100.0, 300.0))),
            },
        }
    }
}

/// Worst figures of the laws, each 0 where it is kept to the last digit.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Worst {
    /// |heat in − enthalpy gained| over the heat moved; at most 1e-6.
    pub(crate) energy: f64,
    /// Water lost over the water there was, less one where more; at most 1e-6.
    pub(crate) water_over: f64,
    /// Water that came from nowhere where nothing condenses, kg over the water there was; at most 1e-6.
    pub(crate) water_appeared: f64,
    /// Kelvins middle, surface or the peak of the middle were hotter than all that could warm them; at most [`TOO_HOT_K`].
    pub(crate) too_hot_k: f64,
    /// Steps tried, over what a case with its turns should take (20 000 and 150 a turn); at most 10, or it is endless.
    pub(crate) tries: f64,
    /// Known miss: cases that took more than they should. Seen where a plate that gives way lies on a sharp front in vapour
    /// that condenses for hours.
    pub(crate) slow: u64,
}

impl Worst {
    pub(crate) fn and(self, other: Self) -> Self {
        Self {
            energy: self.energy.max(other.energy),
            water_over: self.water_over.max(other.water_over),
            water_appeared: self.water_appeared.max(other.water_appeared),
            too_hot_k: self.too_hot_k.max(other.too_hot_k),
            tries: self.tries.max(other.tries),
            slow: self.slow + other.slow,
        }
    }
}

/// A case, ready to run.
#[derive(Debug)]
pub(crate) struct Piece<'a> {
    meat: &'a Meat,
    shape: Shape,
    start: Start,
    stages: Vec<Stage>,
}

impl<'a> Piece<'a> {
    pub(crate) fn new(kind: Kind, meats: &'a [Meat], dice: &mut Dice) -> Self {
        let meat = &meats[dice.one_of(meats.len())];
        let shape = kind.shape(dice);
        let start = match dice.one_of(3) {
            0 => Start::Even(c(dice.between(-35.0, -2.0))),
            1 => Start::Even(c(dice.between(-2.0, 40.0))),
            _ => Start::Profile(vec![
                (Length::from_mm(0.0), c(dice.between(-30.0, 60.0))),
                (Length::from_mm(20.0), c(dice.between(-30.0, 60.0))),
            ]),
        };
        let stages = (0..=dice.one_of(3)).map(|_| stage(dice)).collect();
        Self { meat, shape, start, stages }
    }

    /// Runs it as a member of a band and holds the answer against the laws: their figures, a refusal, or what broke.
    pub(crate) fn tried(&self) -> Result<Result<Worst, HeatError>, String> {
        let organism = Organism { name: "any".to_owned(), d_s: 760.0, at_c: 55.0, z_k: 7.6 };
        let settings = Settings { organisms: vec![organism], ..Settings::ensemble() };
        match simulate(self.meat, &self.shape, &self.start, &self.stages, &settings) {
            Ok(found) => self
                .judged(&found)
                .map(Ok)
                .map_err(|broken| format!("{broken}\n{}\n{:?}\n{:?}", self.told(), found.stages, found.work)),
            // Hotter or colder than the figures reach: said in words, and no fault.
            Err(refused @ HeatError::OutsideFit { .. }) => Ok(Err(refused)),
            Err(other) => Err(format!("{other}\n{}", self.told())),
        }
    }

    fn told(&self) -> String {
        let Self { meat, shape, start, stages } = self;
        format!("{:?}\n{shape:?}\n{start:?}\n{stages:?}", meat.composition())
    }

    fn judged(&self, found: &History) -> Result<Worst, String> {
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
        let section = found.section.iter().map(|layer| layer.c);
        if !numbers.into_iter().chain(section).all(f64::is_finite) {
            return Err("a number that is none".to_owned());
        }
        if !(0.0..=1.0).contains(&found.grey_share) || !(0.0..=1.0).contains(&found.ice_share) {
            return Err(format!("a share of {} grey, {} ice", found.grey_share, found.ice_share));
        }
        if found.peak_centre_c < found.centre_c - 1e-9 {
            return Err(format!("{} °C at the end, {} at the peak", found.centre_c, found.peak_centre_c));
        }
        let over = |c: f64| (c - self.hottest_c()).max(0.0);
        // A face held at a temperature meets a rule within its first step, which a cell's mean lags behind by more.
        let surface =
            |c: f64| if self.faces().any(|face| matches!(face, Face::Fixed(_))) { f64::MIN } else { c };
        let ends = found.stages.iter().flat_map(|stage| [stage.centre_c, surface(stage.surface_c)]);
        let tries = (found.work.steps + found.work.rejected) as f64 / (20_000.0 + 150.0 * self.turns(found));
        let worst = Worst {
            energy: found.energy_error,
            water_over: self.water_kg().map_or(0.0, |water| found.mass_lost_kg / water - 1.0).max(0.0),
            water_appeared: self.water_appeared(found),
            too_hot_k: ends.map(over).fold(over(found.peak_centre_c), f64::max),
            tries,
            slow: u64::from(tries > 1.0),
        };
        let kept = worst.energy <= 1e-6
            && worst.water_over <= 1e-6
            && worst.water_appeared <= 1e-6
            && worst.too_hot_k <= TOO_HOT_K
            && worst.tries <= 10.0;
        if kept { Ok(worst) } else { Err(format!("a law is broken: {worst:?}")) }
    }

    fn turns(&self, found: &History) -> f64 {
        let of =
            |(asked, end): (&Stage, &heat::StageEnd)| asked.flip_every.map_or(0.0, |f| end.time_s / f.s());
        self.stages.iter().zip(&found.stages).map(of).sum()
    }

    /// Water in the piece at the start; of a metre or a square metre where it has no ends. None without a composition.
    fn water_kg(&self) -> Option<f64> {
        let density = self.meat.density_kg_m3();
        let volume = match self.shape {
            Shape::Slab { thickness } => thickness.m(),
            Shape::Cylinder { diameter } => 0.25 * PI * diameter.m().powi(2),
            Shape::Sphere { diameter } => PI / 6.0 * diameter.m().powi(3),
            Shape::FiniteCylinder { diameter, length } => 0.25 * PI * diameter.m().powi(2) * length.m(),
            Shape::Brick { thickness, width, length } => thickness.m() * width.m() * length.m(),
            Shape::Roast { mass, .. } => mass.kg() / density,
            Shape::Steak { thickness, footprint } => {
                let (a, b) = footprint.half_axes(thickness.m(), density);
                PI * a * b * thickness.m()
            }
        };
        Some(self.meat.composition()?.water * density * volume)
    }

    /// Where no vapour can condense, the mass lost grows from stage to stage.
    fn water_appeared(&self, found: &History) -> f64 {
        let coldest = self.extremes().0;
        let condenses = self.surroundings().any(|around| match around.evaporation {
            Evaporation::Wet(moist) | Evaporation::Drying(moist, _) => {
                moist.vapour_pa > 0.9 * saturation_pa(coldest.max(-200.0))
            }
            Evaporation::None | Evaporation::BoilingOnly => false,
        });
        let Some(water) = self.water_kg().filter(|_| !condenses) else { return 0.0 };
        let lost = found.stages.iter().map(|stage| stage.mass_lost_kg);
        let before = std::iter::once(0.0).chain(lost.clone());
        before.zip(lost).map(|(before, after)| (before - after) / water).fold(0.0, f64::max)
    }

    /// The warmest of start, media, what is seen, and the dew of what may condense; °C.
    fn hottest_c(&self) -> f64 {
        // Vapour of up to 30 kPa (`face`) condenses at up to 69 °C.
        let dew = self
            .surroundings()
            .any(|around| matches!(around.evaporation, Evaporation::Wet(_) | Evaporation::Drying(..)));
        self.extremes().1.max(if dew { 69.1 } else { f64::NEG_INFINITY })
    }

    fn surroundings(&self) -> impl Iterator<Item = &Surroundings> {
        self.faces().filter_map(|face| match face {
            Face::Open(around) => Some(around),
            Face::Insulated | Face::Fixed(_) => None,
        })
    }

    fn faces(&self) -> impl Iterator<Item = &Face> {
        self.stages.iter().flat_map(|stage| {
            let Faces { top, bottom, sides, ends } = &stage.faces;
            [top, bottom, sides].into_iter().chain(ends)
        })
    }

    /// Coldest and warmest of start, media and what is seen, °C.
    fn extremes(&self) -> (f64, f64) {
        let start = match &self.start {
            Start::Even(t) => vec![t.c()],
            Start::Profile(rows) => rows.iter().map(|row| row.1.c()).collect(),
        };
        let media = self.faces().flat_map(|face| match face {
            Face::Insulated => Vec::new(),
            Face::Fixed(course) => temperatures(course),
            Face::Open(around) => {
                let seen = if around.emissivity > 0.0 { around.radiant_above_k } else { 0.0 };
                let own = temperatures(&around.medium);
                own.iter().flat_map(|t| [*t, t + seen]).collect()
            }
        });
        start
            .into_iter()
            .chain(media)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), t| (low.min(t), high.max(t)))
    }
}

fn temperatures(course: &Course) -> Vec<f64> {
    match course {
        Course::Steady(t) => vec![t.c()],
        Course::Series(rows) => rows.iter().map(|row| row.1.c()).collect(),
    }
}
