//! How well the next portion's weight is foretold by what is known; and where stations help.
//!
//! Computed by the prototype, 1,000 pieces a cut: rows below are (posterior sd, rms, 80 % band holds), per cent. Ours, from
//! other draws, must come within 0.5 points of its rms and sd and 4 of its holding: two lots of 1,000 pieces leave 1.8 on
//! the difference of two such counts.
//!
//! Portions start where squaring cuts: 15 mm from the first end and 25 from the last, tenderloin 60 and 120 (inferred: with
//! these the prototype's claimed sd comes out to 0.1 in 30 of 32 rows; its text does not say).

use crate::world::{Dice, Mould, Tally, World};
use band::Value;
use quantity::{Length, Mass};
use roll::{End, Marking, Piece, Posterior, Station, Weighed};

/// What is known before the first portion.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Known {
    CutOnly,
    Scale,
    Both,
}

/// A cut as it was tried.
pub(crate) struct Case {
    pub(crate) cut: &'static str,
    pub(crate) length_mm: f64,
    pub(crate) thickness_mm: f64,
    pub(crate) ends_mm: [f64; 2],
}

pub(crate) const RIBEYE: Case =
    Case { cut: "beef-ribeye-roll", length_mm: 400.0, thickness_mm: 38.0, ends_mm: [15.0, 25.0] };
/// The ribeye with portions from tip to tip.
pub(crate) const UNSQUARED: Case = Case { ends_mm: [0.0, 0.0], ..RIBEYE };
const STRIP: Case =
    Case { cut: "beef-strip-loin", length_mm: 460.0, thickness_mm: 38.0, ends_mm: [15.0, 25.0] };
const TENDERLOIN: Case =
    Case { cut: "beef-tenderloin", length_mm: 560.0, thickness_mm: 45.0, ends_mm: [60.0, 120.0] };
const EYE: Case =
    Case { cut: "beef-eye-of-round", length_mm: 270.0, thickness_mm: 30.0, ends_mm: [15.0, 25.0] };

const THREE: &[f64] = &[0.2, 0.5, 0.8];

/// Tallies of every portion with nothing weighed before it, and of the second, third and fifth with all before weighed.
pub(crate) struct Tried {
    pub(crate) unweighed: Tally,
    pub(crate) after: [Tally; 3],
}

/// Draws pieces, measures them, foretells and weighs their portions.
pub(crate) fn try_pieces(
    case: &Case,
    mould: &Mould,
    stations: &[f64],
    marking: Marking,
    pieces: u64,
) -> Tried {
    let mut tried = Tried { unweighed: Tally::default(), after: Default::default() };
    for seed in 0..pieces {
        let mut dice = Dice::new(seed);
        let catalogued = catalogue::cut(case.cut).expect("a cut");
        let grams = catalogued.mass.typical_g;
        let truth = mould.piece(grams, case.length_mm, &mut dice);
        let mut piece = measured(case, &truth, stations, &mut dice);
        piece.knife.marking = marking;
        let mut posterior = Posterior::new(&piece).expect("a likely piece");
        let start = posterior.clone();
        let mut face = case.ends_mm[0];
        let mut mark = case.ends_mm[0];
        let mut number = 0;
        while mark + case.thickness_mm <= case.length_mm - case.ends_mm[1] {
            let next = mark + case.thickness_mm;
            let (went, grams) = truth.cut(face, next, &mut dice);
            // A fresh face is where the next mark is measured from; drawn marks stay where they are.
            let (to, near) = match marking {
                Marking::FreshFace => (next, mark),
                Marking::DrawnBefore => (went, mark),
            };
            let band = start.between(mm(near), mm(next), true).times(1000.0);
            tried.unweighed.add(grams, band);
            let band = posterior.between(mm(near), mm(next), true).times(1000.0);
            match number {
                1 => tried.after[0].add(grams, band),
                2 => tried.after[1].add(grams, band),
                4 => tried.after[2].add(grams, band),
                _ => {}
            }
            let weighed = Weighed { mass: Mass::from_g(grams), marks: None, thickness: None, want: None };
            posterior.weigh(mm(near), mm(next), true, &weighed).expect("a likely portion");
            (face, mark, number) = match marking {
                // The truth's face is where the knife went; the mark after it is measured from there, so both agree.
                Marking::FreshFace => (next, next, number + 1),
                Marking::DrawnBefore => (to, next, number + 1),
            };
        }
    }
    tried
}

