use heat::*;
use quantity::*;
#[path = "../tests/published/reference_slab.rs"]
#[allow(dead_code)]
mod reference_slab;
use reference_slab::*;
fn main() {
    let meat = ref_lean();
    for (cells, tol) in [(96, 1e-5), (8, 3e-3), (8, 1e-3), (8, 3e-4), (8, 1e-4), (12, 3e-4), (16, 2e-4)] {
        print!("cells {cells:3} tol {tol:.0e}: ");
        for row in &ROWS {
            let shape = Shape::Slab { thickness: Length::from_mm(row.thickness_mm) };
            let faces = Faces::all(Face::film(Temperature::from_c(row.medium_c), row.film));
            let (centre, expected) = row.centre.last().unwrap();
            let stage = Stage::new(row.id, faces.clone(), Until::Centre(Temperature::from_c(*centre)));
            let start = Start::Even(Temperature::from_c(row.start_c));
            let settings = Settings { cells, tolerance: tol, colour: false, ..Settings::exact() };
            let t0 = std::time::Instant::now();
            let mut n = 0;
            let mut found = simulate(&meat, &shape, &start, &[stage.clone()], &settings).unwrap();
            while t0.elapsed().as_millis() < 100 {
                found = simulate(&meat, &shape, &start, &[stage.clone()], &settings).unwrap();
                n += 1;
            }
            let us = t0.elapsed().as_micros() as f64 / n as f64;
            print!(
                " | {:+.3}% s{} {:.0}us {:.0}ns",
                100.0 * (found.time_s / expected - 1.0),
                found.work.solves,
                us,
                1000. * us / (found.work.solves * found.work.nodes) as f64
            );
        }
        println!();
    }
}
