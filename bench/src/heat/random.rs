//! A million random cases, each held against the laws: `cargo xtask bench heat-random [--count N] [--seed S] [--minutes M]`.

#[path = "../../../crates/heat/tests/random/piece.rs"]
mod piece;

use heat::{HeatError, Meat};
use jiff::Timestamp;
use piece::{Dice, Kind, Piece, Worst, materials};
use rayon::prelude::*;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::time::{Duration, Instant};

/// Of a hundred cases; what takes long is thrown less often, and each kind by the ten thousand all the same.
const KINDS: [(Kind, usize); 7] = [
    (Kind::Slab, 80),
    (Kind::Cylinder, 5),
    (Kind::Sphere, 5),
    (Kind::Steak, 5),
    (Kind::FiniteCylinder, 3),
    (Kind::Brick, 1),
    (Kind::Roast, 1),
];
/// Cases between two looks at the clock.
const PIECE: u64 = 2000;
/// As many broken cases are told.
const MOST_TOLD: usize = 5;

struct Asked {
    count: u64,
    seed: u64,
    at_most: Duration,
}

#[derive(Default)]
struct Came {
    worst: Worst,
    tried: [u64; KINDS.len()],
    refused: u64,
    broken: Vec<String>,
    broken_count: u64,
}

pub(crate) fn run(root: &Path, words: &[String]) -> Result<(), String> {
    let asked = read(words)?;
    let meats = materials().map_err(|problem| problem.to_string())?;
    let kinds: Vec<usize> =
        KINDS.iter().enumerate().flat_map(|(kind, (_, share))| std::iter::repeat_n(kind, *share)).collect();
    // A panic is a broken case, told with the others.
    std::panic::set_hook(Box::new(|_| {}));
    let begun = Instant::now();
    let mut came = Came::default();
    let mut index = 0;
    while index < asked.count && begun.elapsed() < asked.at_most {
        let end = (index + PIECE).min(asked.count);
        let found: Vec<_> = (index..end).into_par_iter().map(|i| throw(&asked, &kinds, &meats, i)).collect();
        found.into_iter().for_each(|one| came.add(one));
        index = end;
    }
    drop(std::panic::take_hook());
    let report = came.told(&asked, begun.elapsed());
    println!("{report}");
    let path = root.join("bench/heat/random.txt");
    std::fs::write(&path, report).map_err(|problem| format!("{}: {problem}", path.display()))?;
    if came.broken_count == 0 { Ok(()) } else { Err(format!("{} cases are broken", came.broken_count)) }
}

fn read(words: &[String]) -> Result<Asked, String> {
    let mut asked = Asked { count: 1_000_000, seed: 20_261_125, at_most: Duration::from_secs(3600) };
    for pair in words.chunks(2) {
        let [name, number] = pair else { return Err(format!("{}: a number is missing", pair.join(" "))) };
        let number: u64 = number.parse().map_err(|_| format!("{name} {number}: a whole number is needed"))?;
        match name.as_str() {
            "--count" => asked.count = number,
            "--seed" => asked.seed = number,
            "--minutes" => asked.at_most = Duration::from_secs(60 * number),
            _ => return Err(format!("{name}: there are --count, --seed, --minutes")),
        }
    }
    Ok(asked)
}

type One = (usize, Result<Result<Worst, HeatError>, String>);

fn throw(asked: &Asked, kinds: &[usize], meats: &[Meat], index: u64) -> One {
    let kind = kinds[(index % kinds.len() as u64) as usize];
    let mut dice = Dice::of(asked.seed, index);
    let piece = Piece::new(KINDS[kind].0, meats, &mut dice);
    let tried =
        catch_unwind(AssertUnwindSafe(|| piece.tried())).unwrap_or_else(|_| Err("a panic".to_owned()));
    (kind, tried.map_err(|broken| format!("case {index}, {:?}: {broken}", KINDS[kind].0)))
}

impl Came {
    fn add(&mut self, (kind, found): One) {
        self.tried[kind] += 1;
        match found {
            Ok(Ok(worst)) => self.worst = self.worst.and(worst),
            Ok(Err(_)) => self.refused += 1,
            Err(broken) => {
                self.broken_count += 1;
                if self.broken.len() < MOST_TOLD {
                    self.broken.push(broken);
                }
            }
        }
    }

    fn told(&self, asked: &Asked, taken: Duration) -> String {
        let Self { worst, tried, refused, broken, broken_count } = self;
        let count: u64 = tried.iter().sum();
        let kinds: Vec<String> =
            KINDS.iter().zip(tried).map(|((kind, _), tried)| format!("{tried} {kind:?}")).collect();
        format!(
            "Random cases of heat, each held against the laws (crates/heat/tests/random/piece.rs).\n\
             Written by `cargo xtask bench heat-random --count {count} --seed {seed}`.\n\n\
             date                                   {date}\n\
             cases                                  {count}: {kinds}\n\
             seed                                   {seed}\n\
             seconds                                {seconds:.0} on {cores} threads\n\
             broken (panic, no number, law, stuck)  {broken_count}\n\
             refused in words, outside the fit      {refused}\n\
             energy, over the heat moved            {energy:.2e} at worst (law: 1e-6)\n\
             water lost over water there, less one  {water:.2e} at worst (law: 1e-6)\n\
             water that appeared, over water there  {appeared:.2e} at worst (law: 1e-6)\n\
             hotter than all that warms it          {hot:.3} K at worst (law: {TOO_HOT_K} K)\n\
             steps tried, over what it should take  {tries:.3} at worst (law: 10, or it is endless)\n\
             known miss: more than it should take   {slow}\n\
             {broken}",
            seed = asked.seed,
            date = Timestamp::now().strftime("%Y-%m-%d"),
            kinds = kinds.join(", "),
            seconds = taken.as_secs_f64(),
            cores = rayon::current_num_threads(),
            energy = worst.energy,
            water = worst.water_over,
            appeared = worst.water_appeared,
            hot = worst.too_hot_k,
            TOO_HOT_K = piece::TOO_HOT_K,
            tries = worst.tries,
            slow = worst.slow,
            broken = broken.iter().map(|told| format!("\n{told}\n")).collect::<String>(),
        )
    }
}
