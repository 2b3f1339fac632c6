//! How long the knife plan takes: 400 mm on a 1 mm grid, three wants. Times are orientation; transitions are the work.
//!
//! `cargo bench -p roll --bench knife` prints them. With `-- --json` it prints one line, our times with the programme itself,
//! which `bench/knife_rivals.py` reads to run a numpy programme and HiGHS on the same problem.

#![allow(clippy::expect_used, clippy::print_stdout, reason = "a program that prints")]

use band::Value;
use quantity::{Length, Mass};
use roll::general::Programme;
use roll::{Count, End, Limits, Piece, Station, Want, Weighed, plan};
use std::hint::black_box;
use std::time::{Duration, Instant};

fn main() {
    let (piece, wants, limits) = (piece(), wants(), Limits::default());
    let programme = Programme::of(&piece, &wants, &limits).expect("a programme");
    let solve = median(201, || black_box(&programme).solve());
    let whole = median(201, || plan(&piece, &wants, &limits, &[]).expect("a plan").work.transitions);
    let board = replan(&piece, &wants, &limits);
    if std::env::args().any(|argument| argument == "--json") {
        println!(
            "{{\"solve_ms\": {}, \"plan_ms\": {}, \"replan_ms\": {}, \"transitions\": {}, \"cost\": {:?}, \"programme\": {}}}",
            ms(solve),
            ms(whole),
            ms(board),
            programme.transitions(),
            programme.solve(),
            programme.json()
        );
        return;
    }
    println!("knife plan, 400 mm at 1 mm, three wants (6 of 28 mm, 8 of 360 g, the rest of 30 mm)");
    println!("  transitions               {}", programme.transitions());
    println!("  programme, median of 201  {:.2} ms", ms(solve));
    println!("  whole plan                {:.2} ms (posterior, tables, programme, bands)", ms(whole));
    println!("  re-plan after the fourth  {:.2} ms (four portions with their marks)", ms(board));
}

fn piece() -> Piece {
    let mut piece = Piece::of("beef-ribeye-roll").expect("a roll");
    piece.mass = Value::Known(6.8);
    piece.length = Value::Known(0.400);
    piece.ends.first = End::squared(Length::default());
    piece.ends.last = End::squared(Length::default());
    piece.stations =
        [80.0, 200.0, 320.0].map(|at| Station { at: mm(at), width: mm(235.0), height: mm(95.0) }).to_vec();
    piece
}

fn wants() -> Vec<Want> {
    vec![
        Want::thick("guests", Count::Exactly(6), mm(28.0)),
        Want::heavy("us", Count::Exactly(8), Mass::from_g(360.0)),
        Want::thick("later", Count::Max, mm(30.0)),
    ]
}

/// A plan with four portions cut and weighed, as a page asks for it after each.
fn replan(piece: &Piece, wants: &[Want], limits: &Limits) -> Duration {
    let first = plan(piece, wants, limits, &[]).expect("a plan");
    let weighed: Vec<Weighed> = first.portions[..4]
        .iter()
        .map(|portion| Weighed {
            mass: Mass::from_kg(portion.mass.median),
            marks: Some((portion.from, portion.to)),
            thickness: None,
            want: portion.want,
        })
        .collect();
    median(201, || plan(piece, wants, limits, &weighed).expect("a plan").work.transitions)
}

fn median<T>(runs: usize, mut run: impl FnMut() -> T) -> Duration {
    let mut times: Vec<Duration> = (0..runs)
        .map(|_| {
            let start = Instant::now();
            black_box(run());
            start.elapsed()
        })
        .collect();
    times.sort_unstable();
    times[runs / 2]
}

fn ms(time: Duration) -> f64 {
    time.as_secs_f64() * 1000.0
}

fn mm(mm: f64) -> Length {
    Length::from_mm(mm)
}
