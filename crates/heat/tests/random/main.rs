//! It never fails: random pieces, media and stages give an answer or a refusal in words, and never a panic, a number that is
//! none, an endless run or a broken law. `cargo xtask bench heat-random` throws a million of them.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a check that cannot set up its case has failed"
)]

mod piece;

use piece::{Dice, Kind, Piece, Worst, materials};
use rayon::prelude::*;

fn run(seed: u64, count: u64, kinds: &[Kind]) -> Worst {
    let meats = materials().unwrap();
    let tried = |index: u64| {
        let mut dice = Dice::of(seed, index);
        let kind = kinds[index as usize % kinds.len()];
        match Piece::new(kind, &meats, &mut dice).tried() {
            Ok(Ok(worst)) => (worst, 0, None),
            Ok(Err(_refused)) => (Worst::default(), 1, None),
            Err(broken) => (Worst::default(), 0, Some(format!("case {index} of seed {seed}: {broken}"))),
        }
    };
    let (worst, refused, broken) = (0..count)
        .into_par_iter()
        .map(tried)
        .reduce(|| (Worst::default(), 0, None), |(a, n, b), (c, m, d)| (a.and(c), n + m, b.or(d)));
    println!("{count} cases, {refused} outside the fit, {worst:?}");
    assert!(broken.is_none(), "{}", broken.unwrap());
    assert!(refused * 6 < count, "{refused} of {count} refused");
    worst
}

#[test]
fn slabs() {
    let worst = run(1, 40_000, &[Kind::Slab]);
    // Measured: 1 of 20 000.
    assert!(worst.slow < 10, "{} slow cases", worst.slow);
}

#[test]
fn steaks() {
    run(2, 3000, &[Kind::Steak]);
}

#[test]
fn round_pieces() {
    run(3, 6000, &[Kind::Cylinder, Kind::Sphere, Kind::FiniteCylinder]);
}

#[test]
fn bricks_and_roasts() {
    run(4, 400, &[Kind::Brick, Kind::Roast]);
}
