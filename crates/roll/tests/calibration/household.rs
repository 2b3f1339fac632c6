//! A household whose pieces differ from the catalogue's: what its own pieces teach.
//!
//! Computed by the prototype: 150 households of 12 ribeye rolls, three stations, errors from the third portion on; tilt 15 %
//! more, shape sd × 1.4, roughness 3 %, knife ±2 mm, shape factor 8 % off. "Bare": no stations, tilt 30 % more, shape sd
//! × 0.7. Here 60 households; rms within 0.6 points and holding within 6.

use crate::table::RIBEYE;
use crate::world::{Dice, Mould, Tally, World};
use quantity::{Length, Mass};
use roll::{End, OwnPiece, OwnPortion, Piece, Posterior, Prior, Station, Weighed, learn};

const THREE: &[f64] = &[0.15, 0.5, 0.85];
const HOUSEHOLDS: u64 = 60;
const PIECES: usize = 12;

/// Tallies by number of the piece.
struct Told {
    learning: Vec<Tally>,
    kept: Vec<Tally>,
    factor: f64,
}

fn live(world: World, stations: &[f64], from_portion: usize) -> Told {
    let tallies = || (0..PIECES).map(|_| Tally::default()).collect();
    let mut told = Told { learning: tallies(), kept: tallies(), factor: 0.0 };
    let profile = catalogue::profile(RIBEYE.cut).expect("a profile");
    for household in 0..HOUSEHOLDS {
        let mould = Mould::new(profile, world);
        let mut own: Vec<OwnPiece> = Vec::new();
        for number in 0..PIECES {
            let mut dice = Dice::new(1000 * household + number as u64);
            let learned = learn(RIBEYE.cut, &own).expect("a roll").prior;
            let catalogued = Prior::of(RIBEYE.cut).expect("a roll");
            let piece = cut_up(&mould, stations, &mut dice);
            foretell(&piece, learned, from_portion, &mut told.learning[number]);
            foretell(&piece, catalogued, from_portion, &mut told.kept[number]);
            own.push(piece);
        }
        let factor = learn(RIBEYE.cut, &own).expect("a roll").prior.shape_factor().expect("a factor");
        told.factor += factor / HOUSEHOLDS as f64;
    }
    told
}

/// Draws a piece, measures it and cuts it into portions.
fn cut_up(mould: &Mould, stations: &[f64], dice: &mut Dice) -> OwnPiece {
    let cut = catalogue::cut(RIBEYE.cut).expect("a cut");
    let section = cut.section.as_ref().expect("a section");
    let truth = mould.piece(cut.mass.typical_g, RIBEYE.length_mm, dice);
    let measure = |place: &f64| {
        let at = place * RIBEYE.length_mm;
        let density = section.density_kg_m3 * 1e-6;
        let area = truth.box_mm2(at, density, section.factor, section.sd_station, dice);
        Station { at: mm(at), width: mm(area / 90.0), height: mm(90.0) }
    };
    let stations = stations.iter().map(measure).collect();
    let mut portions = Vec::new();
    let mut face = RIBEYE.ends_mm[0];
    while face + RIBEYE.thickness_mm <= RIBEYE.length_mm - RIBEYE.ends_mm[1] {
        let to = face + RIBEYE.thickness_mm;
        let (_, grams) = truth.cut(face, to, dice);
        portions.push(OwnPortion { from: mm(face), to: mm(to), mass: Mass::from_g(grams), thickness: None });
        face = to;
    }
    OwnPiece {
        mass: Some(Mass::from_g(truth.mass_g)),
        length: Some(mm(RIBEYE.length_mm)),
        slants: [Some(Length::default()); 2],
        stations,
        portions,
        ..OwnPiece::default()
    }
}

fn foretell(own: &OwnPiece, prior: Prior, from_portion: usize, tally: &mut Tally) {
    let mut piece = Piece::with(prior);
    piece.mass = own.mass.map_or(band::Value::Unknown, |mass| band::Value::Known(mass.kg()));
    piece.length = own.length.map_or(band::Value::Unknown, |length| band::Value::Known(length.m()));
    (piece.ends.first, piece.ends.last) = (End::squared(Length::default()), End::squared(Length::default()));
    piece.stations = own.stations.clone();
    let Ok(mut posterior) = Posterior::new(&piece) else { return };
    for (number, portion) in own.portions.iter().enumerate() {
        if number >= from_portion {
            tally.add(portion.mass.g(), posterior.between(portion.from, portion.to, true).times(1000.0));
        }
        if from_portion == 0 {
            continue;
        }
        let weighed = Weighed { mass: portion.mass, marks: None, thickness: None, want: None };
        if posterior.weigh(portion.from, portion.to, true, &weighed).is_err() {
            return;
        }
    }
}

fn mm(mm: f64) -> Length {
    Length::from_mm(mm)
}

/// Mean of rms and of holding over a stretch of pieces, per cent.
fn over(tallies: &[Tally], pieces: std::ops::RangeInclusive<usize>) -> (f64, f64) {
    let some = &tallies[pieces.start() - 1..=pieces.end() - 1];
    let count = some.len() as f64;
    let square: f64 = some.iter().map(|tally| tally.rms().powi(2)).sum();
    ((square / count).sqrt(), some.iter().map(Tally::holds).sum::<f64>() / count)
}

fn close(what: &str, found: (f64, f64), (rms, holds): (f64, f64)) {
    eprintln!("{what}: rms {:.1} ({rms}), holds {:.0} ({holds})", found.0, found.1);
    assert!((found.0 - rms).abs() <= 0.6, "{what}: rms {:.2} against {rms}", found.0);
    assert!((found.1 - holds).abs() <= 6.0, "{what}: holds {:.1} against {holds}", found.1);
}

#[test]
fn differs_in_everything() {
    let world = World {
        shape_sd: 1.4,
        roughness: 0.03,
        knife_mm: 2.0,
        tilt: 0.15,
        factor_off: 0.08,
        factor_sd: 0.04,
        ..World::AS_ASSUMED
    };
    let told = live(world, THREE, 2);
    close("catalogue kept, 1-12", over(&told.kept, 1..=12), (5.1, 65.0));
    close("learning, 1", over(&told.learning, 1..=1), (5.1, 63.0));
    close("learning, 2-3", over(&told.learning, 2..=3), (5.1, 71.0));
    close("learning, 7-12", over(&told.learning, 7..=12), (5.1, 76.0));
    // 8 % off, learned to within 0.5 % (computed by the prototype).
    let catalogued =
        catalogue::cut(RIBEYE.cut).and_then(|cut| cut.section.as_ref()).expect("a section").factor;
    let off = told.factor / (catalogued * 1.08) - 1.0;
    assert!(off.abs() < 0.01, "shape factor off by {:.3}", off);
}

#[test]
fn another_taper_and_no_stations() {
    let world = World { tilt: 0.30, shape_sd: 0.7, ..World::AS_ASSUMED };
    let told = live(world, &[], 0);
    close("bare, catalogue kept, 1-12", over(&told.kept, 1..=12), (9.4, 68.0));
    close("bare, 2-3", over(&told.learning, 2..=3), (8.1, 76.0));
    close("bare, 4-6", over(&told.learning, 4..=6), (7.3, 81.0));
    close("bare, 7-12", over(&told.learning, 7..=12), (6.5, 85.0));
}
