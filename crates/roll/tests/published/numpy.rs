//! The posterior beside numpy: a general linear-algebra library, another form of the update, other integrals
//! (`posterior.py`). 60 random sequences of stations and weighed portions, both ways of marking.

use crate::venv::{numbers, run};
use band::Value;
use quantity::{Length, Mass};
use rand::{Rng, SeedableRng, rngs::ChaCha8Rng};
use roll::{End, Marking, Piece, Posterior, Station, Weighed};
use std::fmt::Write;

const CUTS: [&str; 5] =
    ["beef-ribeye-roll", "beef-strip-loin", "beef-tenderloin", "beef-eye-of-round", "beef-t-bone"];

struct Case {
    piece: Piece,
    cut: &'static str,
    slants: [f64; 2],
    portions: Vec<(f64, f64, Weighed)>,
}

fn unit(dice: &mut ChaCha8Rng) -> f64 {
    (dice.next_u64() >> 11) as f64 / (1u64 << 53) as f64
}

/// A likely piece measured at random, cut and weighed along its first part.
fn random_case(seed: u64) -> Case {
    let mut dice = ChaCha8Rng::seed_from_u64(seed);
    let mut within = |low: f64, high: f64| low + (high - low) * unit(&mut dice);
    let cut = CUTS[(seed % 5) as usize];
    let catalogued = catalogue::cut(cut).expect("a cut");
    let grams = catalogued.mass.typical_g * within(0.85, 1.15);
    let length =
        catalogued.length.as_ref().expect("a length").typical(Mass::from_g(grams)).mm() * within(0.9, 1.1);
    let slants = if seed.is_multiple_of(3) { [0.0, 0.0] } else { [within(2.0, 30.0), within(2.0, 30.0)] };
    let mut piece = Piece::of(cut).expect("a roll");
    piece.mass = Value::Known(grams / 1000.0);
    piece.length = Value::Known(length / 1000.0);
    piece.ends.first = End::squared(Length::from_mm(slants[0]));
    piece.ends.last = End::squared(Length::from_mm(slants[1]));
    piece.scale_division = Mass::from_g(if seed.is_multiple_of(2) { 1.0 } else { 5.0 });
    piece.knife.marking = if seed % 4 == 3 { Marking::DrawnBefore } else { Marking::FreshFace };
    let section = catalogued.section.as_ref().expect("a section");
    for _ in 0..(seed % 4) {
        let at = length * within(0.15, 0.85);
        let profile = piece.prior.profile()[(at / length * 23.0) as usize];
        let area =
            grams / length * profile / (section.density_kg_m3 * 1e-6 * section.factor) * within(0.85, 1.15);
        let height = within(60.0, 110.0);
        piece.stations.push(Station {
            at: Length::from_mm(at),
            width: Length::from_mm(area / height),
            height: Length::from_mm(height),
        });
    }
    let mut portions = Vec::new();
    let mut face = slants[0].max(1.0).ceil();
    for number in 0..(seed % 5) {
        let to = face + within(20.0, 45.0).round();
        let profile = piece.prior.profile()[((face + to) / 2.0 / length * 23.0) as usize];
        let mass = Mass::from_g(grams / length * profile * (to - face) * within(0.9, 1.1));
        let measured = (number % 2 == 1).then(|| Length::from_mm(to - face + within(-1.0, 1.0)));
        portions.push((face, to, Weighed { mass, marks: None, thickness: measured, want: None }));
        // Behind a portion of measured thickness the face stands where the ruler has it; drawn marks stay.
        face = match (piece.knife.marking, measured) {
            (Marking::FreshFace, Some(thickness)) => face + thickness.mm(),
            _ => to,
        };
    }
    Case { piece, cut, slants, portions }
}

impl Case {
    fn line(&self) -> String {
        let piece = &self.piece;
        let (mass, length) =
            (piece.mass.known().expect("known") * 1000.0, piece.length.known().expect("known") * 1000.0);
        let mut line = format!(
            "{} | {mass} {length} {} {} {} | {} |",
            self.cut,
            self.slants[0],
            self.slants[1],
            piece.scale_division.g(),
            u8::from(piece.knife.marking == Marking::DrawnBefore)
        );
        for station in &piece.stations {
            let _ = write!(line, " {} {} {};", station.at.mm(), station.width.mm(), station.height.mm());
        }
        line.push_str(" |");
        for (from, to, weighed) in &self.portions {
            let thickness = weighed.thickness.map_or(0.0, |thickness| thickness.mm());
            let _ = write!(line, " {from} {to} {} {thickness};", weighed.mass.g());
        }
        line.push('\n');
        line
    }

    fn posterior(&self) -> Posterior {
        let mut posterior = Posterior::new(&self.piece).expect("a likely piece");
        for (from, to, weighed) in &self.portions {
            posterior
                .weigh(Length::from_mm(*from), Length::from_mm(*to), true, weighed)
                .expect("a likely portion");
        }
        posterior
    }
}

#[test]
fn mean_and_covariance_are_numpys() {
    let cases: Vec<Case> = (0..60).map(random_case).collect();
    let told = run("posterior.py", &cases.iter().map(Case::line).collect::<String>());
    let mut lines = told.lines();
    for (number, case) in cases.iter().enumerate() {
        let posterior = case.posterior();
        let mut line = || numbers(lines.next().expect("a line"));
        let (mean, covariance, portion) = (line(), line(), line());
        assert_eq!(mean.len(), posterior.mean().len());
        for (ours, theirs) in posterior.mean().iter().zip(&mean) {
            assert!((ours - theirs).abs() < 2e-7, "case {number}: mean {ours} against {theirs}");
        }
        for (ours, theirs) in posterior.covariance().iter().zip(&covariance) {
            assert!((ours - theirs).abs() < 2e-8, "case {number}: covariance {ours} against {theirs}");
        }
        let band = posterior.between(Length::from_mm(120.0), Length::from_mm(160.0), true).times(1000.0);
        let sd = band.width() / (2.0 * 1.281_551_565_544_600_4);
        assert!(
            (band.median - portion[0]).abs() < 1e-3,
            "case {number}: {} g against {}",
            band.median,
            portion[0]
        );
        assert!((sd / portion[1] - 1.0).abs() < 1e-4, "case {number}: sd {sd} g against {}", portion[1]);
    }
}
