//! Whole plans beside HiGHS, the general mixed-integer solver of scipy (`milp.py`): same cost to 1e-6, proved by both.

use crate::venv::{numbers, run};
use band::Value;
use quantity::{Length, Mass};
use roll::general::Programme;
use roll::{Count, End, FromEnd, Limits, Piece, Want};

fn piece(cut: &str, grams: f64, length: f64, kerf: f64) -> Piece {
    let mut piece = Piece::of(cut).expect("a roll");
    piece.mass = Value::Known(grams / 1000.0);
    piece.length = Value::Known(length / 1000.0);
    piece.ends.first = End::squared(Length::from_mm(8.0));
    piece.ends.last = End::kept(Length::from_mm(6.0));
    piece.knife.kerf = Length::from_mm(kerf);
    piece
}

#[test]
fn plans_cost_what_highs_says() {
    let mm = Length::from_mm;
    let narrow = Limits { thinnest: mm(22.0), thickest: mm(45.0) };
    let cases = [
        (
            piece("beef-strip-loin", 2300.0, 180.0, 0.0),
            vec![
                Want::thick("guests", Count::Exactly(2), mm(38.0)),
                Want::heavy("us", Count::Max, Mass::from_g(330.0)),
            ],
        ),
        (
            piece("beef-eye-of-round", 1900.0, 190.0, 2.0),
            vec![
                Want::heavy("two", Count::Exactly(2), Mass::from_g(300.0)).in_twins(),
                Want::roast("roast", mm(70.0)).from_end(FromEnd::Last),
                Want::thick("first", Count::Exactly(1), mm(25.0)).from_end(FromEnd::First),
            ],
        ),
    ];
    let programmes: Vec<Programme> = cases
        .iter()
        .map(|(piece, wants)| Programme::of(piece, wants, &narrow).expect("a programme"))
        .collect();
    let told = run("milp.py", &programmes.iter().map(|each| each.json() + "\n").collect::<String>());
    for (number, (programme, line)) in programmes.iter().zip(told.lines()).enumerate() {
        let theirs = numbers(line);
        let ours = programme.solve();
        assert_eq!(theirs[1], 1.0, "case {number}: HiGHS proved nothing");
        assert!(
            (ours - theirs[0]).abs() < 1e-6 * ours.abs().max(1.0),
            "case {number}: {ours} against {}",
            theirs[0]
        );
    }
}
