//! What own pieces teach, against stacking, against plain averages and against themselves.

use super::*;

fn own(seed: u64) -> OwnPiece {
    let off = |number: u64| 1.0 + 0.06 * ((seed * 7 + number * 13) % 11) as f64 / 11.0 - 0.03;
    let portions = (0..9).map(|number| {
        let from = 16.0 + 40.0 * number as f64;
        let grams = 690.0 * off(number) * (1.1 - 0.02 * number as f64);
        OwnPortion { from: mm(from), to: mm(from + 40.0), mass: Mass::from_g(grams), thickness: None }
    });
    OwnPiece {
        mass: Some(Mass::from_g(6700.0 * off(3))),
        length: Some(mm(405.0 * off(5))),
        slants: [Some(mm(10.0)), Some(mm(20.0))],
        squared_off: [Some(Mass::from_g(90.0)), None],
        stations: vec![Station { at: mm(150.0), width: mm(240.0 * off(1)), height: mm(94.0) }],
        portions: portions.collect(),
        ..OwnPiece::default()
    }
}

fn mm(mm: f64) -> Length {
    Length::from_mm(mm)
}

/// The same by stacking: mean and deviation as 50 unknowns of one Gaussian, every observation speaking to their sum.
#[test]
fn the_mean_is_what_stacking_gives() {
    let catalogue = Prior::of("beef-ribeye-roll").expect("a roll");
    let piece = own(1);
    let mut household = Household::new(&catalogue);
    let start = household.mean.clone();
    household.take(&piece);

    // Observations as the piece alone saw them: weights, expectation, value and noise, from a run over the piece.
    let size = KNOTS + 1;
    let before = {
        let mut fresh = Household::new(&catalogue);
        fresh.shaped = 1;
        fresh.next_piece()
    };
    let geometry =
        Geometry::new(piece.mass.map_or(0.0, |m| m.g()), piece.length.map_or(0.0, |l| l.mm()), [10.0, 20.0]);
    let mut alone = Shape::new(&before, geometry, Marking::FreshFace, 1.0 / 3.0_f64.sqrt(), 0.0, true);
    for station in &piece.stations {
        alone.measure(station.at.mm(), station.width.mm() * station.height.mm());
    }
    for portion in &piece.portions {
        let (from_mm, to_mm) = (portion.from.mm(), portion.to.mm());
        alone.weigh(Slice { from_mm, to_mm, cut: true, thickness_mm: None }, portion.mass.g());
    }
    // All of them together are one observation of the piece: information = P_after⁻¹ − P_before⁻¹.
    let matrix = |entries: &[f64]| nalgebra::DMatrix::from_row_slice(size, size, entries);
    let column = |entries: &[f64]| nalgebra::DVector::from_row_slice(entries);
    let inverse = |m: &nalgebra::DMatrix<f64>| m.clone().try_inverse().expect("not singular");
    let (prior, after) = (matrix(&before.shape.covariance), matrix(&alone.state.covariance));
    let information = inverse(&after) - inverse(&prior);
    let deviation = &prior - matrix(&start.covariance);
    let mut stacked = nalgebra::DMatrix::zeros(2 * size, 2 * size);
    stacked.view_mut((0, 0), (size, size)).copy_from(&inverse(&matrix(&start.covariance)));
    stacked.view_mut((size, size), (size, size)).copy_from(&inverse(&deviation));
    for (row, column) in [(0, 0), (0, size), (size, 0), (size, size)] {
        let mut block = stacked.view_mut((row, column), (size, size));
        block += &information;
    }
    let pull = inverse(&after) * column(&alone.state.mean) - inverse(&prior) * column(&before.shape.mean);
    let pull = &pull - &information * column(&start.mean);
    let mut both = nalgebra::DVector::zeros(2 * size);
    both.rows_mut(0, size).copy_from(&pull);
    both.rows_mut(size, size).copy_from(&pull);
    let covariance = inverse(&stacked);
    let moved = &covariance * both;
    for unknown in 0..size {
        let stacked_mean = start.mean[unknown] + moved[unknown];
        assert!((household.mean.mean[unknown] - stacked_mean).abs() < 1e-5, "mean of {unknown}");
        let ours = household.mean.covariance[unknown * size + unknown];
        assert!((ours - covariance[(unknown, unknown)]).abs() < 1e-6, "variance of {unknown}");
    }
}

