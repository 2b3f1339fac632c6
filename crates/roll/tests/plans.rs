//! Plans as a person would read them, kept whole: marks, grams, what was given up, and the work it took.

#![allow(clippy::expect_used, reason = "a case that cannot be set up has failed")]

use band::Value;
use insta::assert_snapshot;
use quantity::{Length, Mass};
use roll::{Count, End, FromEnd, KnifePlan, Limits, Missed, Piece, Want, Weighed, plan};
use std::fmt::Write;

fn mm(mm: f64) -> Length {
    Length::from_mm(mm)
}

fn piece(cut: &str, grams: f64, length_mm: f64, [first, last]: [f64; 2]) -> Piece {
    let mut piece = Piece::of(cut).expect("a roll");
    piece.mass = Value::Known(grams / 1000.0);
    piece.length = Value::Known(length_mm / 1000.0);
    piece.ends.first = End::squared(mm(first));
    piece.ends.last = End::squared(mm(last));
    piece
}

/// One line a portion, then the sums.
fn read(piece: &Piece, wants: &[Want], weighed: &[Weighed]) -> String {
    let plan = plan(piece, wants, &Limits::default(), weighed).expect("a plan");
    let mut text = String::new();
    for portion in &plan.portions {
        let want = portion.want.map_or("-", |want| wants[want].name.as_str());
        let sign = if portion.weighed { "=" } else { "~" };
        let _ = writeln!(
            text,
            "{:2} {:>7}  {:5.1} to {:5.1}  {:4.1} mm  {sign} {:.0} g ({:.0} to {:.0})",
            portion.number,
            want,
            portion.from.mm(),
            portion.to.mm(),
            portion.thickness.mm(),
            portion.mass.median * 1e3,
            portion.mass.low * 1e3,
            portion.mass.high * 1e3,
        );
    }
    sums(&mut text, &plan, wants);
    text
}

fn sums(text: &mut String, plan: &KnifePlan, wants: &[Want]) {
    let _ = writeln!(
        text,
        "squared off {:.0} g, left over {:.0} g, kerf {:.0} g",
        plan.squared_off.g(),
        plan.left_over.g(),
        plan.kerf.g()
    );
    for given_up in &plan.given_up {
        let missed = match given_up.missed {
            Missed::Portions(count) => format!("{count} portions"),
            Missed::Thickness { portion, by } => format!("portion {portion} by {:.1} mm", by.mm()),
            Missed::Mass { portion, by } => format!("portion {portion} by {:.0} g", by.g()),
        };
        let _ = writeln!(text, "given up: {} {missed}", wants[given_up.want].name);
    }
    for conflict in &plan.conflicts {
        let _ = writeln!(
            text,
            "{}: keep {:.0} g and it runs {:.1} to {:.1} mm; keep {:.1} mm and it runs {:.0} to {:.0} g",
            wants[conflict.want].name,
            conflict.weight.g(),
            conflict.thickness_runs.0.mm(),
            conflict.thickness_runs.1.mm(),
            conflict.thickness.mm(),
            conflict.weight_runs.0.g(),
            conflict.weight_runs.1.g()
        );
    }
    if let Some(next) = plan.next {
        let _ = writeln!(
            text,
            "next mark {:.0} mm, {:.0} mm from the fresh face",
            next.mark.mm(),
            next.from_fresh_face.mm()
        );
    }
    let work = plan.work;
    let _ = write!(text, "{} layers, {} marks, {} steps compared", work.layers, work.marks, work.transitions);
}

#[test]
fn guests_and_the_rest() {
    let wants = [
        Want::thick("guests", Count::Exactly(4), mm(40.0)),
        Want::heavy("us", Count::Max, Mass::from_g(350.0)),
    ];
    assert_snapshot!(read(&piece("beef-ribeye-roll", 6800.0, 400.0, [8.0, 25.0]), &wants, &[]));
}

#[test]
fn the_same_with_two_portions_weighed() {
    let wants = [
        Want::thick("guests", Count::Exactly(4), mm(40.0)),
        Want::heavy("us", Count::Max, Mass::from_g(350.0)),
    ];
    let weighed = [760.0, 771.0].map(|grams| Weighed::at_the_plan(Mass::from_g(grams)));
    assert_snapshot!(read(&piece("beef-ribeye-roll", 6800.0, 400.0, [8.0, 25.0]), &wants, &weighed));
}

#[test]
fn twins_a_roast_and_a_saw() {
    let mut piece = piece("beef-rib-roast-bone-in", 9000.0, 415.0, [5.0, 5.0]);
    piece.knife.kerf = mm(2.0);
    let wants = [
        Want::thick("trial", Count::Exactly(2), mm(45.0)).in_twins(),
        Want::roast("roast", mm(150.0)).from_end(FromEnd::Last),
    ];
    assert_snapshot!(read(&piece, &wants, &[]));
}

#[test]
fn more_than_there_is() {
    let wants = [Want::heavy("many", Count::Exactly(12), Mass::from_g(600.0))];
    assert_snapshot!(read(&piece("beef-strip-loin", 5900.0, 470.0, [15.0, 25.0]), &wants, &[]));
}

#[test]
fn a_tail_that_tapers() {
    let wants = [Want::heavy("all", Count::Max, Mass::from_g(180.0))];
    assert_snapshot!(read(&piece("beef-tenderloin", 2700.0, 560.0, [30.0, 60.0]), &wants, &[]));
}
