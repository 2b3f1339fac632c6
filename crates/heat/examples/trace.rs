use heat::*;
use quantity::*;
#[path = "../tests/published/reference_slab.rs"]
#[allow(dead_code, unused_imports)]
mod reference_slab;
use reference_slab::*;
fn main() {
    let meat = ref_lean();
    let row = &ROWS[2];
    let shape = Shape::Slab { thickness: Length::from_mm(row.thickness_mm) };
    let faces = Faces::all(Face::film(Temperature::from_c(row.medium_c), row.film));
    let stage = Stage::new(row.id, faces.clone(), Until::Centre(Temperature::from_c(0.0)));
    let start = Start::Even(Temperature::from_c(row.start_c));
    let settings = Settings { cells: 8, tolerance: 1e-4, colour: false, ..Settings::exact() };
    let f = simulate(&meat, &shape, &start, &[stage.clone()], &settings).unwrap();
    println!("{} {:?}", f.time_s, f.section);
}