/// Pieces fully weighed out: p ← (6 · catalogue + Σ p̂) / (6 + n), where the household's pieces are all alike.
#[test]
fn six_pieces_outweigh_half_the_catalogue() {
    let catalogue = Prior::of("beef-ribeye-roll").expect("a roll");
    let alike: Vec<OwnPiece> = (0..6).map(|_| own(4)).collect();
    let one = learn("beef-ribeye-roll", &alike[..1]).expect("a roll").prior;
    let six = learn("beef-ribeye-roll", &alike).expect("a roll").prior;
    let moved = |prior: &Prior, knot: usize| prior.profile()[knot] - catalogue.profile()[knot];
    for knot in 4..20 {
        if moved(&one, knot).abs() > 2e-3 {
            // 1/7 of the way after one, 6/12 after six: 3.5 times as far.
            let ratio = moved(&six, knot) / moved(&one, knot);
            assert!((2.5..4.5).contains(&ratio), "knot {knot}: {ratio}");
        }
    }
    assert_eq!(six.own_pieces(), 6);
}

#[test]
fn mass_length_slant_and_knife_follow() {
    let mut pieces: Vec<OwnPiece> = (0..4).map(own).collect();
    for piece in &mut pieces {
        piece.portions[0].thickness = Some(mm(43.0));
        piece.portions[1].thickness = Some(mm(37.0));
    }
    let learned = learn("beef-ribeye-roll", &pieces).expect("a roll");
    let catalogue = Prior::of("beef-ribeye-roll").expect("a roll");
    // Four own pieces weigh as much as the catalogue.
    let own_mean = pieces.iter().filter_map(|piece| piece.mass).map(|m| m.g().ln()).sum::<f64>() / 4.0;
    assert!((learned.prior.ln_mass.0 - (catalogue.ln_mass.0 + own_mean) / 2.0).abs() < 1e-12);
    // Eight cuts 3 mm beside their marks against twenty of 0.87 mm.
    let expected = ((20.0 * 0.75 + 8.0 * 9.0) / 28.0_f64).sqrt();
    assert!((learned.knife.mm() - expected).abs() < 1e-9, "{} mm", learned.knife.mm());
    let slant = learned.prior.slant.expect("a roll has ends")[0].0;
    assert!(
        slant < 15.0 && slant > 10.0,
        "90 g of 17 g/mm are 10.6 mm of slant, the catalogue has 15: {slant}"
    );
}

#[test]
fn no_pieces_is_the_catalogue_and_the_same_record_the_same_prior() {
    let catalogue = Prior::of("beef-ribeye-roll").expect("a roll");
    let none = learn("beef-ribeye-roll", &[]).expect("a roll").prior;
    assert_eq!(none.shape.mean, catalogue.shape.mean);
    assert_eq!(none.shape.covariance, catalogue.shape.covariance);
    let pieces: Vec<OwnPiece> = (0..3).map(own).collect();
    let (one, other) = (learn("beef-ribeye-roll", &pieces), learn("beef-ribeye-roll", &pieces));
    assert_eq!(one.expect("a roll").prior.shape.mean, other.expect("a roll").prior.shape.mean);
}

/// A piece cut from its other end teaches the same as its mirror image.
#[test]
fn which_end_the_knife_started_at_does_not_matter() {
    let piece = own(2);
    let length = piece.length.map_or(0.0, |length| length.mm());
    let over = |at: Length| mm(length - at.mm());
    let mut mirrored = OwnPiece { turned: true, ..piece.clone() };
    mirrored.slants.swap(0, 1);
    for station in &mut mirrored.stations {
        station.at = over(station.at);
    }
    let one = learn("beef-ribeye-roll", std::slice::from_ref(&piece)).expect("a roll").prior;
    mirrored.portions.clear();
    let mut unweighed = piece;
    unweighed.portions.clear();
    let straight = learn("beef-ribeye-roll", &[unweighed]).expect("a roll").prior;
    let turned = learn("beef-ribeye-roll", &[mirrored]).expect("a roll").prior;
    for knot in 0..KNOTS {
        assert!((straight.profile()[knot] - turned.profile()[knot]).abs() < 1e-9);
    }
    assert!((one.profile()[2] - straight.profile()[2]).abs() > 1e-4, "weighing taught something");
}