fn measured(case: &Case, truth: &crate::world::Truth, stations: &[f64], dice: &mut Dice) -> Piece {
    let mut piece = Piece::of(case.cut).expect("a roll");
    piece.mass = Value::Known(truth.mass_g / 1000.0);
    piece.length = Value::Known(truth.length_mm / 1000.0);
    (piece.ends.first, piece.ends.last) = (End::squared(Length::default()), End::squared(Length::default()));
    let section = catalogue::cut(case.cut).and_then(|cut| cut.section.as_ref()).expect("a section");
    piece.stations = stations
        .iter()
        .map(|place| {
            let at_mm = place * truth.length_mm;
            let density = section.density_kg_m3 * 1e-6;
            let area = truth.box_mm2(at_mm, density, section.factor, section.sd_station, dice);
            Station { at: mm(at_mm), width: mm(area / 90.0), height: mm(90.0) }
        })
        .collect();
    piece
}

/// The same with mass or length left out: the prior stands in, as a weighted ensemble.
fn try_unmeasured(case: &Case, mould: &Mould, known: Known, pieces: u64) -> Tally {
    let catalogued = catalogue::cut(case.cut).expect("a cut");
    let slender = catalogued.length.as_ref().expect("a length");
    // Masses round the one that makes the case's length, as the table has it.
    let middle = slender.at_mass_g * (case.length_mm / slender.typical_mm).powi(3);
    let mut tally = Tally::default();
    for seed in 0..pieces {
        let mut dice = Dice::new(seed);
        let sd = catalogued.mass.sd_g / catalogued.mass.typical_g;
        let mass = match known {
            Known::CutOnly => catalogued.mass.typical_g * (sd * dice.normal()).exp(),
            _ => middle * (0.05 * dice.normal()).exp(),
        };
        let length =
            slender.typical_mm * (mass / slender.at_mass_g).cbrt() * (slender.rel_sd * dice.normal()).exp();
        let truth = mould.piece(mass, length, &mut dice);
        let mut piece = measured(case, &truth, &[], &mut dice);
        if known != Known::Both {
            piece.length = Value::Unknown;
        }
        if known == Known::CutOnly {
            piece.mass = Value::Unknown;
        }
        let posterior = Posterior::new(&piece).expect("a likely piece");
        let mut mark = case.ends_mm[0];
        // Where the last tenth ends nobody knows without a ruler: a portion there may not be one.
        while mark + case.thickness_mm <= 0.9 * truth.length_mm.min(case.length_mm) - case.ends_mm[1] {
            let next = mark + case.thickness_mm;
            let (_, grams) = truth.cut(mark, next, &mut dice);
            tally.add(grams, posterior.between(mm(mark), mm(next), true).times(1000.0));
            mark = next;
        }
    }
    tally
}

fn mm(mm: f64) -> Length {
    Length::from_mm(mm)
}

fn mould(case: &Case) -> Mould {
    Mould::new(catalogue::profile(case.cut).expect("a profile"), World::AS_ASSUMED)
}

fn close(what: &str, tally: &Tally, (sd, rms, holds): (f64, f64, f64)) {
    let found = (tally.sd(), tally.rms(), tally.holds());
    eprintln!("{what}: sd {:.1} ({sd}), rms {:.1} ({rms}), holds {:.0} ({holds})", found.0, found.1, found.2);
    assert!((found.0 - sd).abs() <= 0.5, "{what}: sd {:.2} against {sd}", found.0);
    assert!((found.1 - rms).abs() <= 0.5, "{what}: rms {:.2} against {rms}", found.1);
    assert!((found.2 - holds).abs() <= 4.0, "{what}: holds {:.1} against {holds}", found.2);
    assert!((75.0..=84.0).contains(&found.2), "{what}: an 80 % band holds {:.1}", found.2);
}

/// (posterior sd, rms, band holds) by what is known.
struct Rows {
    length: (f64, f64, f64),
    one: (f64, f64, f64),
    three: (f64, f64, f64),
    length_after: [(f64, f64, f64); 3],
    three_after: [(f64, f64, f64); 3],
}

fn check(case: &Case, rows: &Rows) {
    let mould = mould(case);
    let bare = try_pieces(case, &mould, &[], Marking::FreshFace, 1000);
    close("length", &bare.unweighed, rows.length);
    for (number, tally) in bare.after.iter().enumerate() {
        close(&format!("length, after {}", [1, 2, 4][number]), tally, rows.length_after[number]);
    }
    let one = try_pieces(case, &mould, &[0.5], Marking::FreshFace, 1000);
    close("one station", &one.unweighed, rows.one);
    let three = try_pieces(case, &mould, THREE, Marking::FreshFace, 1000);
    close("three stations", &three.unweighed, rows.three);
    for (number, tally) in three.after.iter().enumerate() {
        close(&format!("three stations, after {}", [1, 2, 4][number]), tally, rows.three_after[number]);
    }
}

#[test]
fn ribeye() {
    check(
        &RIBEYE,
        &Rows {
            length: (6.7, 6.9, 79.0),
            one: (6.5, 6.7, 79.0),
            three: (4.6, 4.7, 79.0),
            length_after: [(4.5, 4.4, 81.0), (4.4, 4.4, 78.0), (4.0, 4.3, 76.0)],
            three_after: [(3.8, 3.8, 80.0), (3.9, 3.9, 79.0), (3.7, 3.9, 79.0)],
        },
    );
}

#[test]
fn strip_loin() {
    check(
        &STRIP,
        &Rows {
            length: (6.8, 6.9, 80.0),
            one: (6.7, 6.8, 80.0),
            three: (4.7, 4.7, 80.0),
            length_after: [(4.4, 4.3, 80.0), (4.4, 4.3, 81.0), (4.0, 4.0, 80.0)],
            three_after: [(3.8, 3.8, 80.0), (3.8, 3.7, 81.0), (3.7, 3.7, 81.0)],
        },
    );
}

#[test]
fn tenderloin() {
    check(
        &TENDERLOIN,
        &Rows {
            length: (7.5, 8.3, 78.0),
            one: (6.5, 7.2, 78.0),
            three: (4.5, 4.6, 79.0),
            length_after: [(4.1, 4.2, 80.0), (4.1, 4.3, 78.0), (3.6, 3.7, 80.0)],
            three_after: [(3.5, 3.5, 80.0), (3.7, 3.7, 80.0), (3.4, 3.5, 79.0)],
        },
    );
}

#[test]
fn eye_of_round() {
    check(
        &EYE,
        &Rows {
            length: (7.8, 8.0, 80.0),
            one: (7.6, 7.8, 80.0),
            three: (5.1, 5.3, 79.0),
            length_after: [(5.6, 5.6, 80.0), (5.4, 5.3, 82.0), (4.6, 4.7, 80.0)],
            three_after: [(4.7, 4.8, 79.0), (4.7, 4.6, 82.0), (4.4, 4.5, 80.0)],
        },
    );
}

/// What a missing length, and a missing mass beside it, add to the error (as squares, per cent), against closed form: at a
/// place s of a piece m(s) = M/L · p(s/L), so d ln m / d ln L = −(1 + x p′/p), and M moves L by its third. Within 1 point.
///
/// The prototype has 6.0 to 6.2 and 10.6 for every cut: it let M/L stray and left p where it was. Known difference, in our
/// favour: along a taper the two partly cancel, so a tenderloin of unknown length is foretold better (3.4 than 6.2).
#[test]
fn without_ruler_or_scale() {
    for case in [&STRIP, &TENDERLOIN, &EYE, &RIBEYE] {
        let mould = mould(case);
        let tally = |known| try_unmeasured(case, &mould, known, 300);
        let known = tally(Known::Both);
        let (length, both) = added_by_closed_form(case);
        for (what, found, adds) in
            [("scale", tally(Known::Scale), length), ("cut only", tally(Known::CutOnly), both)]
        {
            let added = |found: f64, known: f64| (found * found - known * known).sqrt();
            let (claimed, made) = (added(found.sd(), known.sd()), added(found.rms(), known.rms()));
            let holds = found.holds();
            eprintln!(
                "{} {what}: adds {claimed:.1} claimed, {made:.1} made ({adds:.1}), holds {holds:.0}",
                case.cut
            );
            assert!(
                (claimed - adds).abs() <= 1.0,
                "{} {what}: claims {claimed:.2} more, not {adds:.2}",
                case.cut
            );
            assert!((made - adds).abs() <= 1.0, "{} {what}: errs {made:.2} more, not {adds:.2}", case.cut);
            assert!((75.0..=84.0).contains(&holds), "{} {what}: an 80 % band holds {holds:.1}", case.cut);
        }
    }
}

/// Per cent that length alone, and mass and length together, add at the middles of the portions tried.
fn added_by_closed_form(case: &Case) -> (f64, f64) {
    let cut = catalogue::cut(case.cut).expect("a cut");
    let profile = catalogue::profile(case.cut).expect("a profile");
    let (mass_sd, length_sd) =
        (cut.mass.sd_g / cut.mass.typical_g, cut.length.as_ref().expect("a length").rel_sd);
    let knots = (catalogue::KNOTS - 1) as f64;
    let (mut length, mut both, mut count) = (0.0, 0.0, 0.0);
    let mut mark = case.ends_mm[0];
    while mark + case.thickness_mm <= 0.9 * case.length_mm - case.ends_mm[1] {
        let x = (mark + case.thickness_mm / 2.0) / case.length_mm;
        let knot = (x * knots) as usize;
        let slope = (profile.p[knot + 1] - profile.p[knot]) * knots;
        let value = profile.p[knot] + slope * (x - knot as f64 / knots);
        let by_length = 1.0 + x * slope / value;
        length += (by_length * length_sd).powi(2);
        both += (by_length * length_sd).powi(2) + ((1.0 - by_length / 3.0) * mass_sd).powi(2);
        count += 1.0;
        mark += case.thickness_mm;
    }
    (100.0 * (length / count).sqrt(), 100.0 * (both / count).sqrt())
}

/// Posterior sd of an unweighed ribeye portion by stations, per cent (computed by the prototype): within 0.25.
#[test]
fn which_stations_help() {
    let rows: [(&[f64], f64); 10] = [
        (&[], 6.8),
        (&[0.5], 6.6),
        (&[0.2], 5.9),
        (&[0.8], 5.9),
        (&[0.2, 0.8], 5.0),
        (&[0.1, 0.9], 4.9),
        (&[0.2, 0.5, 0.8], 4.6),
        (&[0.15, 0.5, 0.85], 4.5),
        (&[0.1, 0.35, 0.65, 0.9], 4.2),
        (&[0.1, 0.3, 0.5, 0.7, 0.9], 4.1),
    ];
    let mould = mould(&RIBEYE);
    let mut last = f64::INFINITY;
    for (stations, sd) in rows {
        let found = try_pieces(&RIBEYE, &mould, stations, Marking::FreshFace, 40).unweighed.sd();
        assert!((found - sd).abs() <= 0.25, "{stations:?}: sd {found:.2} against {sd}");
        assert!(found < last + 0.1, "{stations:?}: more stations, no worse");
        last = found;
    }
}
